package hull_test

import (
	"slices"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
)

// least is the least radius of the section at x: at the sheer, where the parabola is upright.
func (g grown) least(x float64) float64 {
	b, _ := g.half(x)
	return g.depth * g.depth / 2 / b
}

// The range of the least radius holds at least nine times in ten between stations, from exact points and from eighths, on
// eight forms that bend most at the sheer and on four that bend most in the bilge. Its low end, by which laminates are
// chosen, fails once in a hundred at most over all of them.
func TestRadiusBetweenStationsHolds(t *testing.T) {
	type form interface {
		hull(t *testing.T, stations int, grain float64) *hull.Hull
		least(x float64) float64
	}
	type sized struct {
		form
		length float64
	}
	eight, bilges := map[string]sized{}, map[string]sized{}
	for name, g := range grownForms() {
		eight[name] = sized{g, g.length}
	}
	for name, g := range otherForms() {
		eight[name] = sized{g, g.length}
	}
	for name, b := range bilgedForms() {
		bilges[name] = sized{b, b.length}
	}
	tight, cases := 0, 0
	for what, forms := range map[string]map[string]sized{"at the sheer": eight, "in the bilge": bilges} {
		for _, stations := range []int{3, 5, 7, 13} {
			for _, grain := range []float64{0, 3.175} {
				held, of, tighter, worst := 0, 0, 0, 1.0
				var widths, lows []float64
				for _, g := range forms {
					h := g.hull(t, stations, grain)
					const places = 5 // to a bay
					for i := range places * (stations - 1) {
						x := g.length * (float64(i) + .5) / float64(places*(stations-1))
						r, want := section(t, h, x, boat.Starboard).Least().Radius(), g.least(x)
						of++
						widths, lows = append(widths, (r.High-r.Low)/want), append(lows, r.Low/r.MM)
						const digits = 1e-6 // of what is written exactly
						switch {
						case want < r.Low*(1-digits):
							tighter++
							worst = min(worst, want/r.Low)
						case want <= r.High*(1+digits):
							held++
						}
					}
				}
				slices.Sort(widths)
				slices.Sort(lows)
				t.Logf("%s, %d stations, grain %v: %d of %d, %d tighter than the low end (by %.3f at worst), median width %.1f %%, median low end %.2f",
					what, stations, grain, held, of, tighter, worst, 100*widths[of/2], lows[of/2])
				if 10*held < 9*of {
					t.Errorf("%s, %d stations, grain %v: the range holds %d times of %d", what, stations, grain, held, of)
				}
				tight, cases = tight+tighter, cases+of
			}
		}
	}
	t.Logf("%d of %d tighter than the low end", tight, cases)
	if 100*tight > cases {
		t.Errorf("%d of %d sections are tighter than the low end of their range", tight, cases)
	}
}

// A frame that cants, or lies flat on the planking, is known no better than a square one near the middle of its reach.
func TestRadiusBetweenStationsOfOtherFrames(t *testing.T) {
	const likewise = .8 // of the square one's width: where they bend most a frame may stand nearer to a station
	for name, b := range bilgedForms() {
		h := b.hull(t, 3, 0)
		x := b.length / 4
		square := section(t, h, x, boat.Starboard).Least().Radius()
		cant, err := h.SectionIn(hull.Plane{X: x, Cant: .1}, boat.Starboard)
		if err != nil {
			t.Fatal(name, err)
		}
		laid, err := h.Laid(x-50, 100, boat.Starboard)
		if err != nil {
			t.Fatal(name, err)
		}
		for what, r := range map[string]hull.Reading{"canted": cant.Least().Radius(), "laid": laid.Least().Radius()} {
			if !(r.Low < r.MM && r.MM < r.High && r.High-r.Low >= likewise*(square.High-square.Low)) {
				t.Errorf("%s, %s: %+v, square %+v", name, what, r, square)
			}
		}
	}
}
