package derivation

import (
	"errors"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Formulas of frames that taper from heel to head.
var _ = enter(
	Formula{
		ID: "frame/run_out_length", Unit: quantity.Metre, Mode: Up, Audience: Yard,
		Text: "L = (h + a + Gh (m + e + c - (i - 1) t) / (m - d)) / 1000",
		Legend: map[string]string{"i": "number of the laminate, of those at the heel", "m": "moulded at the heel", "d": "moulded at the head", "e": "extra moulding for the bevel",
			"c": "cleaning up", "t": "thickness of a laminate", "G": "high end of the girth", "h": "heel housing", "a": "trim of the blank's ends"},
		Source: "the depth falls evenly along the girth; a laminate runs out where those left make the depth without it (common practice, no source)", Work: runOutLength,
	},
	Formula{
		ID: "frame/run_out", Unit: quantity.Each, Mode: None, Audience: Yard,
		Text: "1 laminate that runs out", Legend: map[string]string{}, Source: "the frame tapers from heel to head",
		Work: func(Terms) (decimal.Decimal, error) { return one, nil },
	},
	Formula{
		ID: "frame/glue_line_area_taper", Unit: quantity.SquareMetre, Mode: HalfAway, Audience: Yard,
		Text:   "A = S ((n - 1) L + l1 + l2 + ...) / 1000",
		Legend: map[string]string{"n": "laminates that run through", "S": "siding", "L": "length of the blank", "l": "length of a laminate that runs out"},
		Source: "each glue line is as wide as the siding and as long as the shorter of its two laminates",
		Work: func(v Terms) (decimal.Decimal, error) {
			return taperedLengths(v, one)
		},
	},
	Formula{
		ID: "frame/net_volume_taper", Unit: quantity.CubicMetre, Mode: HalfAway, Audience: Yard,
		Text: "V = t S (n L + l1 + l2 + ...) / 1 000 000",
		Legend: map[string]string{"n": "laminates that run through", "t": "thickness of a laminate", "S": "siding", "L": "length of the blank",
			"l": "length of a laminate that runs out"},
		Source: "the timber of the blank before cleaning up",
		Work: func(v Terms) (decimal.Decimal, error) {
			t, err := v.One("t")
			if err != nil {
				return decimal.Zero, err
			}
			area, err := taperedLengths(v, decimal.Zero)
			return area.Mul(t).Shift(-3), err
		},
	},
	Formula{
		ID: "frame/pattern_area_taper", Unit: quantity.SquareMetre, Mode: Up, Audience: Yard,
		Text:   "P = area of the smallest rectangle that encloses the frame's shape, were it as deep all along as at its heel",
		Legend: map[string]string{"x": "place of the frame aft of station 0", "m": "moulded depth at the heel"},
		Source: "each frame and each side needs its own pattern (common practice, no source)",
	},
)

// taperedLengths is S (n - less) L and S times the laminates that run out, m2 from mm and m.
func taperedLengths(v Terms, less decimal.Decimal) (decimal.Decimal, error) {
	x, err := v.Some("n", "S", "L")
	if err != nil {
		return decimal.Zero, err
	}
	out, err := total("l")(v)
	return x[0].Sub(less).Mul(x[2]).Add(out).Mul(x[1]).Shift(-3), err
}

func runOutLength(v Terms) (decimal.Decimal, error) {
	x, err := v.Some("i", "m", "d", "c", "t", "G", "h", "a")
	if err != nil {
		return decimal.Zero, err
	}
	i, heel, head, clean, thick, girth, housing, trim := x[0], x[1], x[2], x[3], x[4], x[5], x[6], x[7]
	more, err := total("e")(v)
	if err != nil {
		return decimal.Zero, err
	}
	falls := heel.Sub(head)
	if falls.Sign() <= 0 {
		return decimal.Zero, errors.New("a frame that does not taper drops no laminate")
	}
	left := decimal.Max(heel.Add(more).Add(clean).Sub(i.Sub(one).Mul(thick)), decimal.Zero)
	return housing.Add(trim).Add(left.Mul(girth).DivRound(falls, DivisionPlaces)).Shift(-3), nil
}
