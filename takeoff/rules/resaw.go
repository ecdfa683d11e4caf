package rules

import "github.com/shopspring/decimal"

// ResawRule is how the yard saws a thick board into thinner ones on the bandsaw; without it boards are ripped as they come.
type ResawRule struct {
	// Kerf of one cut, and Planing taken off a layer's thickness before gluing, in the place of the planing of other stock.
	Kerf    string `json:"kerf"`
	Planing string `json:"planing"`
	// Height is the widest that goes under the guide; a wider board is ripped first. Empty for no limit.
	Height string `json:"height,omitempty"`
}

// Resaw is ResawRule read, mm; Height 0 for no limit.
type Resaw struct{ Kerf, Planing, Height decimal.Decimal }

func (r *reader) resaw(d *ResawRule) *Resaw {
	if d == nil {
		return nil
	}
	out := &Resaw{Kerf: r.length("/resaw/kerf", d.Kerf, false), Planing: r.length("/resaw/planing", d.Planing, false)}
	if d.Height != "" {
		out.Height = r.length("/resaw/height", d.Height, true)
	}
	return out
}
