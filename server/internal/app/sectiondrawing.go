package app

import (
	"errors"
	"fmt"

	"ribband/pdf"
	"ribband/takeoff/drawing"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/mould"

	"github.com/shopspring/decimal"
)

// sectionMould is the section of the lines at a place along the boat, full size.
func (d drawn) sectionMould(q DrawingQuestion) (mould.Mould, error) {
	s, b, err := d.basis()
	if err != nil {
		return mould.Mould{}, err
	}
	section, err := b.Hull.Section(*q.XMM, q.Side)
	var outside *hull.OutsideError
	if errors.As(err, &outside) {
		return mould.Mould{}, &QuestionError{"x_mm", outside.Error(), fmt.Sprintf("from %.0f to %.0f, the measured length", outside.Forward, outside.Aft)}
	}
	if err != nil {
		return mould.Mould{}, err
	}
	return mould.OfSection(mould.Given{Frame: frame.Frame{Side: q.Side, X: decimal.NewFromFloat(*q.XMM)}, Section: section,
		Notation: s.offsets.Notation, Waterlines: mould.Waterlines(s.offsets), Slack: s.offsets.Grain.MM()})
}

func (d drawn) sectionSVG(q DrawingQuestion) ([]byte, error) {
	m, err := d.sectionMould(q)
	if err != nil {
		return nil, err
	}
	return svgOf(drawing.OneFrame{Sheet: d.sheet(drawing.Wide, d.hull), Mould: m}.Draw(), nil)
}

func (d drawn) sectionDXF(q DrawingQuestion) ([]byte, error) {
	m, err := d.sectionMould(q)
	if err != nil {
		return nil, err
	}
	return dxfOf(m.File())
}

// sectionPDF is the section in its true size, on as many sheets as it needs.
func (d drawn) sectionPDF(q DrawingQuestion) ([]byte, error) {
	m, err := d.sectionMould(q)
	if err != nil {
		return nil, err
	}
	s := d.sheet(drawing.Wide, d.hull)
	return pdf.WriteFullSize(pdf.FullSize{Boat: s.Boat, Date: s.Date, Revision: s.Revision, Note: s.Note, Mould: m, Paper: q.Paper, CreatedAt: d.hull.CreatedAt})
}
