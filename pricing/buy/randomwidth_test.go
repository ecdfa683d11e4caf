package buy_test

import (
	"fmt"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/orders"
	"ribband/pricing/ripping"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func randomWidths(t testing.TB) sheet.Content {
	t.Helper()
	c, err := sheet.FromRows("USD", notation.FeetInchesEighths, []sheet.Row{
		{Kind: "timber", Supplier: "Mill", Unit: "BFT", Price: "12.50", Species: "white_oak", Grade: "select", Thickness: "8/4", Width: "0-6-0", Widest: "1-0-0", StockLength: "12-0-0"},
		{Kind: "freight", Supplier: "Mill", Unit: "BFT", Price: "1.00"},
	})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Hand-worked. Strips of 7.9375 mm with a kerf of 3.175: a board of 6 in gives (152.4 + 3.175) / 11.1125 = 14, and every board below
// 15 x 11.1125 - 3.175 = 163.5125 mm, 6 7/16 in, no more. As wide is each reckoned: 2 x 6.4375 x 12 / 12 = 12.875 board feet, at 12.50
// 160.94. 28 pieces of 2.6 m take 28 strips of 12 ft, two boards: 25.75 board feet, whose freight is 25.75. Groups of
// two sidings are reckoned alike, and one of laminates of 15.875 mm otherwise: 19.05 to a strip, 8 of them, 9 x 19.05 - 3.175 =
// 168.275, 6 5/8 in, 13.25 board feet.
func TestBoardsOfRandomWidthSuffice(t *testing.T) {
	c := randomWidths(t)
	needs := []bill.Line{laminates(12, boat.Port, 28, 28, "2.600")}
	l, err := buy.New(needs, c, shop)
	if err != nil {
		t.Fatal(err)
	}
	b, o := l.Timber[0].Boards[0], l.Timber[0].Offers[0]
	if b.Count != 2 || o.Strips != 14 || o.WidthMM.String() != "163.5125" || o.Width != "0-6-0" || o.Widest != "1-0-0" || o.Measure != "12.875000" || b.Measure != "25.750000" {
		t.Errorf("%+v of %+v", b, o)
	}
	if l.Cost.String() != "321.88" || l.Bound != l.Cost || l.FreightCost.String() != "25.75" {
		t.Errorf("cost %s, bound %s, freight %s", l.Cost, l.Bound, l.FreightCost)
	}
	ordered, err := orders.Of(l, c)
	if err != nil || len(ordered) != 1 || ordered[0].Lines[0].Measure != "25.750000" || ordered[0].Timber[0].BoardFeet != "25.75" || ordered[0].Lines[0].What != "white_oak select 8/4 x 0-6-0 to 1-0-0 x 12-0-0" {
		t.Errorf("%+v %v", ordered, err)
	}
	dearer := c
	dearer.Items = append([]sheet.Item{}, c.Items...)
	dearer.Items[0].Price = dec("25")
	shares, moves, err := l.SharesAt(needs, c, dearer, shop)
	if err != nil || moves[0].Gone || moves[0].New.String() != "321.88" || shares[0].Cost.String() != "643.76" { // 12.875 x 25 = 321.875
		t.Errorf("%+v %+v %v", shares, moves, err)
	}
	lists, err := ripping.Lists(l, needs, shop)
	if err != nil || len(lists) != 1 || lists[0].Boards[0].Widest != "1-0-0" || len(lists[0].Boards[0].Rest) != 0 {
		t.Errorf("%+v %v", lists, err)
	}
	thick := laminates(13, boat.Port, 8, 8, "2.600")
	thick.Pieces.Thickness = dec("14.2875")
	if l, err = buy.New(append(needs, thick), c, shop); err != nil || len(l.Timber) != 2 || l.Timber[1].Offers[0].WidthMM.String() != "168.275" || l.Timber[1].Boards[0].Measure != "13.250000" {
		t.Errorf("%+v %v", l.Timber, err)
	}
	if ordered, err = orders.Of(l, c); err != nil || len(ordered[0].Lines) != 2 || ordered[0].Timber[0].BoardFeet != "39.00" {
		t.Errorf("%+v %v", ordered, err)
	}
}

// A narrowest board that gives no strip serves nothing, however wide others are, for all may come so.
func TestTheNarrowestOfRandomWidthsGivesAStrip(t *testing.T) {
	c, err := sheet.FromRows("EUR", notation.Millimetres, []sheet.Row{{Kind: "timber", Unit: "MTQ", Price: "900", Species: "larch", Grade: "clear", Thickness: "50", Width: "120", Widest: "300", StockLength: "3000"}})
	if err != nil {
		t.Fatal(err)
	}
	if l, err := buy.New(planksOf(t, [3]string{"150", "45", "2900"}), c, sawn); err == nil {
		t.Errorf("%+v", l)
	}
	l, err := buy.New(planksOf(t, [3]string{"110", "45", "2900"}, [3]string{"100", "45", "2900"}), c, sawn)
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range l.Timber {
		if g.SideBySide != nil || g.Boards[0].Count < 1 {
			t.Errorf("%+v", g)
		}
	}
}

// However wide boards come, as many as hold what was ordered give the strips that were asked for: here they are drawn between narrowest
// and widest, some of them on purpose a hair below one strip more, until they hold as much, and counted one by one.
func TestWhateverWidthsComeSuffices(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		strip, kerf := rapid.IntRange(5, 80).Draw(t, "strip"), rapid.IntRange(0, 6).Draw(t, "kerf")
		narrowest := rapid.IntRange(strip, 300).Draw(t, "narrowest")
		widest := narrowest + rapid.IntRange(1, 300).Draw(t, "more")
		need := laminates(12, boat.Port, 1, 1, "2.600")
		need.Pieces.Species, need.Pieces.Grade, need.Pieces.Planing = "larch", "clear", decimal.Zero
		need.Pieces.Thickness, need.Pieces.Siding = decimal.NewFromInt(int64(strip)), dec("100")
		n := int64(rapid.IntRange(1, 40).Draw(t, "strips"))
		need.Net, need.Gross = of(fmt.Sprint(n), need.Net.Unit()), of(fmt.Sprint(n), need.Net.Unit())
		c, err := sheet.FromRows("EUR", notation.Millimetres, []sheet.Row{{Kind: "timber", Unit: "MTQ", Price: "9000", Species: "larch", Grade: "clear", Thickness: "100", Width: fmt.Sprint(narrowest), Widest: fmt.Sprint(widest), StockLength: "3000"}})
		if err != nil {
			t.Fatal(err)
		}
		l, err := buy.New([]bill.Line{need}, c, buy.Rules{Kerf: decimal.NewFromInt(int64(kerf))})
		if err != nil {
			t.Fatal(err)
		}
		ordered, got := decimal.RequireFromString(l.Timber[0].Boards[0].Measure), int64(0)
		for held := decimal.Zero; held.LessThan(ordered); { // m3
			wide := decimal.New(int64(rapid.IntRange(narrowest*100, widest*100).Draw(t, "wide")), -2)
			if rapid.Bool().Draw(t, "unlucky") {
				k := wide.Add(decimal.NewFromInt(int64(kerf))).Div(decimal.NewFromInt(int64(strip + kerf))).Ceil()
				wide = decimal.Max(decimal.NewFromInt(int64(narrowest)), decimal.Min(decimal.NewFromInt(int64(widest)), k.Mul(decimal.NewFromInt(int64(strip+kerf))).Sub(decimal.NewFromInt(int64(kerf))).Sub(dec("0.01"))))
			}
			held = held.Add(wide.Shift(-3).Mul(dec("0.3")))
			got += wide.Add(decimal.NewFromInt(int64(kerf))).Div(decimal.NewFromInt(int64(strip + kerf))).Floor().IntPart()
		}
		if got < n {
			t.Fatalf("%d strips came of %s m3, %d were asked for", got, ordered, n)
		}
	})
}
