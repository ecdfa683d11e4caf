package buy_test

import (
	"slices"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"

	"pgregory.net/rapid"
)

// Patterns that may be laid into each other: no floor is above what a list off part of the sheet comes to, nor above one that lays each
// by itself.
func TestNoListOfPatternsIsBelowAFloor(t *testing.T) {
	paired := 0
	rapid.Check(t, func(t *rapid.T) {
		d, _, _ := drawCut(t, false, true, false)
		d.needs = nil
		for i := range rapid.IntRange(1, 2).Draw(t, "frames") {
			w := rapid.Int64Range(300, 900).Draw(t, "wide")
			d.needs = append(d.needs, bothSides(i+1, w, rapid.Int64Range(500, 1900).Draw(t, "long"), rapid.Int64Range(50, w/2).Draw(t, "end"))...)
		}
		l, err := buy.New(d.needs, d.sheet, d.rules)
		if err != nil || l.Packs[0].Sheets == nil {
			return
		}
		if len(l.Packs[0].Sheets.Pairs) > 0 {
			paired++
		}
		bound, whole := l.TotalBound, func(l buy.List) int64 {
			if l.Total == (money.Money{}) {
				return l.Cost.Minor()
			}
			return l.Total.Minor()
		}
		if l.Total == (money.Money{}) {
			bound = l.Bound
		}
		against := func(what string, needs []bill.Line, c sheet.Content) {
			o, err := buy.New(needs, c, d.rules)
			if err == nil && o.Packs[0].Sheets != nil && (bound.Minor() > whole(o) || l.Bound.Minor() > o.Cost.Minor()) {
				t.Fatalf("%s: goods %s, none below %s, and %d, none below %s: %s and %d otherwise off\n%s", what, l.Cost, l.Bound, whole(l), bound, o.Cost, whole(o), &d)
			}
		}
		bare := slices.Clone(d.needs)
		for i := range bare {
			r := *bare[i].Rectangles
			r.Outline = nil
			bare[i].Rectangles = &r
		}
		against("no outlines", bare, d.sheet)
		if i := rapid.IntRange(0, len(d.sheet.Items)-1).Draw(t, "left out"); d.sheet.Items[i].Kind.Goods() {
			some := d.sheet
			some.Items = slices.Delete(slices.Clone(d.sheet.Items), i, i+1)
			against("one row less", d.needs, some)
		}
	})
	t.Logf("%d with pairs", paired)
}
