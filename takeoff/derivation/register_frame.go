package derivation

import (
	"errors"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

var one = decimal.NewFromInt(1)

// Formulas of bent and laminated frames.
var _ = enter(
	Formula{
		ID: "frame/girth", Unit: quantity.Millimetre, Places: 3, Mode: HalfAway, Audience: Owner,
		Text:   "G = arc length of the section from rabbet to sheer, along the inside of the plank",
		Legend: map[string]string{"x": "place of the frame aft of station 0"},
		Source: "fair curve through the written points: the curve whose curvature varies least among those the points and their grain allow",
	},
	Formula{
		ID: "frame/girth_high", Unit: quantity.Millimetre, Places: 3, Mode: Up, Audience: Yard,
		Text:   "Gh = G f",
		Legend: map[string]string{"G": "girth", "f": "high end of the girth's range, as a multiple"},
		Source: "range of the girth of this frame's fair curve, which holds nine times in ten; the high end, so that a length suffices",
		Work:   product("G", "f"),
	},
	Formula{
		ID: "frame/bilge_radius", Unit: quantity.Millimetre, Places: 3, Mode: HalfAway, Audience: Owner,
		Text:   "R = 1 / greatest curvature whose centre lies inboard, at the faying face",
		Legend: map[string]string{"x": "place of the frame aft of station 0", "s": "place along the girth from the rabbet"},
		Source: "fair curve through the written points",
	},
	Formula{
		ID: "frame/hollow_radius", Unit: quantity.Millimetre, Places: 3, Mode: HalfAway, Audience: Owner,
		Text:   "R = 1 / greatest curvature whose centre lies outboard, at the faying face",
		Legend: map[string]string{"x": "place of the frame aft of station 0", "s": "place along the girth from the rabbet"},
		Source: "fair curve through the written points",
	},
	Formula{
		ID: "frame/bilge_tightest_low", Unit: quantity.Millimetre, Mode: Down, Audience: Yard,
		Text:   "Rb = R f - m",
		Legend: map[string]string{"R": "radius of the bilge at the faying face", "f": "low end of the radius' range, as a multiple", "m": "moulded depth: the inboard laminate, or the inner face of a solid frame, is the tightest at a bilge"},
		Source: "curvature at depth d below the faying face is k / (1 - k d): concentric laminates",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("R", "f", "m")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Mul(x[1]).Sub(x[2]), nil
		},
	},
	Formula{
		ID: "frame/hollow_tightest_low", Unit: quantity.Millimetre, Mode: Down, Audience: Yard,
		Text:   "Rh = R f",
		Legend: map[string]string{"R": "radius of the hollow at the faying face", "f": "low end of the radius' range, as a multiple"},
		Source: "in a hollow the laminate at the faying face is the tightest: concentric laminates at depth 0",
		Work:   product("R", "f"),
	},
	Formula{
		ID: "frame/tightest_radius_low", Unit: quantity.Millimetre, Mode: Down, Audience: Yard,
		Text:   "Rt = least of Rb, Rh",
		Legend: map[string]string{"R": "low end of the radius at a bend, of the tightest laminate or concave face"},
		Source: "the tightest decides",
		Work: func(v Terms) (decimal.Decimal, error) {
			if len(v["R"]) == 0 {
				return decimal.Zero, errors.New("no bend is given")
			}
			return decimal.Min(v["R"][0], v["R"][1:]...), nil
		},
	},
	Formula{
		ID: "frame/thickest_laminate", Unit: quantity.Millimetre, Mode: Down, Audience: Yard,
		Text:   "T = Rt / k, nothing where Rt is not above 0",
		Legend: map[string]string{"R": "low end of the tightest laminate's radius", "k": "least radius over thickness that the yard bends to"},
		Source: "the yard's rule for bending dry laminates",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("R", "k")
			if err != nil {
				return decimal.Zero, err
			}
			if x[1].Sign() <= 0 {
				return decimal.Zero, errors.New("R/t must be above 0")
			}
			if x[0].Sign() <= 0 {
				return decimal.Zero, nil
			}
			return x[0].DivRound(x[1], DivisionPlaces), nil
		},
	},
	Formula{
		ID: "frame/thickest_laminate_strain", Unit: quantity.Millimetre, Mode: Down, Audience: Yard,
		Text:   "T = 2 Rt s M / (1 000 000 E), nothing where Rt is not above 0",
		Legend: map[string]string{"R": "low end of the tightest laminate's radius", "s": "working share of the strain at rupture", "M": "modulus of rupture, psi", "E": "modulus of elasticity, million psi"},
		Source: "the outer fibre of a laminate t thick is strained by t / (2R), and dry wood ruptures at about M / E",
		Work:   thickestByStrain,
	},
	Formula{
		ID: "frame/laminate_thickness", Unit: quantity.Millimetre, Mode: None, Audience: Owner,
		Text:   "t = thickest of those ripped for the boat that the bend takes; the thinnest of them where none is thin enough",
		Legend: map[string]string{"T": "thickest laminate that the bend takes", "r": "a thickness that is ripped for the boat"},
		Source: "of the thicknesses in the yard's rules the fewest different ones over the boat, then those that make the fewest laminates",
		Work:   thickestThatBends,
	},
	Formula{
		ID: "frame/laminate_thickness_straight", Unit: quantity.Millimetre, Mode: None, Audience: Owner,
		Text:   "t = thickest of those ripped for the boat: the frame is straight and any thickness lies to it",
		Legend: map[string]string{"r": "a thickness that is ripped for the boat"},
		Source: "of the thicknesses in the yard's rules the fewest different ones over the boat, then those that make the fewest laminates",
		Work: func(v Terms) (decimal.Decimal, error) {
			if len(v["r"]) == 0 {
				return decimal.Zero, errors.New("no thickness is given")
			}
			return decimal.Max(v["r"][0], v["r"][1:]...), nil
		},
	},
	Formula{
		ID: "frame/extra_moulding", Unit: quantity.Millimetre, Places: 3, Mode: HalfAway, Audience: Owner,
		Text:   "e = S tan b, b the widest angle of the faying face from square along the frame, of either sign",
		Legend: map[string]string{"S": "siding"},
		Source: "the faying face moves so far across the frame, and the blank has to hold both of its edges: geometry",
	},
	Formula{
		ID: "frame/laminates", Unit: quantity.Each, Mode: Up, Audience: Owner,
		Text:   "n = (m + e + c) / t, rounded up; e where the frame is bevelled",
		Legend: map[string]string{"m": "moulded", "e": "extra moulding for the bevel", "c": "cleaning up", "t": "thickness of a laminate"},
		Source: "n t >= moulded + extra moulding + cleaning up",
		Work:   laminates,
	},
	Formula{
		ID: "frame/blank_length", Unit: quantity.Metre, Mode: Up, Audience: Yard,
		Text:   "L = (e + Gh + h + a) / 1000",
		Legend: map[string]string{"e": "heel housing", "G": "high end of the girth", "h": "head", "a": "trim of the blank's ends"},
		Source: "length of a frame: heel housing, girth, head and trim (common practice, no source)",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("e", "G", "h", "a")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Add(x[1]).Add(x[2]).Add(x[3]).Shift(-3), nil
		},
	},
	Formula{
		ID: "frame/springback", Unit: quantity.Ratio, Mode: HalfAway, Audience: Yard,
		Text:   "c = n2 / (n2 - 1), n2 = n x n: how much tighter the form's curvature must be than the frame's",
		Legend: map[string]string{"n": "number of laminates"},
		Source: "springback of a glued stack y = x / n2, second-hand from a trade forum; the form for x is x n2 / (n2 - 1)",
		Work: func(v Terms) (decimal.Decimal, error) {
			n, err := v.One("n")
			if err != nil {
				return decimal.Zero, err
			}
			if n.LessThan(decimal.NewFromInt(2)) {
				return decimal.Zero, errors.New("springback needs at least two laminates")
			}
			n2 := n.Mul(n)
			return n2.DivRound(n2.Sub(one), DivisionPlaces), nil
		},
	},
	Formula{
		ID: "frame/glue_line_area", Unit: quantity.SquareMetre, Mode: HalfAway, Audience: Yard,
		Text:   "A = (n - 1) S L / 1000",
		Legend: map[string]string{"n": "number of laminates", "S": "siding", "L": "length of the blank"},
		Source: "n laminates have n - 1 glue lines, each as wide as the siding and as long as the blank",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("n", "S", "L")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Sub(one).Mul(x[1]).Mul(x[2]).Shift(-3), nil
		},
	},
	Formula{
		ID: "frame/net_volume", Unit: quantity.CubicMetre, Mode: HalfAway, Audience: Yard,
		Text:   "V = n t S L / 1 000 000",
		Legend: map[string]string{"n": "number of laminates", "t": "thickness of a laminate", "S": "siding", "L": "length of the blank"},
		Source: "the timber of the blank before cleaning up",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("n", "t", "S", "L")
			if err != nil {
				return decimal.Zero, err
			}
			return x[0].Mul(x[1]).Mul(x[2]).Mul(x[3]).Shift(-6), nil
		},
	},
	Formula{
		ID: "frame/pattern_area", Unit: quantity.SquareMetre, Mode: Up, Audience: Yard,
		Text:   "P = area of the smallest rectangle that encloses the frame's shape, faying face to inner face",
		Legend: map[string]string{"x": "place of the frame aft of station 0", "m": "moulded depth"},
		Source: "each frame and each side needs its own pattern (common practice, no source)",
	},
	Formula{
		ID: "frame/girth_m", Unit: quantity.Metre, Mode: HalfAway, Audience: Owner,
		Text: "g = G / 1000", Legend: map[string]string{"G": "girth"}, Source: "unit",
		Work: func(v Terms) (decimal.Decimal, error) {
			g, err := v.One("G")
			return g.Shift(-3), err
		},
	},
	Formula{
		ID: "frame/patterns", Unit: quantity.Each, Mode: None, Audience: Owner,
		Text: "1 a frame and side", Legend: map[string]string{},
		Source: "each frame and each side needs its own pattern (common practice, no source)",
		Work:   func(Terms) (decimal.Decimal, error) { return one, nil },
	},
	Formula{
		ID: "frame/worked", Unit: quantity.Each, Mode: None, Audience: Owner,
		Text: "1 a frame and side", Legend: map[string]string{}, Source: "the two halves of a frame are worked apart",
		Work: func(Terms) (decimal.Decimal, error) { return one, nil },
	},
)

