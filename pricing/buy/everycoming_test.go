package buy_test

import (
	"fmt"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// coming is boards being brought, each as wide as whoever brings them likes, until they hold what was ordered. The saw hand takes strips of the
// first kind off every board until there are enough, and those of the second off the rest of that board and the others.
type coming struct {
	narrowest, widest, kerf int64
	first, second           int64 // how wide a strip is
	known                   map[[2]int64]int64
}

// fewest strips of the second kind that can come where so much width is still to be brought and so many of the first are wanting; below nothing
// where those do not come.
func (c *coming) fewest(ordered, wanting int64) int64 {
	if ordered <= 0 {
		return -1_000_000 * min(1, wanting)
	}
	if n, ok := c.known[[2]int64{ordered, wanting}]; ok {
		return n
	}
	least := int64(1 << 40)
	for wide := c.narrowest; wide <= c.widest; wide++ {
		take := min(wanting, (wide+c.kerf)/(c.first+c.kerf))
		others := int64(0)
		if take == wanting {
			others = (wide + c.kerf - take*(c.first+c.kerf)) / (c.second + c.kerf)
		}
		least = min(least, others+c.fewest(ordered-wide, wanting-take))
	}
	c.known[[2]int64{ordered, wanting}] = least
	return least
}

// However wide boards come in whole millimetres, what is ordered of them gives all strips, of one kind or of two out of one stack.
func TestWhateverComesSuffices(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kerf := rapid.Int64Range(0, 4).Draw(t, "kerf")
		strips := []int64{rapid.Int64Range(5, 30).Draw(t, "strip"), 0}
		if strips[1] = strips[0] + rapid.Int64Range(1, 20).Draw(t, "wider"); rapid.Bool().Draw(t, "turned") {
			strips[0], strips[1] = strips[1], strips[0]
		}
		narrowest := rapid.Int64Range(max(strips[0], strips[1]), 90).Draw(t, "narrowest")
		widest := narrowest + rapid.Int64Range(1, 60).Draw(t, "more")
		c, err := sheet.FromRows("EUR", notation.Millimetres, []sheet.Row{{Kind: "timber", Unit: "MTQ", Price: "9000", Species: "larch", Grade: "clear", Thickness: "100", Width: fmt.Sprint(narrowest), Widest: fmt.Sprint(widest), StockLength: "3000"}})
		if err != nil {
			t.Fatal(err)
		}
		var needs []bill.Line
		count := []int64{0, 0}
		for g := range rapid.IntRange(1, 2).Draw(t, "kinds") {
			count[g] = rapid.Int64Range(1, 12).Draw(t, "count")
			n := laminates(12+g, boat.Port, int(count[g]), int(count[g]), "2.600")
			n.Pieces.Species, n.Pieces.Grade, n.Pieces.Planing = "larch", "clear", decimal.Zero
			n.Pieces.Thickness, n.Pieces.Siding = decimal.NewFromInt(strips[g]), dec("100")
			needs = append(needs, n)
		}
		l, err := buy.New(needs, c, buy.Rules{Kerf: decimal.NewFromInt(kerf)})
		if err != nil {
			t.Fatal(err)
		}
		ordered := decimal.Zero
		for _, g := range l.Timber {
			ordered = ordered.Add(dec(g.Boards[0].Measure))
		}
		wide := ordered.Shift(3).Div(dec("0.3"))
		if !wide.IsInteger() {
			t.Fatalf("%s m3 are %s mm", ordered, wide)
		}
		come := coming{narrowest, widest, kerf, strips[0], strips[1], map[[2]int64]int64{}}
		if n := come.fewest(wide.IntPart(), count[0]); n < count[1] {
			t.Fatalf("%d strips of the second kind of %s mm, %d are asked for beside %d: %+v", n, wide, count[1], count[0], come)
		}
	})
}
