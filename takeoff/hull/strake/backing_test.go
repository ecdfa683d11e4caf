package strake_test

import (
	"math"
	"testing"

	"ribband/takeoff/hull/strake"
)

// Width 5 in on a radius of 30 in: w²/(8R) is 0.1041667 in; the exact sagitta, computed, 0.1043481 in.
func TestBacking(t *testing.T) {
	got := strake.Backing(5, 1.0/30)
	near(t, "backing", got, 0.1041667, 5e-8)
	near(t, "exact", 30-math.Sqrt(900-6.25), 0.1043481, 5e-8)
	e, _ := strake.Equal(8)
	s, err := strake.Develop(cone{400, 1300, 4000}, e, 3, 16)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "greatest, where the cone is widest", s.Thickness(20), 20+1300*math.Pi*math.Pi/256/8, 0.05)
}

// The length of a wavy edge on a cylinder nears that of 256 steps at order 2 as the steps are halved.
func TestOrder(t *testing.T) {
	c := cone{700, 700, 6000}
	e, err := strake.Given(c.Stations(), wavy(c))
	if err != nil {
		t.Fatal(err)
	}
	fine, err := strake.Develop(c, e, 1, 256)
	if err != nil {
		t.Fatal(err)
	}
	var last float64
	for _, n := range []int{8, 16, 32} {
		s, err := strake.Develop(c, e, 1, n)
		if err != nil {
			t.Fatal(err)
		}
		off := math.Abs(s.LengthLow - fine.LengthLow)
		if order := math.Log2(last / off); last > 0 && order < 1.8 {
			t.Errorf("%d along: order %.2f of the edge's length", n, order)
		}
		t.Logf("%d along: edge %.3g area %.3g round %.3g off", n, off, math.Abs(s.Area-fine.Area)/fine.Area, s.RoundLow-fine.RoundLow)
		last = off
	}
}
