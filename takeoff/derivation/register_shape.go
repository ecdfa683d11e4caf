package derivation

import (
	"errors"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Formulas of frames taken by a tape, and of the shape that a frame is to have.
var _ = enter(
	Formula{
		ID: "frame/tape_girth", Unit: quantity.Millimetre, Places: 3, Mode: HalfAway, Audience: Owner,
		Text:   "G = girth as taped",
		Legend: map[string]string{"G": "girth along the faying face from heel to head"},
		Source: "taped on the boat",
		Work:   product("G"),
	},
	Formula{
		ID: "frame/tape_radius", Unit: quantity.Millimetre, Places: 3, Mode: HalfAway, Audience: Owner,
		Text:   "R = c2 / (8 h) + h / 2, c2 = c x c",
		Legend: map[string]string{"c": "chord laid over the bilge", "h": "greatest rise of the faying face from the chord"},
		Source: "the circle through the ends of a chord and the top of its rise: geometry",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("c", "h")
			if err != nil {
				return decimal.Zero, err
			}
			if x[1].Sign() <= 0 {
				return decimal.Zero, errors.New("the rise must be above 0")
			}
			return x[0].Mul(x[0]).DivRound(x[1].Mul(decimal.NewFromInt(8)), DivisionPlaces).Add(x[1].Div(decimal.NewFromInt(2))), nil
		},
	},
	Formula{
		ID: "frame/pattern_area_bound", Unit: quantity.SquareMetre, Mode: Up, Audience: Yard,
		Text:   "P = area of a rectangle that surely encloses the frame's shape, faying face to inner face, whatever its girth encloses",
		Legend: map[string]string{"x": "place of the frame aft of station 0", "m": "moulded depth"},
		Source: "a curve no longer than its girth, bounded by the straight distance of its ends and its depth where they were taped: geometry",
	},
	Formula{
		ID: "frame/shape_difference", Unit: quantity.Millimetre, Places: 3, Mode: HalfAway, Audience: Owner,
		Text:   "d = greatest distance between the frame as found and its target, square to the target",
		Legend: map[string]string{"x": "place of the frame aft of station 0", "s": "place along the found girth from the rabbet"},
		Source: "the two sections laid over one another",
	},
	Formula{
		ID: "frame/shored", Unit: quantity.Each, Mode: None, Audience: Owner,
		Text:   "1 where d is more than e, otherwise 0",
		Legend: map[string]string{"d": "greatest distance between the frame as found and its target", "e": "distance that is let pass"},
		Source: "shoring to shape comes before the pattern, frame by frame (common practice, no source)",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("d", "e")
			if err != nil || !x[0].GreaterThan(x[1]) {
				return decimal.Zero, err
			}
			return one, nil
		},
	},
)
