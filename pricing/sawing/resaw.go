package sawing

import "github.com/shopspring/decimal"

// Resaw is how a thick board is sawn into layers, mm: Kerf of one cut; Planing is taken off a layer's thickness in the place of
// the pieces' own; Height is the widest that goes under the guide, 0 for no limit.
type Resaw struct {
	Kerf    decimal.Decimal `json:"kerf_mm"`
	Planing decimal.Decimal `json:"planing_mm"`
	Height  decimal.Decimal `json:"height_mm"`
}

// OrNone is the figures, nothing where the yard does not resaw.
func (r *Resaw) OrNone() Resaw {
	if r == nil {
		return Resaw{}
	}
	return *r
}

// Sawn is how far the bandsaw runs in one board: a cut between every two layers, one more where the last layer would be left thicker, each
// as long as the board, in every strip where the board is ripped first.
func (w Way) Sawn(thickness, width, length decimal.Decimal, saw Resaw) decimal.Decimal {
	if w.Layers < 2 {
		return decimal.Zero
	}
	cuts := w.Layers - 1
	if w.LayerMM.Mul(decimal.NewFromInt(w.Layers)).Add(saw.Kerf.Mul(decimal.NewFromInt(cuts))).LessThan(thickness) {
		cuts++
	}
	if saw.Height.Sign() > 0 && width.GreaterThan(saw.Height) {
		cuts *= w.Across
	}
	return length.Mul(decimal.NewFromInt(cuts))
}
