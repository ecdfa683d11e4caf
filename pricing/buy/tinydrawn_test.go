package buy_test

import (
	"fmt"
	"math/big"
	"strings"

	"ribband/pricing/buy"
	"ribband/pricing/rack"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// drawn is a tiny yard as a sheet, a rack and needs.
type drawn struct {
	tinyYard
	sheet sheet.Content
	rack  rack.Rack
	needs []bill.Line
	rules buy.Rules
}

// Boards of 8/4: by width the laminates side by side, by length the pieces of 2.6 m in a strip, and the board feet.
var (
	boardWidths  = map[string]int64{"0-4-0": 9, "0-8-0": 18}
	boardLengths = map[string]int64{"12-0-0": 1, "18-0-0": 2}
	boardFeet    = map[string]int64{"0-4-0 12-0-0": 8, "0-8-0 12-0-0": 16, "0-4-0 18-0-0": 12, "0-8-0 18-0-0": 24}
)

func drawYard(t *rapid.T, groups, items int) drawn {
	d := drawn{rules: shop, tinyYard: tinyYard{most: 7, feetPer: big.NewRat(1, 1)}}
	d.rules.Densities = map[string]decimal.Decimal{"white_oak": dec("750")}
	foot := sheet.Unit("BFT").Factor()
	var rows []sheet.Row
	suppliers := rapid.IntRange(1, 3).Draw(t, "suppliers")
	money := func(cents int64) string { return fmt.Sprintf("%d.%02d", cents/100, cents%100) }
	free := func(name string) int64 { return 100 * rapid.SampledFrom([]int64{0, 0, 40, 70}).Draw(t, name) }
	for s := range suppliers {
		a := asking{}
		add := func(unit, name string, price int64) (int64, int64) {
			if price == 0 {
				return 0, 0
			}
			row := sheet.Row{Kind: "freight", Supplier: fmt.Sprint("S", s), Unit: unit, Price: money(price)}
			sum := free(name)
			if sum > 0 {
				row.FreeFrom = money(sum)
			}
			rows = append(rows, row)
			return price, sum
		}
		a.order, a.orderFree = add("C62", "order free", 100*rapid.SampledFrom([]int64{0, 5, 12, 25}).Draw(t, "order"))
		a.foot, a.footFree = add("BFT", "foot free", rapid.SampledFrom([]int64{0, 0, 10, 33, 75}).Draw(t, "foot"))
		a.kg, a.kgFree = add("KGM", "kg free", rapid.SampledFrom([]int64{0, 0, 7, 31}).Draw(t, "kg"))
		d.asked = append(d.asked, a)
	}
	prices := func(w *ware, row sheet.Row, size, least int64) {
		from, price := rapid.SampledFrom([]int64{0, 0, 0, 2, 3}).Draw(t, "from"), rapid.Int64Range(least, 40).Draw(t, "price")
		for range rapid.SampledFrom([]int{1, 1, 2}).Draw(t, "breaks") {
			w.from, w.price = append(w.from, from), append(w.price, 100*price*size)
			row.Price = fmt.Sprint(price)
			row.MinQty = ""
			if from > 0 {
				row.MinQty = fmt.Sprint(from * size)
			}
			rows = append(rows, row)
			from, price = max(1, from)+rapid.Int64Range(1, 3).Draw(t, "more"), max(least, price-rapid.Int64Range(0, 12).Draw(t, "off"))
		}
	}
	available := func(w *ware, row *sheet.Row) {
		if w.avail = rapid.SampledFrom([]int64{-1, -1, -1, 1, 2, 3, 4}).Draw(t, "avail"); w.avail >= 0 {
			row.Available = fmt.Sprint(w.avail)
		}
	}
	seen := map[string]bool{}
	for range rapid.IntRange(min(1, groups), min(3, 3*groups)).Draw(t, "boards") {
		width, length := rapid.SampledFrom([]string{"0-4-0", "0-8-0"}).Draw(t, "width"), rapid.SampledFrom([]string{"12-0-0", "18-0-0"}).Draw(t, "length")
		w := ware{supplier: rapid.IntRange(0, suppliers-1).Draw(t, "by")}
		key := fmt.Sprint(width, length, w.supplier)
		if seen[key] {
			continue
		}
		seen[key] = true
		for range groups {
			w.gives = append(w.gives, boardWidths[width]*boardLengths[length])
		}
		for range items {
			w.gives = append(w.gives, 0)
		}
		w.m3 = big.NewRat(boardFeet[width+" "+length], 1)
		w.kg = new(big.Rat).Mul(new(big.Rat).Mul(w.m3, foot), big.NewRat(750, 1))
		row := sheet.Row{Kind: "timber", Supplier: fmt.Sprint("S", w.supplier), Unit: "C62", Species: "white_oak", Grade: "select", Thickness: "8/4", Width: width, StockLength: length}
		available(&w, &row)
		prices(&w, row, 1, 12)
		d.wares = append(d.wares, w)
	}
	for k := range items {
		item := fmt.Sprint("epoxy", k)
		for range rapid.IntRange(1, 2).Draw(t, "cans") {
			w := ware{supplier: rapid.IntRange(0, suppliers-1).Draw(t, "by"), gives: make([]int64, groups+items), m3: new(big.Rat)}
			size := rapid.Int64Range(1, 3).Draw(t, "size")
			key := fmt.Sprint(item, size, w.supplier)
			if seen[key] {
				continue
			}
			seen[key] = true
			w.gives[groups+k], w.kg = size, big.NewRat(size, 1)
			row := sheet.Row{Item: item, Kind: "glue", Supplier: fmt.Sprint("S", w.supplier), Unit: "KGM", PackSize: fmt.Sprint(size)}
			available(&w, &row)
			prices(&w, row, size, 12)
			d.wares = append(d.wares, w)
		}
		need := rapid.Int64Range(1, 5).Draw(t, "kilograms")
		d.needs = append(d.needs, goods(k+1, bill.Glue, item, fmt.Sprint(need), fmt.Sprint(need), quantity.Kilogram))
		d.needed = append(d.needed, need)
	}
	var boards []int64
	for k := range groups {
		pieces := rapid.Int64Range(1, 50/int64(groups)).Draw(t, "pieces")
		l := laminates(k+1, boat.Port, int(pieces), int(pieces), "2.600")
		if k == 1 {
			l.Pieces.Siding = dec("44.45")
		}
		d.needs = append(d.needs, l)
		boards = append(boards, pieces)
	}
	d.needed = append(boards, d.needed...)
	if groups > 0 && rapid.IntRange(0, 2).Draw(t, "in hand") == 0 {
		count, worth := rapid.Int64Range(1, 2).Draw(t, "in hand"), rapid.SampledFrom([]int64{0, 0, 3, 15}).Draw(t, "worth")
		w := ware{supplier: -1, avail: count, from: []int64{0}, price: []int64{100 * worth}, gives: make([]int64, groups+items)}
		for k := range groups {
			w.gives[k] = 9
		}
		row := oak("R1", count, "0-4-0", "9-0-0", "")
		if worth > 0 {
			row.Worth = fmt.Sprint(worth)
		}
		held, faults := rack.Read(rack.Document{Notation: notation.FeetInchesEighths, Currency: "USD", Boards: []rack.Row{row}})
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		d.rack = held
		d.wares = append(d.wares, w)
	}
	var err error
	if d.sheet, err = sheet.FromRows("USD", notation.FeetInchesEighths, rows); err != nil {
		t.Fatal(err)
	}
	return d
}

func (d *drawn) String() string {
	var b strings.Builder
	_ = d.sheet.WriteCSV(&b)
	for _, n := range d.needs {
		fmt.Fprintf(&b, "%s %s\n", n.ID, n.Gross)
	}
	fmt.Fprintf(&b, "%+v\n", d.rack)
	return b.String()
}
