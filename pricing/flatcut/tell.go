package flatcut

import (
	"fmt"

	"ribband/pricing/money"
	"ribband/takeoff/cutting/flat"
	"ribband/takeoff/notation"
)

// length in the document's notation with its unit, as a tape is read.
func (d Document) length(c counted, n int64) string { return Written(d.Notation, n*c.unit) }

// Written is a length of nanometres in a notation with its unit.
func Written(in notation.Notation, nanometres int64) string {
	text := in.Format(notation.OfNanometres(nanometres))
	switch in {
	case notation.Millimetres:
		text += " mm"
	case notation.Metres:
		text += " m"
	case notation.Inches:
		text += " in"
	}
	return text
}

func (d Document) answer(c counted, plan flat.Plan) (Answer, error) {
	out := Answer{Proven: plan.Proven, Bought: []Lot{}, Certificate: plan.Certificate,
		Counted: Counted{c.mm(1), c.exact, c.list}}
	var err error
	if out.Cost, err = money.New(plan.Cost, d.Currency); err != nil {
		return Answer{}, err
	}
	if out.Bound, err = money.New(plan.Bound, d.Currency); err != nil {
		return Answer{}, err
	}
	out.Says = Sentence(out.Cost, out.Bound, plan.Proven)
	for _, l := range plan.Bought {
		lot := Lot{StockID: l.StockID, N: l.N}
		if lot.Cost, err = money.New(l.Cost, d.Currency); err != nil {
			return Answer{}, err
		}
		if l.Length > 0 {
			mm := c.mm(l.Length)
			lot.LengthMM = &mm
		}
		out.Bought = append(out.Bought, lot)
	}
	out.Layouts = Layouts(c.list, plan, c.unit, d.Notation, func(id string) string { return id })
	return out, nil
}

// Sentence says what a plan costs and what none can be below.
func Sentence(cost, bound money.Money, proven bool) string {
	if proven {
		return fmt.Sprintf("This plan costs %s %s; no plan of such cuts costs less.", cost, cost.Currency())
	}
	return fmt.Sprintf("This plan costs %s %s; none of such cuts can be below %s %s.", cost, cost.Currency(), bound, bound.Currency())
}

// Layouts are a plan's layouts as they lie, with every cut in words: lengths in a notation, pieces as name calls them. The list
// is counted in units of so many nanometres.
func Layouts(list flat.List, plan flat.Plan, unit int64, in notation.Notation, name func(piece string) string) []Layout {
	c := counted{list: list, unit: unit}
	next, out := map[string]int64{}, []Layout{}
	for _, y := range plan.Layout {
		out = append(out, c.layout(y, next, in, name))
	}
	return out
}

func (c counted) layout(y flat.Layout, next map[string]int64, in notation.Notation, name func(string) string) Layout {
	laid := c.list.Lay(y)
	out := Layout{StockID: y.StockID, FirstSheet: next[y.StockID] + 1, LastSheet: next[y.StockID] + y.N, First: y.First,
		WidthMM: c.mm(laid.Width), LengthMM: c.mm(laid.Length), Rectangles: []Rectangle{}, Cuts: []Cut{}}
	next[y.StockID] += y.N
	for _, p := range laid.Pieces {
		out.Rectangles = append(out.Rectangles, Rectangle{p.PieceID, c.mm(p.X), c.mm(p.Y), c.mm(p.Width), c.mm(p.Length), p.Turned, p.Paired})
	}
	says := laid.Says(c.stock(y.StockID).Roll(), func(n int64) string { return Written(in, n*c.unit) }, name)
	for i, s := range laid.Cuts {
		out.Cuts = append(out.Cuts, Cut{says[i], s.Of, s.Runs, s.Times, c.mm(s.Measure), s.Frees, s.PieceID, s.Paired})
	}
	return out
}
