package hull_test

import (
	"errors"
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
)

// exact is the tolerance on shapes that a batten follows without strain (circles and straight lines): what the fit
// leaves when it stops at a thousandth of the curvature.
const exact = 1e-6

// A boat bent out of a tube: every section is one circle, also between unevenly spaced stations, however many.
func TestCylinder(t *testing.T) {
	const r, a, b = 1000, 0.15, 1.75 // past the quarter: some tumblehome
	for _, xs := range [][]float64{{0, 1000, 2500}, {0, 700, 2000, 2400}, {-300, 900, 1800, 2700, 4000, 6000}} {
		tb := exactTable()
		for _, x := range xs {
			tb.station(x, arc(boat.Both, 20, r, r, a, b, 13))
		}
		h := hulltest.Hull(t, &tb.doc)
		for _, x := range []float64{xs[0], xs[0] + 1, 333, 1000, 1234.5, xs[len(xs)-1]} {
			s := section(t, h, x, boat.Port)
			near(t, "girth", s.Girth.MM, r*(b-a), exact)
			near(t, "radius", s.Bilge.Radius().MM, r, exact)
			near(t, "least radius", s.Least().Radius().MM, r, exact)
			if s.Hollow.Kappa*r > exact {
				t.Errorf("x %v: a circle has a hollow of radius %v", x, s.Hollow.Radius().MM)
			}
			for i := range 11 {
				u := float64(i) / 10
				p, th := s.At(u), a+(b-a)*u
				if d := math.Hypot(p.Y-20-r*math.Sin(th), p.Z-r+r*math.Cos(th)); d > exact*r {
					t.Errorf("x %v u %v: %.3g mm off the circle", x, u, d)
				}
				if d := math.Abs(p.Theta - th); d > 10*exact {
					t.Errorf("x %v u %v: direction out by %.3g", x, u, d)
				}
				near(t, "curvature", p.Kappa, 1.0/r, 10*exact)
				in := p.Inboard(73)
				near(t, "distance of the inner face from the centre", math.Hypot(in.Y-20, in.Z-r), r-73, exact)
			}
			if s.Straight || s.Doubtful || s.Points != 13 || s.RestsOn != boat.OnStations {
				t.Errorf("x %v: %+v", x, s)
			}
		}
	}
}

// A cone: sections are alike in shape and grow with x, so girth and radius are linear in x, between stations too.
func TestCone(t *testing.T) {
	tb := exactTable()
	for _, x := range []float64{1000, 1500, 2700, 3300, 4000} {
		r := x / 4
		tb.station(x, arc(boat.Both, r/50, r, r, 0.1, 1.5, 15))
	}
	h := hulltest.Hull(t, &tb.doc)
	for x := 1000.0; x <= 4000; x += 125 {
		s := section(t, h, x, boat.Starboard)
		near(t, "girth", s.Girth.MM, x/4*1.4, exact)
		near(t, "radius", s.Bilge.Radius().MM, x/4, exact)
	}
}

// At a station the section is the fair curve of that station, whatever the neighbours; the two sides are apart.
func TestAtStation(t *testing.T) {
	tb := exactTable()
	for i, r := range []float64{700, 1100, 600, 1300, 900} {
		tb.station(float64(i)*1000, arc(boat.Port, 20, r, r, 0.1, 1.5, 9), arc(boat.Starboard, 20, r, r+15, 0.1, 1.5, 11))
	}
	h := hulltest.Hull(t, &tb.doc)
	for i, m := range h.Measures() {
		r := []float64{700, 1100, 600, 1300, 900}[i/2]
		points := 9
		if i%2 == 1 {
			r, points = r+15, 11
		}
		if m.Station != i/2 || m.Section.Side != boat.Sides[i%2] || len(m.Section.Near) != 1 || m.Section.Near[0] != i/2 {
			t.Errorf("measure %d: station %d %s, near %v", i, m.Station, m.Section.Side, m.Section.Near)
		}
		near(t, "girth", m.Section.Girth.MM, 1.4*r, exact)
		near(t, "radius", m.Section.Least().Radius().MM, r, exact)
		if m.Section.Points != points {
			t.Errorf("measure %d rests on %d points", i, m.Section.Points)
		}
	}
}

