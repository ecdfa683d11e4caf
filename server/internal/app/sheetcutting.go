package app

import (
	"context"
	"fmt"
	"strconv"

	"ribband/pricing/flatcut"
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
	unit := plan.Counted.UnitMM
	mm := func(n int64) float64 { return inMM(unit.Mul(decimal.NewFromInt(n))) }
	number := map[string]int{}
	for i, p := range d.Pieces {
		number[p.ID] = i + 1
	}
	out := drawing.CutSheets{Notation: d.Notation, Kerf: mm(plan.Counted.List.Rules.Kerf)}
	for _, y := range plan.Layouts {
		rolled := false
		for _, s := range d.Stock {
			rolled = rolled || s.ID == y.StockID && s.Per != ""
		}
		s := drawing.CutSheet{
			Name: sheetNamed(y, rolled), Size: sizeOf(d.Notation, inMM(y.WidthMM), inMM(y.LengthMM)),
			Width: inMM(y.WidthMM), Length: inMM(y.LengthMM), Trim: mm(plan.Counted.List.Rules.TrimEach), Rolled: rolled,
		}
		for _, r := range y.Rectangles {
			s.Pieces = append(s.Pieces, drawing.CutRectangle{Number: number[r.PieceID], Label: r.PieceID,
				X: inMM(r.XMM), Y: inMM(r.YMM), Width: inMM(r.WidthMM), Length: inMM(r.LengthMM), Turned: r.Turned, Paired: r.Paired})
		}
		for _, c := range y.Cuts {
			s.Steps = append(s.Steps, c.Says)
		}
		out.Layouts = append(out.Layouts, s)
	}
	return out
}

// sheetNamed says which of its kind are cut alike.
func sheetNamed(y flatcut.Layout, rolled bool) string {
	switch {
	case rolled:
		return y.StockID + ", off the roll"
	case y.LastSheet > y.FirstSheet:
		return fmt.Sprintf("%s, sheets %d to %d", y.StockID, y.FirstSheet, y.LastSheet)
	}
	return fmt.Sprintf("%s, sheet %d", y.StockID, y.FirstSheet)
}

func sizeOf(in notation.Notation, width, length float64) string {
	return drawing.AsRead(in, width) + " wide, " + drawing.AsRead(in, length) + " long"
}
