package frame

import "github.com/shopspring/decimal"

// PlankingDocument is the planking that frames carry, as written: its thickness, and the width of a strake on the whole.
type PlankingDocument struct {
	Thickness string `json:"thickness"`
	Width     string `json:"width"`
}

// Planking is PlankingDocument read, mm.
type Planking struct{ Thickness, Width decimal.Decimal }

// MaxPlank, mm, is the thickest plank and the widest strake that are taken: more than any boat's, and less than a slip of the
// unit.
const (
	MaxPlank  = 200
	MaxStrake = 600
)

// planking of the whole boat; nil where it is not written.
func (r *reader) planking(d *PlankingDocument) *Planking {
	if d == nil {
		return nil
	}
	return &Planking{r.within("/planking/thickness", d.Thickness, decimal.NewFromInt(MaxPlank)), r.within("/planking/width", d.Width, decimal.NewFromInt(MaxStrake))}
}
