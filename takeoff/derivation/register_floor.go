package derivation

import (
	"errors"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Formulas of floors.
var _ = enter(
	Formula{
		ID: "floor/across", Unit: quantity.Millimetre, Places: 3, Mode: HalfAway, Audience: Owner,
		Text:   "A = width of the smallest level rectangle round the floor's outline at both of its faces",
		Legend: map[string]string{"x": "place of the floor aft of station 0"},
		Source: "sections of the two sides at the floor, each arm as far as it reaches",
	},
	Formula{
		ID: "floor/height", Unit: quantity.Millimetre, Places: 3, Mode: HalfAway, Audience: Owner,
		Text:   "H = height of the smallest level rectangle round the floor's outline at both of its faces",
		Legend: map[string]string{"x": "place of the floor aft of station 0", "d": "depth over the keel"},
		Source: "sections of the two sides at the floor, each arm as far as it reaches",
	},
	Formula{
		ID: "floor/by_hand", Unit: quantity.Millimetre, Mode: None, Audience: Owner,
		Text: "a, as it was measured by hand", Legend: map[string]string{"a": "what was measured"},
		Source: "the floor itself", Work: product("a"),
	},
	Formula{
		ID: "floor/along", Unit: quantity.Millimetre, Places: 3, Mode: HalfAway, Audience: Owner,
		Text:   "A = length of the floor's lower face from the end of one arm over the keel to that of the other",
		Legend: map[string]string{"x": "place of the floor aft of station 0"},
		Source: "sections of the two sides at the floor; straight across the keel, which no bend over it is longer than",
	},
	Formula{
		ID: "floor/outline_area", Unit: quantity.SquareMetre, Mode: HalfAway, Audience: Owner,
		Text:   "P = area within the floor's outline, its upper edges straight from the ends of the arms to the top over the keel; the whole rectangle where it was measured by hand",
		Legend: map[string]string{"x": "place of the floor aft of station 0"},
		Source: "sections of the two sides at the floor",
	},
	Formula{
		ID: "floor/blank_length", Unit: quantity.Metre, Mode: Up, Audience: Yard,
		Text:   "L = (A + a) / 1000",
		Legend: map[string]string{"A": "width across, or length along the lower face", "a": "trim of the blank's ends"},
		Source: "the blank holds the floor, its grain from arm to arm (common practice, no source)",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("A", "a")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Add(x[1]).Shift(-3), nil
		},
	},
	Formula{
		ID: "floor/blank_width", Unit: quantity.Millimetre, Places: 1, Mode: Up, Audience: Yard,
		Text:   "W = H + c",
		Legend: map[string]string{"H": "height of the rectangle round the floor", "c": "cleaning up"},
		Source: "the blank holds the floor (common practice, no source)",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("H", "c")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Add(x[1]), nil
		},
	},
	Formula{
		ID: "floor/net_volume", Unit: quantity.CubicMetre, Mode: HalfAway, Audience: Yard,
		Text: "V = P S / 1000", Legend: map[string]string{"P": "area within the outline", "S": "siding"}, Source: "geometry",
		Work: shifted(-3, "P", "S"),
	},
	Formula{
		ID: "floor/blank_volume", Unit: quantity.CubicMetre, Mode: HalfAway, Audience: Yard,
		Text: "V = L W S / 1 000 000", Legend: map[string]string{"L": "length of the blank", "W": "its width", "S": "siding"}, Source: "geometry",
		Work: shifted(-6, "L", "W", "S"),
	},
	Formula{
		ID: "floor/pattern_area", Unit: quantity.SquareMetre, Mode: Up, Audience: Yard,
		Text: "P = A H / 1 000 000", Legend: map[string]string{"A": "width across", "H": "height"},
		Source: "each floor needs its own pattern (common practice, no source)",
		Work:   shifted(-6, "A", "H"),
	},
	Formula{
		ID: "floor/worked", Unit: quantity.Each, Mode: None, Audience: Owner,
		Text: "1 a floor", Legend: map[string]string{}, Source: "each floor is worked by itself",
		Work: func(Terms) (decimal.Decimal, error) { return one, nil },
	},
	Formula{
		ID: "floor/laminates", Unit: quantity.Each, Mode: Up, Audience: Owner,
		Text:   "n = (d + c) / t, rounded up",
		Legend: map[string]string{"d": "depth over the keel", "c": "cleaning up", "t": "thickness of a laminate"},
		Source: "n t >= depth + cleaning up, as deep along the arms as over the keel",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("d", "c", "t")
			if err != nil {
				return decimal.Zero, err
			}
			if x[2].Sign() <= 0 {
				return decimal.Zero, errors.New("the thickness of a laminate must be above 0")
			}
			return quantity.SnapDecimal(x[0].Add(x[1]).DivRound(x[2], DivisionPlaces)), nil
		},
	},
	Formula{
		ID: "floor/bend", Unit: quantity.Millimetre, Places: 3, Mode: Down, Audience: Owner,
		Text:   "R = radius of the tightest bend of an arm's lower face, at the low end of its range",
		Legend: map[string]string{"x": "place of the floor aft of station 0"},
		Source: "fair curve through the written points, as far as the arm reaches",
	},
	Formula{
		ID: "floor/tightest", Unit: quantity.Millimetre, Mode: Down, Audience: Yard,
		Text:   "Rt = R - m; of a hollow Rt = R",
		Legend: map[string]string{"R": "radius of the lower face", "m": "depth: the laminate farthest from the planking is the tightest"},
		Source: "concentric laminates",
		Work: func(v Terms) (decimal.Decimal, error) {
			r, err := v.One("R")
			if err != nil || len(v["m"]) == 0 {
				return r, err
			}
			m, err := v.One("m")
			return r.Sub(m), err
		},
	},
	Formula{
		ID: "floor/laminate_thickness", Unit: quantity.Millimetre, Mode: None, Audience: Owner,
		Text:   "t = thickest that the yard rips that the bend takes; the thinnest where none is thin enough",
		Legend: map[string]string{"T": "thickest laminate that the bend takes", "r": "a thickness that the yard rips"},
		Source: "the yard's rules", Work: thickestThatBends,
	},
	Formula{
		ID: "bill/gross_board_feet", Unit: quantity.BoardFoot, Mode: Up, Audience: Yard,
		Text:   "B = n / ((1 - l1)(1 - l2)...), rounded up",
		Legend: map[string]string{"n": "needed net", "l": "a named loss, a fraction of what is bought"},
		Source: "the yard's losses by name", Work: gross,
	},
)

// shifted is a product with its point moved.
func shifted(places int32, symbols ...string) func(Terms) (decimal.Decimal, error) {
	work := product(symbols...)
	return func(v Terms) (decimal.Decimal, error) {
		x, err := work(v)
		return x.Shift(places), err
	}
}
