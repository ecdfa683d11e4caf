package derivation

import (
	"errors"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

var plankEnds = map[string]string{"x0": "forward end of the plank aft of station 0", "x1": "its after end"}

// Formulas of new planks.
var _ = enter(
	Formula{
		ID: "plank/length", Unit: quantity.Millimetre, Places: 1, Mode: Up, Audience: Owner,
		Text: "L = length of the smallest rectangle that holds the plank laid flat, at the high end of its range", Legend: plankEnds,
		Source: "the strake laid out flat from the sections",
	},
	Formula{
		ID: "plank/width", Unit: quantity.Millimetre, Places: 1, Mode: Up, Audience: Owner,
		Text: "W = width of the smallest rectangle that holds the plank laid flat, its round in it, at the high end of its range", Legend: plankEnds,
		Source: "the strake laid out flat from the sections",
	},
	Formula{
		ID: "plank/run", Unit: quantity.Millimetre, Places: 1, Mode: HalfAway, Audience: Owner,
		Text: "L = half the sum of the lengths of the plank's two edges", Legend: plankEnds,
		Source: "the strake laid out flat from the sections",
	},
	Formula{
		ID: "plank/backing", Unit: quantity.Millimetre, Places: 1, Mode: Up, Audience: Owner,
		Text: "b = greatest hollowing of the plank's inner face, its width squared times the curvature of the section, over 8", Legend: plankEnds,
		Source: "the sagitta of the section under the plank; in a hollow the outer face is rounded as much",
	},
	Formula{
		ID: "plank/area", Unit: quantity.SquareMetre, Mode: HalfAway, Audience: Owner,
		Text: "P = area of the plank", Legend: plankEnds, Source: "the strake laid out flat from the sections",
	},
	Formula{
		ID: "plank/by_hand", Unit: quantity.Millimetre, Mode: None, Audience: Owner,
		Text: "a, as it was measured by hand", Legend: map[string]string{"a": "what was measured; nothing where it was not"},
		Source: "the plank itself", Work: product("a"),
	},
	Formula{
		ID: "plank/area_by_hand", Unit: quantity.SquareMetre, Mode: HalfAway, Audience: Owner,
		Text: "P = L W / 1 000 000", Legend: map[string]string{"L": "length by hand", "W": "width by hand"},
		Source: "the whole rectangle, for nothing else was measured", Work: shifted(-6, "L", "W"),
	},
	Formula{
		ID: "plank/board_length", Unit: quantity.Metre, Mode: Up, Audience: Yard,
		Text:   "L = (L + a) / 1000",
		Legend: map[string]string{"L": "length of the rectangle", "a": "trim of the blank's ends"},
		Source: "the board holds the plank (common practice, no source)",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("L", "a")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Add(x[1]).Shift(-3), nil
		},
	},
	Formula{
		ID: "plank/board_width", Unit: quantity.Millimetre, Places: 1, Mode: Up, Audience: Yard,
		Text: "W, rounded up", Legend: map[string]string{"W": "width of the rectangle"},
		Source: "the board holds the plank; planing of its edges is added where it is ripped", Work: product("W"),
	},
	Formula{
		ID: "plank/board_thickness", Unit: quantity.Millimetre, Mode: None, Audience: Yard,
		Text: "T + b", Legend: map[string]string{"T": "thickness of the finished plank", "b": "backing out, or rounding in a hollow"},
		Source: "the board holds the plank before it is backed out; planing of its faces is added where the board is chosen",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("T", "b")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Add(x[1]), nil
		},
	},
	Formula{
		ID: "plank/scarfs", Unit: quantity.Each, Mode: None, Audience: Owner,
		Text:   "n = k - 1, k the least number of lengths with (L + (k - 1) s T / 1000) / k <= l / 1000",
		Legend: map[string]string{"L": "length of the board", "s": "slope of the scarf", "T": "thickness of the board", "l": "longest length of the stock, its ends trimmed"},
		Source: "a plank longer than the stock is made of as few lengths as it can be, all alike", Work: plankScarfs,
	},
	Formula{
		ID: "plank/scarfed_length", Unit: quantity.Metre, Mode: Up, Audience: Yard,
		Text:   "(L + n s T / 1000) / (n + 1)",
		Legend: map[string]string{"L": "length of the board", "n": "scarfs", "s": "slope of the scarf", "T": "thickness of the board"},
		Source: "each scarf takes a taper of s T more",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("L", "n", "s", "T")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Add(x[1].Mul(x[2]).Mul(x[3]).Shift(-3)).DivRound(x[1].Add(one), DivisionPlaces), nil
		},
	},
	Formula{
		ID: "plank/lengths", Unit: quantity.Each, Mode: None, Audience: Yard,
		Text: "k = n + 1", Legend: map[string]string{"n": "scarfs"}, Source: "a scarf joins two lengths",
		Work: func(v Terms) (decimal.Decimal, error) {
			n, err := v.One("n")
			return n.Add(one), err
		},
	},
	Formula{
		ID: "plank/scarf_face", Unit: quantity.Millimetre, Places: 3, Mode: HalfAway, Audience: Yard,
		Text:   "F = T sqrt(1 + s2), the length of the glued face of one scarf",
		Legend: map[string]string{"T": "thickness of the board", "s": "slope of the scarf"},
		Source: "geometry of a feather scarf on a straight piece",
	},
	Formula{
		ID: "plank/scarf_taper", Unit: quantity.Millimetre, Places: 1, Mode: Up, Audience: Yard,
		Text:   "t = s T, how far the parts lie over each other",
		Legend: map[string]string{"s": "slope of the scarf", "T": "thickness of the board"},
		Source: "geometry of a feather scarf on a straight piece", Work: product("s", "T"),
	},
	Formula{
		ID: "plank/scarf_area", Unit: quantity.SquareMetre, Mode: HalfAway, Audience: Yard,
		Text: "A = n F W / 1 000 000", Legend: map[string]string{"n": "scarfs", "F": "length of the face of one", "W": "width of the board"}, Source: "geometry",
		Work: shifted(-6, "n", "F", "W"),
	},
	Formula{
		ID: "plank/net_volume", Unit: quantity.CubicMetre, Mode: HalfAway, Audience: Yard,
		Text: "V = P T / 1000", Legend: map[string]string{"P": "area of the plank", "T": "thickness of the finished plank"}, Source: "geometry",
		Work: shifted(-3, "P", "T"),
	},
	Formula{
		ID: "plank/board_volume", Unit: quantity.CubicMetre, Mode: HalfAway, Audience: Yard,
		Text: "V = L W T / 1 000 000", Legend: map[string]string{"L": "length of the board", "W": "its width", "T": "its thickness"}, Source: "geometry",
		Work: shifted(-6, "L", "W", "T"),
	},
	Formula{
		ID: "plank/worked", Unit: quantity.Each, Mode: None, Audience: Owner,
		Text: "1 a plank", Legend: map[string]string{}, Source: "each plank is spiled by itself",
		Work: func(Terms) (decimal.Decimal, error) { return one, nil },
	},
	Formula{
		ID: "plank/metres", Unit: quantity.Metre, Mode: HalfAway, Audience: Owner,
		Text: "L / 1000", Legend: map[string]string{"L": "length of the plank along its middle"}, Source: "geometry",
		Work: shifted(-3, "L"),
	},
	Formula{
		ID: "plank/butts", Unit: quantity.Each, Mode: None, Audience: Owner,
		Text: "k", Legend: map[string]string{"k": "ends of the plank at butts that were not there"},
		Source: "a new butt wants its block", Work: product("k"),
	},
	Formula{
		ID: "plank/butt_room", Unit: quantity.Millimetre, Places: 1, Mode: Down, Audience: Yard,
		Text: "B = from frame to frame along the middle of the plank, of the two that the butt stands between", Legend: map[string]string{"x": "the butt aft of station 0"},
		Source: "the strake laid out flat from the sections",
	},
	Formula{
		ID: "plank/butt_width", Unit: quantity.Millimetre, Places: 1, Mode: Up, Audience: Yard,
		Text: "W = width of the plank at the butt, at the high end of its range", Legend: map[string]string{"x": "the butt aft of station 0"},
		Source: "the strake laid out flat from the sections",
	},
	Formula{
		ID: "plank/block_length", Unit: quantity.Metre, Mode: Down, Audience: Yard,
		Text:   "L = (B - s - 2 c) / 1000",
		Legend: map[string]string{"B": "from frame to frame along the plank", "s": "siding of the frame", "c": "left clear for water at either end"},
		Source: "a butt block fills its bay but for where water drains (common practice, no source)",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("B", "s", "c")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Sub(x[1]).Sub(x[2]).Sub(x[2]).Shift(-3), nil
		},
	},
	Formula{
		ID: "plank/block_width", Unit: quantity.Millimetre, Places: 1, Mode: Up, Audience: Yard,
		Text: "W + 2 l", Legend: map[string]string{"W": "width of the plank at the butt", "l": "lap past either edge"},
		Source: "a butt block laps the strakes above and below (common practice, no source)",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("W", "l")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Add(x[1]).Add(x[1]), nil
		},
	},
	Formula{
		ID: "plank/block_volume", Unit: quantity.CubicMetre, Mode: HalfAway, Audience: Yard,
		Text: "V = L W T / 1 000 000", Legend: map[string]string{"L": "length of the block", "W": "its width", "T": "its thickness"}, Source: "geometry",
		Work: shifted(-6, "L", "W", "T"),
	},
	Formula{
		ID: "plank/block", Unit: quantity.Each, Mode: None, Audience: Owner,
		Text: "1 a butt", Legend: map[string]string{}, Source: "each butt between frames is backed by a block of its own",
		Work: func(Terms) (decimal.Decimal, error) { return one, nil },
	},
	Formula{
		ID: "plank/end_screws", Unit: quantity.Each, Mode: Up, Audience: Yard,
		Text: "N = e s, rounded up", Legend: map[string]string{"e": "ends of planks that are fastened", "s": "screws in each"},
		Source: "each end of a plank once: at a butt that is new both planks' ends, at one that was there the new plank's", Work: product("e", "s"),
	},
	Formula{
		ID: "plank/crossings", Unit: quantity.Each, Mode: None, Audience: Owner,
		Text:   "n = k - r",
		Legend: map[string]string{"k": "frames that the plank lies on", "r": "those of them that are renewed there, whose crossings are counted with the frame"},
		Source: "a new plank is fastened to every frame that it lies on, each crossing once",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("k", "r")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Sub(x[1]), nil
		},
	},
)

// mostLengths of one plank; an assumption, no source.
const mostLengths = 10

func plankScarfs(v Terms) (decimal.Decimal, error) {
	x, err := v.Some("L", "s", "T", "l")
	if err != nil {
		return decimal.Zero, err
	}
	for n := range int64(mostLengths) {
		scarfs, k := decimal.NewFromInt(n), decimal.NewFromInt(n+1)
		if !x[0].Shift(3).Add(scarfs.Mul(x[1]).Mul(x[2])).GreaterThan(k.Mul(x[3])) {
			return scarfs, nil
		}
	}
	return decimal.Zero, errors.New("the plank takes more lengths than anybody scarfs")
}
