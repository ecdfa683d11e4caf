package spare

import (
	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"

	"github.com/shopspring/decimal"
)

// Volume is the gross volume, m3, of laminates with their spares shared as Laminates shares them, of lines that are in no table.
// It grows with every length and every number of pieces and falls with no loss: at each length it counts the pieces at least
// as long, over what the losses leave, rounded up.
func Volume(lines []bill.Line) float64 {
	sum := decimal.Zero
	for _, group := range Alike(lines, func(l bill.Line) bool { return l.Pieces != nil }) {
		left := bill.Remaining(group[0].Losses)
		if !left.IsPositive() {
			continue // no rules lose all
		}
		net, had, long := decimal.Zero, decimal.Zero, decimal.Zero
		for _, l := range group {
			net = net.Add(l.Net.Value())
			upTo := net.DivRound(left, derivation.DivisionPlaces).Ceil()
			long = long.Add(upTo.Sub(had).Mul(l.Pieces.Length.Value()))
			had = upTo
		}
		sum = sum.Add(long.Mul(group[0].Pieces.Thickness).Mul(group[0].Pieces.Siding))
	}
	return sum.Shift(-6).InexactFloat64()
}
