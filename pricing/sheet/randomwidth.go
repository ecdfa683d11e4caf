package sheet

import "github.com/shopspring/decimal"

// RandomWidth says that boards come as wide as the log gave, between two widths.
func (it Item) RandomWidth() bool { return !it.Widest.Empty() }

// At is the row with each of its boards taken to be so wide, mm: what one holds, weighs and costs goes by that. A board of one width
// stays as it is.
func (it Item) At(width decimal.Decimal) Item {
	if it.RandomWidth() {
		it.Reckoned = width
	}
	return it
}

// Across is how wide one board is taken to be, mm.
func (it Item) Across() decimal.Decimal {
	if it.Reckoned.Sign() > 0 {
		return it.Reckoned
	}
	return it.Width.MM()
}

// BoardVolume is that of one board, mm3, from its rough sizes.
func (it Item) BoardVolume() decimal.Decimal {
	return it.Thickness.MM().Mul(it.Across()).Mul(it.StockLength.MM())
}

// random: what a row of boards of random width must say.
func (r *reader) random(it Item, row Row) {
	if row.Widest == "" {
		return
	}
	if !it.Widest.Empty() && !it.Width.Empty() && !it.Widest.MM().GreaterThan(it.Width.MM()) {
		r.fault("widest", "the widest board is no wider than the narrowest", "write the narrowest in width and the widest here, or leave the cell empty where all are as wide")
	}
	if it.Unit.Known() && it.Unit.Dimension() != ByVolume {
		r.fault("unit", "boards of random width are sold by what they hold", "BFT, MBF, MTQ or FTQ")
	}
	for _, c := range []struct{ column, cell string }{{"min_qty", row.MinQty}, {"available", row.Available}} {
		if c.cell != "" {
			r.fault(c.column, "of boards of random width nobody knows how many that is", "leave the cell empty; or write a row for each width that lies in the stack")
		}
	}
}
