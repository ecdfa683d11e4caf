package hull_test

import (
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/offsets"
)

// A printed rule has the plank's thickness taken off at points 6 in apart, which is said to be enough on most shapes
// (testdata/published/plank-stock-undated). With points so far apart, to eighths of an inch, on bilges down to a radius of 700 mm,
// exact points laid to the inside lie within a tenth of a millimetre of it, those in eighths within an eighth, half of which is
// the rounding of the point itself.
func TestThicknessTakenOffEverySixInches(t *testing.T) {
	const thickness, apart, grain = 25.4, 6 * 25.4, 3.175
	for _, radius := range []float64{700, 1000, 2000} {
		const turn = 1.4
		n := int(math.Ceil(radius*turn/apart)) + 1
		for _, step := range []float64{0, grain} {
			tb := exactTable()
			tb.doc.Surface, tb.doc.PlankThickness = offsets.Outside, mm(thickness)
			if step > 0 {
				tb.doc.Grain = mm(step)
			}
			for i := range 5 {
				side := arc(boat.Both, 0, 2500, radius, 0.1, 0.1+turn, n)
				for k := range side.Waterlines {
					side.Waterlines[k].HalfBreadth = rounded(t, side.Waterlines[k].HalfBreadth, step)
				}
				for k := range side.Buttocks {
					side.Buttocks[k].Height = rounded(t, side.Buttocks[k].Height, step)
				}
				tb.station(1500*float64(i), side)
			}
			_, to := laid(t, &tb.doc, offsets.Inside)
			within := .1
			if step > 0 {
				within = grain // half of it the point's own rounding
			}
			for _, m := range to.Stations[2].Port {
				if off := math.Hypot(m.Y.MM(), m.Z.MM()-2500) - (radius - thickness); math.Abs(off) > within {
					t.Errorf("radius %v, grain %v, %s: %.3f mm off the inside", radius, step, m.Cell, off)
				}
			}
		}
	}
}

// rounded is a written length to the nearest step; as it stands where there is none.
func rounded(t *testing.T, text string, step float64) string {
	t.Helper()
	if step == 0 {
		return text
	}
	return mm(math.Round(number(t, text)/step) * step)
}
