package pdf

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"ribband/takeoff/bend"
	"ribband/takeoff/hull"
	"ribband/takeoff/mould"
	"ribband/takeoff/notation"
)

// FullSizeForm is the form that a frame's laminates are glued up against, to be printed in true size on as many sheets as it
// needs: its line, the base line through its two ends and the ordinates between them.
type FullSizeForm struct {
	Boat, Date, Revision, Note string
	// Name says of what: "frame 12 port"; Laminates how many and how thick; Needed whether the form is needed, and why.
	Name, Laminates, Needed string
	Form                    bend.Form
	Notation                notation.Notation
	// Paper is A4 unless it is A3.
	Paper     SheetSize
	CreatedAt time.Time
}

// NoFormError: a form without a line.
type NoFormError struct{ Name string }

func (e *NoFormError) Error() string { return "the form of " + e.Name + " has no line to draw" }

// WriteFullSizeForm lays a form out as WriteFullSize does a frame. A *NoFormError where it has no line.
func WriteFullSizeForm(f FullSizeForm) ([]byte, error) { return writeFullSizeForm(f, true) }

func writeFullSizeForm(f FullSizeForm, compress bool) ([]byte, error) {
	if len(f.Form.Line) < 2 || len(f.Form.Ordinates) < 2 {
		return nil, &NoFormError{f.Name}
	}
	return writeFullSize(FullSize{Boat: f.Boat, Date: f.Date, Revision: f.Revision, Note: f.Note, Mould: f.laid(), Paper: f.Paper, CreatedAt: f.CreatedAt, form: &f}, compress)
}

// laid is the form as what a full-size sheet draws: its heel at the left, the base line level.
func (f FullSizeForm) laid() mould.Mould {
	at := func(o bend.Ordinate) hull.Point { return hull.Point{Y: o.Base, Z: o.Off} }
	m := mould.Mould{Right: true, Notation: f.Notation, Axis: mould.Line{Name: "heel's end", MM: 0}, Base: mould.Line{Name: "base line", MM: 0}}
	for _, o := range f.Form.Line {
		m.Faying = append(m.Faying, at(o))
	}
	for i, o := range f.Form.Ordinates {
		m.Marks = append(m.Marks, mould.Mark{Name: strconv.Itoa(i + 1), At: at(o), Across: hull.Point{Y: o.Base}})
	}
	for _, o := range f.Form.Marks {
		m.Marks = append(m.Marks, mould.Mark{Name: "taper ends", At: at(o), Across: at(o)})
	}
	for i, o := range f.Form.Ends {
		m.Marks = append(m.Marks, mould.Mark{Name: fmt.Sprintf("a laminate ends, %d left", f.Form.RunsOut[i].Laminates), At: at(o), Across: at(o)})
	}
	return m
}

func (f FullSizeForm) title() string {
	t := "Form for " + f.Name + ", full size"
	if f.Boat != "" {
		t += ", of " + f.Boat
	}
	return t
}

// seen says which face it is of.
func (f FullSizeForm) seen() string {
	if f.Form.Face == bend.Faying {
		return "An outside form: the laminates are pressed into it with their faying faces to it. Heel to the left, outboard up."
	}
	return "An inside form: the laminates are pulled round it with their inner faces to it. Heel to the left, outboard up."
}

// heeds are what has to be known of it besides how the sheets are laid.
func (f FullSizeForm) heeds() []heed {
	return []heed{
		{"What is drawn", fmt.Sprintf("Heavy: the face that the first laminate lies against. Level: the base line through its two ends. Square off it: ordinates %s apart, numbered from the heel as in the table.", f.length(f.Form.Pitch))},
		{"What it is for", f.Laminates + ". " + f.Needed},
		{"Springback", fmt.Sprintf("The form is bent %.2f %% tighter than the frame (%s). Let go, its ends are to come %s apart instead of %s: glue up one frame, measure that, and put what it did with the yard's rules.",
			100*(f.Form.Tighter-1), f.Form.Springback.Source, f.length(f.Form.FrameChord), f.length(f.Form.Chord))},
		{"Try it first", "Bend one laminate round it dry, and hold the glued frame against the boat before the next is made."},
	}
}

// length as a rule is read: a sixteenth of an inch, or a tenth of a millimetre, with its unit.
func (f FullSizeForm) length(mm float64) string {
	const sixteenth = 25.4 / 16
	if f.Notation == notation.FeetInchesEighths || f.Notation == notation.Inches {
		if l, err := notation.FromMM(math.Round(mm/sixteenth) * sixteenth); err == nil {
			return notation.Inches.Format(l) + " in"
		}
	}
	return strconv.FormatFloat(math.Round(mm*10)/10, 'f', 1, 64) + " mm"
}
