package fair_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"ribband/takeoff/hull/fair"
)

// Curves with exact lengths and radii, computed: testdata/published/analytic-curves-computed/SOURCE.md.
func TestCurvesWithClosedForms(t *testing.T) {
	const (
		points   = 20
		length   = 3e-4 // of the girth: what fair-curve fits promise of it
		ofArc    = 1e-3 // of the radius of an arc
		inside   = 0.03 // of a radius away from the ends
		atEnd    = 0.05 // of a radius at an end
		atWave   = 0.09 // of that of a cosine's end
		straight = 0.05 // of the least radius' curvature where the curve turns over
	)
	want := closedForms(t)
	at := func(c *fair.Curve, share float64) float64 {
		_, _, _, k := c.At(share * c.Girth())
		return 1 / math.Abs(k)
	}
	for _, one := range []struct {
		name string
		mm   float64 // of the curve's unit
		line func(t float64) (y, z float64)
		at   map[string]struct{ share, within float64 }
	}{
		{"parabola_metric", 1000, func(t float64) (y, z float64) { return 2 * t, .5 * t * t },
			map[string]struct{ share, within float64 }{"radius of curvature at vertex": {0, atEnd}, "radius of curvature at end": {1, atEnd}}},
		{"parabola_inches", 25.4, func(t float64) (y, z float64) { return 36 * t, 30 * t * t },
			map[string]struct{ share, within float64 }{"radius of curvature at vertex": {0, atEnd}}},
		{"catenary", 1000, func(t float64) (y, z float64) { return 1.2 * t, 1.5 * math.Cosh(.8*t) },
			map[string]struct{ share, within float64 }{"radius of curvature at vertex": {0, atEnd}, "radius of curvature at end": {1, atEnd}}},
		{"ellipse", 1000, func(t float64) (y, z float64) {
			s, c := math.Sincos(t * math.Pi / 2)
			return 1.4 * c, .9 * s
		}, map[string]struct{ share, within float64 }{"radius of curvature at end of first axis": {0, atEnd}, "radius of curvature at end of second axis": {1, atEnd}}},
		{"arc_metric", 1000, func(t float64) (y, z float64) {
			s, c := math.Sincos(t * 75 * math.Pi / 180)
			return 1.25 * s, -1.25 * c
		},
			map[string]struct{ share, within float64 }{"radius back from chord and sagitta": {.5, ofArc}}},
		{"arc_inches", 25.4, func(t float64) (y, z float64) { s, c := math.Sincos(t * math.Pi / 2); return 18 * s, -18 * c },
			map[string]struct{ share, within float64 }{"radius back from chord and sagitta": {.5, ofArc}}},
		{"reverse_curve", 1000, func(t float64) (y, z float64) { return .55 * (1 - math.Cos(math.Pi*t)), 1.3 * t },
			map[string]struct{ share, within float64 }{"radius of curvature at each end (opposite hands)": {0, atWave}}},
		{"log_spiral", 1000, func(t float64) (y, z float64) {
			r := .5 * math.Exp(.6*1.5*t)
			s, c := math.Sincos(1.5 * t)
			return r * c, r * s
		}, nil},
	} {
		t.Run(one.name, func(t *testing.T) {
			var pts []fair.Point
			for i := range points {
				y, z := one.line(float64(i) / (points - 1))
				pts = append(pts, fair.Point{Y: y * one.mm, Z: z * one.mm})
			}
			c, err := fair.Fit(pts, 0)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "length", c.Girth(), want[one.name]["length"]*one.mm, length)
			for quantity, w := range one.at {
				near(t, quantity, at(c, w.share), want[one.name][quantity]*one.mm, w.within)
			}
			switch one.name {
			case "reverse_curve":
				near(t, "the other end", at(c, 1), want[one.name]["radius of curvature at each end (opposite hands)"]*one.mm, atWave)
				_, _, _, k := c.At(c.Girth() / 2)
				least, _ := c.Least()
				if math.Abs(k)*least > straight {
					t.Errorf("the middle has a radius of %.0f mm, and should have none", 1/k)
				}
			case "log_spiral":
				// its length grows as r does, and the radius with it
				whole := math.Exp(.6*1.5) - 1
				for _, p := range []struct {
					name   string
					t      float64
					within float64
				}{{"t=0.0", 0, atEnd}, {"t=0.375000", .375, inside}, {"t=0.750000", .75, inside}, {"t=1.12500", 1.125, inside}, {"t=1.50000", 1.5, atEnd}} {
					near(t, p.name, at(c, (math.Exp(.6*p.t)-1)/whole), want[one.name]["radius of curvature "+p.name]*one.mm, p.within)
				}
			}
		})
	}
}

func closedForms(t *testing.T) map[string]map[string]float64 {
	t.Helper()
	f, err := os.Open("../../../testdata/published/analytic-curves-computed/curves.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]map[string]float64{}
	for _, r := range rows[1:] {
		v, err := strconv.ParseFloat(r[3], 64)
		if err != nil {
			t.Fatal(r, err)
		}
		name := r[1]
		if r[2] != "" {
			name += " " + r[2]
		}
		if out[r[0]] == nil {
			out[r[0]] = map[string]float64{}
		}
		out[r[0]][name] = v
	}
	return out
}
