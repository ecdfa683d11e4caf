package derivation

import (
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Formulas of laminates that are made up of lengths.
var _ = enter(
	Formula{
		ID: "frame/made_up_length", Unit: quantity.Metre, Mode: Up, Audience: Yard,
		Text:   "L = (b - a) / 1000",
		Legend: map[string]string{"a": "place along the blank where the length begins, its taper counted in", "b": "place where it ends"},
		Source: "joints of neighbouring laminates apart by the yard's rule, the fewest of them",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("b", "a")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Sub(x[1]).Shift(-3), nil
		},
	},
	Formula{
		ID: "frame/made_up_pieces", Unit: quantity.Each, Mode: None, Audience: Yard,
		Text: "n lengths alike in the laminates of the blank", Legend: map[string]string{"n": "number of lengths"},
		Source: "joints of neighbouring laminates apart by the yard's rule, the fewest of them",
		Work:   product("n"),
	},
	Formula{
		ID: "frame/laminate_joints", Unit: quantity.Each, Mode: None, Audience: Yard,
		Text: "n joints in the laminates of the blank", Legend: map[string]string{"n": "number of joints"},
		Source: "joints of neighbouring laminates apart by the yard's rule, the fewest of them",
		Work:   product("n"),
	},
	Formula{
		ID: "frame/laminate_scarf_face", Unit: quantity.Millimetre, Places: 3, Mode: HalfAway, Audience: Yard,
		Text:   "F = t sqrt(1 + s2), the length of the glued face of one scarf within a laminate",
		Legend: map[string]string{"t": "thickness of a laminate", "s": "slope of the scarf"},
		Source: "geometry of a feather scarf on a straight piece",
	},
	Formula{
		ID: "frame/laminate_scarf_area", Unit: quantity.SquareMetre, Mode: HalfAway, Audience: Yard,
		Text:   "A = n F S / 1 000 000",
		Legend: map[string]string{"n": "scarfs within laminates", "F": "length of the face of one", "S": "siding"}, Source: "geometry",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := product("n", "F", "S")(v)
			return x.Shift(-6), err
		},
	},
)
