package web

import (
	"bytes"
	"errors"
	"fmt"
	"html/template"
	"net/http"
	"net/url"
	"regexp"
	"strconv"

	"ribband/pdf"
	"ribband/server/internal/app"
	"ribband/takeoff/bend"
	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/drawing"
	"ribband/takeoff/frame"
	"ribband/takeoff/notation"
)

func formsPath(job, option string) string { return optionPath(job, option) + "/forms" }

// formsPage is the forms of all that an option glues up.
type formsPage struct {
	Path string
	In   lengths
	All  []listedForm
}

// listedForm is a form in the list, with the address of its own page.
type listedForm struct {
	app.FormInList
	Path string
	in   notation.Notation
}

// Name of the frame or piece.
func (l listedForm) Name() string { return formName(l.Member.No, string(l.Member.Side), l.Piece) }

// Said is a length of the form with its unit.
func (l listedForm) Said(mm float64) string { return drawing.AsRead(l.in, mm) }

// Tight is how much tighter it is bent than the frame, in per cent.
func (l listedForm) Tight() string {
	return strconv.FormatFloat(100*(l.Form.Springback.Tighter-1), 'f', 2, 64)
}

func formName(no int, side, piece string) string {
	out := fmt.Sprintf("frame %d %s", no, side)
	if piece != "" {
		out += ", " + plain(piece)
	}
	return out
}

// forms is the list of forms.
func (p *Pages) forms(v *visit) error {
	job, option := v.PathValue("job"), v.PathValue("option")
	j, o, err := p.ofOption(v)
	if err != nil {
		return err
	}
	all, err := p.app.FormsOf(v.Context(), v.who, job, option)
	if err != nil {
		return err
	}
	body := formsPage{Path: formsPath(job, option), In: lengths{j.Notation}}
	for _, f := range all {
		at := fmt.Sprintf("%s/%d/%s", body.Path, f.Member.No, f.Member.Side)
		if f.Piece != "" {
			at += "?piece=" + url.QueryEscape(f.Piece)
		}
		body.All = append(body.All, listedForm{f, at, j.Notation})
	}
	return p.show(v, http.StatusOK, "forms", page{Title: "Forms for " + j.Boat.Name + ", option “" + o.Name + "”",
		Way: []link{{"Jobs", "/"}, {j.Boat.Name, jobPath(job)}, {o.Name, optionPath(job, option)}}, Body: body})
}

// ofOption is the job and the option that a page's address names.
func (p *Pages) ofOption(v *visit) (j app.Job, o app.Option, err error) {
	if o, err = p.app.Option(v.Context(), v.who, v.PathValue("job"), v.PathValue("option")); err == nil {
		j, err = p.app.Job(v.Context(), v.who, v.PathValue("job"))
	}
	return j, o, err
}

// formPage is one form with its ordinates.
type formPage struct {
	form
	Path string
	// Query repeats what was asked, for the addresses of picture and PDF.
	Query string
	In    lengths
	Faces []bend.Face
	Face  bend.Face
	Piece string
	// Nothing is why there is no form, and what would do.
	Nothing *fault
	Plan    plan
	app.DrawnForm
}

// asked are the fields of a form's page.
var formAsked = []string{"piece", "face", "pitch"}

var pieceName = regexp.MustCompile(`^(part|sister)_[1-9][0-9]{0,2}$`)

// question is the form that a page's address asks for; errNothing for one that names none.
func (v *visit) formQuestion(n notation.Notation) (app.FormQuestion, form, error) {
	f := newForm(formAsked...)
	for _, name := range formAsked {
		f.Values[name] = trimmed(v.FormValue(name))
	}
	no, err := strconv.Atoi(v.PathValue("frame"))
	q := app.FormQuestion{Frame: no, Side: boat.Side(v.PathValue("side")), Piece: f.Values["piece"], Face: bend.Face(f.Values["face"]), Pitch: usualPitch(n)}
	if err != nil || no < 0 || !q.Side.One() || q.Piece != "" && !pieceName.MatchString(q.Piece) {
		return q, f, errNothing
	}
	if q.Face == "" {
		q.Face = bend.Inner
	}
	if q.Face != bend.Inner && q.Face != bend.Faying {
		return q, f, errNothing
	}
	if text := f.Values["pitch"]; text != "" {
		l, wrong := n.Parse(text)
		if mm := l.MM(); wrong == nil && mm >= bend.LeastPitch && mm <= mostPitch {
			q.Pitch = mm
		} else {
			f.Faults = append(f.Faults, fieldFault{"pitch", fmt.Sprintf("Pitch of the ordinates: from 5 to 2000 mm, written as %s.", n.Example())})
		}
	}
	return q, f, nil
}

// mostPitch, mm, of ordinates.
const mostPitch = 2000

