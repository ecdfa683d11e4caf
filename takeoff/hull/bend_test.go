package hull_test

import (
	"errors"
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
)

// ess is a side with a hollow of radius r1 below and a bilge of radius r2 above, both of a quarter turn less a
// little, n points on each.
func ess(r1, r2 float64, n int) offsets.SideOffsets {
	const turn = 1.3
	s := offsets.SideOffsets{Side: boat.Both, Rabbet: end(50, 0)}
	// From upright the hollow turns outboard about a centre outboard; then the bilge turns up again.
	y, z := 50.0, 0.0
	put := func(y, z float64, upper bool) {
		if upper {
			s.Waterlines = append(s.Waterlines, offsets.WaterlineOffsets{Height: mm(z), HalfBreadth: mm(y)})
		}
	}
	for i := 1; i <= n; i++ {
		t := turn * float64(i) / float64(n)
		y, z = 50+r1*(1-math.Cos(t)), r1*math.Sin(t)
		put(y, z, true)
	}
	for i := 1; i < n; i++ {
		t := turn * (1 - float64(i)/float64(n))
		yy := y + r2*(math.Cos(t)-math.Cos(turn))
		zz := z + r2*(math.Sin(turn)-math.Sin(t))
		put(yy, zz, true)
	}
	s.Sheer = end(y+r2*(1-math.Cos(turn)), z+r2*math.Sin(turn))
	return s
}

func essHull(t *testing.T, r1, r2 float64) *hull.Hull {
	tb := exactTable()
	for i := range 3 {
		tb.station(1000*float64(i), ess(r1, r2, 14))
	}
	return hulltest.Hull(t, &tb.doc)
}

// Where a bilge and a hollow bend alike at the face, the bilge governs a frame: its innermost laminate bends most.
// The hollow governs when it is tighter by more than the depth.
func TestTightestLaminate(t *testing.T) {
	const moulded = 60
	// A jump of curvature cannot be followed by a batten, so peaks read high where hollow and bilge meet; what is
	// checked here is the arithmetic by depth on whatever was read. The bilge beside so tight a hollow is not sure
	// either, and governs by its low end; beside the hollow of a flaring bow there is none that could.
	bow := exactTable()
	for i := range 3 {
		bow.station(1000*float64(i), byHeight(boat.Both, func(z float64) float64 { return 60 + 700*z*z/1e6 }, 0, 1000, 12))
	}
	for _, c := range []struct {
		name   string
		h      *hull.Hull
		hollow bool
	}{
		{"500 and 500", essHull(t, 500, 500), false},
		{"300 and 900", essHull(t, 300, 900), false},
		{"900 and 300", essHull(t, 900, 300), false},
		{"flaring bow", hulltest.Hull(t, &bow.doc), true},
	} {
		h := c.h
		for _, x := range []float64{1000, 1400} {
			s := section(t, h, x, boat.Port)
			b, r, err := s.Tightest(moulded)
			if err != nil {
				t.Fatal(err)
			}
			if b.Hollow != c.hollow {
				t.Errorf("%s: hollow %v", c.name, b.Hollow)
			}
			want := b.Radius().MM
			if !b.Hollow {
				want -= moulded
			}
			near(t, "radius of the tightest laminate", r.MM, want, 1e-12)
			near(t, "its low end", r.Low, b.Radius().Low-(b.Radius().MM-want), 1e-12)
			checkDepths(t, s)
		}
	}
}

// checkDepths holds RadiusAt against one over the greatest |k/(1 - k d)| found by walking the section.
func checkDepths(t *testing.T, s *hull.Section) {
	t.Helper()
	for _, d := range []float64{0, 10, 60, 100} {
		_, r, err := s.RadiusAt(d)
		if err != nil {
			t.Fatal(err)
		}
		most := 0.0
		for i := range 20001 {
			k := s.At(float64(i) / 20000).Kappa
			most = max(most, math.Abs(k/(1-k*d)))
		}
		// the walk misses the very peak by at most the corner of a cell
		near(t, "radius by depth", r.MM, 1/most, 1e-3)
	}
}

