package hull_test

import (
	"fmt"
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/area"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// panels is a section of straight panels from rabbet to sheer, mm.
type panels []hull.Point

// v is a V bottom with a chine and a knuckle above it.
var v = panels{{40, 40}, {800, 240}, {960, 720}, {1000, 1000}}

var vKnuckles = []string{"chine", "upper"}

func (p panels) times(y, z float64) panels {
	out := make(panels, len(p))
	for i, q := range p {
		out[i] = hull.Point{Y: q.Y * y, Z: q.Z * z}
	}
	return out
}

func (p panels) girth() float64 {
	sum := 0.0
	for i := range p[1:] {
		sum += math.Hypot(p[i+1].Y-p[i].Y, p[i+1].Z-p[i].Z)
	}
	return sum
}

// entry writes the panels with n points between the ends of each.
func (p panels) entry(side boat.Side, names []string, n int) offsets.SideOffsets {
	last := len(p) - 1
	e := offsets.SideOffsets{Side: side,
		Rabbet: &offsets.EndOffsets{Height: mm(p[0].Z), HalfBreadth: mm(p[0].Y)},
		Sheer:  &offsets.EndOffsets{Height: mm(p[last].Z), HalfBreadth: mm(p[last].Y)}}
	for i, k := range names {
		e.Knuckles = append(e.Knuckles, offsets.KnuckleOffsets{Name: k, Height: mm(p[i+1].Z), HalfBreadth: mm(p[i+1].Y)})
	}
	for i := range p[1:] {
		for j := 1; j <= n; j++ {
			t := float64(j) / float64(n+1)
			y, z := p[i].Y+t*(p[i+1].Y-p[i].Y), p[i].Z+t*(p[i+1].Z-p[i].Z)
			e.Waterlines = append(e.Waterlines, offsets.WaterlineOffsets{Height: mm(math.Round(z*1e6) / 1e6), HalfBreadth: mm(math.Round(y*1e6) / 1e6)})
		}
	}
	return e
}

// chined is a table of panels that grow along the boat.
func chined(xs []float64, n int, at func(x float64) panels) *offsets.Document {
	d := &offsets.Document{Notation: notation.Millimetres, Grain: "0", Surface: offsets.Inside}
	for i, x := range xs {
		d.Stations = append(d.Stations, offsets.StationOffsets{No: i, X: mm(x), Sides: []offsets.SideOffsets{at(x).entry(boat.Both, vKnuckles, n)}})
	}
	return d
}

var quarters = []float64{0, 1000, 2000, 4000}

// tapering grows from a point 4 m before station 0: its panels are planes through that point.
func tapering(x float64) panels { return v.times(1+x/4000, 1+x/4000) }

// widening grows in breadth alone, so that its knuckles stand at other fractions of the girth at every station.
func widening(x float64) panels { return v.times(1+x/4000, 1) }

const panelTight = 1e-6 // of the girth: points are exact, and straight panels are followed to rounding; the count of written lengths is coarser

func TestPanelsBetweenKnuckles(t *testing.T) {
	for name, at := range map[string]func(float64) panels{
		"prism": func(float64) panels { return v }, "cone": tapering, "widening": widening,
	} {
		for _, n := range []int{0, 1, 2, 4} {
			h := hulltest.Hull(t, chined(quarters, n, at))
			for _, x := range []float64{0, 500, 1000, 1500, 3300, 4000} {
				for _, side := range boat.Sides {
					s := section(t, h, x, side)
					want := at(x)
					where := fmt.Sprintf("%s, %d points to a panel, x %v, %s", name, n, x, side)
					near := panelTight * want.girth()
					if d := math.Abs(s.Girth.MM - want.girth()); d > near {
						t.Errorf("%s: girth off by %v", where, d)
					}
					if !(s.Girth.Low <= want.girth()+near && s.Girth.High >= want.girth()-near) || !s.Straight {
						t.Errorf("%s: girth %v, straight %v", where, s.Girth, s.Straight)
					}
					atKnuckles(t, where, s, want, near)
				}
			}
		}
	}
}

func atKnuckles(t *testing.T, where string, s *hull.Section, want panels, near float64) {
	t.Helper()
	ks := s.Knuckles()
	if len(ks) != 2 {
		t.Fatalf("%s: %d knuckles", where, len(ks))
	}
	for i, k := range ks {
		a, b, c := want[i], want[i+1], want[i+2]
		turn := math.Atan2(c.Z-b.Z, c.Y-b.Y) - math.Atan2(b.Z-a.Z, b.Y-a.Y)
		if k.Name != vKnuckles[i] || math.Hypot(k.Y-b.Y, k.Z-b.Z) > near || math.Abs(k.Turn-turn) > 1e-6 || math.Abs(k.S-want[:i+2].girth()) > near {
			t.Errorf("%s: %+v, want %v turning %v", where, k, b, turn)
		}
		if p := s.At(k.U); math.Hypot(p.Y-b.Y, p.Z-b.Z) > near {
			t.Errorf("%s: at %v there is %v", where, k.U, p)
		}
		if u := s.Share(k.S / s.Girth.MM); math.Abs(u-k.U) > 1e-6 {
			t.Errorf("%s: the share of %s is at %v, not %v", where, k.Name, u, k.U)
		}
		if us, err := s.AtHeight(b.Z, 0); err != nil || len(us) != 1 || math.Abs(us[0]-k.U) > 1e-6 {
			t.Errorf("%s: the height of %s is met at %v, not %v: %v", where, k.Name, us, k.U, err)
		}
	}
	// A line of few points still has both corners.
	line := panels(s.Line(4))
	if len(line) != 6 || math.Abs(line.girth()-want.girth()) > near {
		t.Errorf("%s: the line %v is %v long", where, line, line.girth())
	}
	for i := range want[1:] {
		mid := hull.Point{Y: (want[i].Y + want[i+1].Y) / 2, Z: (want[i].Z + want[i+1].Z) / 2}
		u := s.Share((want[:i+1].girth() + want[i:i+2].girth()/2) / want.girth())
		if p := s.At(u); math.Hypot(p.Y-mid.Y, p.Z-mid.Z) > near {
			t.Errorf("%s: halfway up panel %d is %v, not %v", where, i, p, mid)
		}
	}
}

// Every panel of the cone is a plane through its point: one bevel all over it, and a corner of two.
func TestBevelsAtAKnuckle(t *testing.T) {
	h := hulltest.Hull(t, chined(quarters, 1, tapering))
	bevel := func(i int) float64 {
		a, b := v[i], v[i+1]
		l := math.Hypot(b.Y-a.Y, b.Z-a.Z)
		return math.Atan(((b.Z-a.Z)*a.Y - (b.Y-a.Y)*a.Z) / l / 4000)
	}
	greatest := 0.0
	for i := range v[1:] {
		greatest = max(greatest, bevel(i))
	}
	for _, x := range []float64{0, 1500, 4000} {
		s := section(t, h, x, boat.Port)
		for i, k := range s.Knuckles() {
			below, above, err := s.BevelsAt(k.U, hull.Abaft)
			if err != nil || math.Abs(below.Angle-bevel(i)) > 1e-6 || math.Abs(above.Angle-bevel(i+1)) > 1e-6 {
				t.Errorf("x %v, %s: bevels %v and %v, want %v and %v: %v", x, k.Name, below.Angle, above.Angle, bevel(i), bevel(i+1), err)
			}
			if one, _ := s.BevelAt(k.U, hull.Abaft); one != above {
				t.Errorf("x %v, %s: %v is not the bevel above, %v", x, k.Name, one, above)
			}
			if b, a := s.Either(k.U); math.Abs(a.Theta-b.Theta-k.Turn) > 1e-9 {
				t.Errorf("x %v, %s: directions %v and %v", x, k.Name, b.Theta, a.Theta)
			}
		}
		most, err := s.GreatestBevel(hull.Abaft)
		if err != nil || math.Abs(most.Angle-greatest) > 1e-6 {
			t.Errorf("x %v: greatest bevel %v, want %v: %v", x, most.Angle, greatest, err)
		}
		// The bevel of one panel does not show a hair's breadth beyond its knuckle.
		k := s.Knuckles()[0]
		if b, _ := s.BevelAt(k.U-1e-9, hull.Abaft); math.Abs(b.Angle-bevel(0)) > 1e-6 {
			t.Errorf("x %v: below the chine the bevel is %v, want %v", x, b.Angle, bevel(0))
		}
	}
}

// More stations on straight lines tell nothing new.
func TestStationsBetweenStraightKnucklesChangeNothing(t *testing.T) {
	few, many := hulltest.Hull(t, chined(quarters, 2, widening)), hulltest.Hull(t, chined([]float64{0, 400, 1000, 1200, 2000, 3500, 4000}, 2, widening))
	for _, x := range []float64{100, 1100, 3000} {
		a, b := section(t, few, x, boat.Port), section(t, many, x, boat.Port)
		near := panelTight * a.Girth.MM
		if math.Abs(a.Girth.MM-b.Girth.MM) > near {
			t.Errorf("x %v: girth %v and %v", x, a.Girth.MM, b.Girth.MM)
		}
		for i, k := range a.Knuckles() {
			if o := b.Knuckles()[i]; math.Hypot(k.Y-o.Y, k.Z-o.Z) > near || math.Abs(k.Turn-o.Turn) > 1e-6 {
				t.Errorf("x %v: %v and %v", x, k, o)
			}
		}
	}
}

// The planking of panels between straight knuckles, and what they enclose, from their own corners.
func TestAreaAcrossKnuckles(t *testing.T) {
	h := hulltest.Hull(t, chined(quarters, 1, tapering))
	surface, err := h.Surface(boat.Port)
	if err != nil {
		t.Fatal(err)
	}
	if k := surface.Corners(); len(k) != 2 || !(0 < k[0] && k[0] < k[1] && k[1] < 1) {
		t.Fatalf("knuckles at %v", k)
	}
	// Each panel is a trapezium in a plane through the point of the cone: between the triangles over its edges.
	want := 0.0
	for i := range v[1:] {
		a, b := v[i], v[i+1]
		over := func(s float64) float64 { // triangle of the point, a and b at the scale s
			x, y, z := 4000*s, a.Y*s, a.Z*s
			p, q, r := 4000*s, b.Y*s, b.Z*s
			return math.Sqrt(math.Pow(y*r-z*q, 2)+math.Pow(z*p-x*r, 2)+math.Pow(x*q-y*p, 2)) / 2
		}
		want += over(2) - over(1)
	}
	if got := area.New(surface, 0).Whole().Area; math.Abs(got-want) > panelTight*want {
		t.Errorf("the planking is %v, want %v", got, want)
	}
	// A waterline through the chine lies on it all along a hull that grows in breadth alone.
	surface, err = hulltest.Hull(t, chined(quarters, 1, widening)).Surface(boat.Port)
	if err != nil {
		t.Fatal(err)
	}
	for _, run := range surface.Mesh().Waterline(v[1].Z) {
		for _, p := range run {
			if w := widening(p.X)[1]; math.Abs(p.Y-w.Y) > 1e-3 {
				t.Errorf("at %v the chine lies at %v, not %v", p.X, p.Y, w.Y)
			}
		}
	}
}

// The chain is mirrored and laid among others like any section, and refuses a neighbour without its knuckles.
func TestKnucklesAmongSections(t *testing.T) {
	h := hulltest.Hull(t, chined(quarters, 1, widening))
	var all []*hull.Section
	for _, m := range h.Measures() {
		if m.Section.Side == boat.Port {
			all = append(all, m.Section)
		}
	}
	s, err := hull.Among(all, 1500, boat.Starboard)
	if err != nil {
		t.Fatal(err)
	}
	if d := math.Abs(s.Girth.MM - widening(1500).girth()); d > panelTight*s.Girth.MM {
		t.Errorf("girth off by %v", d)
	}
	moved := s.MovedTo(900, boat.Port)
	if moved.Girth != s.Girth || moved.Knuckles()[0] != s.Knuckles()[0] {
		t.Errorf("moved it measures %v with %v", moved.Girth, moved.Knuckles())
	}
	round := hulltest.Hull(t, noKnuckles(chined(quarters, 3, widening)))
	_, err = hull.Among(append(all, section(t, round, 2000, boat.Port).MovedTo(3000, boat.Port)), 1500, boat.Port)
	want := "the section at 3000 mm has no knuckle, that at 0 mm the knuckles chine, upper; a knuckle is given at every section or at none, in one order"
	if err == nil || err.Error() != want {
		t.Errorf("got %v", err)
	}
}

func noKnuckles(d *offsets.Document) *offsets.Document {
	for i := range d.Stations {
		e := &d.Stations[i].Sides[0]
		for _, k := range e.Knuckles {
			e.Waterlines = append(e.Waterlines, offsets.WaterlineOffsets{Height: k.Height, HalfBreadth: k.HalfBreadth})
		}
		e.Knuckles = nil
	}
	return d
}

// The rectangle round a frame across a chine: here of two panels square to one another, known by hand.
func TestRectangleRoundAKnuckle(t *testing.T) {
	square := panels{{0, 0}, {600, 0}, {600, 800}}
	d := &offsets.Document{Notation: notation.Millimetres, Grain: "0", Surface: offsets.Inside}
	for i, x := range quarters {
		d.Stations = append(d.Stations, offsets.StationOffsets{No: i, X: mm(x), Sides: []offsets.SideOffsets{square.entry(boat.Both, []string{"chine"}, 0)}})
	}
	for _, x := range []float64{1000, 1500} {
		s := section(t, hulltest.Hull(t, d), x, boat.Port)
		length, width, err := s.EnclosingRectangle(50)
		if err != nil || math.Abs(length*width-800*600) > 1e-3 {
			t.Errorf("x %v: %v by %v: %v", x, length, width, err)
		}
		if len(s.Unshown) == 0 || s.Unshown[0].Straight != "from the rabbet to the knuckle chine" || math.Abs(s.Unshown[0].Mid-300) > 1e-6 {
			t.Errorf("x %v: not shown %+v", x, s.Unshown)
		}
	}
	// Turned about, the inner face meets outside of both faying faces.
	for i := range d.Stations {
		d.Stations[i].Sides[0] = panels{{0, 0}, {0, 600}, {800, 600.001}}.entry(boat.Both, []string{"reverse"}, 0)
	}
	s := section(t, hulltest.Hull(t, d), 1500, boat.Port)
	if k := s.Knuckles()[0]; math.Abs(k.Turn+math.Pi/2) > 1e-5 {
		t.Errorf("the reverse turns by %v", k.Turn)
	}
	if l, w, err := s.EnclosingRectangle(50); err != nil || math.Abs(l*w-850*650) > 2 {
		t.Errorf("%v by %v: %v", l, w, err)
	}
}
