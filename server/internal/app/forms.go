package app

import (
	"context"
	"errors"

	"ribband/pdf"
	"ribband/server/internal/auth"
	"ribband/takeoff"
	"ribband/takeoff/bend"
	"ribband/takeoff/boat"
)

// FormInList is one frame that an option glues up, or a piece of it, with its form in short; or why it has none and what would do.
type FormInList struct {
	Member boat.Member
	Piece  string
	// Form is nil where there is none, for the reason in Why.
	Form     *Form
	Why, Fix string
}

// FormsOf are the forms of all that an option glues up on one, inner faces to it, in the order of members.
func (a *App) FormsOf(ctx context.Context, who auth.Principal, job, option string) ([]FormInList, error) {
	o, err := a.Option(ctx, who, job, option)
	if err != nil {
		return nil, err
	}
	w, err := a.takeoff(ctx, who, o)
	if err != nil {
		return nil, err
	}
	done, err := a.heavy(ctx)
	if err != nil {
		return nil, err
	}
	defer done()
	basis, faults := w.papers.basis()
	if len(faults) > 0 {
		return nil, &ComputeError{faults}
	}
	var out []FormInList
	for _, r := range w.result.Ripping.Frames {
		one := FormInList{Member: r.Member, Piece: r.Piece}
		f, err := basis.Form(w.result, takeoff.FormQuestion{Member: r.Member, Piece: r.Piece, Face: bend.Inner, Pitch: listPitch})
		var none *takeoff.UnshapedError
		switch {
		case errors.As(err, &none):
			one.Why, one.Fix = none.Detail, none.Fix
		case err != nil:
			return nil, err
		default:
			answer := formAnswer(f, w.hash)
			one.Form = &answer
		}
		out = append(out, one)
	}
	return out, nil
}

// listPitch, mm, of ordinates where none are shown.
const listPitch = 1000.0

// FormPDF is a form in its true size, on as many sheets as it needs. A frame that has no form is a *QuestionError.
func (a *App) FormPDF(ctx context.Context, who auth.Principal, job, option string, q FormQuestion, paper pdf.SheetSize) ([]byte, error) {
	d, w, err := a.workedDrawing(ctx, who, job, option)
	if err != nil {
		return nil, err
	}
	f, n, err := a.formOf(ctx, w, q)
	if err != nil {
		return nil, err
	}
	s := d.sheet(0, d.frames)
	return pdf.WriteFullSizeForm(pdf.FullSizeForm{Boat: s.Boat, Date: s.Date, Revision: s.Revision, Note: s.Note, Name: formName(f), Laminates: laminatesText(f), Needed: f.Say(),
		Form: f.Form.Form, Notation: n, Paper: paper, CreatedAt: d.frames.CreatedAt})
}
