package derivation

import (
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Formulas of gluing up, beside the amounts of glue in register_material.go.
var _ = enter(
	Formula{
		ID: "glue/net_faces", Unit: quantity.Litre, Mode: HalfAway, Audience: Yard,
		Text:   "q = 2 A s",
		Legend: map[string]string{"A": "area of glue line", "s": "spread on a square metre of face, both faces of a line"},
		Source: "the yard's spread; n laminates have 2 (n - 1) glued faces",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := product("A", "s")(v)
			return x.Mul(decimal.NewFromInt(2)), err
		},
	},
	Formula{
		ID: "glue/part_a_by_weight", Unit: quantity.Litre, Mode: HalfAway, Audience: Yard,
		Text:   "A = Q a s / (a s + b r)",
		Legend: map[string]string{"Q": "glue to be mixed", "a": "parts of A by weight", "b": "parts of B by weight", "r": "density of A, kg in a litre", "s": "density of B, kg in a litre"},
		Source: "mix ratio by weight over the densities; the litres of the two parts add up (computed)",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("Q", "a", "b", "r", "s")
			if err != nil {
				return decimal.Zero, err
			}
			a, b := x[1].Mul(x[4]), x[2].Mul(x[3])
			return x[0].Mul(a).DivRound(a.Add(b), DivisionPlaces), nil
		},
	},
	Formula{
		ID: "glue/kg_by_volume", Unit: quantity.Kilogram, Mode: HalfAway, Audience: Yard,
		Text:   "W = Q a r / (a + b)",
		Legend: map[string]string{"Q": "glue to be mixed", "a": "parts of this by volume", "b": "parts of the other by volume", "r": "density of this, kg in a litre"},
		Source: "mix ratio by volume times density (computed)",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("Q", "a", "b", "r")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Mul(x[1]).Mul(x[3]).DivRound(x[1].Add(x[2]), DivisionPlaces), nil
		},
	},
	Formula{
		ID: "glue/kg_by_weight", Unit: quantity.Kilogram, Mode: HalfAway, Audience: Yard,
		Text:   "W = Q a r s / (a s + b r)",
		Legend: map[string]string{"Q": "glue to be mixed", "a": "parts of this by weight", "b": "parts of the other by weight", "r": "density of this, kg in a litre", "s": "density of the other"},
		Source: "mix ratio by weight; the litres of the two parts add up (computed)",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("Q", "a", "b", "r", "s")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Mul(x[1]).Mul(x[3]).Mul(x[4]).DivRound(x[1].Mul(x[4]).Add(x[2].Mul(x[3])), DivisionPlaces), nil
		},
	},
	Formula{
		ID: "glue/clamps", Unit: quantity.Each, Mode: None, Audience: Yard,
		Text:   "N = floor(1000 L / p) + 1",
		Legend: map[string]string{"L": "length of the blank", "p": "pitch of clamps"},
		Source: "one clamp at an end and one at every pitch from it (common practice, no source)",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("L", "p")
			if err != nil {
				return decimal.Zero, err
			}
			return quantity.SnapDecimal(x[0].Shift(3).DivRound(x[1], DivisionPlaces)).Floor().Add(one), nil
		},
	},
	Formula{
		ID: "glue/scarf_clamps", Unit: quantity.Each, Mode: None, Audience: Yard,
		Text:   "N = n (floor(m s / p) + 1)",
		Legend: map[string]string{"n": "number of scarfs", "m": "moulded depth, or thickness of a laminate", "s": "slope of the scarf", "p": "pitch of clamps"},
		Source: "one clamp at an end of each taper and one at every pitch from it (common practice, no source)",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("n", "m", "s", "p")
			if err != nil {
				return decimal.Zero, err
			}
			return quantity.SnapDecimal(x[1].Mul(x[2]).DivRound(x[3], DivisionPlaces)).Floor().Add(one).Mul(x[0]), nil
		},
	},
	Formula{
		ID: "glue/side_clamps", Unit: quantity.Each, Mode: None, Audience: Yard,
		Text:   "N = floor(G / p) + 1",
		Legend: map[string]string{"G": "length of the sister", "p": "pitch of clamps"},
		Source: "one clamp at an end and one at every pitch from it (common practice, no source)",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("G", "p")
			if err != nil {
				return decimal.Zero, err
			}
			return quantity.SnapDecimal(x[0].DivRound(x[1], DivisionPlaces)).Floor().Add(one), nil
		},
	},
)
