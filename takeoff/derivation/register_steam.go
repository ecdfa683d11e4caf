package derivation

import (
	"errors"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Formulas of solid frames bent in steam.
var _ = enter(
	Formula{
		ID: "steam/pieces", Unit: quantity.Each, Mode: None, Audience: Owner,
		Text: "n pieces, one for each layer of the frame", Legend: map[string]string{"n": "layers bent on one another"},
		Source: "the yard's rules", Work: product("n"),
	},
	Formula{
		ID: "steam/thickness", Unit: quantity.Millimetre, Mode: Up, Audience: Owner,
		Text:   "t = (m + e + c) / n",
		Legend: map[string]string{"m": "moulded", "e": "extra moulding for the bevel", "c": "cleaning up", "n": "layers bent on one another"},
		Source: "the layers together are as deep as moulded, bevel and cleaning up",
		Work: func(v Terms) (decimal.Decimal, error) {
			n, err := v.One("n")
			if err != nil {
				return decimal.Zero, err
			}
			return laminates(Terms{"m": v["m"], "c": v["c"], "e": v["e"], "t": {n}})
		},
	},
	Formula{
		ID: "steam/stock", Unit: quantity.Millimetre, Mode: None, Audience: Yard,
		Text:   "s = t / q rounded up, times q",
		Legend: map[string]string{"t": "size of the planed piece", "q": "step that sizes of solid stock go up by"},
		Source: "solid stock is sawn to few sizes, so that a spare serves more than one frame, and planed before it is bent", Work: upToStep,
	},
	Formula{
		ID: "steam/ratio", Unit: quantity.Ratio, Mode: Down, Audience: Yard,
		Text:   "R / t, nothing where R is not above 0",
		Legend: map[string]string{"R": "low end of the tightest concave face's radius", "t": "thickness of the piece"},
		Source: "limits of bending in steam are given as the radius of the concave face over the thickness",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := v.Some("R", "t")
			if err != nil {
				return decimal.Zero, err
			}
			if x[1].Sign() <= 0 {
				return decimal.Zero, errors.New("the thickness must be above 0")
			}
			return decimal.Max(x[0], decimal.Zero).DivRound(x[1], DivisionPlaces), nil
		},
	},
	Formula{
		ID: "steam/hours_each", Unit: quantity.Hour, Mode: Up, Audience: Yard,
		Text:   "h = k t / 25.4",
		Legend: map[string]string{"t": "thickness of the piece", "k": "hours in steam of an inch"},
		Source: "time in steam grows with the thickness, whatever the width",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := product("k", "t")(v)
			return x.DivRound(inchMM, DivisionPlaces), err
		},
	},
	Formula{
		ID: "steam/hours", Unit: quantity.Hour, Mode: None, Audience: Yard,
		Text:   "H = N h",
		Legend: map[string]string{"N": "pieces bent, those lost included", "h": "hours in steam of each"},
		Source: "every piece is steamed, those that break too", Work: product("N", "h"),
	},
	Formula{
		ID: "steam/net_volume", Unit: quantity.CubicMetre, Mode: HalfAway, Audience: Yard,
		Text:   "V = n t S L / 1 000 000",
		Legend: map[string]string{"n": "pieces", "t": "thickness of a piece", "S": "siding", "L": "length of the blank"},
		Source: "the timber of the blank before cleaning up",
		Work: func(v Terms) (decimal.Decimal, error) {
			x, err := product("n", "t", "S", "L")(v)
			return x.Shift(-6), err
		},
	},
	Formula{
		ID: "steam/per_load", Unit: quantity.Each, Mode: None, Audience: Yard,
		Text:   "k = floor((W + g) / (S + g)) floor((H + g) / (t + g)), or with the pieces on edge where that is more",
		Legend: map[string]string{"W": "width of the steam box inside", "H": "its height", "g": "what pieces lie apart in it", "S": "siding of a piece as sawn", "t": "thickness of a piece as sawn"},
		Source: "pieces lie side by side and in rows, steam all round them (common practice, no source)", Work: perLoad,
	},
	Formula{
		ID: "steam/boxed", Unit: quantity.Each, Mode: None, Audience: Yard,
		Text:   "b = p + N",
		Legend: map[string]string{"p": "pieces alike that went into the box before", "N": "pieces bent, those lost included"},
		Source: "pieces of one wood and section go into the box together, from the longest",
		Work: func(v Terms) (decimal.Decimal, error) {
			n, err := v.One("N")
			if err != nil {
				return decimal.Zero, err
			}
			before, err := total("p")(v)
			return before.Add(n), err
		},
	},
	Formula{
		ID: "steam/loads", Unit: quantity.Each, Mode: None, Audience: Yard,
		Text:   "L = b / k rounded up, less p / k rounded up",
		Legend: map[string]string{"b": "pieces alike in the box so far, these included", "p": "the same before these", "k": "pieces in a load"},
		Source: "a load is whole over all pieces alike, and counts where it is begun", Work: steamLoads,
	},
	Formula{
		ID: "steam/load_hours", Unit: quantity.Hour, Mode: None, Audience: Yard,
		Text:   "H = L h",
		Legend: map[string]string{"L": "loads of the box begun for these pieces", "h": "hours in steam"},
		Source: "a load is in steam as long as one piece of it", Work: product("L", "h"),
	},
	Formula{
		ID: "bill/running_pieces", Unit: quantity.Each, Mode: None, Audience: Yard,
		Text:   "r = p + n",
		Legend: map[string]string{"p": "pieces alike, of timber at least as long, of the needs before this one", "n": "needed net"},
		Source: "pieces alike are counted on, timber of one wood and section from the longest, so that a spare serves any that comes after",
		Work: func(v Terms) (decimal.Decimal, error) {
			n, err := v.One("n")
			if err != nil {
				return decimal.Zero, err
			}
			before, err := total("p")(v)
			return before.Add(n), err
		},
	},
	Formula{
		ID: "bill/shared_pieces", Unit: quantity.Each, Mode: None, Audience: Yard,
		Text:   "N = r / ((1 - l1)(1 - l2)...) rounded up, less p / ((1 - l1)(1 - l2)...) rounded up",
		Legend: map[string]string{"r": "pieces alike, of timber at least as long, this need's included", "p": "the same before this need", "l": "a named loss, a fraction of what is bought"},
		Source: "spare pieces are whole over all needs alike, and each is had with the need at which the count passes it", Work: sharedPieces,
	},
)

