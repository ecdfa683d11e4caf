package app

import (
	"context"
	"fmt"
	"maps"
	"strconv"

	"ribband/pricing/flatcut"
	"ribband/pricing/pack"
	"ribband/takeoff/cutting/flat"
	"ribband/takeoff/drawing"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// PlanSheets finds the cheapest sheets, boards and lengths off rolls for a list that came along. Faults of the list refuse it.
func (a *App) PlanSheets(ctx context.Context, d flatcut.Document) (flatcut.Answer, error) {
	done, err := a.heavy(ctx)
	if err != nil {
		return flatcut.Answer{}, err
	}
	defer done()
	return d.Solve()
}

// DrawSheets is the drawing of such a plan: of all layouts, or of one, the first is 1. A layout that is not there is a
// *QuestionError.
func (a *App) DrawSheets(ctx context.Context, d flatcut.Document, layout int64) (DrawingFile, error) {
	plan, err := a.PlanSheets(ctx, d)
	if err != nil {
		return DrawingFile{}, err
	}
	if layout > int64(len(plan.Layouts)) {
		return DrawingFile{}, &QuestionError{"list", "there is no layout " + strconv.FormatInt(layout, 10), "a number from 1 to how many layouts the plan has, here " + strconv.Itoa(len(plan.Layouts))}
	}
	if layout > 0 {
		plan.Layouts = plan.Layouts[layout-1 : layout]
	}
	body, err := svgOf(cutSheets(plan, d).Draw(), nil)
	return DrawingFile{svgKind, body}, err
}

// cutSheets is a plan as it is drawn; pieces are numbered as they stand in the list.
func cutSheets(plan flatcut.Answer, d flatcut.Document) drawing.CutSheets {
	c := laidSheets{in: d.Notation, list: plan.Counted.List, unit: plan.Counted.UnitMM, label: func(id string) string { return id }}
	return c.drawn(plan.Layouts)
}

// boughtSheets is how the sheets of a buy list's item are cut, as it is drawn; the corner and the name are added.
func boughtSheets(p pack.Plan, in notation.Notation, labels map[string]string) drawing.CutSheets {
	called, within := maps.Clone(labels), map[string]*drawing.Outlines{}
	for _, two := range p.Sheets.Pairs {
		called[two.First], within[two.First] = two.Called, outlinesOf(two)
	}
	list := p.Sheets.Counted
	if p.Sheets.Laid != nil {
		list = *p.Sheets.Laid
	}
	c := laidSheets{in: in, list: list, unit: decimal.NewFromInt(1), label: func(id string) string { return called[id] }, within: within}
	out := c.drawn(p.Sheets.Layouts)
	out.Stuff = plainName(p.Item)
	return out
}

func outlinesOf(two pack.Pair) *drawing.Outlines {
	var out drawing.Outlines
	for side, outline := range two.Outlines {
		for _, p := range outline {
			out[side] = append(out[side], [2]float64{float64(p[0]), float64(p[1])})
		}
	}
	return &out
}

// laidSheets turns layouts into what is drawn.
type laidSheets struct {
	in    notation.Notation
	list  flat.List
	unit  decimal.Decimal // mm
	label func(piece string) string
	// within are the outlines of two that are cut as one rectangle, by its id; it may be nil.
	within map[string]*drawing.Outlines
}

func (c laidSheets) drawn(layouts []flatcut.Layout) drawing.CutSheets {
	mm := func(n int64) float64 { return inMM(c.unit.Mul(decimal.NewFromInt(n))) }
	number := map[string]int{}
	for i, p := range c.list.Pieces {
		number[p.ID] = i + 1
	}
	out := drawing.CutSheets{Notation: c.in, Kerf: mm(c.list.Rules.Kerf)}
	for _, y := range layouts {
		rolled := false
		for _, s := range c.list.Stock {
			rolled = rolled || s.ID == y.StockID && s.Roll()
		}
		s := drawing.CutSheet{
			Name: sheetNamed(y, rolled), Size: sizeOf(c.in, inMM(y.WidthMM), inMM(y.LengthMM)),
			Width: inMM(y.WidthMM), Length: inMM(y.LengthMM), Trim: mm(c.list.Rules.TrimEach), Rolled: rolled,
		}
		for _, r := range y.Rectangles {
			s.Pieces = append(s.Pieces, drawing.CutRectangle{Number: number[r.PieceID], Label: c.label(r.PieceID),
				X: inMM(r.XMM), Y: inMM(r.YMM), Width: inMM(r.WidthMM), Length: inMM(r.LengthMM), Turned: r.Turned, Paired: r.Paired || c.within[r.PieceID] != nil, Within: c.within[r.PieceID]})
		}
		for _, k := range y.Cuts {
			s.Steps = append(s.Steps, k.In(c.in, rolled, c.label(k.PieceID)))
		}
		out.Layouts = append(out.Layouts, s)
	}
	return out
}

// sheetNamed says which of its kind are cut alike.
func sheetNamed(y flatcut.Layout, rolled bool) string {
	switch {
	case rolled:
		return plainName(y.StockID) + ", off the roll"
	case y.LastSheet > y.FirstSheet:
		return fmt.Sprintf("%s, sheets %d to %d", plainName(y.StockID), y.FirstSheet, y.LastSheet)
	}
	return fmt.Sprintf("%s, sheet %d", plainName(y.StockID), y.FirstSheet)
}

func sizeOf(in notation.Notation, width, length float64) string {
	return drawing.AsRead(in, width) + " wide, " + drawing.AsRead(in, length) + " long"
}
