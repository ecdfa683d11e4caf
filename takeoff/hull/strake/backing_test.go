package strake_test

import (
	"math"
	"testing"
)

// The greatest backing of a strake is where the cone is widest; printed figures: TestPrintedBacking.
func TestBacking(t *testing.T) {
	s := develop(t, cone(400, 1300, 4000), equal(t, 8), 3, 16)
	near(t, "greatest, where the cone is widest", s.Thickness(20), 20+1300*math.Pi*math.Pi/256/8, 0.05)
}