// The range is that of the station; between stations either end is that of the neighbour known less well, as ratios.
func TestRange(t *testing.T) {
	tb := exactTable()
	tb.doc.Grain = "2"
	for i, n := range []int{13, 7, 20, 20} {
		tb.station(float64(i)*1000, arc(boat.Both, 20, 1000, 1000, 0.1, 1.5, n))
	}
	h := hulltest.Hull(t, &tb.doc)
	ratios := func(r hull.Reading) [2]float64 { return [2]float64{r.Low / r.MM, r.High / r.MM} }
	at := map[float64][2]float64{}
	for x := 0.0; x <= 3000; x += 1000 {
		at[x] = ratios(section(t, h, x, boat.Port).Bilge.Radius())
	}
	for _, c := range []struct {
		x      float64
		points int
		near   []float64
	}{
		{0, 13, []float64{0}},
		{400, 7, []float64{0, 1000}},
		{1000, 7, []float64{1000}},
		{1999, 7, []float64{1000, 2000}},
		{2500, 20, []float64{2000, 3000}},
	} {
		s := section(t, h, c.x, boat.Port)
		r := ratios(s.Bilge.Radius())
		// the arcs were read a little apart, and the curvature between them is not quite either's
		const within = 2e-3
		low, high := 1.0, 1.0
		for _, x := range c.near {
			low, high = min(low, at[x][0]), max(high, at[x][1])
		}
		near(t, "low", r[0], low, within)
		near(t, "high", r[1], high, within)
		if s.Points != c.points || len(s.Near) != len(c.near) {
			t.Errorf("x %v rests on %d points of stations %v", c.x, s.Points, s.Near)
		}
		if g := s.Girth; !(g.Low < 1400 && 1400 < g.High && g.High-g.Low < 20) {
			t.Errorf("x %v: girth %v", c.x, g)
		}
	}
	wide := func(x float64) float64 { return at[x][1] / at[x][0] }
	if !(wide(1000) > wide(0) && wide(0) > wide(2000)) {
		t.Errorf("high over low of 7, 13 and 20 points: %v, %v, %v", wide(1000), wide(0), wide(2000))
	}
}

// A station that is nearly straight leaves a range of wide ratios. It must not spoil what the next one knows well.
func TestRangeBesideAStraightStem(t *testing.T) {
	tb := exactTable()
	tb.doc.Grain = "2"
	tb.station(0, byHeight(boat.Both, func(z float64) float64 { return 100 + 0.2*z }, 0, 1000, 9))
	for i := 1; i < 4; i++ {
		tb.station(float64(i)*1000, arc(boat.Both, 20, 1000, 1000, 0.1, 1.5, 13))
	}
	h := hulltest.Hull(t, &tb.doc)
	stem := section(t, h, 0, boat.Port).Least().Radius()
	if !math.IsInf(stem.High, 1) || stem.Low < 5000 {
		t.Errorf("the straight stem has the range %v; want no tighter than some five metres", stem)
	}
	full := section(t, h, 1000, boat.Port).Bilge.Radius()
	beside := section(t, h, 995, boat.Port).Bilge.Radius()
	if lost := beside.Low / full.Low; lost < 0.85 || lost > 1.02 {
		t.Errorf("5 mm forward of a station whose low end is %.0f mm it is %.0f mm", full.Low, beside.Low)
	}
}

// Nothing is extrapolated.
func TestOutside(t *testing.T) {
	tb := exactTable()
	for i := range 3 {
		tb.station(500+1000*float64(i), arc(boat.Both, 20, 1000, 1000, 0.1, 1.5, 9))
	}
	h := hulltest.Hull(t, &tb.doc)
	for _, x := range []float64{0, 499.9, 2500.1, 1e9, math.Inf(1), math.Inf(-1), math.NaN()} {
		_, err := h.Section(x, boat.Port)
		var outside *hull.OutsideError
		if !errors.As(err, &outside) || outside.Forward != 500 || outside.Aft != 2500 {
			t.Errorf("x %v: %v", x, err)
		}
	}
	for _, side := range []boat.Side{boat.Both, "", "larboard"} {
		_, err := h.Section(1000, side)
		var wrong *hull.SideError
		if !errors.As(err, &wrong) {
			t.Errorf("side %q: %v", side, err)
		}
	}
	if f, a := h.Reach(); f != 500 || a != 2500 {
		t.Errorf("reach %v to %v", f, a)
	}
}

