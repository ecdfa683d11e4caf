package fair_test

import (
	"math"
	"testing"

	"ribband/takeoff/hull/fair"
)

// side lays n points on a straight side from (y, z), length mm long.
func side(y, z, angle, length float64, n int) []fair.Point {
	pts := make([]fair.Point, n)
	for i := range pts {
		s := length * float64(i) / float64(n-1)
		pts[i] = fair.Point{Y: y + s*math.Cos(angle), Z: z + s*math.Sin(angle)}
	}
	return pts
}

func TestStraightSide(t *testing.T) {
	for name, pts := range map[string][]fair.Point{
		"plumb, three points":   side(40, 0, math.Pi/2, 900, 3),
		"plumb, nine points":    side(40, 0, math.Pi/2, 900, 9),
		"level floor":           side(0, 12, 0, 1500, 7),
		"raked, twenty points":  side(40, 0, 1.1, 1700, 20),
		"raked, ninety points":  side(40, 0, 1.1, 1700, 90),
		"far from the baseline": side(5e5, 5e5, 0.7, 1200, 11),
	} {
		for _, grain := range []float64{0, 1, 3.175} {
			c, err := fair.Fit(pts, grain)
			if err != nil {
				t.Errorf("%s, grain %g: %v", name, grain, err)
				continue
			}
			r, at := c.Least()
			if !c.Straight() || !math.IsInf(r, 1) || at != 0 {
				t.Errorf("%s, grain %g: straight %v, least radius %g at %g; want true, +Inf, 0", name, grain, c.Straight(), r, at)
			}
			last := pts[len(pts)-1]
			near(t, name+": girth", c.Girth(), math.Hypot(last.Y-pts[0].Y, last.Z-pts[0].Z), exactly)
			y, z, th, k := c.At(c.Girth() / 2)
			for _, v := range []float64{y, z, th, k} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Errorf("%s: halfway along: %g %g %g %g", name, y, z, th, k)
				}
			}
		}
	}
}

// A straight side written to a grain is nearly straight, not straight: the
// points would allow a slight round, and the radius says how slight.
func TestWrittenStraightSide(t *testing.T) {
	const grain = 3.175
	pts := side(40, 0, 1.1, 1500, 9)
	for i := range pts {
		pts[i].Y, pts[i].Z = rounded(pts[i].Y, grain), rounded(pts[i].Z, grain)
	}
	c, err := fair.Fit(pts, grain)
	if err != nil {
		t.Fatal(err)
	}
	r, _ := c.Least()
	// A round of a whole grain over the girth is a radius of L^2/(8 q).
	if slight := 1500.0 * 1500 / (8 * grain); !(r > slight) {
		t.Errorf("a straight side of 1500 mm reads a radius of %.0f mm, tighter than a round of one grain, %.0f", r, slight)
	}
}

// A corner is no fair curve: it must be declared a knuckle. Undeclared it is
// rounded off, at a radius that the spacing of the points decides.
func TestCorner(t *testing.T) {
	floor, topside := side(0, 0, 0.2, 900, 8), side(900*math.Cos(0.2), 900*math.Sin(0.2), 1.3, 800, 8)
	c, err := fair.Fit(append(floor, topside[1:]...), 1)
	if err != nil {
		t.Fatal(err)
	}
	r, at := c.Least()
	if spacing := 900.0 / 7; !(r < 2*spacing) || math.Abs(at-900) > spacing {
		t.Errorf("a corner reads a radius of %.0f mm at %.0f; want under %.0f near 900", r, at, 2*spacing)
	}
	// Away from the corner the curve keeps to the straight sides, but for the
	// slight wave of a batten held round a corner.
	_, _, th, k := c.At(300)
	if math.Abs(th-0.2) > 0.03 || math.Abs(k) > 1.0/2000 {
		t.Errorf("on the floor: angle %.3f, want 0.2; curvature %.5f", th, k)
	}
}

// A bilge turns inboard, a wineglass section has its hollow below it, and a
// section given from sheer to rabbet, or mirrored, changes hands.
func TestHands(t *testing.T) {
	var pts []fair.Point
	for i := range 25 {
		z := 1300 * float64(i) / 24
		pts = append(pts, fair.Point{Y: 550 * (1 - math.Cos(math.Pi*z/1300)), Z: z})
	}
	c, err := fair.Fit(pts, 0)
	if err != nil {
		t.Fatal(err)
	}
	bilge, hollow := c.Peaks()
	// The curve leaves the keel plumb and bends outboard: hollow first, 1/311 mm.
	const atEnd, tight = 0.1, 1 / 311.332364282820
	near(t, "hollow", hollow.Kappa, tight, atEnd)
	near(t, "bilge", bilge.Kappa, tight, atEnd)
	if hollow.S > 0.2*c.Girth() || bilge.S < 0.8*c.Girth() {
		t.Errorf("hollow at %.0f and bilge at %.0f of %.0f mm; want the hollow at the keel", hollow.S, bilge.S, c.Girth())
	}
	_, _, _, first := c.At(0)
	_, _, _, last := c.At(c.Girth())
	if !(first < 0 && last > 0) {
		t.Errorf("curvature is %g at the keel and %g at the sheer; want below and above zero", first, last)
	}
}
