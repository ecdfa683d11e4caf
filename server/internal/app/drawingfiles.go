package app

import (
	"bytes"
	"context"
	"errors"
	"fmt"

	"ribband/pdf"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/drawing"
	"ribband/takeoff/dxf"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/mould"
	"ribband/takeoff/notation"
	"ribband/takeoff/pattern"
)

// Kinds of drawing files.
const (
	svgKind = "image/svg+xml"
	dxfKind = "image/vnd.dxf"
	pdfKind = "application/pdf"
)

// DrawingQuestion asks for one frame where a drawing is of one, for a side in so many strakes where it is of planks;
// Frame is negative, the others empty where none was named. Stock is lengths that boards come in, mm.
type DrawingQuestion struct {
	Frame int
	Side  boat.Side
	// XMM of a section, aft of station 0; nil where none was named.
	XMM *float64
	// Paper of a drawing on sheets; empty is A4.
	Paper   pdf.SheetSize
	Strakes int
	Stock   []float64
}

// DrawingFile is a drawing as bytes of a media type.
type DrawingFile struct {
	Kind string
	Body []byte
}

// drawingFile is one drawing that a job has: of the whole boat, of one frame, or of one side's planks.
type drawingFile struct {
	name, kind    string
	frame, planks bool
	section       bool // of one place along the boat
	sheets        bool // on paper, whose size may be asked for
	write         func(d drawn, q DrawingQuestion) ([]byte, error)
}

// drawingFiles is every drawing there is; the contract lists the same names.
var drawingFiles = []drawingFile{
	{name: "body-plan.svg", kind: svgKind, write: asSVG(drawn.bodyPlan)},
	{name: "profile.svg", kind: svgKind, write: asSVG(drawn.profile)},
	{name: "half-breadths.svg", kind: svgKind, write: asSVG(drawn.halfBreadths)},
	{name: "sections.dxf", kind: dxfKind, write: drawn.sections},
	{name: "frame.svg", kind: svgKind, frame: true, write: drawn.frameSVG},
	{name: "frame.dxf", kind: dxfKind, frame: true, write: drawn.frameDXF},
	{name: "frame.pdf", kind: pdfKind, frame: true, sheets: true, write: drawn.framePDF},
	{name: "section.svg", kind: svgKind, section: true, write: drawn.sectionSVG},
	{name: "section.dxf", kind: dxfKind, section: true, write: drawn.sectionDXF},
	{name: "section.pdf", kind: pdfKind, section: true, sheets: true, write: drawn.sectionPDF},
	{name: "floors.svg", kind: svgKind, write: asSVG(drawn.measuredFloors)},
	{name: "plank-expansion.svg", kind: svgKind, planks: true, write: drawn.planksSVG},
}

// DrawingNames are the names of all drawings.
func DrawingNames() []string {
	var out []string
	for _, f := range drawingFiles {
		out = append(out, f.name)
	}
	return out
}

// UnknownDrawingError: a name that no drawing has.
type UnknownDrawingError struct{ Name string }

func (e *UnknownDrawingError) Error() string { return fmt.Sprintf("there is no drawing %q", e.Name) }

// Drawing answers a job's drawing of that name from her papers as they stand. Errors are *UnknownDrawingError,
// *QuestionError where a frame is asked for and cannot be drawn, *MissingDocumentError and *ComputeError.
func (a *App) Drawing(ctx context.Context, who auth.Principal, job, name string, q DrawingQuestion) (DrawingFile, error) {
	d, err := a.drawnOf(ctx, who, job)
	if err != nil {
		return DrawingFile{}, err
	}
	for _, f := range drawingFiles {
		if f.name != name {
			continue
		}
		if err := f.asked(q); err != nil {
			return DrawingFile{}, err
		}
		if d.hull.N == 0 && (!f.frame || d.patterns.N == 0) {
			return DrawingFile{}, &MissingDocumentError{"the job has no hull yet", "put the offsets of the job first"}
		}
		done, err := a.heavy(ctx)
		if err != nil {
			return DrawingFile{}, err
		}
		defer done()
		body, err := f.write(d, q)
		return DrawingFile{f.kind, body}, err
	}
	return DrawingFile{}, &UnknownDrawingError{name}
}

// asked refuses a question for a frame or strakes where the drawing is of the boat, and one for none where it is of them.
func (f drawingFile) asked(q DrawingQuestion) error {
	if !f.section && q.XMM != nil {
		return &QuestionError{"x_mm", f.name + " is of no place along the boat", "the drawing without x_mm, or section.svg"}
	}
	if f.planks {
		switch {
		case q.Frame >= 0:
			return &QuestionError{"frame", f.name + " is of a side's planks", "the drawing without frame"}
		case q.Side == "":
			return &QuestionError{"side", f.name + " is of one side, and none is named", "port or starboard"}
		case q.Paper != "":
			return &QuestionError{"paper", f.name + " is not on sheets", "the drawing without paper"}
		case q.Strakes == 0:
			return &QuestionError{"strakes", f.name + " is of strakes, and how many is not said", "a number of strakes, 1 to 60"}
		}
		return nil
	}
	switch {
	case q.Strakes > 0:
		return &QuestionError{"strakes", f.name + " is not of planks", "the drawing without strakes"}
	case len(q.Stock) > 0:
		return &QuestionError{"stock_lengths_mm", f.name + " is not of planks", "the drawing without stock_lengths_mm"}
	case f.frame && q.Frame < 0:
		return &QuestionError{"frame", f.name + " is of one frame, and none is named", "the number of a frame of the job, with its side"}
	case f.section && q.XMM == nil:
		return &QuestionError{"x_mm", f.name + " is of one place along the boat, and none is named", "how far aft of station 0, in millimetres, with the side"}
	case f.section && q.Frame >= 0:
		return &QuestionError{"frame", f.name + " is of the boat and of no frame", "the drawing without frame, or frame.svg"}
	case (f.frame || f.section) && q.Side == "":
		return &QuestionError{"side", f.name + " is of one side, and none is named", "port or starboard"}
	case !f.frame && q.Frame >= 0:
		return &QuestionError{"frame", f.name + " is of the whole boat", "the drawing without frame"}
	case !f.sheets && q.Paper != "":
		return &QuestionError{"paper", f.name + " is not on sheets", "the drawing without paper, frame.pdf or section.pdf"}
	case !f.frame && !f.section && q.Side != "":
		return &QuestionError{"side", f.name + " is of the whole boat", "the drawing without side"}
	}
	return nil
}

