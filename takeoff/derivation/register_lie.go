package derivation

import (
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Formulas of bent frames that lie flat on the planking.
var _ = enter(
	Formula{
		ID: "frame/lying_length", Unit: quantity.Millimetre, Places: 3, Mode: HalfAway, Audience: Owner,
		Text:   "G = length of the frame's line on the planking from rabbet to sheer, along the inside of the plank",
		Legend: map[string]string{"x": "place of the heel aft of station 0", "r": "how far the head stands aft of the heel"},
		Source: "the surface through the stations' fair curves; along the line x grows with the fraction of the girth",
	},
	Formula{
		ID: "frame/sweep", Unit: quantity.Millimetre, Places: 3, Mode: Up, Audience: Yard,
		Text:   "w = how far the frame's line, with the planking unrolled to the flat, stands off the straight from heel to head, both ways together",
		Legend: map[string]string{"x": "place of the heel aft of station 0", "r": "how far the head stands aft of the heel"},
		Source: "the curvature of a line within a surface is kept when the surface is unrolled: geometry",
	},
	Formula{
		ID: "frame/blank_siding", Unit: quantity.Millimetre, Places: 3, Mode: Up, Audience: Yard,
		Text:   "Sb = S + w + c",
		Legend: map[string]string{"S": "siding", "w": "sweep fore and aft", "c": "cleaning up"},
		Source: "a blank that is wide enough for the frame's sweep; lying flat it has no bevel to dress (common practice, no source)",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("S", "w", "c")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Add(x[1]).Add(x[2]), nil
		},
	},
)
