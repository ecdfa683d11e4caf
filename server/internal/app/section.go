package app

import (
	"context"
	"errors"
	"fmt"
	"math"

	"ribband/server/internal/auth"
	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/quantity"
)

// SectionQuestion asks for one side of the boat at a frame, or at XMM aft of station 0 where Frame is negative. Without
// Heights, mm, it asks for tenths of the girth.
type SectionQuestion struct {
	Side    boat.Side
	Frame   int
	XMM     float64
	Heights []float64
}

// QuestionError: a question that the boat has no answer to, with the parameter that would change that.
type QuestionError struct{ Parameter, Detail, Fix string }

func (e *QuestionError) Error() string { return e.Parameter + ": " + e.Detail }

// Section is what the lines of a boat are at one place along her, on one side.
type Section struct {
	XMM     float64      `json:"x_mm"`
	Side    boat.Side    `json:"side"`
	RestsOn boat.RestsOn `json:"rests_on"`
	GirthMM float64      `json:"girth_mm"`
	// GirthLowMM and GirthHighMM are between what the girth lies nine times in ten, as the ranges of area and radius.
	GirthLowMM  float64 `json:"girth_low_mm"`
	GirthHighMM float64 `json:"girth_high_mm"`
	// SectionAreaM2 is from the section to the centreline, in the plane of the section.
	SectionAreaM2 Ranged `json:"section_area_m2"`
	LeastBend
	// Frame is there when a frame was asked for.
	Frame  *FrameBevels   `json:"frame,omitempty"`
	Places []SectionPlace `json:"places"`
	// Knuckles are the declared corners from the rabbet.
	Knuckles []SectionKnuckle `json:"knuckles,omitempty"`
}

// SectionKnuckle is a declared corner of the section: by how much it turns there, negative in a reverse, and the bevels
// of the pieces above it and below.
type SectionKnuckle struct {
	Name          string  `json:"name"`
	AlongMM       float64 `json:"along_mm"`
	TurnDeg       float64 `json:"turn_deg"`
	BevelDeg      float64 `json:"bevel_deg"`
	BevelBelowDeg float64 `json:"bevel_below_deg"`
}

// FrameBevels is how a frame stands and what its bevels ask of its blank.
type FrameBevels struct {
	No           int        `json:"no"`
	MouldingFace frame.Face `json:"moulding_face"`
	CantDeg      float64    `json:"cant_deg,omitempty"`
	LeanMM       float64    `json:"lean_mm,omitempty"`
	// GreatestBevelDeg is the widest angle from square, and ExtraMouldingMM how much deeper the blank has to be for it.
	GreatestBevelDeg float64 `json:"greatest_bevel_deg"`
	GreatestAtMM     float64 `json:"greatest_at_mm"`
	ExtraMouldingMM  float64 `json:"extra_moulding_mm"`
}

// SectionPlace is one point of the section. The bevel is of a frame's faying face: degrees from square, positive where
// the angle inside the timber is wider than square.
type SectionPlace struct {
	AlongMM       float64 `json:"along_mm"`
	HalfBreadthMM float64 `json:"half_breadth_mm"`
	HeightMM      float64 `json:"height_mm"`
	BevelDeg      float64 `json:"bevel_deg"`
	// BevelLowDeg and BevelHighDeg are between what the bevel lies nine times in ten.
	BevelLowDeg  float64 `json:"bevel_low_deg"`
	BevelHighDeg float64 `json:"bevel_high_deg"`
	// BevelBelowDeg is there at a knuckle: that of the piece below, BevelDeg being that of the piece above.
	BevelBelowDeg *float64 `json:"bevel_below_deg,omitempty"`
	// XMM is where the place lies along the boat, and OutMM and UpMM its ordinates in the frame's own plane: level from the
	// plumb line that the plane turns about, and square to that from the baseline, the heel at its own height. They are
	// there where the frame does not stand square across the boat.
	XMM   *float64 `json:"x_mm,omitempty"`
	OutMM *float64 `json:"out_mm,omitempty"`
	UpMM  *float64 `json:"up_mm,omitempty"`
}

// SectionOf answers from a job's lines as they stand.
func (a *App) SectionOf(ctx context.Context, who auth.Principal, job string, q SectionQuestion) (Section, error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return Section{}, err
	}
	of, err := a.measured(ctx, who, job)
	if err != nil {
		return Section{}, err
	}
	if of.Hull == nil {
		return Section{}, &MissingDocumentError{"the job has no hull yet", "put the offsets of the job first"}
	}
	f, err := q.frame(of.Frames)
	if err != nil {
		return Section{}, err
	}
	if f != nil {
		if f.Flat() {
			return Section{}, q.wrong("x_mm instead of the frame; its own figures are among the measures", fmt.Sprintf("frame %d %s lies flat on the planking, so it has no section in one plane", f.No, f.Side))
		}
		q.XMM = f.X.InexactFloat64()
	}
	done, err := a.heavy(ctx)
	if err != nil {
		return Section{}, err
	}
	defer done()
	shapes, faults := readShapes(of.Hull, nil)
	var b takeoff.Basis
	if len(faults) == 0 {
		faults = shapes.fit(&b)
	}
	if len(faults) > 0 {
		return Section{}, &ComputeError{faults}
	}
	plane := hull.Plane{X: q.XMM}
	if f != nil {
		plane = f.Plane()
	}
	s, err := b.Hull.SectionIn(plane, q.Side)
	var outside *hull.OutsideError
	var beyond *hull.ReachError
	var along *hull.PlaneError
	switch {
	case errors.As(err, &outside):
		return Section{}, q.wrong(fmt.Sprintf("from %.0f to %.0f, the measured length", outside.Forward, outside.Aft), outside.Error())
	case errors.As(err, &beyond):
		return Section{}, q.wrong(fmt.Sprintf("a frame that keeps within %.0f to %.0f, the measured length", beyond.Forward, beyond.Aft), beyond.Error())
	case errors.As(err, &along):
		return Section{}, q.wrong("a frame that stands across the planks: correct its cant_deg and lean", along.Error())
	}
	if err != nil {
		return Section{}, err
	}
	return q.answer(s, f, b.Hull.Grain())
}

