package buy_test

import (
	"fmt"
	"strings"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/sheet"

	"pgregory.net/rapid"
)

// holds looks over what a list buys from the sheet alone: no more than is for sale, no fewer than are sold at once, at the price of so
// many, the freight that is asked for it, and every sum.
func (d *drawn) holds(t *rapid.T, l buy.List) {
	type bought struct{ n, each int64 }
	rows, goods := map[string]bought{}, map[string]int64{}
	held := map[string]int64{}
	sum := int64(0)
	at := func(key string, n, each, cost int64) {
		if n < 1 || n*each != cost {
			t.Fatalf("%s: %d at %d cost %d\n%s", key, n, each, cost, d)
		}
		rows[key] = bought{rows[key].n + n, each}
		sum += cost
	}
	for _, g := range l.Timber {
		for _, b := range g.Boards {
			at(b.Offer, b.Count, b.Price.Minor(), b.Cost.Minor())
		}
	}
	for _, p := range l.Packs {
		for _, b := range p.Bought {
			at(fmt.Sprintf("%s %s %s %s %s %s %s", p.Item, b.Supplier, b.Unit, b.PackSize, b.UnitPrice, b.Width, b.StockLength), b.Count, b.Price.Minor(), b.Cost.Minor())
			size := b.Count
			if q := dec(b.PackSize); q.IsInteger() {
				size *= q.IntPart()
			}
			held[p.Item] += size
		}
		if gross := p.Gross.Value().IntPart(); p.Sheets == nil && held[p.Item] < gross {
			t.Fatalf("%d of %d kg of %s\n%s", held[p.Item], gross, p.Item, d)
		}
	}
	for key, b := range rows {
		if strings.HasPrefix(key, "rack: ") {
			continue
		}
		sold := false
		for _, it := range d.sheet.Items {
			of := fmt.Sprintf("%s %s %s %s %s %s %s", it.Item, it.Supplier, it.Unit, it.PackSize, it.Price, it.Width.Text(), it.StockLength.Text())
			if it.PackSize.IsZero() {
				of = fmt.Sprintf("%s %s %s 1 %s %s %s", it.Item, it.Supplier, it.Unit, it.Price, it.Width.Text(), it.StockLength.Text())
			}
			if it.Kind == sheet.Timber {
				of = offerOf(l, it, key)
			}
			if price, err := it.PiecePrice("USD"); it.Kind.Goods() && of == key && err == nil && !sold && b.n >= it.MinPieces() && (it.Available < 0 || b.n <= it.Available) && b.each == price.Minor() {
				sold = true
				goods[it.Supplier] += b.n * b.each
			}
		}
		if !sold {
			t.Fatalf("%d of %s at %d\n%s", b.n, key, b.each, d)
		}
	}
	freight := int64(0)
	for _, f := range l.Freight {
		freight += f.Cost.Minor()
		one := int64(0)
		for _, line := range f.Lines {
			one += line.Cost.Minor()
			if line.FreeFrom != "" && line.Free != (goods[f.Supplier] >= dec(line.FreeFrom).Shift(2).IntPart()) {
				t.Fatalf("freight %+v of %d\n%s", line, goods[f.Supplier], d)
			}
		}
		if one != f.Cost.Minor() {
			t.Fatalf("freight %+v\n%s", f, d)
		}
	}
	shares := int64(0)
	for _, s := range l.Shares {
		shares += s.Cost.Minor()
	}
	again, _, err := l.SharesAt(d.needs, d.sheet, d.sheet, d.rules)
	for i, s := range again {
		if err != nil || s.Cost != l.Shares[i].Cost {
			t.Fatalf("%s costs %s, at the same prices %s, %v\n%s", s.Line, l.Shares[i].Cost, s.Cost, err, d)
		}
	}
	if err != nil {
		t.Fatalf("at the same prices: %v\n%s", err, d)
	}
	if sum != l.Cost.Minor() || shares != sum || l.Total != (money.Money{}) && (l.FreightCost.Minor() != freight || l.Total.Minor() != sum+freight) {
		t.Fatalf("cost %s, bought %d, shared %d, freight %d of %s, total %s\n%s", l.Cost, sum, shares, freight, l.FreightCost, l.Total, d)
	}
}

// offerOf is key where a list calls a board of the sheet at its price so.
func offerOf(l buy.List, it sheet.Item, key string) string {
	for _, g := range l.Timber {
		for _, o := range g.Offers {
			if o.ID == key && o.Rack == nil && o.Supplier == it.Supplier && o.Width == it.Width.Text() && o.Length == it.StockLength.Text() && o.UnitPrice == it.Price.String() {
				return key
			}
		}
	}
	return ""
}
