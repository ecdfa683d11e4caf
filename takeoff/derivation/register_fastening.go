package derivation

import (
	"errors"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Formulas of planks fastened to new frames.
var _ = enter(
	Formula{
		ID: "fastening/crossings", Unit: quantity.Each, Mode: Up, Audience: Owner,
		Text:   "n = G f / w, rounded up",
		Legend: map[string]string{"G": "girth of the frame", "f": "high end of the girth's range, as a multiple", "w": "width of a strake"},
		Source: "a new frame takes every strake that crosses it",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("G", "f", "w")
			if err != nil {
				return decimal.Zero, err
			}
			if x[2].Sign() <= 0 {
				return decimal.Zero, errors.New("the width of a strake must be above 0")
			}
			return x[0].Mul(x[1]).DivRound(x[2], DivisionPlaces), nil
		},
	},
	Formula{
		ID: "fastening/crossings_of_piece", Unit: quantity.Each, Mode: Up, Audience: Owner,
		Text:   "n = b / w, rounded up, less a / w, rounded down",
		Legend: map[string]string{"a": "where the piece begins along the girth", "b": "where it ends", "w": "width of a strake"},
		Source: "a piece takes every strake that lies on it, those that it only touches too, strakes counted from the rabbet",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("a", "b", "w")
			if err != nil {
				return decimal.Zero, err
			}
			if x[2].Sign() <= 0 {
				return decimal.Zero, errors.New("the width of a strake must be above 0")
			}
			return x[1].DivRound(x[2], DivisionPlaces).Ceil().Sub(x[0].DivRound(x[2], DivisionPlaces).Floor()), nil
		},
	},
	Formula{
		ID: "fastening/screws", Unit: quantity.Each, Mode: Up, Audience: Owner,
		Text:   "N = n s, rounded up",
		Legend: map[string]string{"n": "strakes that cross", "s": "screws of a strake on a frame"},
		Source: "the yard's rule of fastenings", Work: product("n", "s"),
	},
	Formula{
		ID: "fastening/plugs", Unit: quantity.Each, Mode: Up, Audience: Owner,
		Text: "P = N", Legend: map[string]string{"N": "screws"},
		Source: "a plug over every head", Work: product("N"),
	},
)