// A straight-sided boat has no radius to speak of, never one that is no number.
func TestStraight(t *testing.T) {
	tb := exactTable()
	for i := range 4 {
		tb.station(1000*float64(i), byHeight(boat.Both, func(z float64) float64 { return 100 + z/2 + 50*float64(i) }, 100, 1100, 7))
	}
	h := hulltest.Hull(t, &tb.doc)
	for _, x := range []float64{0, 1000, 1700} {
		s := section(t, h, x, boat.Port)
		if !s.Straight {
			t.Errorf("x %v: least radius %v", x, s.Least().Radius().MM)
		}
		near(t, "girth", s.Girth.MM, math.Hypot(1000, 500), exact)
		if r := s.Least().Radius(); !math.IsInf(r.MM, 1) || math.IsInf(r.Low, 1) || r.Low < 20e3 || !math.IsInf(r.High, 1) {
			t.Errorf("x %v: %v", x, r)
		}
		if _, r, err := s.Tightest(73); err != nil || !math.IsInf(r.MM, 1) {
			t.Errorf("x %v: tightest laminate %v, %v", x, r, err)
		}
		l, w, err := s.EnclosingRectangle(73)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "length of the rectangle", l, math.Hypot(1000, 500), exact)
		near(t, "width of the rectangle", w, 73, 1e-4) // the fit may leave a round of 1e-5 of the girth
	}
}

// A plumb stem is a section all on the centreline; a boat that comes to one is still a boat.
func TestPlumbStem(t *testing.T) {
	tb := exactTable()
	for i := range 4 {
		tb.station(1000*float64(i), byHeight(boat.Both, func(z float64) float64 { return float64(i) * z / 3 }, 100, 1100, 7))
	}
	h := hulltest.Hull(t, &tb.doc)
	near(t, "girth at the stem", section(t, h, 0, boat.Port).Girth.MM, 1000, exact)
	near(t, "girth at station 3", section(t, h, 3000, boat.Port).Girth.MM, 1000*math.Sqrt2, exact)
}

// Doubling every length doubles girth and radius and leaves the places along the girth.
func TestScaling(t *testing.T) {
	build := func(f float64) *hull.Hull {
		tb := exactTable()
		for i := range 5 {
			w := 800 + 100*float64(i)
			tb.station(f*1000*float64(i), byHeight(boat.Both, func(z float64) float64 {
				z /= f
				return f * (60 + w*math.Pow(z/1200, 0.4))
			}, f*20, f*1200, 13))
		}
		return hulltest.Hull(t, &tb.doc)
	}
	one, two := build(1), build(2)
	for _, x := range []float64{0, 300, 1000, 2700} {
		a, b := section(t, one, x, boat.Port), section(t, two, 2*x, boat.Port)
		near(t, "girth", b.Girth.MM, 2*a.Girth.MM, exact)
		near(t, "radius", b.Least().Radius().MM, 2*a.Least().Radius().MM, exact)
		if math.Abs(a.Least().U-b.Least().U) > exact {
			t.Errorf("x %v: the tightest place moved from %v to %v", x, a.Least().U, b.Least().U)
		}
	}
}

// Sides written as one are one; written apart but alike they come out the same to the last bit.
func TestMirrored(t *testing.T) {
	one, apart := exactTable(), exactTable()
	for i := range 4 {
		r := 900 + 80*float64(i)
		one.station(1000*float64(i), arc(boat.Both, 20, r, r, 0.1, 1.5, 9))
		apart.station(1000*float64(i), arc(boat.Port, 20, r, r, 0.1, 1.5, 9), arc(boat.Starboard, 20, r, r, 0.1, 1.5, 9))
	}
	a, b := hulltest.Hull(t, &one.doc), hulltest.Hull(t, &apart.doc)
	for _, x := range []float64{0, 700, 2000} {
		want := section(t, a, x, boat.Port)
		for _, s := range []*hull.Section{section(t, a, x, boat.Starboard), section(t, b, x, boat.Port), section(t, b, x, boat.Starboard)} {
			if s.Girth != want.Girth || s.Bilge != want.Bilge || s.At(0.37) != want.At(0.37) {
				t.Errorf("x %v: %v, want %v", x, s.Girth, want.Girth)
			}
		}
	}
}
