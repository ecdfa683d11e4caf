package buy_test

import (
	"fmt"
	"math/big"

	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"

	"pgregory.net/rapid"
)

// drawCut is a tiny yard that cuts rectangles.
func drawCut(t *rapid.T, rolls, sheets, glue bool) (d drawn, all []rect, of []stuff) {
	d = drawn{rules: shop, tinyYard: tinyYard{most: 6, feetPer: big.NewRat(1, 1)}}
	d.rules.Kerf = dec("3")
	if rolls && sheets {
		d.rules.Kerf = dec("0")
	}
	wares := 3
	if glue {
		d.most, wares = 5, 2 // 5 is the dearest least order
	}
	var table []sheet.Row
	money := func(cents int64) string { return fmt.Sprintf("%d.%02d", cents/100, cents%100) }
	suppliers := rapid.IntRange(1, 2).Draw(t, "suppliers")
	for s := range suppliers {
		a := asking{}
		if a.order = 100 * rapid.SampledFrom([]int64{0, 0, 9, 25}).Draw(t, "order"); a.order > 0 {
			row := sheet.Row{Kind: "freight", Supplier: fmt.Sprint("S", s), Unit: "C62", Price: money(a.order)}
			if a.orderFree = 100 * rapid.SampledFrom([]int64{0, 60, 110}).Draw(t, "free"); a.orderFree > 0 {
				row.FreeFrom = money(a.orderFree)
			}
			table = append(table, row)
		}
		if glue {
			if a.kg = rapid.SampledFrom([]int64{0, 0, 131}).Draw(t, "kg"); a.kg > 0 {
				table = append(table, sheet.Row{Kind: "freight", Supplier: fmt.Sprint("S", s), Unit: "KGM", Price: money(a.kg)})
			}
		}
		d.asked = append(d.asked, a)
	}
	seen := map[string]bool{}
	for range rapid.IntRange(1, wares).Draw(t, "wares") {
		w := ware{supplier: rapid.IntRange(0, suppliers-1).Draw(t, "by"), kg: new(big.Rat), m3: new(big.Rat)}
		row := sheet.Row{Item: "ply", Kind: "consumable", Supplier: fmt.Sprint("S", w.supplier)}
		s := stuff{width: rapid.SampledFrom([]int64{1000, 1220, 1500}).Draw(t, "width"), length: rapid.SampledFrom([]int64{2000, 2440}).Draw(t, "length")}
		row.Width = fmt.Sprint(s.width)
		roll := rolls && (!sheets || rapid.Bool().Draw(t, "roll"))
		var size int64
		if roll {
			row.Unit = rapid.SampledFrom([]string{"MTR", "MTR", "MTK"}).Draw(t, "unit")
			size = rapid.SampledFrom([]int64{1, 1, 2}).Draw(t, "pack")
			row.PackSize = fmt.Sprint(size)
			s.pack = big.NewRat(1000*size, 1)
			if row.Unit == "MTK" {
				s.pack.Mul(s.pack, big.NewRat(1000, s.width))
			} else if size == 1 && rapid.Bool().Draw(t, "longest") {
				s.longest = 2000
				row.StockLength = "2000"
			}
		} else {
			s.each = rapid.SampledFrom([]int64{1, 1, 1, 2}).Draw(t, "each")
			size = s.each
			row.Unit, row.StockLength, row.PackSize = "C62", fmt.Sprint(s.length), fmt.Sprint(s.each)
		}
		key := fmt.Sprint(row.Unit, row.PackSize, row.Width, row.StockLength, w.supplier)
		if seen[key] {
			continue
		}
		seen[key] = true
		if w.avail = rapid.SampledFrom([]int64{-1, -1, -1, 1, 2, 3}).Draw(t, "avail"); w.avail >= 0 {
			row.Available = fmt.Sprint(w.avail)
		}
		from, price := rapid.SampledFrom([]int64{0, 0, 0, 2, 3}).Draw(t, "from"), rapid.Int64Range(15, 60).Draw(t, "price")
		for range rapid.SampledFrom([]int{1, 1, 2}).Draw(t, "breaks") {
			w.from, w.price = append(w.from, from), append(w.price, 100*price*size)
			row.Price, row.MinQty = fmt.Sprint(price), ""
			if from > 0 {
				row.MinQty = fmt.Sprint(from * size)
			}
			table = append(table, row)
			from, price = max(1, from)+rapid.Int64Range(1, 2).Draw(t, "more"), max(15, price-rapid.Int64Range(0, 15).Draw(t, "off"))
		}
		d.wares, of = append(d.wares, w), append(of, s)
	}
	for i := range rapid.IntRange(1, 3).Draw(t, "needs") {
		r := rect{rapid.SampledFrom([]int64{300, 490, 600, 700, 990}).Draw(t, "w"), rapid.SampledFrom([]int64{400, 800, 970, 1210, 1900}).Draw(t, "l"), rapid.Bool().Draw(t, "turn")}
		count := rapid.IntRange(1, 2).Draw(t, "count")
		for range count {
			all = append(all, r)
		}
		d.needs = append(d.needs, cut(i+1, bill.Pattern, "ply", int64(count), r.w, r.l, r.turn))
	}
	if glue {
		for s := range suppliers {
			if s > 0 && rapid.Bool().Draw(t, "no glue") {
				continue
			}
			w := ware{supplier: s, gives: []int64{1}, avail: -1, from: []int64{0}, price: []int64{100 * rapid.Int64Range(15, 40).Draw(t, "can")}, kg: big.NewRat(1, 1), m3: new(big.Rat)}
			table = append(table, sheet.Row{Item: "epoxy", Kind: "glue", Supplier: fmt.Sprint("S", s), Unit: "KGM", Price: money(w.price[0])})
			d.wares = append(d.wares, w)
		}
		d.needed = []int64{rapid.Int64Range(1, 3).Draw(t, "kilograms")}
		d.needs = append(d.needs, goods(9, bill.Glue, "epoxy", fmt.Sprint(d.needed[0]), fmt.Sprint(d.needed[0]), quantity.Kilogram))
	}
	var err error
	if d.sheet, err = sheet.FromRows("USD", notation.Millimetres, table); err != nil {
		t.Fatal(err)
	}
	return d, all, of
}
