package fair_test

import (
	"errors"
	"math"
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
