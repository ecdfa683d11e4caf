package derivation

import (
	"errors"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Formulas of straps inside frames.
var _ = enter(
	Formula{
		ID: "strap/inner_length", Unit: quantity.Millimetre, Places: 3, Mode: HalfAway, Audience: Owner,
		Text: "G = length of the frame's inner face from heel to head", Legend: map[string]string{},
		Source: "the section at the moulded depth from the faying face: concentric curves",
	},
	Formula{
		ID: "strap/inner_length_bound", Unit: quantity.Millimetre, Places: 3, Mode: HalfAway, Audience: Owner,
		Text: "G = length of the frame's faying face, its inner face not being known", Legend: map[string]string{},
		Source: "longer than the inner face at a bilge, shorter in a hollow",
	},
	Formula{
		ID: "strap/length", Unit: quantity.Metre, Mode: Up, Audience: Owner,
		Text:   "L = (G f + a) / 1000",
		Legend: map[string]string{"G": "length of the inner face", "f": "high end of the girth's range, as a multiple", "a": "what a strap is cut longer"},
		Source: "the strap runs from heel to head (common practice, no source)",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("G", "f", "a")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Mul(x[1]).Add(x[2]).Shift(-3), nil
		},
	},
	Formula{
		ID: "strap/metal", Unit: quantity.Kilogram, Mode: Up, Audience: Yard,
		Text:   "W = L b t rho / 1 000 000",
		Legend: map[string]string{"L": "length of the strap", "b": "its width", "t": "its thickness", "rho": "density of the metal"},
		Source: "volume times density",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := product("L", "b", "t", "rho")(v)
			return x.Shift(-6), err
		},
	},
	Formula{
		ID: "strap/cloth", Unit: quantity.SquareMetre, Mode: Up, Audience: Yard,
		Text:   "A = n b L / 1000",
		Legend: map[string]string{"n": "layers of cloth", "b": "width of the strap", "L": "its length"},
		Source: "geometry",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := product("n", "b", "L")(v)
			return x.Shift(-3), err
		},
	},
	Formula{
		ID: "strap/resin", Unit: quantity.Litre, Mode: Up, Audience: Yard,
		Text:   "Q = A w (1 - p) / p / (1000 rho)",
		Legend: map[string]string{"A": "area of cloth", "w": "weight of the cloth, g/m2", "p": "share of fibre in the laminate's weight", "rho": "density of the resin, kg/L"},
		Source: "fibre weighs A w, and resin (1 - p) / p times as much",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("A", "w", "p", "rho")
			if err != nil {
				return decimal.Zero, err
			}
			if x[2].Sign() <= 0 || x[3].Sign() <= 0 {
				return decimal.Zero, errors.New("the share of fibre and the density of the resin must be above 0")
			}
			return x[0].Mul(x[1]).Mul(one.Sub(x[2])).DivRound(x[2].Mul(x[3]).Shift(3), DivisionPlaces), nil
		},
	},
	Formula{
		ID: "bill/gross_weight", Unit: quantity.Kilogram, Mode: Up, Audience: Yard,
		Text:   "W = w / ((1 - l1)(1 - l2)...), rounded up",
		Legend: map[string]string{"n": "needed net", "l": "a named loss, a fraction of what is bought"},
		Source: "the yard's losses by name", Work: gross,
	},
)