// inchMM is an inch, exact.
var inchMM = decimal.RequireFromString("25.4")

func perLoad(v Terms) (decimal.Decimal, error) {
	x, err := v.Some("W", "H", "g", "S", "t")
	if err != nil {
		return decimal.Zero, err
	}
	w, h, g := x[0], x[1], x[2]
	if !x[3].Add(g).IsPositive() || !x[4].Add(g).IsPositive() {
		return decimal.Zero, errors.New("a piece must have a size")
	}
	beside := func(room, size decimal.Decimal) decimal.Decimal {
		return quantity.SnapDecimal(room.Add(g).DivRound(size.Add(g), DivisionPlaces)).Floor()
	}
	return decimal.Max(beside(w, x[3]).Mul(beside(h, x[4])), beside(w, x[4]).Mul(beside(h, x[3]))), nil
}

func steamLoads(v Terms) (decimal.Decimal, error) {
	x, err := v.Some("b", "k")
	if err != nil {
		return decimal.Zero, err
	}
	before, err := total("p")(v)
	if err != nil {
		return decimal.Zero, err
	}
	if !x[1].IsPositive() {
		return decimal.Zero, errors.New("a load must hold a piece")
	}
	loads := func(n decimal.Decimal) decimal.Decimal { return n.DivRound(x[1], DivisionPlaces).Ceil() }
	return loads(x[0]).Sub(loads(before)), nil
}

func sharedPieces(v Terms) (decimal.Decimal, error) {
	r, err := v.One("r")
	if err != nil {
		return decimal.Zero, err
	}
	before, err := total("p")(v)
	if err != nil {
		return decimal.Zero, err
	}
	upTo := func(n decimal.Decimal) (decimal.Decimal, error) {
		g, err := gross(Terms{"n": {n}, "l": v["l"]})
		return g.Ceil(), err
	}
	now, err := upTo(r)
	if err != nil {
		return decimal.Zero, err
	}
	earlier, err := upTo(before)
	return now.Sub(earlier), err
}

func upToStep(v Terms) (decimal.Decimal, error) {
	x, err := v.Some("t", "q")
	if err != nil {
		return decimal.Zero, err
	}
	if x[1].Sign() <= 0 {
		return decimal.Zero, errors.New("the step must be above 0")
	}
	return quantity.SnapDecimal(x[0].DivRound(x[1], DivisionPlaces)).Ceil().Mul(x[1]), nil
}