func thickestThatBends(v Terms) (decimal.Decimal, error) {
	limit, err := v.One("T")
	if err != nil {
		return decimal.Zero, err
	}
	if len(v["r"]) == 0 {
		return decimal.Zero, errors.New("no thickness is given")
	}
	thinnest := decimal.Min(v["r"][0], v["r"][1:]...)
	best := thinnest
	for _, t := range v["r"] {
		if t.LessThanOrEqual(limit) && t.GreaterThan(best) {
			best = t
		}
	}
	return best, nil
}

func thickestByStrain(v Terms) (decimal.Decimal, error) {
	x, err := v.Some("R", "s", "M", "E")
	if err != nil {
		return decimal.Zero, err
	}
	if x[3].Sign() <= 0 {
		return decimal.Zero, errors.New("the modulus of elasticity must be above 0")
	}
	if x[0].Sign() <= 0 {
		return decimal.Zero, nil
	}
	return x[0].Mul(x[1]).Mul(x[2]).Mul(decimal.NewFromInt(2)).DivRound(x[3].Shift(6), DivisionPlaces), nil
}

func laminates(v Terms) (decimal.Decimal, error) {
	x, err := v.Some("m", "c", "t")
	if err != nil {
		return decimal.Zero, err
	}
	deep := x[0].Add(x[1])
	if len(v["e"]) > 0 {
		e, err := v.One("e")
		if err != nil {
			return decimal.Zero, err
		}
		deep = deep.Add(e)
	}
	if x[2].Sign() <= 0 {
		return decimal.Zero, errors.New("the thickness of a laminate must be above 0")
	}
	return quantity.SnapDecimal(deep.DivRound(x[2], DivisionPlaces)), nil
}

func product(symbols ...string) func(Terms) (decimal.Decimal, error) {
	return func(v Terms) (decimal.Decimal, error) {
		x, err := v.Some(symbols...)
		if err != nil {
			return decimal.Zero, err
		}
		p := one
		for _, d := range x {
			p = p.Mul(d)
		}
		return p, nil
	}
}
