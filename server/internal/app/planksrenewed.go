package app

import (
	"context"
	"fmt"

	"ribband/server/internal/auth"
	"ribband/takeoff/boat"
	"ribband/takeoff/drawing"
	"ribband/takeoff/hull/planking"
)

// RenewedPlanks draws one side's planks with those that an option renews marked. An option that renews none, and a side of which nothing
// says how it is planked, are a *QuestionError.
func (a *App) RenewedPlanks(ctx context.Context, who auth.Principal, job, option string, side boat.Side, width float64) (drawing.Drawing, error) {
	if !side.One() {
		return drawing.Drawing{}, &QuestionError{"side", "the drawing is of one side, and none is named", "port or starboard"}
	}
	d, w, err := a.workedDrawing(ctx, who, job, option)
	if err != nil {
		return drawing.Drawing{}, err
	}
	done, err := a.heavy(ctx)
	if err != nil {
		return drawing.Drawing{}, err
	}
	defer done()
	basis, faults := w.papers.basis()
	if len(faults) > 0 {
		return drawing.Drawing{}, &ComputeError{faults}
	}
	if len(basis.Planks) == 0 {
		return drawing.Drawing{}, &QuestionError{"side", "the option renews no planks", "an option that renews some"}
	}
	laid, made, taped, err := basis.RenewedOn(side)
	if err != nil {
		return drawing.Drawing{}, &QuestionError{"side", err.Error(), "put how that side is planked anew"}
	}
	if laid == nil {
		return drawing.Drawing{}, &QuestionError{"side", fmt.Sprintf("nothing says how the %s side is planked", side), "an option that renews planks of a boat with lines, and how she is planked"}
	}
	p := drawing.PlankExpansion{Sheet: d.sheet(width, d.hull), Notation: basis.Notation, Planking: laid, Option: d.option, Renewed: append([]planking.Renewed{}, made...)}
	for _, t := range taped {
		p.Beside = append(p.Beside, fmt.Sprintf("A plank of strake %d is renewed by tape and is not drawn: where it lies is not known.", t.Strake))
	}
	return p.Draw(), nil
}

// RenewedPlanksSVG is that drawing as a file.
func (a *App) RenewedPlanksSVG(ctx context.Context, who auth.Principal, job, option string, side boat.Side) (DrawingFile, error) {
	body, err := svgOf(a.RenewedPlanks(ctx, who, job, option, side, drawing.Wide))
	return DrawingFile{svgKind, body}, err
}
