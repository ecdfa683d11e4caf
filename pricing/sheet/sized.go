package sheet

import (
	"math/big"
)

// Sized is what a row of sheet stuff, cloth or film says of its size: a width and a length of sheets, or the width of what comes
// off a roll.
type Sized struct {
	Width Size
	// Length of a sheet; of a roll the longest that comes off it in one, nothing for any length.
	Length Size
	// Each is how many sheets one pack holds; 0 of a roll.
	Each int64
}

// Roll reports whether it comes off a roll, as many packs in one length as are bought.
func (s Sized) Roll() bool { return s.Each == 0 }

// asSaid is how far a pack may be from its sheet's area or length, so that "2.98 m2" stands for 1220 x 2440 mm; more and the pack
// is no such sheet. Assumption: whoever writes the sheet rounds to no worse than a fiftieth.
var asSaid = big.NewRat(1, 50)

// Sized gives the size of sheets or of a roll; false for a row that says none, or whose pack is not of the size it says. The
// columns width and stock_length hold it, as they do for boards.
//
// By the area, width and stock_length are those of a sheet that is one pack, and width alone is that of a roll. By the length,
// width is that of a roll, of which a pack is so much, and stock_length the longest in one; of a pack as long as stock_length
// every pack is a piece by itself. By the piece both are needed, and a pack is as many sheets.
func (it Item) Sized() (Sized, bool) {
	if it.Kind == Timber || !it.Kind.Goods() || it.Width.MM().Sign() <= 0 {
		return Sized{}, false
	}
	out := Sized{Width: it.Width, Length: it.StockLength}
	whole := !it.StockLength.Empty()
	pack := it.PieceMeasure()
	pack.Mul(pack, it.Unit.Factor())
	switch it.Unit.Dimension() {
	case ByArea:
		if !whole {
			return out, true
		}
		out.Each = 1
		return out, near(pack, out.area())
	case ByLength:
		if length := metresOf(it.StockLength); whole && near(pack, length) {
			out.Each = 1
		} else if whole && pack.Cmp(length) > 0 {
			return Sized{}, false
		}
		return out, true
	case ByCount:
		if !whole || !pack.IsInt() || !pack.Num().IsInt64() {
			return Sized{}, false
		}
		out.Each = pack.Num().Int64()
		return out, out.Each > 0
	}
	return Sized{}, false
}

// near reports whether a pack is what its size says.
func near(pack, said *big.Rat) bool {
	off := new(big.Rat).Sub(pack, said)
	return off.Abs(off).Cmp(new(big.Rat).Mul(said, asSaid)) <= 0
}

// area of one sheet, m2.
func (s Sized) area() *big.Rat { return new(big.Rat).Mul(metresOf(s.Width), metresOf(s.Length)) }

func metresOf(s Size) *big.Rat { return s.MM().Shift(-3).Rat() }

// Holds is how much of a unit one board or pack holds, exact: by its measure, or by its size where sheets sold by the piece and
// rolls sold by the length are to cover an area; false where the row measures no such thing.
func (it Item) Holds(unit Unit) (*big.Rat, bool) {
	measure := it.PieceMeasure()
	if measure == nil || !it.Unit.Known() {
		return nil, false
	}
	if y, ok := Convert(measure, it.Unit, unit); ok {
		return y, true
	}
	size, ok := it.Sized()
	if !ok || unit.Dimension() != ByArea {
		return nil, false
	}
	var m2 *big.Rat
	switch it.Unit.Dimension() {
	case ByLength:
		m2 = new(big.Rat).Mul(measure, it.Unit.Factor())
		m2.Mul(m2, metresOf(size.Width))
	default:
		m2 = size.area()
		m2.Mul(m2, big.NewRat(size.Each, 1))
	}
	return m2.Quo(m2, unit.Factor()), true
}