// frame asked for, nil where none was.
func (q SectionQuestion) frame(doc *frame.Document) (*frame.Frame, error) {
	if q.Frame < 0 {
		return nil, nil
	}
	if doc == nil {
		return nil, &MissingDocumentError{"the job has no frames yet", "put the frames of the job first, or ask by x_mm"}
	}
	frames, faults := frame.Read(*doc)
	if len(faults) > 0 {
		return nil, &ComputeError{faults.Under("/frames")}
	}
	for _, f := range frames {
		if f.No == q.Frame && f.Side == q.Side {
			return &f, nil
		}
	}
	return nil, q.wrong("the number of a frame of the job", fmt.Sprintf("the job has no frame %d %s", q.Frame, q.Side))
}

// wrong is told of the parameter that said where.
func (q SectionQuestion) wrong(fix, detail string) error {
	if q.Frame >= 0 {
		return &QuestionError{"frame", detail, fix}
	}
	return &QuestionError{"x_mm", detail, fix}
}

// answer from a section of a table written to a grain, mm.
func (q SectionQuestion) answer(s *hull.Section, f *frame.Frame, grain float64) (Section, error) {
	out := Section{XMM: quantity.Thousandth(s.X), Side: s.Side, RestsOn: s.RestsOn, GirthMM: quantity.Thousandth(s.Girth.MM),
		GirthLowMM: quantity.Thousandth(s.Girth.Low), GirthHighMM: quantity.Thousandth(s.Girth.High),
		SectionAreaM2: ranged(s.Area(grain), squareMetre), LeastBend: leastBend(s), Places: []SectionPlace{}}
	body := hull.Abaft
	if f != nil {
		body = f.Body()
	}
	if err := out.corners(s, body); err != nil {
		return Section{}, err
	}
	us, err := q.fractions(s, grain)
	if err != nil {
		return Section{}, err
	}
	for _, u := range us {
		below, b, err := s.BevelsAt(u, body)
		if err != nil {
			return Section{}, err
		}
		k, corner := out.at(s, b.Along)
		if corner {
			u = k
			below, b, _ = s.BevelsAt(u, body) // as it was told of the knuckle
		}
		p := SectionPlace{AlongMM: quantity.Thousandth(b.Along), HalfBreadthMM: quantity.Thousandth(b.Y), HeightMM: quantity.Thousandth(b.Z), BevelDeg: degrees(b.Angle)}
		low, high, err := s.BevelRange(u, body, grain)
		if err != nil {
			return Section{}, err
		}
		p.BevelLowDeg, p.BevelHighDeg = degrees(low), degrees(high)
		if corner {
			d := degrees(below.Angle)
			p.BevelBelowDeg = &d
		}
		if f != nil && !f.Square() {
			at := s.At(u)
			x, y, z := quantity.Thousandth(b.X), quantity.Thousandth(at.Y), quantity.Thousandth(at.Z)
			p.XMM, p.OutMM, p.UpMM = &x, &y, &z
		}
		out.Places = append(out.Places, p)
	}
	if f == nil {
		return out, nil
	}
	most, err := s.GreatestBevel(body)
	if err != nil {
		return Section{}, err
	}
	out.Frame = &FrameBevels{f.No, f.MouldingFace, quantity.Thousandth(f.Cant.InexactFloat64()), quantity.Thousandth(f.Lean.InexactFloat64()),
		degrees(most.Angle), quantity.Thousandth(most.Along), quantity.Thousandth(most.Extra(f.Siding.InexactFloat64()))}
	return out, nil
}

// corners are the knuckles of the section with the bevels on either side of them.
func (out *Section) corners(s *hull.Section, body hull.Body) error {
	for _, k := range s.Knuckles() {
		below, above, err := s.BevelsAt(k.U, body)
		if err != nil {
			return err
		}
		out.Knuckles = append(out.Knuckles, SectionKnuckle{k.Name, quantity.Thousandth(k.S), degrees(k.Turn), degrees(above.Angle), degrees(below.Angle)})
	}
	return nil
}

// at is the u of the knuckle that is told so far along the girth, mm, and whether there is one: a height is met at a knuckle
// only to rounding.
func (out *Section) at(s *hull.Section, along float64) (u float64, ok bool) {
	for i, k := range s.Knuckles() {
		if out.Knuckles[i].AlongMM == quantity.Thousandth(along) {
			return k.U, true
		}
	}
	return 0, false
}

// fractions of the girth that are asked for.
func (q SectionQuestion) fractions(s *hull.Section, grain float64) (us []float64, err error) {
	if len(q.Heights) == 0 {
		for i := range 11 {
			us = append(us, s.Share(float64(i)/10))
		}
		return us, nil
	}
	for _, z := range q.Heights {
		at, err := s.AtHeight(z, grain)
		var beyond *hull.HeightError
		if errors.As(err, &beyond) {
			return nil, &QuestionError{"heights_mm", beyond.Error(), fmt.Sprintf("heights from %.1f to %.1f", beyond.Low, beyond.High)}
		}
		if err != nil {
			return nil, err
		}
		us = append(us, at...)
	}
	return us, nil
}

func degrees(radians float64) float64 { return quantity.Thousandth(radians * 180 / math.Pi) }
