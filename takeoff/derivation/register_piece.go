package derivation

import (
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Formulas of pieces let into frames, and of sisters.
var _ = enter(
	Formula{
		ID: "frame/stretch", Unit: quantity.Millimetre, Mode: None, Audience: Owner,
		Text:   "G = b - a",
		Legend: map[string]string{"a": "place along the girth where the piece begins, tapers included", "b": "place where it ends"},
		Source: "what was found, and the tapers of the scarfs",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("b", "a")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Sub(x[1]), nil
		},
	},
	Formula{
		ID: "frame/scarfs", Unit: quantity.Each, Mode: None, Audience: Owner,
		Text: "n scarfs, one at each end that does not run to the heel or the head", Legend: map[string]string{"n": "number of scarfs"},
		Source: "what was found",
		Work:   product("n"),
	},
	Formula{
		ID: "frame/scarf_faces", Unit: quantity.Millimetre, Places: 3, Mode: HalfAway, Audience: Yard,
		Text:   "F = length of the glued faces of the scarfs together, each cut on a taper s m long laid along the curve",
		Legend: map[string]string{"m": "moulded depth", "s": "slope of the scarf"},
		Source: "geometry; on a straight piece m sqrt(1 + s2) each",
	},
	Formula{
		ID: "frame/scarf_area", Unit: quantity.SquareMetre, Mode: HalfAway, Audience: Yard,
		Text: "A = F S / 1 000 000", Legend: map[string]string{"F": "length of the scarfs' faces", "S": "siding"}, Source: "geometry",
		Work: area("F", "S"),
	},
	Formula{
		ID: "frame/side_area", Unit: quantity.SquareMetre, Mode: HalfAway, Audience: Yard,
		Text: "A = G m / 1 000 000", Legend: map[string]string{"G": "length of the sister", "m": "moulded depth"}, Source: "geometry: the side that lies on the frame",
		Work: area("G", "m"),
	},
)

// area is the product of two lengths in millimetres, in square metres.
func area(a, b string) func(Terms) (decimal.Decimal, error) {
	work := product(a, b)
	return func(v Terms) (decimal.Decimal, error) {
		x, err := work(v)
		return x.Shift(-6), err
	}
}
