package sheet

import (
	"math/big"
)

// Sized is what a row of sheet stuff or cloth says of its size: a width and a length of sheets that are each one pack, or the
// width alone of what comes off a roll by the area.
type Sized struct {
	Width Size
	// Length of a sheet; nothing of a roll.
	Length Size
}

// Roll reports whether it comes off a roll.
func (s Sized) Roll() bool { return s.Length.MM().IsZero() }

// asSaid is how far a pack's area may be from its sheet's, so that "2.98 m2" stands for 1220 x 2440 mm; more and the pack is
// no such sheet. Assumption: whoever writes the sheet rounds to no worse than a fiftieth.
var asSaid = big.NewRat(1, 50)

// Sized gives the size of sheets or of a roll of a row sold by the area; false for a row that says none, or whose pack is not
// one sheet of the size it says. The columns width and stock_length hold it, as they do for boards.
func (it Item) Sized() (Sized, bool) {
	if it.Kind == Timber || !it.Kind.Goods() || it.Unit.Dimension() != ByArea || it.Width.MM().Sign() <= 0 {
		return Sized{}, false
	}
	out := Sized{it.Width, it.StockLength}
	if out.Roll() {
		return out, true
	}
	area := new(big.Rat).Mul(it.Width.MM().Shift(-3).Rat(), it.StockLength.MM().Shift(-3).Rat())
	pack := it.PieceMeasure()
	pack.Mul(pack, it.Unit.Factor())
	off := new(big.Rat).Sub(pack, area)
	return out, off.Abs(off).Cmp(area.Mul(area, asSaid)) <= 0
}
