package app

import (
	"errors"

	"ribband/takeoff/document"
	"ribband/takeoff/drawing"
	"ribband/takeoff/frame"
	"ribband/takeoff/notation"
)

// planksSVG is the plank expansion of one side.
func (d drawn) planksSVG(q DrawingQuestion) ([]byte, error) {
	return svgOf(d.plankExpansion(StrakesQuestion{Side: q.Side, Strakes: q.Strakes, Stock: q.Stock}, drawing.Wide))
}

// plankExpansion draws one side's strakes laid flat, on a sheet so many pixels wide. Before there are lines it is an
// empty sheet that says so.
func (d drawn) plankExpansion(q StrakesQuestion, width float64) (drawing.Drawing, error) {
	p := drawing.PlankExpansion{Sheet: d.sheet(width, d.hull)}
	offsets, fitted, err := d.lines()
	switch {
	case err != nil:
		return drawing.Drawing{}, err
	case offsets == nil:
		return p.Draw(), nil
	case fitted == nil:
		return drawing.Drawing{}, &ComputeError{document.Faults{{Pointer: "/hull", Detail: "strakes are laid out on fair curves, and the points of the offsets make none",
			Fix: "ask for the measures of the hull, which name every station that has none"}}}
	}
	p.Notation = offsets.Notation
	var frames []frame.Frame
	if d.frames.N > 0 {
		written, err := stored[frame.Document](kindFrames, d.frames.Body)
		if err != nil {
			return drawing.Drawing{}, err
		}
		var faults document.Faults
		if frames, faults = frame.Read(written); len(faults) > 0 {
			return drawing.Drawing{}, &ComputeError{faults.Under("/frames")}
		}
	}
	p.Planking, err = planked(fitted, offsets, frames, q.document(), notation.Millimetres)
	var faults document.Faults
	if errors.As(err, &faults) {
		err = &ComputeError{faults}
	}
	if err != nil {
		return drawing.Drawing{}, err
	}
	return p.Draw(), nil
}