// The worked example of the design: R 379 mm, moulded 51 mm, the inner laminate is 13 percent tighter.
func TestInnerLaminate(t *testing.T) {
	tb := exactTable()
	for i := range 3 {
		tb.station(1000*float64(i), arc(boat.Both, 20, 379, 379, 0.1, 1.5, 20))
	}
	s := section(t, hulltest.Hull(t, &tb.doc), 500, boat.Port)
	_, r, err := s.Tightest(51)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "inner laminate", r.MM, 328, exact)
	if tighter := 100 * (1 - r.MM/379); math.Round(tighter) != 13 {
		t.Errorf("tighter by %v percent", tighter)
	}
	near(t, "low end", r.Low, s.Bilge.Radius().Low-51, exact)
	if low := r.Low + 51; low > 379 || low < .98*379 {
		t.Errorf("the low end is taken from %v mm; twenty exact points of an arc of 379 mm know it better", low)
	}
}

// A frame deeper than its bend is tight cannot exist: said so, not divided by zero. Where only the low end of the
// radius is below the depth, the low end is nothing.
func TestTooDeep(t *testing.T) {
	tb := exactTable()
	for i := range 3 {
		tb.station(1000*float64(i), arc(boat.Both, 20, 100, 100, 0.1, 1.5, 9))
	}
	s := section(t, hulltest.Hull(t, &tb.doc), 1000, boat.Port)
	for _, depth := range []float64{100.01, 150, math.Inf(1), -1, math.NaN()} {
		_, _, err := s.Tightest(depth)
		var deep *hull.DepthError
		if !errors.As(err, &deep) {
			t.Errorf("depth %v: %v", depth, err)
		}
		if _, _, err := s.RadiusAt(depth); !errors.As(err, &deep) {
			t.Errorf("depth %v: %v", depth, err)
		}
	}
	low := s.Bilge.Radius().Low
	depth := (low + 100) / 2
	_, r, err := s.Tightest(depth)
	if err != nil || !(low < 100) || r.Low != 0 || math.Abs(r.MM-(100-depth)) > 1e-3 {
		t.Errorf("low end %v at the face, %v at %v mm, %v", low, r, depth, err)
	}
	if _, _, err := s.EnclosingRectangle(math.NaN()); err == nil {
		t.Error("a rectangle for a frame of no depth that is a number")
	}
}

// The rectangle round a quarter ring lies at 45 degrees: length R sqrt 2, width R - (R - m) / sqrt 2.
func TestEnclosingRectangle(t *testing.T) {
	const r, m = 1000, 73
	for _, start := range []float64{0, 0.2} { // the boat's own axes do not matter
		tb := exactTable()
		for i := range 3 {
			tb.station(1000*float64(i), arc(boat.Both, 20, r, r, start, start+math.Pi/2, 20))
		}
		h := hulltest.Hull(t, &tb.doc)
		for _, x := range []float64{1000, 1500} {
			l, w, err := section(t, h, x, boat.Port).EnclosingRectangle(m)
			if err != nil {
				t.Fatal(err)
			}
			// points every 7 mm along the faces leave 7^2/8R
			const left = 1e-4
			near(t, "length", l, r*math.Sqrt2, left)
			near(t, "width", w, r-(r-m)/math.Sqrt2, left)
		}
	}
}

// The rectangle holds the frame and no rectangle at any other angle is smaller.
func TestRectangleIsSmallest(t *testing.T) {
	s := section(t, essHull(t, 400, 700), 1200, boat.Port)
	const moulded = 60
	l, w, err := s.EnclosingRectangle(moulded)
	if err != nil {
		t.Fatal(err)
	}
	least := math.Inf(1)
	for deg := 0.0; deg < 90; deg += 0.05 {
		sn, cs := math.Sincos(deg * math.Pi / 180)
		y0, y1, z0, z1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		for i := range 501 {
			p := s.At(float64(i) / 500)
			for _, q := range []hull.Point{{Y: p.Y, Z: p.Z}, p.Inboard(moulded)} {
				y, z := q.Y*cs+q.Z*sn, q.Z*cs-q.Y*sn
				y0, y1, z0, z1 = min(y0, y), max(y1, y), min(z0, z), max(z1, z)
			}
		}
		least = min(least, (y1-y0)*(z1-z0))
	}
	near(t, "area", l*w, least, 1e-3) // the walk turns by a twentieth of a degree
}
