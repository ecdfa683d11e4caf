package sheet

import (
	"fmt"
	"strings"

	"ribband/takeoff/notation"
)

// check looks at what the cells of one row mean together. Whole is false when some cell could not be read; then
// only what stands by itself is checked.
func (r *reader) check(it Item, row Row, whole bool) {
	before := len(r.faults)
	if !it.Kind.Known() {
		r.fault("kind", fmt.Sprintf("kind %s is not known", notation.Quote(row.Kind)), "one of "+list(Kinds))
	}
	if !it.Unit.Known() {
		r.fault("unit", fmt.Sprintf("unit %s is not known", notation.Quote(row.Unit)),
			"a code of UN/ECE Recommendation 20, for example BFT board foot, MTQ cubic metre, C62 piece, LTR litre, GLL US gallon, KGM kilogram, MTK square metre, HUR hour")
	}
	if row.Price == "" {
		r.fault("price", "the price is empty", "write the price of one unit, for example 12.50")
	}
	if !it.Kind.Known() || !it.Unit.Known() {
		return
	}
	switch {
	case it.Kind == Timber:
		r.board(it, row)
	case it.Kind == Freight:
		r.freight(it, row)
	case it.Item == "":
		r.fault("item", "the item has no name", "write the name it is found by; for labour, the trade")
	}
	if !it.Kind.Goods() {
		r.noGoods(it, row)
	}
	if it.Kind != Timber && row.Widest != "" {
		r.fault("widest", fmt.Sprintf("%s does not come in random widths", it.Kind), "leave the cell empty")
	}
	if it.Kind != Freight && row.FreeFrom != "" {
		r.fault("free_from", fmt.Sprintf("%s has no sum from which on it is free", it.Kind), "leave the cell empty")
	}
	if it.Kind.Goods() && it.Kind != Timber && it.Unit.Dimension() == ByTime {
		r.fault("unit", fmt.Sprintf("%s is not sold by the %s", it.Kind, it.Unit.Name()), "a unit of what is delivered")
	}
	if whole && len(r.faults) == before && r.content.Notation.Known() {
		r.together(it)
	}
}

// board: what a row of timber must say.
func (r *reader) board(it Item, row Row) {
	need := func(column, cell, fix string) {
		if cell == "" {
			r.fault(column, "a board needs its "+strings.ReplaceAll(column, "_", " "), fix)
		}
	}
	length := "write it in " + r.content.Notation.Name()
	need("species", row.Species, "write the species as the takeoff names it")
	need("grade", row.Grade, "write the grade as the takeoff names it")
	need("thickness", row.Thickness, length+", or in quarters of an inch, for example 8/4")
	need("width", row.Width, length)
	need("stock_length", row.StockLength, length)
	if row.PackSize != "" {
		r.fault("pack_size", "a board is sold by itself", "leave the cell empty; a least order goes in min_qty")
	}
	r.random(it, row)
	switch it.Unit.Dimension() {
	case ByVolume, ByLength, ByCount:
	default:
		r.fault("unit", fmt.Sprintf("a %s does not measure a board", it.Unit.Name()),
			"BFT, MBF, MTQ or FTQ by volume, MTR or FOT by length, C62 by the piece")
	}
}

// freight: what a row of freight may say.
func (r *reader) freight(it Item, row Row) {
	switch it.Unit.Dimension() {
	case ByVolume, ByMass:
	case ByCount:
		if !it.Unit.Factor().IsInt() || it.Unit.Factor().Num().Int64() != 1 {
			r.fault("unit", fmt.Sprintf("an order is not counted by the %s", it.Unit.Name()), "C62 for an order")
		}
	default:
		r.fault("unit", fmt.Sprintf("freight is not asked by the %s", it.Unit.Name()), "C62 for an order, BFT or MTQ for its timber, KGM or TNE for its weight")
	}
	for _, c := range []struct{ column, cell string }{{"min_qty", row.MinQty}, {"lead_days", row.LeadDays}} {
		if c.cell != "" {
			r.fault(c.column, "freight has no "+strings.ReplaceAll(c.column, "_", " "), "leave the cell empty")
		}
	}
}

