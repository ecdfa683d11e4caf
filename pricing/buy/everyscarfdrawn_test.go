package buy_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/rack"
	"ribband/pricing/sheet"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// drawScarfable draws few planks of some widths, boards for them at prices by the number, in few or from a number on, and boards in hand.
func drawScarfable(t *rapid.T, widths ...int64) (planks []scarfPlank, boards []clearBoard, ids []string, c sheet.Content, hand rack.Document) {
	rows := []sheet.Row{{Item: "epoxy", Kind: "glue", Unit: "LTR", Price: "1"}}
	for i := range rapid.IntRange(1, 2).Draw(t, "boards") {
		b := clearBoard{rapid.SampledFrom([]int64{160, 200, 320}).Draw(t, "wide"), 100*rapid.Int64Range(14, 42).Draw(t, "long") - 40, article{avail: rapid.Int64Range(-2, 4).Draw(t, "avail")}}
		b.avail = max(b.avail, -1)
		from, price := rapid.Int64Range(0, 3).Draw(t, "from"), rapid.Int64Range(10, 60).Draw(t, "price")
		rows = append(rows, b.onSale(t, sheet.Row{Kind: "timber", Supplier: fmt.Sprint("M", i), Unit: "C62", Species: "larch", Grade: "clear", Thickness: "40", Width: fmt.Sprint(b.wide), StockLength: fmt.Sprint(b.clear + 40)}, from, price)...)
		boards, ids = append(boards, b), append(ids, fmt.Sprint("M", i))
	}
	hand = rack.Document{Notation: notation.Millimetres, Currency: "EUR"}
	for i := range rapid.IntRange(0, 2).Draw(t, "rack") {
		b := clearBoard{rapid.SampledFrom([]int64{160, 200, 320}).Draw(t, "held wide"), 100 * rapid.Int64Range(10, 40).Draw(t, "held long"),
			article{avail: rapid.Int64Range(1, 2).Draw(t, "held"), from: []int64{0}, price: []int64{rapid.SampledFrom([]int64{0, 0, 7}).Draw(t, "worth")}}}
		row := rack.Row{ID: fmt.Sprint("R", i), Count: b.avail, Species: "larch", Grade: "clear", Thickness: "40", Width: fmt.Sprint(b.wide), Length: fmt.Sprint(b.clear + 40), Worth: fmt.Sprint(b.price[0])}
		if rapid.Bool().Draw(t, "marked") {
			row.Clear = []rack.Stretch{{From: "15", To: fmt.Sprint(15 + b.clear)}}
		}
		boards, ids, hand.Boards = append(boards, b), append(ids, row.ID), append(hand.Boards, row)
	}
	wide := 0
	for range rapid.IntRange(1, 3).Draw(t, "planks") {
		wide = min(len(widths)-1, wide+rapid.IntRange(0, len(widths)-1).Draw(t, "width"))
		planks = append(planks, scarfPlank{widths[wide], 10 * rapid.Int64Range(160, 480).Draw(t, "length")})
	}
	c, err := sheet.FromRows("EUR", notation.Millimetres, rows)
	if err != nil {
		t.Fatal(err)
	}
	return planks, boards, ids, c, hand
}

// Against every plan there is of few planks that may be scarfed, out of boards sold from a number on, cheaper by the number or in few, and
// boards in hand: no floor is above the cheapest, none that is called proven costs more, every cut holds, and where nothing is found nothing would do.
func TestScarfsAgainstEveryPlan(t *testing.T) {
	for _, widths := range [][]int64{{150}, {150, 90}} {
		rapid.Check(t, func(rt *rapid.T) {
			planks, boards, ids, c, hand := drawScarfable(rt, widths...)
			held, bad := rack.Read(hand)
			if len(bad) > 0 {
				rt.Fatal(bad)
			}
			var sizes [][3]string
			for _, p := range planks {
				sizes = append(sizes, [3]string{fmt.Sprint(p.wide), "30", fmt.Sprint(p.long)})
			}
			rate := int64(2000) // cents
			if len(widths) == 1 && rapid.IntRange(0, 2).Draw(rt, "odd") == 0 {
				rate = 2037 // of several groups each would be rounded by itself
			}
			c.Items = append(c.Items, hands(t, rate).Items...)
			hours := rapid.SampledFrom([]int64{1, 10, 25, 60}).Draw(rt, "hours") // hundredths
			needs, r := mayScarf(planksOf(t, sizes...)), scarfing(fmt.Sprintf("%d.%02d", hours/100, hours%100), "0")
			said := func() string { return fmt.Sprintf("%v of %+v, %d/100 a joint", planks, boards, rate*hours) }
			l, err := buy.WithRack(needs, c, held, r)
			beside := err == nil && slices.ContainsFunc(l.Timber, func(g buy.Timber) bool { return g.SideBySide != nil })
			asWide := slices.Clone(planks)
			for i := range asWide {
				if len(l.Timber) == 1 && !beside { // put together, as wide as the widest
					asWide[i].wide = planks[0].wide
				}
			}
			of := scarfings(asWide, boards, scarfRule{385, 769, rate * hours})
			var short *buy.ShortBoardsError
			var missing *sheet.MissingPriceError
			if errors.As(err, &short) || errors.As(err, &missing) {
				if of.best >= 0 && len(widths) == 1 {
					rt.Fatalf("%v, and %d is possible: %s", err, of.best, said())
				}
				return
			}
			if err != nil {
				rt.Fatal(err)
			}
			heldOnce(rt, l, needs, c, r)
			boardsOf(rt, l, planks, boards, ids)
			timber, proven := int64(0), !beside
			for _, g := range l.Timber {
				timber += g.Cost.Minor()
				if g.Scarfed != nil {
					timber += g.Scarfed.Labour.Minor()
				}
				proven = proven && g.Proven
			}
			all := l.Cost.Minor()
			if len(l.ScarfLabour.Currency()) > 0 {
				all += l.ScarfLabour.Minor()
			}
			if of.best < 0 || timber < of.best || all < of.glued || proven && timber > of.best || l.Bound.Minor() > of.glued || l.Bound.Minor() > all {
				rt.Fatalf("%d, with glue %d, proven %v, none below %s, and %d is the least, with glue %d, of %s\n%s", timber, all, proven, l.Bound, of.best, of.glued, said(), toldOf(l))
			}
			if len(widths) == 1 && of.whole >= 0 && proven && all > of.whole {
				rt.Fatalf("%d, and %d with no more joints than must be: %s", all, of.whole, said())
			}
		})
	}
}

