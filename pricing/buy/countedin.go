package buy

import (
	"ribband/takeoff/cutting/flat"

	"github.com/shopspring/decimal"
)

// tenth of a millimetre in nanometres.
const tenth = millimetre / 10

// countedIn are the units that planks side by side are counted in, nanometres. Where all sizes are whole numbers of one of a millimetre or more, as
// of a yard that measures in millimetres, it is that one, and nothing is rounded. Otherwise the millimetre, in which plans are found soonest,
// and then a finer one of which all are whole numbers, or a tenth, which spoils less by rounding; boards too long for that are left to the millimetre.
func (l *abreast) countedIn(all []board) []int64 {
	unit, exact, longest := int64(0), true, int64(0)
	size := func(mm decimal.Decimal) {
		n := nanoUp(mm)
		exact, longest = exact && n == nanoDown(mm), max(longest, n)
		for n != 0 {
			unit, n = n, unit%n
		}
	}
	size(l.kerf)
	for _, i := range l.lines {
		p := l.g.needs[i].Pieces
		size(p.Thickness.Add(p.Planing))
		size(millimetres(p.Length))
	}
	for _, b := range all {
		size(b.width)
		if size(b.length); !b.untrimmed {
			size(nanoMM(2 * l.trim))
		}
	}
	if !exact || unit < tenth {
		unit = tenth
	}
	switch {
	case unit >= millimetre && longest <= unit*flat.MaxSide:
		return []int64{unit}
	case longest <= unit*flat.MaxSide:
		return []int64{millimetre, unit}
	}
	return []int64{millimetre}
}
