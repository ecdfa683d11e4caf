package buy_test

import (
	"errors"
	"strings"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/pack"

	"pgregory.net/rapid"
)

// cutCheapest plans a tiny yard of rectangles and holds it against every way of parting them among what is for sale. That too few
// sheets were found proves nothing: one drawn list in some thousand has a plan that only goes in to the millimetre.
func cutCheapest(t *testing.T, rolls, sheets, glue bool) {
	rapid.Check(t, func(t *rapid.T) {
		d, all, of := drawCut(t, rolls, sheets, glue)
		d.lookSheets(all, of, d.rules.Kerf.IntPart())
		l, err := buy.New(d.needs, d.sheet, d.rules)
		var packs *pack.ShortError
		if err != nil {
			if d.total >= 0 || !errors.As(err, &packs) {
				t.Fatalf("%v, and %d would do\n%s", err, d.total, &d)
			}
			return
		}
		var ply pack.Plan
		for _, p := range l.Packs {
			if p.Item == "ply" {
				ply = p
			}
		}
		if ply.Sheets == nil {
			if d.total >= 0 && !strings.HasPrefix(ply.ByArea, "no way was found") {
				t.Fatalf("%s, and %d would do\n%s", ply.ByArea, d.total, &d)
			}
			return
		}
		for _, r := range all { // a long pattern is joined
			if r.turn && max(r.w, r.l) > 2000 {
				return
			}
		}
		if d.total < 0 {
			t.Fatalf("%s laid out and nothing would do\n%s", l.Cost, &d)
		}
		laidWhole(t, l, ply)
		total, bound := l.Total, l.TotalBound
		if total == (money.Money{}) {
			total, bound = l.Cost, l.Bound
		}
		if bound.Minor() > d.total || total.Minor() < d.total || l.Bound.Minor() > d.goods {
			t.Fatalf("%s, none below %s, goods %s, none below %s: the cheapest is %d, goods %d\n%s", total, bound, l.Cost, l.Bound, d.total, d.goods, &d)
		}
		if s := ply.Sheets; !glue && (s.Least.Minor() > d.goods) {
			t.Fatalf("a floor of %s, the cheapest %d\n%s", s.Least, d.goods, &d)
		}
		d.holds(t, l)
	})
}

// Against everything that could be bought in tiny yards, whole or in packs, of two suppliers with least orders, prices that fall with the
// quantity and freight by the order that is not asked from a sum on: sheets.
func TestTinyYardsOfSheets(t *testing.T) { cutCheapest(t, false, true, false) }

// Rolls by the metre and by the area, some cut off no longer than so much at once.
func TestTinyYardsOfRolls(t *testing.T) { cutCheapest(t, true, false, false) }

// Sheets beside rolls.
func TestTinyYardsOfSheetsAndRolls(t *testing.T) { cutCheapest(t, true, true, false) }

// Sheets beside cans of the same suppliers, with freight by weight for the cans.
func TestTinyYardsOfSheetsAndCans(t *testing.T) { cutCheapest(t, false, true, true) }