// usualPitch of ordinates, mm: four inches on a boat in inches, else a decimetre.
func usualPitch(n notation.Notation) float64 {
	if n == notation.Inches || n == notation.FeetInchesEighths {
		return 101.6
	}
	return 100
}

// query repeats a question in an address.
func formQuery(q app.FormQuestion, f form) string {
	values := url.Values{"face": {string(q.Face)}}
	if q.Piece != "" {
		values.Set("piece", q.Piece)
	}
	if text := f.Values["pitch"]; text != "" && !f.Bad() {
		values.Set("pitch", text)
	}
	return "?" + values.Encode()
}

// oneForm is the page of one form.
func (p *Pages) oneForm(v *visit) error {
	job, option := v.PathValue("job"), v.PathValue("option")
	j, o, err := p.ofOption(v)
	if err != nil {
		return err
	}
	q, asked, err := v.formQuestion(j.Notation)
	if err != nil {
		return err
	}
	body := formPage{form: asked, Path: fmt.Sprintf("%s/%d/%s", formsPath(job, option), q.Frame, q.Side), Query: formQuery(q, asked), In: lengths{j.Notation}, Faces: []bend.Face{bend.Inner, bend.Faying}, Face: q.Face, Piece: q.Piece}
	status := http.StatusOK
	body.DrawnForm, err = p.app.FormDrawing(v.Context(), v.who, job, option, q, v.width())
	var none *app.QuestionError
	switch {
	case errors.As(err, &none):
		body.Nothing, status = &fault{Title: "There is no form", Says: capital(none.Detail) + ".", Do: "What would do: " + none.Fix + "."}, http.StatusNotFound
	case err != nil:
		return err
	default:
		at := body.Path + "/form.svg" + body.Query
		body.Plan = planOf(body.Drawing, at)
		body.Plan.Narrow = at + "&width=narrow"
	}
	if body.Bad() {
		status = http.StatusUnprocessableEntity
	}
	return p.show(v, status, "form", page{Title: body.title("Form for " + formName(q.Frame, string(q.Side), q.Piece) + " of " + j.Boat.Name + ", option “" + o.Name + "”"),
		Way: []link{{"Jobs", "/"}, {j.Boat.Name, jobPath(job)}, {o.Name, optionPath(job, option)}, {"Forms", formsPath(job, option)}}, Body: body})
}

// formFile is a question that its picture or its PDF is asked by.
func (p *Pages) formFile(v *visit) (app.FormQuestion, error) {
	j, _, err := p.ofOption(v)
	if err != nil {
		return app.FormQuestion{}, err
	}
	q, asked, err := v.formQuestion(j.Notation)
	if err == nil && asked.Bad() {
		err = errNothing
	}
	return q, err
}

// asNothing is a question that nothing answers as what is not there.
func asNothing(err error) error {
	var none *app.QuestionError
	if errors.As(err, &none) {
		return errNothing
	}
	return err
}

func (p *Pages) formSVG(v *visit) error {
	q, err := p.formFile(v)
	if err != nil {
		return err
	}
	d, err := p.app.FormDrawing(v.Context(), v.who, v.PathValue("job"), v.PathValue("option"), q, v.width())
	return v.sendSVG(d.Drawing, asNothing(err))
}

func (p *Pages) formPDF(v *visit) error {
	q, err := p.formFile(v)
	if err != nil {
		return err
	}
	paper := pdf.SheetA4
	if v.FormValue("paper") == string(pdf.SheetA3) {
		paper = pdf.SheetA3
	}
	file, err := p.app.FormPDF(v.Context(), v.who, v.PathValue("job"), v.PathValue("option"), q, paper)
	if err != nil {
		return asNothing(err)
	}
	v.Header().Set("Content-Type", "application/pdf")
	v.Header().Set("Content-Disposition", fmt.Sprintf(`inline; filename="form-%d-%s.pdf"`, q.Frame, q.Side))
	v.send(http.StatusOK, file)
	return nil
}

func (p *Pages) floorsPlan(v *visit) error {
	return v.sendSVG(p.app.FloorsDrawing(v.Context(), v.who, v.PathValue("job"), v.PathValue("option"), v.width()))
}

// jointsPicture is the laminates of a blank with their joints, to stand in a page at a width.
func jointsPicture(m frame.MadeUp, width float64) (template.HTML, error) {
	id := "joints-" + regexp.MustCompile(`[^a-z0-9]+`).ReplaceAllString(m.Path(), "-") + "-" + strconv.Itoa(int(width))
	var svg bytes.Buffer
	err := draw.WriteSVG(&svg, drawing.JointSheet{Sheet: drawing.Sheet{Width: width}, Notation: notation.Millimetres, Name: blankText(m.Path()), MadeUp: m}.Bare().List, id)
	return template.HTML(svg.String()), err //nolint:gosec // WriteSVG escapes every text and writes no script, style or link
}