// boardsOf: no more is bought than is for sale or in hand, at the price of so many, and strips and what is cut of them fit.
func boardsOf(t *rapid.T, l buy.List, planks []scarfPlank, boards []clearBoard, ids []string) {
	bought, paid := make([]int64, len(boards)), make([]int64, len(boards))
	for _, g := range l.Timber {
		at := func(offer string) int {
			o, _ := g.Offer(offer)
			if o.Rack != nil {
				return slices.Index(ids, o.Rack.ID)
			}
			return slices.Index(ids, o.Supplier)
		}
		strips := map[string]int64{}
		fits := func(offer string, full decimal.Decimal) {
			if b := boards[at(offer)]; full.GreaterThan(decimal.NewFromInt(b.clear + 3)) {
				t.Fatalf("%s mm with the kerfs out of %+v: %+v", full, b, g)
			}
		}
		piece := func(line string, part decimal.Decimal, count int64) decimal.Decimal {
			if part.IsZero() {
				var k int
				if _, err := fmt.Sscanf(line, "strake/%d/", &k); err != nil {
					t.Fatalf("%s: %v", line, err)
				}
				part = decimal.NewFromInt(planks[k-1].long)
			}
			return part.Add(dec("3")).Mul(decimal.NewFromInt(count))
		}
		for _, cut := range g.Cuts {
			strips[cut.Offer] += cut.Strips
			full := decimal.Zero
			for _, p := range cut.Pieces {
				full = full.Add(piece(p.Line, p.PartMM, p.Count))
			}
			fits(cut.Offer, full)
		}
		if g.SideBySide != nil {
			for _, y := range g.SideBySide.Layouts {
				wide := decimal.Zero
				for _, s := range y.Strips {
					wide = wide.Add(s.Width.Add(dec("3")).Mul(decimal.NewFromInt(s.Count)))
					full := decimal.Zero
					for _, p := range s.Pieces {
						full = full.Add(piece(p.Line, p.PartMM, p.Count))
					}
					fits(y.Offer, full)
				}
				if b := boards[at(y.Offer)]; wide.GreaterThan(decimal.NewFromInt(b.wide + 3)) {
					t.Fatalf("%s mm across %+v: %+v", wide, b, g)
				}
			}
		}
		for _, b := range g.Boards {
			i := at(b.Offer)
			bought[i], paid[i] = bought[i]+b.Count, paid[i]+b.Cost.Minor()
			if each := (boards[i].wide + 3) / (g.Thickness.IntPart() + 5); !g.CutSideBySide() && (b.Strips != each*b.Count || strips[b.Offer] > b.Strips || strips[b.Offer] != b.Used) {
				t.Fatalf("%d strips cut of %+v, %d each: %+v", strips[b.Offer], b, each, g)
			}
			delete(strips, b.Offer)
		}
		if len(strips) > 0 && !g.CutSideBySide() {
			t.Fatalf("%v cut and not bought: %+v", strips, g)
		}
	}
	for i, n := range bought {
		if price, sold := boards[i].each(n); n > 0 && (!sold || paid[i] < 100*n*price) {
			t.Fatalf("%d of %+v bought for %d: %+v", n, boards[i], paid[i], l.Timber)
		}
	}
}

// toldOf is what a list buys and makes, in short.
func toldOf(l buy.List) string {
	var out strings.Builder
	for _, g := range l.Timber {
		fmt.Fprintf(&out, "%s, none below %s, %s %v:", g.Cost, g.Bound, g.Proof, g.Lines)
		for _, b := range g.Boards {
			fmt.Fprintf(&out, " %d %s,", b.Count, b.Offer)
		}
		for _, c := range g.Cuts {
			fmt.Fprintf(&out, " %d of %s %+v,", c.Strips, c.Offer, c.Pieces)
		}
		if g.Scarfed != nil {
			fmt.Fprintf(&out, " %+v", g.Scarfed.Joints)
		}
		if s := g.SideBySide; s != nil {
			fmt.Fprintf(&out, " beside %s, none below %s, apart %s, none below %s, %+v", s.Cost, s.Bound, s.Apart, s.ApartBound, s.Layouts)
		}
		out.WriteString("\n")
	}
	return out.String()
}

// hands are the rate of whoever makes scarfs, cents an hour.
func hands(t *testing.T, rate int64) sheet.Content {
	t.Helper()
	c, err := sheet.FromRows("EUR", notation.Millimetres, []sheet.Row{{Item: "shipwright", Kind: "labour", Unit: "HUR", Price: fmt.Sprintf("%d.%02d", rate/100, rate%100)}})
	if err != nil {
		t.Fatal(err)
	}
	return c
}
