package derivation

import (
	"errors"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Formulas of losses, timber, glue and hours.
var _ = enter(
	Formula{
		ID: "bill/gross_pieces", Unit: quantity.Each, Mode: Up, Audience: Yard,
		Text:   "N = n / ((1 - l1)(1 - l2)...), rounded up",
		Legend: map[string]string{"n": "needed net", "l": "a named loss, a fraction of what is bought"},
		Source: "the yard's losses by name", Work: gross,
	},
	Formula{
		ID: "bill/gross_litres", Unit: quantity.Litre, Mode: Up, Audience: Yard,
		Text:   "Q = q / ((1 - l1)(1 - l2)...), rounded up",
		Legend: map[string]string{"n": "needed net", "l": "a named loss, a fraction of what is bought"},
		Source: "the yard's losses by name", Work: gross,
	},
	Formula{
		ID: "bill/gross_area", Unit: quantity.SquareMetre, Mode: Up, Audience: Yard,
		Text:   "Q = q / ((1 - l1)(1 - l2)...), rounded up",
		Legend: map[string]string{"n": "needed net", "l": "a named loss, a fraction of what is bought"},
		Source: "the yard's losses by name", Work: gross,
	},
	Formula{
		ID: "timber/density", Unit: quantity.Density, Mode: HalfAway, Audience: Owner,
		Text:   "rho = 1000 G (1 + m / 100)",
		Legend: map[string]string{"G": "specific gravity on volume at moisture content m", "m": "moisture content, per cent"},
		Source: "D. R. Larsen, forestry functions, University of Missouri, after Wood Handbook FPL-GTR-190, USDA Forest Products Laboratory, 2010, ch. 4",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("G", "m")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Mul(decimal.NewFromInt(1000)).Mul(one.Add(x[1].Shift(-2))), nil
		},
	},
	Formula{
		ID: "timber/weight", Unit: quantity.Kilogram, Mode: HalfAway, Audience: Owner,
		Text: "W = V rho", Legend: map[string]string{"V": "net volume", "rho": "density at 12 % moisture"},
		Source: "density times volume", Work: product("V", "rho"),
	},
	Formula{
		ID: "timber/board_feet", Unit: quantity.BoardFoot, Mode: HalfAway, Audience: Yard,
		Text:   "B = V / 0.002359737216",
		Legend: map[string]string{"V": "volume"},
		Source: "1 board foot = 144 in3 = 0.002359737216 m3, exact; UN/ECE Recommendation 20 rev. 12e, 2016, BFT as 1/12 ft3",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.One("V")
			if err != nil {
				return decimal.Zero, err
			}
			return x.DivRound(boardFootM3, DivisionPlaces), nil
		},
	},
	Formula{
		ID: "timber/total_weight", Unit: quantity.Kilogram, Mode: None, Audience: Owner,
		Text: "W = W1 + W2 + ...", Legend: map[string]string{"W": "weight of a member's timber"},
		Source: "sum of the rounded weights shown", Work: total("W"),
	},
	Formula{
		ID: "glue/net", Unit: quantity.Litre, Mode: HalfAway, Audience: Yard,
		Text:   "q = A s",
		Legend: map[string]string{"A": "area of glue line", "s": "spread on a square metre of glue line"},
		Source: "the yard's spread", Work: product("A", "s"),
	},
	Formula{
		ID: "glue/part_a", Unit: quantity.Litre, Mode: HalfAway, Audience: Yard,
		Text:   "A = Q a / (a + b)",
		Legend: map[string]string{"Q": "glue to be mixed", "a": "parts of A by volume", "b": "parts of B by volume"},
		Source: "mix ratio by volume",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("Q", "a", "b")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Mul(x[1]).DivRound(x[1].Add(x[2]), DivisionPlaces), nil
		},
	},
	Formula{
		ID: "glue/part_b", Unit: quantity.Litre, Mode: None, Audience: Yard,
		Text: "B = Q - A", Legend: map[string]string{"Q": "glue to be mixed", "A": "litres of A"},
		Source: "the two parts make up the mix",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("Q", "A")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Sub(x[1]), nil
		},
	},
	Formula{
		ID: "step/hours", Unit: quantity.Hour, Mode: HalfAway, Audience: Yard,
		Text:   "H = s + h f (Q1 + Q2 + ...)",
		Legend: map[string]string{"s": "setting up and clearing away", "h": "hours per unit", "f": "factor of difficulty", "Q": "a measure of the driver"},
		Source: "the yard's own hours",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("s", "h", "f")
			if err != nil {
				return decimal.Zero, err
			}
			sum, err := total("Q")(v)
			return x[0].Add(x[1].Mul(x[2]).Mul(sum)), err
		},
	},
	Formula{
		ID: "step/hours_as_planned", Unit: quantity.Hour, Mode: HalfAway, Audience: Yard,
		Text:   "H = s + h f (Q - g1 - g2 ... + j1 + j2 + ...)",
		Legend: map[string]string{"s": "setting up and clearing away", "h": "hours per unit", "f": "factor of difficulty", "Q": "what the bill counts", "g": "scarfs of a piece that the bill counts", "j": "scarfs of that piece that the plan of its boards makes"},
		Source: "the yard's own hours, of the scarfs that the buy list makes",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("s", "h", "f", "Q")
			if err != nil {
				return decimal.Zero, err
			}
			counted := x[3]
			for _, g := range v["g"] {
				counted = counted.Sub(g)
			}
			for _, j := range v["j"] {
				counted = counted.Add(j)
			}
			return x[0].Add(x[1].Mul(x[2]).Mul(counted)), nil
		},
	},
	Formula{
		ID: "step/total_hours", Unit: quantity.Hour, Mode: None, Audience: Yard,
		Text: "H = H1 + H2 + ...", Legend: map[string]string{"H": "hours of a step"},
		Source: "sum of the rounded hours shown", Work: total("H"),
	},
)

// boardFootM3 is a board foot in cubic metres, exact: 144 x 0.0254^3.
var boardFootM3 = decimal.RequireFromString("0.002359737216")

func gross(v Terms) (decimal.Decimal, error) {
	n, err := v.One("n")
	if err != nil {
		return decimal.Zero, err
	}
	left := one
	for _, l := range v["l"] {
		if l.Sign() < 0 || l.GreaterThanOrEqual(one) {
			return decimal.Zero, errors.New("a loss must be at least 0 and below 1")
		}
		left = left.Mul(one.Sub(l))
	}
	return n.DivRound(left, DivisionPlaces), nil
}

func total(symbol string) func(Terms) (decimal.Decimal, error) {
	return func(v Terms) (decimal.Decimal, error) {
		sum := decimal.Zero
		for _, d := range v[symbol] {
			sum = sum.Add(d)
		}
		return sum, nil
	}
}
