package buy_test

import (
	"slices"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/rack"
	"ribband/pricing/sheet"

	"pgregory.net/rapid"
)

// What a list off some rows of a sheet buys can be bought off all of them: no floor is above it. For yards too large to go through
// everything that could be bought, with and without what is in hand.
func TestNoListOffPartOfASheetIsBelowAFloor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawYard(t, 2, 1)
		l, err := buy.WithRack(d.needs, d.sheet, d.rack, d.rules)
		if err != nil {
			return
		}
		d.holds(t, l)
		whole := func(l buy.List) int64 {
			if l.Total == (money.Money{}) {
				return l.Cost.Minor()
			}
			return l.Total.Minor()
		}
		bound := l.TotalBound
		if l.Total == (money.Money{}) {
			bound = l.Bound
		}
		against := func(c sheet.Content, in rack.Rack) {
			o, err := buy.WithRack(d.needs, c, in, d.rules)
			if err == nil && (bound.Minor() > whole(o) || l.Bound.Minor() > o.Cost.Minor()) {
				t.Fatalf("goods %s, none below %s, and %d, none below %s: %s and %d off part of\n%s", l.Cost, l.Bound, whole(l), bound, o.Cost, whole(o), &d)
			}
		}
		if i := rapid.IntRange(0, len(d.sheet.Items)).Draw(t, "left out"); i == len(d.sheet.Items) {
			against(d.sheet, rack.Rack{})
		} else if d.sheet.Items[i].Kind.Goods() {
			some := d.sheet
			some.Items = slices.Delete(slices.Clone(d.sheet.Items), i, i+1)
			against(some, d.rack)
		}
	})
}
