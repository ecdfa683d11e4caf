package area_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"ribband/takeoff/hull/area"
)

// densePlane is the water plane of a form at the height z, which every section passes once or never.
func densePlane(f form, level float64) (sum float64) {
	const along = 200
	for i := range 3 * along {
		x, dx := closer(i, along)
		x, dx = x*f.length, dx*f.length
		_, foot := f.at(x, 0)
		if _, sheer := f.at(x, 1); foot >= level || sheer <= level {
			continue
		}
		low, high := 0.0, 1.0
		for range 50 {
			mid := (low + high) / 2
			if _, z := f.at(x, mid); z < level {
				low = mid
			} else {
				high = mid
			}
		}
		y, _ := f.at(x, low)
		sum += dx * y
	}
	return sum
}

// The range of a water plane widens with the grain and with what the side is unsure by; a height that meets no plane has
// none, and one that is no number is refused.
func TestOpenPlaneWidens(t *testing.T) {
	h := fitted(t, wigley(8000, 2400, 1200).document(table{even(wigley(8000, 2400, 1200), 7), 9, false}))
	last := 0.0
	for i, grain := range []float64{0, 3, 12, 12} {
		d := area.New(surface(t, h), grain)
		sure := area.Sure{Area: .01, Volume: .01}
		if i == 3 {
			sure.Volume = .1
		}
		p, err := d.Waterplane(600)
		if err != nil {
			t.Fatal(err)
		}
		half, err := d.OpenPlane(600, p, sure)
		if err != nil || !(half > last) || half > p.Area {
			t.Errorf("grain %v, %+v: %v of %v after %v, %v", grain, sure, half, p.Area, last, err)
		}
		last = half
		none, err := d.Waterplane(5000)
		if err != nil {
			t.Fatal(err)
		}
		if half, err := d.OpenPlane(5000, none, sure); err != nil || half != 0 {
			t.Errorf("above the sheer: %v, %v", half, err)
		}
		var window *area.WindowError
		if _, err := d.OpenPlane(math.NaN(), p, sure); !errors.As(err, &window) {
			t.Errorf("no number: %v", err)
		}
	}
}

// The ranges of water planes hold nine times in ten of shapes that nothing was measured on; the truth is straight from
// their formulas.
func TestOpenPlane(t *testing.T) {
	trials := 3
	if testing.Short() {
		trials = 1
	}
	held := map[string][2]int{}
	for i, s := range unseen {
		r := rand.New(rand.NewPCG(6091, uint64(i)))
		for range trials {
			f := s.of(r)
			_, keel := f.at(f.length/2, 0)
			_, sheer := f.at(f.length/2, 1)
			for _, share := range []float64{.3, .55, .8} {
				level := keel + share*(sheer-keel)
				want := densePlane(f, level)
				for _, n := range []int{3, 5, 7, 9, 13} {
					for k, written := range []string{"exact", "eighths"} {
						h := fitted(t, f.document(table{even(f, n), 9, k == 1}))
						d := area.New(surface(t, h), 3.175*float64(k))
						sure, err := d.Sure(girths(h))
						if err != nil {
							t.Fatal(err)
						}
						p, err := d.Waterplane(level)
						if err != nil {
							t.Fatal(err)
						}
						half, err := d.OpenPlane(level, p, sure)
						if err != nil {
							t.Fatal(err)
						}
						for _, key := range []string{written, fmt.Sprintf("%d stations", n), fmt.Sprintf("at %v", share)} {
							c := held[key]
							c[1]++
							if math.Abs(p.Area-want) <= half {
								c[0]++
							}
							held[key] = c
						}
					}
				}
			}
		}
	}
	for what, c := range held {
		t.Logf("%s: %.0f %% of %d", what, 100*float64(c[0])/float64(c[1]), c[1])
		if 100*c[0] < 90*c[1] {
			t.Errorf("%s: the range holds %d of %d", what, c[0], c[1])
		}
	}
}
