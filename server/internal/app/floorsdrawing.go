package app

import (
	"context"

	"ribband/server/internal/auth"
	"ribband/takeoff"
	"ribband/takeoff/drawing"
	"ribband/takeoff/floor"
)

// FloorsDrawing draws a job's floors with what the option does to them, on a sheet so many pixels wide. Errors are those of
// Takeoff.
func (a *App) FloorsDrawing(ctx context.Context, who auth.Principal, job, option string, width float64) (drawing.Drawing, error) {
	d, w, err := a.workedDrawing(ctx, who, job, option)
	if err != nil {
		return drawing.Drawing{}, err
	}
	return a.draw(ctx, d, "floors", width, func(width float64) (drawing.Drawing, error) {
		b, faults := w.papers.basis()
		if len(faults) > 0 {
			return drawing.Drawing{}, &ComputeError{faults}
		}
		shapes, err := b.FloorShapes(w.result.Figures)
		if err != nil {
			return drawing.Drawing{}, err
		}
		return drawing.Floors{Sheet: d.sheet(width, d.floors), Notation: b.Notation, Floors: drawnFloors(shapes)}.Draw(), nil
	})
}

// measuredFloors are a job's floors as they are measured, whatever is done to them.
func (d drawn) measuredFloors(width float64) (drawing.Drawing, error) {
	if d.floors.N == 0 {
		return drawing.Drawing{}, &MissingDocumentError{"the job has no floors yet", "put the floors of the job first"}
	}
	_, b, err := d.framed()
	if err != nil {
		return drawing.Drawing{}, err
	}
	written, err := stored[floor.Document](kindFloors, d.floors.Body)
	if err != nil {
		return drawing.Drawing{}, err
	}
	floors, faults := floor.Read(written)
	if len(faults) > 0 {
		return drawing.Drawing{}, &ComputeError{faults.Under("/floors")}
	}
	b.Floors = floors
	shapes, err := b.FloorShapes(nil)
	if err != nil {
		return drawing.Drawing{}, err
	}
	drawn := drawnFloors(shapes)
	for i := range drawn {
		drawn[i].Remedy = ""
	}
	return drawing.Floors{Sheet: d.sheet(width, d.floors), Notation: written.Notation, Floors: drawn}.Draw(), nil
}

// workedDrawing is an option's takeoff with what the corner of a drawing of it tells.
func (a *App) workedDrawing(ctx context.Context, who auth.Principal, job, option string) (drawn, *worked, error) {
	o, err := a.Option(ctx, who, job, option)
	if err != nil {
		return drawn{}, nil, err
	}
	d, err := a.drawnOf(ctx, who, job)
	if err != nil {
		return drawn{}, nil, err
	}
	w, err := a.takeoff(ctx, who, o)
	if err != nil {
		return drawn{}, nil, err
	}
	d.option, d.worked = o.Name, w.hash
	return d, w, nil
}

func drawnFloors(shapes []takeoff.FloorShape) []drawing.DrawnFloor {
	var out []drawing.DrawnFloor
	for _, s := range shapes {
		out = append(out, drawing.DrawnFloor{No: s.Member.No, Remedy: s.Remedy, Outline: s.Outline, Across: s.Across, Height: s.Height, Why: s.Why,
			Laminates: s.Laminates, Thick: s.Thick, ThroatRadius: s.ThroatRadius, Steepest: s.Grain.Steepest, Short: s.Short})
	}
	return out
}
