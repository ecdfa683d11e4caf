package drawing_test

import (
	"fmt"
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// A boat of half-circles in plan and parabolas in section, so that every place on her is known: half-breadth
// 100 + 1400 (1 - (x/5000 - 1)^2) sqrt(z/1000) at height z, 0 to 1000 mm, x 0 to 10000 mm.
func half(x, z float64) float64 {
	return 100 + 1400*(1-(x/5000-1)*(x/5000-1))*0.9*math.Sqrt(z/1000) + 50*z/1000
}

// parabolic is her table of offsets in millimetres at the stations numbered, 1000 mm apart from station 0. change
// alters a half-breadth.
func parabolic(t testing.TB, numbers []int, mirrored bool, change func(no int, side boat.Side, y float64) float64) *offsets.Table {
	t.Helper()
	doc := offsets.Document{Notation: notation.Millimetres, Grain: "0", Surface: offsets.Inside}
	text := func(v float64) string { return fmt.Sprintf("%.6f", v) }
	for _, no := range numbers {
		x := 1000 * float64(no)
		st := offsets.StationOffsets{No: no, X: text(x)}
		sides := boat.Sides[:]
		if mirrored {
			sides = []boat.Side{boat.Both}
		}
		for _, side := range sides {
			at := func(z float64) string {
				y := half(x, z)
				if change != nil {
					y = change(no, side, y)
				}
				return text(y)
			}
			s := offsets.SideOffsets{
				Side:   side,
				Rabbet: &offsets.EndOffsets{Height: "0", HalfBreadth: at(0)},
				Sheer:  &offsets.EndOffsets{Height: "1000", HalfBreadth: at(1000)},
			}
			for z := 100.0; z < 1000; z += 100 {
				s.Waterlines = append(s.Waterlines, offsets.WaterlineOffsets{Height: text(z), HalfBreadth: at(z)})
			}
			st.Sides = append(st.Sides, s)
		}
		doc.Stations = append(doc.Stations, st)
	}
	return hulltest.Read(t, &doc)
}

func fitted(t testing.TB, o *offsets.Table) *hull.Hull {
	t.Helper()
	return hulltest.Fit(t, o)
}

// run is frames alike from number 1, on both sides.
func run(t testing.TB, count int, first, spacing string) []frame.Frame {
	t.Helper()
	frames, faults := frame.Read(frame.Document{
		Notation: notation.Millimetres, MouldingFace: frame.Forward,
		Spacing: &frame.Spacing{FirstNo: 1, Count: count, FirstX: first, Spacing: spacing, Siding: "40", Moulded: "60"},
	})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return frames
}

func upTo(n int) []int {
	var out []int
	for i := range n {
		out = append(out, i)
	}
	return out
}