// noGoods: what a row of labour, outside work, a day charge or freight must leave empty.
func (r *reader) noGoods(it Item, row Row) {
	for _, c := range []struct{ column, cell string }{
		{"pack_size", row.PackSize}, {"species", row.Species}, {"grade", row.Grade}, {"thickness", row.Thickness},
		{"width", row.Width}, {"stock_length", row.StockLength}, {"available", row.Available},
	} {
		if c.cell != "" {
			r.fault(c.column, fmt.Sprintf("%s has no %s", it.Kind, strings.ReplaceAll(c.column, "_", " ")), "leave the cell empty")
		}
	}
	if it.Kind == Labour && it.Unit != "HUR" {
		r.fault("unit", "labour is priced by the hour", "HUR")
	}
}

// together: what needs every cell of the row, and the rows before it.
func (r *reader) together(it Item) {
	if it.Kind.Goods() && r.content.Currency.Known() {
		p, err := it.PiecePrice(r.content.Currency)
		switch {
		case err != nil:
			r.fault("price", "one piece costs more than is carried: "+err.Error(), "look at price, per and the sizes")
		case p.Sign() <= 0:
			r.fault("price", "one piece comes to less than the smallest coin of "+string(r.content.Currency), "at least "+it.LeastPrice(r.content.Currency).String()+", or a larger piece, or a smaller per")
		}
	}
	if it.Kind != Timber && it.Kind != Freight {
		name := strings.ToLower(it.Item) + "\x00" + fmt.Sprint(it.Kind == Labour)
		if first, ok := r.kinds[name]; ok && first.kind != it.Kind {
			r.fault("kind", fmt.Sprintf("%s is %s here and %s in row %d", notation.Quote(it.Item), it.Kind, first.kind, first.row),
				"one kind for all rows of an item")
		} else if !ok {
			r.kinds[name] = named{it.Kind, r.row}
		}
	}
	key := it.key()
	if it.Kind.Goods() {
		key = byBreak(it)
	}
	if first, ok := r.seen[key]; ok {
		r.fault("item", fmt.Sprintf("%s stands in row %d already", it.Label(), first), "keep one of the two rows; a price that falls with the quantity is a row with its own min_qty")
		return
	}
	r.seen[key] = r.row
}

// Article is what one supplier offers, whatever its price and least order: rows of one article with different least orders are
// its price at those quantities.
func (it Item) Article() string { return it.key() }

// key is what makes two rows the same thing offered twice, or its prices at two quantities where their least orders differ.
func (it Item) key() string {
	var parts []string
	switch it.Kind {
	case Timber:
		parts = []string{it.Species, it.Grade, it.Supplier, it.Thickness.MM().String(), it.Width.MM().String(), it.StockLength.MM().String()}
		if it.RandomWidth() {
			parts = append(parts, it.Widest.MM().String())
		}
	case Labour:
		parts = []string{it.Item}
	case Freight: // one charge by the order, one by measure, one by weight
		parts = []string{it.Supplier, string(it.Unit.Dimension())}
	default:
		parts = it.packed()
		if size, ok := it.Sized(); ok {
			parts = append(parts, size.Width.MM().String(), size.Length.MM().String())
		}
	}
	return keyOf(it.Kind, parts)
}

// packed is what tells packs apart but for the sizes of what is in them.
func (it Item) packed() []string {
	return []string{it.Item, it.Supplier, it.PackSize.String(), string(it.Unit)}
}

func keyOf(k Kind, parts []string) string {
	return strings.ToLower(string(k) + "\x00" + strings.Join(parts, "\x00"))
}

func list(kinds []Kind) string {
	var out []string
	for _, k := range kinds {
		out = append(out, string(k))
	}
	return strings.Join(out, ", ")
}
