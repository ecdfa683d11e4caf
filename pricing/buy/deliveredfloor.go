package buy

import (
	"slices"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
)

// floor is what goods with a list's floors, off a sheet of just these and others' goods, and the freight of all these suppliers cannot cost
// less than together; loads are the floors at laden prices by which rows are asked. A supplier that brings for nothing from a sum on asks
// nothing, and then its goods come to that sum at least, and to what only others sell beside it; every choice of the rows that are not
// asked is looked at.
func (d *delivering) floor(suppliers []string, goods List, c sheet.Content, loads map[string]int64) int64 {
	best := int64(-1)
	rows := d.rows(suppliers)
	free := 0
	for _, it := range rows {
		if !it.FreeFrom.IsZero() {
			free++
		}
	}
	for set := range 1 << min(free, mostFree+1) {
		reached, fixed, k := map[string]int64{}, int64(0), 0
		var asked []sheet.Item
		for _, it := range rows {
			if !it.FreeFrom.IsZero() {
				k++
				if free > mostFree { // taken as not asked
					continue
				}
				if set>>(k-1)&1 == 1 {
					sum := it.FreeFrom.Shift(d.sheet.Currency.Digits()).Ceil().IntPart()
					who := sheet.SupplierKey(it.Supplier)
					reached[who] = max(reached[who], sum)
					continue
				}
			}
			asked = append(asked, it)
			if it.Unit.Dimension() != sheet.ByCount {
				continue
			}
			if m, err := money.RoundRat(it.UnitPrice(), d.sheet.Currency, money.HalfUp); err == nil {
				fixed += m.Minor()
			}
		}
		least, sums := goods.Bound.Minor(), int64(0)
		if parts, ok := loads[names(asked)]; ok {
			least = max(least, d.unparted(parts, asked))
		}
		for _, sum := range reached {
			sums += sum
		}
		if len(reached) > 0 {
			sums += d.fromOthers(goods, c, reached)
		}
		if total := max(least, sums) + fixed; best < 0 || total < best {
			best = total
		}
	}
	return best
}

// fromOthers is the floor of the groups of a list of which no supplier named sells anything. Where scarfs may be
// made, only boards without count: labour stands in the floor of others, and how much glue is needed is the plan's.
func (d *delivering) fromOthers(l List, c sheet.Content, named map[string]int64) int64 {
	sells := func(rows []sheet.Item) bool {
		return slices.ContainsFunc(rows, func(it sheet.Item) bool {
			_, ok := named[sheet.SupplierKey(it.Supplier)]
			return ok
		})
	}
	sum := -lowered(l.Timber)
	for _, t := range l.Timber {
		if t.Scarfed == nil && !sells(c.Boards(t.Species, t.Grade)) {
			sum += t.Bound.Minor()
		}
	}
	if slices.ContainsFunc(d.needs, func(n bill.Line) bool { return n.Pieces != nil && n.Pieces.Scarf != nil }) {
		return max(0, sum)
	}
	for i, p := range d.packs {
		if !sells(c.Item(p.item)) {
			sum += l.Packs[i].Bound.Minor()
		}
	}
	return max(0, sum)
}

// looseFloor is a floor whoever brings the goods: of what is asked by measure and weight whatever the sum is.
func (d *delivering) looseFloor(carriers []string, goods List) (int64, error) {
	floor := goods.Bound.Minor()
	var always []sheet.Item
	for _, it := range d.rows(carriers) {
		if it.FreeFrom.IsZero() {
			always = append(always, it)
		}
	}
	by := loadedBy(always, d.sheet.Currency, d.rules)
	if by == nil {
		return floor, nil
	}
	if delivered, least, err := d.atLaden(d.from, by, goods, d.rules); err == nil {
		return max(floor, d.unparted(least, always)), d.take(delivered)
	}
	return floor, nil
}

// unparted is what a sum of goods, freight and labour of scarfs in parts comes to at least once the freight of each row and the labour of
// each group is rounded by itself. Where every board and pack adds a whole number of minor units to a row, or every joint to the
// labour, nothing is rounded.
func (d *delivering) unparted(parts int64, rows []sheet.Item) int64 {
	for _, row := range rows {
		by := loadedBy([]sheet.Item{row}, d.sheet.Currency, d.rules)
		if by == nil {
			continue
		}
		if slices.ContainsFunc(d.sheet.Items, func(it sheet.Item) bool {
			return it.Kind.Goods() && d.wants(it) && (it.RandomWidth() || !by.rates.Of(it).IsInt())
		}) {
			parts -= ladenParts / 2
		}
	}
	for _, t := range d.timber {
		if slices.ContainsFunc(t.lines, func(i int) bool {
			n := d.needs[i]
			if n.Pieces.Scarf == nil {
				return false
			}
			joint, _ := d.rules.Labour.joint(n, d.sheet)
			return !joint.IsInt()
		}) {
			parts -= ladenParts / 2
		}
	}
	return (parts + ladenParts - 1) / ladenParts
}

// wants reports whether a row is one of something needed, or of glue for scarfs that may be made.
func (g groups) wants(it sheet.Item) bool {
	if it.Kind == sheet.Timber {
		return slices.ContainsFunc(g.timber, func(t *timberNeed) bool { return same(t.pieces.Species, it.Species) && same(t.pieces.Grade, it.Grade) })
	}
	return slices.ContainsFunc(g.packs, func(p *packNeed) bool { return same(p.item, it.Item) }) ||
		slices.ContainsFunc(g.needs, func(n bill.Line) bool {
			return n.Pieces != nil && n.Pieces.Scarf != nil && same(n.Pieces.Scarf.Glue.Item, it.Item)
		})
}
