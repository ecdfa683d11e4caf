package fair_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"ribband/takeoff/hull/fair"
)

// arc lays n points on an arc of radius r from angle a to b, measured from
// straight down, so that the points run outboard and up as a section does.
func arc(r, a, b float64, n int) []fair.Point {
	pts := make([]fair.Point, n)
	for i := range pts {
		t := a + (b-a)*float64(i)/float64(n-1)
		pts[i] = fair.Point{Y: 20 + r*math.Sin(t), Z: r * (1 - math.Cos(t))}
	}
	return pts
}

// exactly is the relative error allowed on an arc, which costs the batten
// nothing: what the stop of the steps at a thousandth of the curvature leaves.
const exactly = 1e-6

func TestArcIsExact(t *testing.T) {
	for _, c := range []struct {
		name string
		r    float64
		turn float64
		n    int
	}{
		{"three points", 900, 1.4, 3},
		{"five points of a quarter", 700, math.Pi / 2, 5},
		{"nine points", 1300, 1.2, 9},
		{"twenty points", 1000, 1.6, 20},
		{"a flat arc", 20000, 0.08, 9},
		{"a dinghy's bilge", 150, 1.5, 7},
		{"more points than cells", 1000, 1.5, 64},
		{"a hundred and fifty points", 1000, 1.5, 150},
		{"half a circle", 800, math.Pi, 13},
	} {
		t.Run(c.name, func(t *testing.T) {
			curve, err := fair.Fit(arc(c.r, 0.1, 0.1+c.turn, c.n), 0)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "girth", curve.Girth(), c.r*c.turn, exactly)
			r, _ := curve.Least()
			near(t, "least radius", r, c.r, exactly)
			bilge, hollow := curve.Peaks()
			near(t, "bilge", 1/bilge.Kappa, c.r, exactly)
			if hollow.Kappa != 0 {
				t.Errorf("an arc has a hollow of curvature %g", hollow.Kappa)
			}
			for i := range 11 {
				s := curve.Girth() * float64(i) / 10
				y, z, th, k := curve.At(s)
				a := 0.1 + s/c.r
				if d := math.Hypot(y-20-c.r*math.Sin(a), z-c.r*(1-math.Cos(a))); d > exactly*c.r {
					t.Errorf("at %.0f mm the place is %g mm out", s, d)
				}
				if math.Abs(th-a) > exactly*10 || math.Abs(k*c.r-1) > exactly*10 {
					t.Errorf("at %.0f mm: angle %g, want %g; curvature x radius %g, want 1", s, th, a, k*c.r)
				}
			}
			if !curve.Settled() || curve.Straight() {
				t.Errorf("settled %v, straight %v", curve.Settled(), curve.Straight())
			}
		})
	}
}

func near(t *testing.T, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s is %.9g, want %.9g within %g of it: off by %.2g", what, got, want, rel, got/want-1)
	}
}

func TestFewPoints(t *testing.T) {
	p := func(y, z float64) fair.Point { return fair.Point{Y: y, Z: z} }
	for name, pts := range map[string][]fair.Point{
		"none":                          nil,
		"one":                           {p(1, 1)},
		"two":                           {p(0, 0), p(100, 100)},
		"three in one place":            {p(5, 5), p(5, 5), p(5, 5)},
		"two places, five points":       {p(0, 0), p(0, 0), p(800, 700), p(800, 700), p(800, 700)},
		"a hair apart, then far away":   {p(0, 0), p(1e-7, 0), p(800, 700)},
		"a hair apart at the far point": {p(0, 0), p(800, 700), p(800, 700+1e-7)},
	} {
		var few *fair.FewError
		if _, err := fair.Fit(pts, 3.175); !errors.As(err, &few) {
			t.Errorf("%s: got %v, want a FewError", name, err)
		}
	}
}

func TestWhatIsRefused(t *testing.T) {
	good := func() []fair.Point { return arc(900, 0.1, 1.5, 9) }
	for _, c := range []struct {
		name  string
		spoil func(p *fair.Point)
		field string
	}{
		{"no number", func(p *fair.Point) { p.Y = math.NaN() }, "y"},
		{"no number", func(p *fair.Point) { p.Z = math.NaN() }, "z"},
		{"endless", func(p *fair.Point) { p.Y = math.Inf(1) }, "y"},
		{"endless", func(p *fair.Point) { p.Z = math.Inf(-1) }, "z"},
		{"beyond a kilometre", func(p *fair.Point) { p.Z = 1.1e6 }, "z"},
		{"no such kind", func(p *fair.Point) { p.Kind = 4 }, "kind"},
		{"a diagonal without direction", func(p *fair.Point) { p.Kind = fair.Along }, "direction"},
		{"a diagonal to nowhere", func(p *fair.Point) { p.Kind, p.DY, p.DZ = fair.Along, math.NaN(), 1 }, "direction"},
		{"an endless diagonal", func(p *fair.Point) { p.Kind, p.DY = fair.Along, math.Inf(1) }, "direction"},
	} {
		pts := good()
		c.spoil(&pts[4])
		var bad *fair.PointError
		if _, err := fair.Fit(pts, 1); !errors.As(err, &bad) || bad.Index != 4 || bad.Field != c.field {
			t.Errorf("%s: got %v, want an error about %s of point 5", c.name, err, c.field)
		}
	}
	for _, grain := range []float64{-1, math.NaN(), math.Inf(1), 2e6} {
		var bad *fair.GrainError
		if _, err := fair.Fit(good(), grain); !errors.As(err, &bad) {
			t.Errorf("grain %g: got %v, want a GrainError", grain, err)
		}
	}
	// The direction of a point that is no diagonal is not read.
	pts := good()
	pts[4].DY = math.NaN()
	if _, err := fair.Fit(pts, 1); err != nil {
		t.Error(err)
	}
}

