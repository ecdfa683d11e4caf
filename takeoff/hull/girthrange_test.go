package hull_test

import (
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
)

// girth is the girth of the section at x, by Simpson's rule on the closed integrand.
func (g grown) girth(x float64) float64 {
	const n = 400
	sum := 0.0
	for k := range n + 1 {
		_, _, yz := g.at(x, g.depth*float64(k)/n)
		weight := float64(2 + 2*(k%2))
		if k == 0 || k == n {
			weight = 1
		}
		sum += weight * math.Sqrt(1+yz*yz)
	}
	return sum * g.depth / n / 3
}

// The range of the girth holds at least nine times in ten between stations, pooled over the forms, from exact points and
// from eighths: on forms it was measured on and on others.
func TestGirthBetweenStationsHolds(t *testing.T) {
	for what, forms := range map[string]map[string]grown{"measured": grownForms(), "others": otherForms()} {
		t.Run(what, func(t *testing.T) {
			for _, stations := range []int{3, 5, 7, 13} {
				for _, grain := range []float64{0, 3.175} {
					held, of, wide := 0, 0, 0.0
					for _, g := range forms {
						h := g.hull(t, stations, grain)
						const places = 5 // to a bay
						for i := range places * (stations - 1) {
							x := g.length * (float64(i) + .5) / float64(places*(stations-1))
							r, want := section(t, h, x, boat.Starboard).Girth, g.girth(x)
							of++
							wide += (r.High - r.Low) / want
							if r.Low-1e-3 <= want && want <= r.High+1e-3 {
								held++
							}
						}
					}
					t.Logf("%d stations, grain %v: %d of %d, mean width %.2f %%", stations, grain, held, of, 100*wide/float64(of))
					if 10*held < 9*of {
						t.Errorf("%d stations, grain %v: the range holds %d times of %d", stations, grain, held, of)
					}
				}
			}
		})
	}
}

// The range of the sectional area holds at least nine times in ten between stations too, over the same forms.
func TestAreaBetweenStationsHolds(t *testing.T) {
	for _, stations := range []int{3, 5, 7, 13} {
		for _, grain := range []float64{0, 3.175} {
			held, of, wide := 0, 0, 0.0
			for _, forms := range []map[string]grown{grownForms(), otherForms()} {
				for _, g := range forms {
					h := g.hull(t, stations, grain)
					const places = 5 // to a bay
					for i := range places * (stations - 1) {
						x := g.length * (float64(i) + .5) / float64(places*(stations-1))
						b, _ := g.half(x)
						r, want := section(t, h, x, boat.Starboard).Area(grain), b*g.depth*2/3
						of++
						wide += (r.High - r.Low) / want
						if r.Low-1 <= want && want <= r.High+1 { // mm²
							held++
						}
					}
				}
			}
			t.Logf("%d stations, grain %v: %d of %d, mean width %.2f %%", stations, grain, held, of, 100*wide/float64(of))
			if 10*held < 9*of {
				t.Errorf("%d stations, grain %v: the range holds %d times of %d", stations, grain, held, of)
			}
		}
	}
}

// A frame that cants, or lies flat on the planking, is known no better than a square one at the middle of its reach, whose
// girth it takes over but for the slant.
func TestGirthBetweenStationsOfOtherFrames(t *testing.T) {
	const likewise = .9 // of the square one's width: at the ends of its reach a frame may stand nearer to a station
	for name, g := range grownForms() {
		h := g.hull(t, 3, 0)
		x := g.length / 4
		square := section(t, h, x, boat.Starboard).Girth
		want := likewise * (square.High - square.Low)
		if !(want > .01*square.MM) {
			t.Errorf("%s: of three stations a girth is known from %v to %v", name, square.Low, square.High)
		}
		cant, err := h.SectionIn(hull.Plane{X: x, Cant: .1}, boat.Starboard)
		if err != nil {
			t.Fatal(name, err)
		}
		laid, err := h.Laid(x-50, 100, boat.Starboard)
		if err != nil {
			t.Fatal(name, err)
		}
		for what, r := range map[string]hull.Reading{"canted": cant.Girth, "laid": laid.Length} {
			if !(r.Low < r.MM && r.MM < r.High && r.High-r.Low >= want) {
				t.Errorf("%s, %s: %+v, square %+v", name, what, r, square)
			}
		}
	}
}
