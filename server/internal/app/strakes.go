package app

import (
	"context"
	"errors"
	"strconv"

	"ribband/server/internal/auth"
	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/butt"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/notation"
)

// StrakesQuestion asks for equal strakes of one side; lengths are millimetres. Thickness is 0 where it is not known,
// Stock empty where no butts are asked for.
type StrakesQuestion struct {
	Side      boat.Side
	Strakes   int
	Thickness float64
	Stock     []float64
}

// document of the question, lengths in millimetres.
func (q StrakesQuestion) document() planking.Document {
	text := func(mm float64) string { return strconv.FormatFloat(mm, 'f', -1, 64) }
	d := planking.Document{Side: q.Side, Strakes: planking.Division{Count: q.Strakes}}
	if q.Thickness > 0 {
		d.PlankThickness = text(q.Thickness)
	}
	for _, l := range q.Stock {
		d.StockLengths = append(d.StockLengths, text(l))
	}
	return d
}

// StrakesOf answers from a job's lines and frames as they stand.
func (a *App) StrakesOf(ctx context.Context, who auth.Principal, job string, q StrakesQuestion) (Strakes, error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return Strakes{}, err
	}
	of, err := a.measured(ctx, who, job)
	if err != nil {
		return Strakes{}, err
	}
	if of.Hull == nil {
		return Strakes{}, &MissingDocumentError{"the job has no hull yet", "put the offsets of the job first"}
	}
	if len(q.Stock) > 0 && of.Frames == nil {
		return Strakes{}, &MissingDocumentError{"the job has no frames yet, and planks butt between frames", "put the frames of the job first, or ask without stock_lengths_mm"}
	}
	out, err := a.layOut(ctx, Measured{Hull: of.Hull, Frames: of.Frames}, q.document(), notation.Millimetres)
	var faults document.Faults
	if errors.As(err, &faults) {
		return Strakes{}, &ComputeError{faults}
	}
	return out, err
}

// LayStrakes lays out what came along, lengths in the notation of its table of offsets.
func (a *App) LayStrakes(ctx context.Context, of Measured, doc planking.Document) (Strakes, error) {
	return a.layOut(ctx, of, doc, of.Hull.Notation)
}

func (a *App) layOut(ctx context.Context, of Measured, doc planking.Document, in notation.Notation) (Strakes, error) {
	done, err := a.heavy(ctx)
	if err != nil {
		return Strakes{}, err
	}
	defer done()
	shapes, faults := readShapes(of.Hull, nil)
	var frames []frame.Frame
	if of.Frames != nil {
		read, inFrames := frame.Read(*of.Frames)
		frames = read
		faults = append(faults, inFrames.Under("/frames")...)
	}
	var b takeoff.Basis
	if len(faults) == 0 {
		faults = shapes.fit(&b)
	}
	if len(faults) > 0 {
		return Strakes{}, faults
	}
	p, err := planked(b.Hull, shapes.offsets, frames, doc, in)
	if err != nil {
		return Strakes{}, err
	}
	out := strakesOf(p, shapes.offsets.Notation)
	out.Grain, out.GrainAssumed = shapes.offsets.Notation.Format(shapes.offsets.Grain), shapes.offsets.GrainAssumed
	return out, nil
}

// planked lays out one side, or says what is wrong with how it is asked for.
func planked(h *hull.Hull, table *offsets.Table, frames []frame.Frame, doc planking.Document, in notation.Notation) (*planking.Planking, error) {
	terms, faults := planking.Read(doc, h, in, planking.Endings(table)...)
	if len(faults) > 0 {
		return nil, faults
	}
	p, err := planking.Lay(h, bays(frames, doc.Side), terms)
	var few *planking.NoFramesError
	var no *butt.FramesError
	var beyond *planking.BeyondError
	switch {
	case err == nil:
		return p, nil
	case errors.As(err, &beyond):
		return nil, document.Faults{{Pointer: "/butts", Detail: err.Error(), Fix: "butts short of where the transom cuts the planks off"}}
	case errors.As(err, &few), errors.As(err, &no):
		return nil, document.Faults{{Pointer: "/frames", Detail: err.Error(), Fix: "frames of that side, from forward, at least two of them between the first and the last station"}}
	}
	return nil, document.Faults{{Pointer: "/strakes", Detail: err.Error(), Fix: "fewer strakes, or edges that rise from rabbet to sheer"}}
}

// bays are the frames of a side as planks butt between them.
func bays(frames []frame.Frame, side boat.Side) []butt.Frame {
	var out []butt.Frame
	for _, f := range frames {
		if f.Side == side {
			out = append(out, butt.Frame{No: f.No, X: f.X.InexactFloat64()})
		}
	}
	return out
}
