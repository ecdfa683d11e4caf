package buy_test

import (
	"fmt"
	"slices"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/rack"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"

	"pgregory.net/rapid"
)

// Boards that planks of two lengths fill without rest where they are crosscut first, several lengths alike out of each: no floor is above so many boards,
// and the ripping list cuts every plank out of its boards. Ripped first the boards hold fewer where the widths beside each other differ by length.
func TestLengthsAlikeAreCutOutOfTheirBoards(t *testing.T) {
	several := 0
	rapid.Check(t, func(rt *rapid.T) {
		d := &drawnBeside{notation: notation.Millimetres, grain: tenThousandth, rules: sawn, doc: rack.Document{Notation: notation.Millimetres, Boards: []rack.Row{}}}
		both, boards := rapid.Int64Range(260, 400).Draw(rt, "both widths"), rapid.Int64Range(1, 3).Draw(rt, "boards")
		long, of := int64(40-3), [2]int64{rapid.Int64Range(1, 3).Draw(rt, "short"), rapid.Int64Range(1, 2).Draw(rt, "long")}
		var sizes [][3]string
		for k, n := range of {
			length, wide := []int64{900, 1300}[k]+rapid.Int64Range(0, 300).Draw(rt, "length"), rapid.Int64Range(60, both/2).Draw(rt, "narrow")
			long += n * (length + 3)
			for _, w := range []int64{wide, both - wide} {
				sizes, d.planksBy = append(sizes, [3]string{fmt.Sprint(w), "30", fmt.Sprint(length)}), append(d.planksBy, n*boards)
			}
		}
		d.needs = planksOf(t, sizes...)
		for i, n := range d.planksBy {
			d.needs[i].Net, d.needs[i].Gross = quantity.Count(n), quantity.Count(n)
		}
		l, err := buy.New(d.needs, sold(t, fmt.Sprintf("40 %d %d 50 0 -1", both+4+3, long)), sawn)
		if err != nil {
			rt.Fatal(err)
		}
		if l.Bound.Minor() > 5000*boards || l.Cost.Minor() < l.Bound.Minor() {
			rt.Fatalf("%s, none below %s, and %d boards of %d x %d hold %v of %v", l.Cost, l.Bound, boards, both+7, long, d.planksBy, sizes)
		}
		d.sawn(rt, l)
		for _, g := range l.Timber {
			if g.SideBySide != nil && slices.ContainsFunc(g.SideBySide.Layouts, func(y buy.BoardLayout) bool {
				return slices.ContainsFunc(y.Lengths, func(z buy.LaidLength) bool { return z.Count > 1 })
			}) {
				several++
			}
		}
	})
	if several == 0 {
		t.Error("no board was crosscut into lengths alike")
	}
}
