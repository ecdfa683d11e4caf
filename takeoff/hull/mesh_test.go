package hull_test

import (
	"math"
	"testing"

	"ribband/takeoff/boat"

	"ribband/takeoff/hull/hulltest"
)

// inPlane is how far a traced place may lie off its plane, mm: what Mesh.Cut says of itself.
const inPlane = 1e-6

// onCone is how far a place may lie off the cone, mm: the fair curves through exact points keep to it so nearly.
const onCone = 0.02

// On a cone every plane along the boat cuts a hyperbola, which is known; lines end where the cone does.
func TestCutsOfACone(t *testing.T) {
	m := cone(t, 9).Mesh()
	slant := math.Sqrt2 / 2
	for _, c := range []struct {
		name    string
		a, b, c float64
		from    float64 // x of the forward end: at the first station or where the plane meets the rabbet or the sheer
	}{
		{"waterline through all stations", 0, 1, -500, 0},
		{"waterline that leaves at the rabbet", 0, 1, -1500, 2000},
		{"buttock through all stations", 1, 0, 700, 0},
		{"buttock that leaves at the sheer", 1, 0, 1250, 1000},
		{"diagonal", slant, slant, -300, 0},
		{"diagonal that leaves", slant, -slant, 1900, 4*1900 - 4000}, // touches where r is 1900, and then lies within it
	} {
		runs := m.Cut(c.a, c.b, c.c)
		if len(runs) != 1 {
			t.Errorf("%s: %d runs", c.name, len(runs))
			continue
		}
		run := runs[0]
		for _, q := range run {
			if off := math.Abs(c.a*q.Y + c.b*q.Z - c.c); off > inPlane {
				t.Errorf("%s: %v lies %v off its plane", c.name, q, off)
			}
			if off := math.Abs(math.Hypot(q.Y, q.Z) - (q.X+4000)/4); off > onCone {
				t.Errorf("%s: %v lies %v off the cone", c.name, q, off)
			}
		}
		first := run[0]
		for _, q := range run {
			if q.X < first.X {
				first = q
			}
		}
		if math.Abs(first.X-c.from) > 1 {
			t.Errorf("%s: begins at %v, not at x %v", c.name, first, c.from)
		}
	}
	for _, none := range [][3]float64{{0, 1, 1}, {0, 1, -2500}, {1, 0, -1}} {
		if runs := m.Cut(none[0], none[1], none[2]); len(runs) != 0 {
			t.Errorf("%v cuts nothing, and gives %d runs", none, len(runs))
		}
	}
	if runs := m.Waterline(math.NaN()); len(runs) != 0 {
		t.Errorf("a height that is no number gives %d runs", len(runs))
	}
}

// Stations stand in a mesh exactly, and a waterline passes them where their own sections have the height.
func TestWaterlineAtStations(t *testing.T) {
	h := coneHull(t, 7)
	s, err := h.Surface(boat.Starboard)
	if err != nil {
		t.Fatal(err)
	}
	run := s.Mesh().Waterline(-600)[0]
	for _, x := range s.Stations() {
		c := section(t, h, x, boat.Starboard)
		us, err := c.AtHeight(-600, 0)
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, q := range run {
			if q.X == x {
				found = true
				if d := math.Abs(q.Y - c.At(us[0]).Y); d > 1e-5 {
					t.Errorf("x %v: half-breadth %v, the section has %v", x, q.Y, c.At(us[0]).Y)
				}
			}
		}
		if !found {
			t.Errorf("the line has no place at the station %v", x)
		}
	}
}

// Lines that come back to where they began, and saddles, stay whole: a surface with a swelling amidships.
func TestClosedLines(t *testing.T) {
	doc := exactTable()
	for i := range 9 {
		x := 1000 * float64(i)
		swell := 300 * math.Exp(-math.Pow((x-4000)/1500, 2))
		doc.station(x, byHeight(boat.Both, func(z float64) float64 { return 1000 + swell*math.Sin(math.Pi*z/1000) }, 0, 1000, 9))
	}
	s, err := hulltest.Hull(t, &doc.doc).Surface(boat.Port)
	if err != nil {
		t.Fatal(err)
	}
	runs := s.Mesh().Buttock(1150)
	if len(runs) != 1 {
		t.Fatalf("%d runs, want one round the swelling", len(runs))
	}
	if run := runs[0]; run[0] != run[len(run)-1] || len(run) < 20 {
		t.Errorf("the line of %d places does not come back: %v … %v", len(run), run[0], run[len(run)-1])
	}
	if edge := s.Mesh().Sheer(); len(edge) != 8*16+1 || edge[0].X != 0 || edge[len(edge)-1].X != 8000 {
		t.Errorf("the sheer has %d places from %v to %v", len(edge), edge[0], edge[len(edge)-1])
	}
}