// asSVG writes a drawing laid out for a screen.
func asSVG(make func(d drawn, width float64) (drawing.Drawing, error)) func(drawn, DrawingQuestion) ([]byte, error) {
	return func(d drawn, _ DrawingQuestion) ([]byte, error) {
		return svgOf(make(d, drawing.Wide))
	}
}

func svgOf(d drawing.Drawing, err error) ([]byte, error) {
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = draw.WriteSVG(&b, d.List, "plan")
	return b.Bytes(), err
}

func dxfOf(d dxf.Drawing) ([]byte, error) {
	var b bytes.Buffer
	err := dxf.Write(&b, d)
	return b.Bytes(), err
}

// sections are those of every station and side, in space.
func (d drawn) sections(DrawingQuestion) ([]byte, error) {
	_, b, err := d.basis()
	if err != nil {
		return nil, err
	}
	var all []mould.Placed
	for _, m := range b.Hull.Measures() {
		all = append(all, mould.Placed{Name: fmt.Sprintf("station %d %s", m.Station, m.Section.Side), Section: m.Section})
	}
	return dxfOf(mould.Sections(all))
}

// basis is the shapes as read, and the fair curves through them with the frames.
func (d drawn) basis() (shapes, takeoff.Basis, error) {
	var b takeoff.Basis
	lines, err := asPut[offsets.Document](d.hull)
	if err != nil {
		return shapes{}, b, err
	}
	patterns, err := asPut[pattern.Document](d.patterns)
	if err != nil {
		return shapes{}, b, err
	}
	s, faults := readShapes(lines, patterns)
	if len(faults) == 0 {
		faults = s.fit(&b)
	}
	if len(faults) > 0 {
		return s, b, &ComputeError{faults}
	}
	return s, b, nil
}

// asPut is a document, nil where it was never put.
func asPut[T any](of store.Document) (*T, error) {
	if of.N == 0 {
		return nil, nil
	}
	doc, err := stored[T](of.Kind, of.Body)
	return &doc, err
}

// framed is the basis with the job's frames.
func (d drawn) framed() (shapes, takeoff.Basis, error) {
	if d.frames.N == 0 {
		return shapes{}, takeoff.Basis{}, &MissingDocumentError{"the job has no frames yet", "put the frames of the job first"}
	}
	s, b, err := d.basis()
	if err != nil {
		return s, b, err
	}
	written, err := stored[frame.Document](kindFrames, d.frames.Body)
	if err != nil {
		return s, b, err
	}
	frames, faults := frame.Read(written)
	if len(faults) > 0 {
		return s, b, &ComputeError{faults.Under("/frames")}
	}
	b.Frames = frames
	return s, b, nil
}

// mould is one frame full size, in the shape that it is to have.
func (d drawn) mould(q DrawingQuestion) (mould.Mould, error) {
	s, b, err := d.framed()
	if err != nil {
		return mould.Mould{}, err
	}
	f, section, err := b.Shaped(boat.Member{Kind: boat.Frame, No: q.Frame, Side: q.Side})
	var unshaped *takeoff.UnshapedError
	if errors.As(err, &unshaped) {
		return mould.Mould{}, &QuestionError{"frame", unshaped.Error(), unshaped.Fix}
	}
	if err != nil {
		return mould.Mould{}, err
	}
	g := mould.Given{Frame: f, Section: section, Notation: notation.Millimetres}
	if s.set != nil {
		g.Notation = s.set.Notation
	}
	if s.offsets != nil {
		g.Notation, g.Waterlines, g.Slack = s.offsets.Notation, mould.Waterlines(s.offsets), s.offsets.Grain.MM()
	}
	return mould.Of(g)
}

func (d drawn) frameSVG(q DrawingQuestion) ([]byte, error) {
	m, err := d.mould(q)
	if err != nil {
		return nil, err
	}
	return svgOf(drawing.OneFrame{Sheet: d.sheet(drawing.Wide, d.frames), Mould: m}.Draw(), nil)
}

// framePDF is the frame in its true size, on as many sheets as it needs.
func (d drawn) framePDF(q DrawingQuestion) ([]byte, error) {
	m, err := d.mould(q)
	if err != nil {
		return nil, err
	}
	s := d.sheet(drawing.Wide, d.frames)
	return pdf.WriteFullSize(pdf.FullSize{Boat: s.Boat, Date: s.Date, Revision: s.Revision, Note: s.Note, Mould: m, Paper: q.Paper, CreatedAt: d.frames.CreatedAt})
}

func (d drawn) frameDXF(q DrawingQuestion) ([]byte, error) {
	m, err := d.mould(q)
	if err != nil {
		return nil, err
	}
	return dxfOf(m.File())
}