// Points that double back are no section; they are refused or fitted, but
// never give a curve without numbers.
func TestScrambledPoints(t *testing.T) {
	p := func(y, z float64) fair.Point { return fair.Point{Y: y, Z: z} }
	for name, pts := range map[string][]fair.Point{
		"there and back":   {p(0, 0), p(1000, 0), p(0, 0)},
		"zigzag":           {p(0, 0), p(1000, 0), p(0, 1), p(1000, 1), p(0, 2), p(1000, 2)},
		"a star":           {p(0, 0), p(1000, 700), p(-400, 700), p(700, 0), p(300, 1100), p(0, 0)},
		"round and round":  append(arc(500, 0, 6, 40), arc(500, 6, 12, 40)...),
		"bottom and top":   {p(0, 0), p(900, 900), p(450, 200), p(1000, 1200), p(300, 50)},
		"ends in one":      {p(0, 0), p(500, 500), p(500, -500), p(0, 0)},
		"a heap and a far": {p(0, 0), p(1, 0), p(0, 1), p(1, 1), p(0.5, 0.5), p(9e5, 9e5)},
	} {
		for _, grain := range []float64{0, 3.175, 500} {
			c, err := fair.Fit(pts, grain)
			t.Logf("%s, grain %g: %v", name, grain, err)
			sound(t, c, err)
		}
	}
	// Waterlines entered in a jumble, not from rabbet to sheer.
	var order *fair.OrderError
	jumble := arc(1000, 0.1, 1.5, 9)
	jumble[1], jumble[6] = jumble[6], jumble[1]
	jumble[2], jumble[4] = jumble[4], jumble[2]
	if c, err := fair.Fit(jumble, 1); !errors.As(err, &order) {
		t.Errorf("a jumble: got %v, %v, want an OrderError", c, err)
	} else if order.Index < 0 || order.Miss < 75 {
		t.Errorf("a jumble: %v; want the point named that lies farthest out, 75 mm or more", err)
	}
	// A dimension read a foot wrong is named.
	misread := arc(1000, 0.1, 1.5, 20)
	misread[8].Y -= 304.8
	if c, err := fair.Fit(misread, 1); !errors.As(err, &order) || order.Index < 7 || order.Index > 9 {
		t.Errorf("a foot misread at point 9: got %v, %v", c, err)
	}
}

// Many points cost in proportion, and points written twice do no harm.
func TestManyPoints(t *testing.T) {
	for _, n := range []int{63, 64, 65, 66, 100, 300, 2000} {
		pts := arc(1000, 0.1, 1.6, n)
		for i := range pts {
			pts[i].Y, pts[i].Z = rounded(pts[i].Y, 1), rounded(pts[i].Z, 1)
		}
		c, err := fair.Fit(pts, 1)
		if err != nil {
			t.Errorf("%d points: %v", n, err)
			continue
		}
		r, _ := c.Least()
		const within = 0.03 // of a circle, at any number of points
		near(t, "least radius", r, 1000, within)
		const ends = 1.0 // mm, the rounding of the two end points
		if d := c.Girth() - 1500; math.Abs(d) > ends {
			t.Errorf("%d points: girth is %.2f mm out", n, d)
		}
	}
}

// A tight bend just below the sheer is read from a scan of many points as well
// as one amidships.
func TestManyPointsShowBendsEverywhere(t *testing.T) {
	for _, place := range []float64{0.06, 0.3, 0.5, 0.7, 0.94} {
		const girth, radius, turn = 1800.0, 250.0, 0.7
		c := bent(func(s float64) float64 { return 1.0/4000 + hump(s, place*girth, radius, turn) }, girth, 0.3, 60)
		var marks []mark
		for i := range 200 {
			marks = append(marks, mark{s: girth * float64(i) / 199})
		}
		curve, err := fair.Fit(written(c, marks, 0, rand.New(rand.NewPCG(1, 1))), 0)
		if err != nil {
			t.Fatal(err)
		}
		r, at := curve.Least()
		t.Logf("bend at %.2f of the girth: least radius %.3f %% out, %.1f mm from its place", place, 100*(r/c.least-1), at-place*girth)
		const within = 0.02 // straight pieces of curvature over a bend two cells wide
		near(t, "least radius", r, c.least, within)
		if math.Abs(at-place*girth) > girth/fair.Cells {
			t.Errorf("the bend is found at %.0f mm, want %.0f", at, place*girth)
		}
	}
}

func TestPointsWrittenTwice(t *testing.T) {
	once := arc(900, 0.1, 1.5, 9)
	var twice []fair.Point
	for _, p := range once {
		twice = append(twice, p, p)
	}
	for _, grain := range []float64{0, 3.175} {
		a, err := fair.Fit(once, grain)
		if err != nil {
			t.Fatal(err)
		}
		b, err := fair.Fit(twice, grain)
		if err != nil {
			t.Fatal(err)
		}
		ra, _ := a.Least()
		rb, _ := b.Least()
		near(t, "least radius", rb, ra, exactly)
		near(t, "girth", b.Girth(), a.Girth(), exactly)
	}
}
