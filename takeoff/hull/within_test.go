package hull_test

import (
	"math"
	"testing"

	"ribband/seed"
	"ribband/takeoff/boat"
	"ribband/takeoff/hull/hulltest"
)

// onto, mm, is how closely a place along the girth is found again from its fraction: between stations equal fractions are
// equal lengths only nearly.
const onto = 1

// The tightest bends of a stretch are those a dense look along it finds, the whole girth's are the section's own, and a
// stretch within a stretch is never tighter.
func TestBendsOfAStretch(t *testing.T) {
	d, err := seed.Load()
	if err != nil {
		t.Fatal(err)
	}
	h := hulltest.Hull(t, &d.Hull)
	for _, x := range []float64{1500, 4000, 5000, 7000, 9100} {
		s := section(t, h, x, boat.Port)
		g := s.Girth.MM
		bilge, hollow := s.Within(0, g)
		if bilge != s.Bilge || hollow != s.Hollow {
			t.Errorf("x %v: the whole girth has %+v, %+v", x, bilge, hollow)
		}
		for _, stretch := range [][2]float64{{0, 0.4}, {0.3, 0.7}, {0.45, 0.55}, {0.6, 1}, {0.9, 1}} {
			from, to := stretch[0]*g, stretch[1]*g
			bilge, hollow := s.Within(from, to)
			most, least := 0.0, 0.0
			for i := range 4001 {
				k := s.At(s.Share(stretch[0] + (stretch[1]-stretch[0])*float64(i)/4000)).Kappa
				most, least = math.Max(most, k), math.Min(least, k)
			}
			for what, pair := range map[string][2]float64{"bilge": {bilge.Kappa, most}, "hollow": {hollow.Kappa, -least}} {
				if math.Abs(pair[0]-pair[1]) > 1e-4*pair[1]+1e-12 {
					t.Errorf("x %v, %v: %s of %v, want %v", x, stretch, what, pair[0], pair[1])
				}
			}
			if bilge.Kappa > 0 {
				r := bilge.Radius()
				if r.Low > r.MM || r.High < r.MM || bilge.S < from-onto || bilge.S > to+onto {
					t.Errorf("x %v, %v: %+v at %v", x, stretch, r, bilge.S)
				}
			}
			inner, _ := s.Within(from+0.05*g, to-0.02*g)
			if inner.Kappa > bilge.Kappa*(1+1e-9) {
				t.Errorf("x %v, %v: a shorter stretch is tighter", x, stretch)
			}
			if !hollow.Hollow || bilge.Hollow {
				t.Error("the kinds are mixed")
			}
		}
		if bilge, hollow := s.Within(300, 300); bilge.Kappa != 0 || hollow.Kappa != 0 {
			t.Error("no stretch has a bend")
		}
	}
}
