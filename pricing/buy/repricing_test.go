package buy_test

import (
	"fmt"
	"math/big"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/sheet"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"

	"pgregory.net/rapid"
)

// A list of planks that may be scarfed, of laminates in two thicknesses out of boards of random width and of known, of patterns off sheets,
// off rolls and by area, and of glue, with prices that fall with the quantity and few for sale, costs at the prices of its own sheet what
// it did: no board moves, no pack, and no share.
func TestListsCostWhatTheyDoAtTheirOwnPrices(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, _, _ := drawCut(t, true, true, true)
		c, needs := d.sheet, d.needs
		rows := []sheet.Row{{Item: "shipwright", Kind: "labour", Unit: "HUR", Price: "2"}}
		if rapid.Bool().Draw(t, "by area") { // beside a sheet in a pack that holds as much
			rows = append(rows, sheet.Row{Item: "ply", Kind: "consumable", Supplier: "S0", Unit: "C62", Price: fmt.Sprint(rapid.IntRange(15, 60).Draw(t, "price")), PackSize: "1"})
		}
		rows = append(rows, drawWidths(t)...)
		more, err := sheet.FromRows("USD", notation.Millimetres, rows)
		if err != nil {
			t.Fatal(err)
		}
		c.Items = append(append([]sheet.Item{}, c.Items...), more.Items...)
		for g, n := range []int64{rapid.Int64Range(1, 60).Draw(t, "pieces"), rapid.Int64Range(1, 60).Draw(t, "others")} {
			l := laminates(20+g, boat.Port, int(n), int(n), "1.500")
			l.Pieces.Species, l.Pieces.Grade, l.Pieces.Thickness = "oak", "clear", dec([]string{"8", "21"}[g])
			needs = append(needs, l)
		}
		var sizes [][3]string
		for range rapid.IntRange(1, 2).Draw(t, "planks") {
			sizes = append(sizes, [3]string{"150", "30", fmt.Sprint(50 * rapid.IntRange(34, 70).Draw(t, "length"))})
		}
		needs = append(needs, mayScarf(planksOf(&testing.T{}, sizes...))...)
		r := scarfing("1", "0")
		l, err := buy.New(needs, c, r)
		if err != nil {
			t.Skip(err)
		}
		sum := int64(0)
		for _, s := range l.Shares {
			if s.Cost.Minor() < 0 {
				t.Fatalf("%s bears %s", s.Line, s.Cost)
			}
			sum += s.Cost.Minor()
		}
		if sum != l.Cost.Minor() {
			t.Fatalf("%d shared of %s", sum, l.Cost)
		}
		atItsOwn(t, l, needs, c, r)
	})
}

// drawWidths are boards of random width and of known, of oak for laminates and of larch for planks.
func drawWidths(t *rapid.T) []sheet.Row {
	var rows []sheet.Row
	seen := map[string]bool{}
	for k := range rapid.IntRange(2, 5).Draw(t, "boards") {
		row := sheet.Row{Kind: "timber", Supplier: fmt.Sprint("S", k%2), Species: []string{"oak", "larch"}[k%2], Grade: "clear", Thickness: "50", Unit: "MTQ"}
		wide, long := rapid.SampledFrom([]int64{160, 200, 320}).Draw(t, "wide"), 100*rapid.Int64Range(20, 34).Draw(t, "long")
		row.Width, row.StockLength = fmt.Sprint(wide), fmt.Sprint(long)
		if rapid.Bool().Draw(t, "random width") {
			row.Widest = fmt.Sprint(wide + 100)
		}
		key := fmt.Sprint(row)
		if seen[key] {
			continue
		}
		seen[key] = true
		if row.Widest == "" && rapid.IntRange(0, 3).Draw(t, "few") == 0 {
			row.Available = fmt.Sprint(rapid.IntRange(1, 6).Draw(t, "avail"))
		}
		price, least := rapid.Int64Range(300, 900).Draw(t, "price"), int64(0)
		breaks := 1
		if row.Widest == "" {
			breaks = rapid.IntRange(1, 2).Draw(t, "breaks")
		}
		for range breaks {
			row.Price, row.MinQty = fmt.Sprint(price), ""
			if least > 0 {
				row.MinQty = new(big.Rat).SetFrac64(least*50*wide*long, 1_000_000_000).FloatString(6)
			}
			rows = append(rows, row)
			price, least = price-rapid.Int64Range(0, 200).Draw(t, "off"), least+rapid.Int64Range(2, 3).Draw(t, "more")
		}
	}
	return rows
}

// The same boards and packs of a tiny yard at new prices of all its rows come to so many at the lowest price that they come up to, and
// shares add up to that.
func TestTheSamePurchaseAtNewPrices(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawLading(t)
		l, err := buy.WithRack(d.needs, d.sheet, d.rack, d.rules)
		if err != nil {
			t.Skip(err)
		}
		counts := d.recount(t, l)
		factor := rapid.Int64Range(2, 9).Draw(t, "times")
		rows := append([]sheet.Row{}, d.rows...)
		place := 0
		want := int64(0)
		for i, of := range d.loads {
			of.price = append([]int64{}, of.price...)
			for k := range of.price {
				if of.seller < 0 {
					break // what is in hand is on no sheet
				}
				for rows[place].Kind == "freight" {
					place++
				}
				if rapid.Bool().Draw(t, "moves") {
					rows[place].Price = new(big.Rat).Mul(ratOf(rows[place].Price), big.NewRat(factor, 1)).FloatString(6)
					of.price[k] = halfUp(new(big.Rat).Mul(d.coins(rows[place].Price), d.holdsOf(of, rows[place])))
				}
				place++
			}
			if counts[i] > 0 {
				each, _ := of.each(counts[i])
				want += counts[i] * each
			}
		}
		to, err := sheet.FromRows(d.currency(), notation.Millimetres, rows)
		if err != nil {
			t.Fatal(err)
		}
		shares, moves, err := l.SharesAt(d.needs, d.sheet, to, d.rules)
		if err != nil {
			t.Fatal(err)
		}
		sum, moved := int64(0), l.Cost.Minor()
		for _, s := range shares {
			sum += s.Cost.Minor()
		}
		for _, m := range moves {
			moved += m.Count * (m.New.Minor() - m.Old.Minor())
		}
		if sum != want || moved != want {
			t.Fatalf("%d shared, %d moved to, and %d are counted at\n%+v\n%s", sum, moved, want, rows, d)
		}
	})
}

// holdsOf is how many units of its row one load holds.
func (d *drawnLading) holdsOf(l load, row sheet.Row) *big.Rat {
	switch {
	case row.Kind != "timber":
		return ratOf(row.PackSize)
	case row.Unit == "MTR":
		return new(big.Rat).Quo(ratOf(row.StockLength), big.NewRat(1000, 1))
	case row.Unit == "MTQ":
		return l.m3
	}
	return big.NewRat(1, 1)
}
