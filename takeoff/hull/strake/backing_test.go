package strake_test

import (
	"math"
	"testing"

	"ribband/takeoff/hull/strake"
)

// Width 5 in on a radius of 30 in: w²/(8R) is 0.1041667 in, the exact sagitta, computed, 0.1043481 in; 120 mm on 700 mm:
// 2.571429 and 2.576169 mm, computed.
func TestBacking(t *testing.T) {
	for _, c := range []struct{ w, r, usual, exact float64 }{
		{5, 30, 0.1041667, 0.1043481}, {120, 700, 2.571429, 2.576169},
	} {
		near(t, "backing", strake.Backing(c.w, 1/c.r), c.usual, 5e-7)
		near(t, "exact", c.r-math.Sqrt(c.r*c.r-c.w*c.w/4), c.exact, 5e-7)
	}
	s := develop(t, cone(400, 1300, 4000), equal(t, 8), 3, 16)
	near(t, "greatest, where the cone is widest", s.Thickness(20), 20+1300*math.Pi*math.Pi/256/8, 0.05)
}
