package app

import (
	"context"
	"fmt"
	"strings"

	"ribband/server/internal/auth"
	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/drawing"
	"ribband/takeoff/notation"
)

// DrawnForm is a form as a page shows it.
type DrawnForm struct {
	Form
	Drawing drawing.Drawing
}

// FormDrawing draws the form of one frame of an option, or of a piece of it. A frame that has no form is a *QuestionError.
func (a *App) FormDrawing(ctx context.Context, who auth.Principal, job, option string, q FormQuestion, width float64) (DrawnForm, error) {
	d, w, err := a.workedDrawing(ctx, who, job, option)
	if err != nil {
		return DrawnForm{}, err
	}
	f, n, err := a.formOf(ctx, w, q)
	if err != nil {
		return DrawnForm{}, err
	}
	sheet := drawing.FormSheet{Sheet: d.sheet(width, d.frames), Notation: n, Name: formName(f), Laminates: laminatesText(f), Note: f.Say(), Form: f.Form.Form, Tapers: f.Tapers}
	for _, u := range f.Unknown {
		sheet.Notes = append(sheet.Notes, "Not known: "+u.Detail+" What would tell: "+u.Fix+".")
	}
	if f.BeyondHeel > 0 || f.BeyondHead > 0 {
		sheet.Notes = append(sheet.Notes, fmt.Sprintf("The blank runs straight on past the ends: %s beyond the heel's, %s beyond the head's.", drawing.AsRead(n, f.BeyondHeel), drawing.AsRead(n, f.BeyondHead)))
	}
	return DrawnForm{formAnswer(f, w.hash), sheet.Draw()}, nil
}

// FormSVG is the drawing of a form as a file. A frame that has no form is a *QuestionError.
func (a *App) FormSVG(ctx context.Context, who auth.Principal, job, option string, q FormQuestion) (DrawingFile, error) {
	d, err := a.FormDrawing(ctx, who, job, option, q, drawing.Wide)
	body, err := svgOf(d.Drawing, err)
	return DrawingFile{svgKind, body}, err
}

// formName says what a form is of: "frame 12 port, part 1".
func formName(f takeoff.Form) string {
	out := fmt.Sprintf("frame %d %s", f.Member.No, f.Member.Side)
	if f.Piece != "" {
		out += ", " + strings.ReplaceAll(f.Piece, "_", " ")
	}
	return out
}

func laminatesText(f takeoff.Form) string {
	out := fmt.Sprintf("%d laminates of %s mm", f.Laminates, f.Thickness)
	if n := len(f.RunsOut); n > 0 {
		out += fmt.Sprintf(", %d of them through to the head; those that end are laid last", f.RunsOut[n-1].Laminates)
	}
	return out
}

// formOf is a form of a takeoff, with the notation of the job's papers.
func (a *App) formOf(ctx context.Context, w *worked, q FormQuestion) (takeoff.Form, notation.Notation, error) {
	done, err := a.heavy(ctx)
	if err != nil {
		return takeoff.Form{}, "", err
	}
	defer done()
	basis, faults := w.papers.basis()
	if len(faults) > 0 {
		return takeoff.Form{}, "", &ComputeError{faults}
	}
	f, err := basis.Form(w.result, takeoff.FormQuestion{Member: boat.Member{Kind: boat.Frame, No: q.Frame, Side: q.Side}, Piece: q.Piece, Face: q.Face, Pitch: q.Pitch})
	return f, basis.Notation, asQuestion(q, err)
}
