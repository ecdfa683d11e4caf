package area_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/area"
)

// families are forms of random dimensions: parabolic ones, cones, full bodies that shrink towards the ends, and wine
// glasses.
func families() map[string]func(r *rand.Rand) form {
	v := func(r *rand.Rand) float64 { return .8 + .4*r.Float64() }
	return map[string]func(r *rand.Rand) form{
		"wigley": func(r *rand.Rand) form { return wigley(7300*v(r), 2400*v(r), 900*v(r)) },
		"half":   func(r *rand.Rand) form { return halfWigley(4900*v(r), 2000*v(r), 690*v(r)) },
		"r1": func(r *rand.Rand) form {
			f := r1()
			a, b, c := v(r), v(r), v(r)
			return form{f.length * a, func(x, t float64) (y, z float64) { y, z = f.at(x/a, t); return y * b, z * c }}
		},
		"cone": func(r *rand.Rand) form { return cone(4000*v(r), 400*v(r), 1300*v(r)) },
		"full": func(r *rand.Rand) form {
			L, B, T, p := 7000*v(r), 2200*v(r), 1000*v(r), 2+r.Float64()
			return form{L, func(x, t float64) (y, z float64) {
				X := 2*x/L - 1
				b := B / 2 * (1 - .8*X*X*X*X - .1*X*X)
				d := T * (1 - .35*X*X)
				sn, cs := math.Sincos(t * math.Pi / 2)
				return 40 + b*math.Pow(sn, 2/p), T - d*math.Pow(cs, 2/p)
			}}
		},
		"wineglass": func(r *rand.Rand) form {
			L, B, T := 8000*v(r), 2400*v(r), 1300*v(r)
			return form{L, func(x, t float64) (y, z float64) {
				X := 2*x/L - 1
				b := B / 2 * (1 - .75*X*X)
				zz := t
				return 50 + b*(1-math.Cos(math.Pi*math.Pow(zz, .8)))/2, 100*X*X + T*zz*(1+.15*X*X)
			}}
		},
	}
}

// The range holds the true area and volume at least nine times in ten at each number of stations, pooled over the
// families that the first constants were measured on, written to eighths with 9 points a station. Seeds are fixed. The truth is 33 stations of 33 exact points:
// that is good to 2e-5.
func TestRangeHolds(t *testing.T) {
	if testing.Short() {
		t.Skip("fits some thousand stations")
	}
	const trials = 8
	for _, n := range []int{3, 4, 5, 7, 8, 13} {
		r := rand.New(rand.NewPCG(11, uint64(n)))
		held, of, heldV := 0, 0, 0
		wide, wideV := 0.0, 0.0
		for _, name := range []string{"wigley", "half", "r1", "cone", "full", "wineglass"} {
			for range trials {
				f := families()[name](r)
				truth := side(t, f, 33, 33).Whole()
				h := fitted(t, f.document(table{even(f, n), 9, true}))
				d := area.New(surface(t, h), 3.175)
				p := d.Whole()
				sure, err := d.Sure(girths(h))
				if err != nil {
					t.Fatal(err)
				}
				of++
				wide, wideV = wide+sure.Area, wideV+sure.Volume
				if low, high := area.Range(p.Area, sure.Area); low <= truth.Area && truth.Area <= high {
					held++
				}
				if low, high := area.Range(p.Volume, sure.Volume); low <= truth.Volume && truth.Volume <= high {
					heldV++
				}
			}
		}
		t.Logf("%d stations: area %d, volume %d of %d; half widths %.2f %%, %.2f %%", n, held, heldV, of, 100*wide/float64(of), 100*wideV/float64(of))
		if 10*held < 9*of || 10*heldV < 9*of {
			t.Errorf("%d stations: the range holds area %d and volume %d times of %d", n, held, heldV, of)
		}
	}
}

func girths(h *hull.Hull) (out []hull.Reading) {
	for _, m := range h.Measures() {
		if m.Section.Side == boat.Port {
			out = append(out, m.Section.Girth)
		}
	}
	return out
}

func TestGirthsOfOtherStations(t *testing.T) {
	var e *area.CountError
	if _, err := side(t, r1(), 3, 7).Sure(nil); !errors.As(err, &e) || e.Error() == "" {
		t.Error(err)
	}
}
