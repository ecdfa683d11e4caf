package web

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"ribband/server/internal/app"
	"ribband/server/internal/store"
	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/notation"
	"ribband/takeoff/plank"
)

func planksPath(job, option string) string { return optionPath(job, option) + "/planks" }

// Fields of one plank, and of how she is planked, in the order of their forms.
var (
	plankFields    = []string{"strake", "side", "piece", "from_frame", "to_frame", "species", "grade", "thickness", "length", "width"}
	plankingFields = []string{"of", "strakes", "plank_thickness", "stock_lengths", "butts"}
	plankLabels    = map[string]string{"strake": "Strake", "side": "Side", "piece": "How much of it", "from_frame": "From frame", "to_frame": "To frame", "species": "Wood", "grade": "Grade",
		"thickness": "Thickness", "length": "Length of the board", "width": "Width of the board", "strakes": "Strakes of a side", "plank_thickness": "Thickness of the planks", "stock_lengths": "Lengths that boards come in", "butts": "Butts that are there"}
	plankSides  = []wayOf{{string(boat.Port), "port"}, {string(boat.Starboard), "starboard"}, {string(boat.Both), "both"}}
	plankPieces = []wayOf{{"", "a piece, between frames or by hand"}, {"whole", "the whole strake"}}
)

type planksPage struct {
	form
	Job    app.Job
	Option app.Option
	Path   string
	woods  []wayOf
	// Rows are the planks of the option, Seen the version that they were read at, 0 where there are none yet.
	Rows []plankLine
	Seen int64
	// Planking is how she is planked, nil where nothing says; SeenPlanking its version. Hers are the forms that it is changed by; none
	// where they cannot hold it.
	Planking     *planking.Boat
	SeenPlanking int64
	Hers         []plankingForm
	Writes       bool
	// Plans are the drawings of the sides that planks are renewed on.
	Plans []plan
}

// plankLine is a plank as the list has it.
type plankLine struct {
	No          int
	Name, Board string
	plank.Row
}

// planksPageOf reads what the page shows.
func (p *Pages) planksPageOf(v *visit) (planksPage, error) {
	ctx, job, option := v.Context(), v.PathValue("job"), v.PathValue("option")
	o, err := p.app.Option(ctx, v.who, job, option)
	if err != nil {
		return planksPage{}, err
	}
	j, err := p.app.Job(ctx, v.who, job)
	if err != nil {
		return planksPage{}, err
	}
	out := planksPage{form: newForm(plankFields...), Job: j, Option: o, Path: planksPath(job, option), Writes: v.is(writers...)}
	woods, err := p.app.Species(ctx, v.who, o.Versions.Species)
	if err != nil {
		return planksPage{}, err
	}
	for _, s := range woods.Doc.Species {
		out.woods = append(out.woods, wayOf{s.Code, plain(s.Code)})
	}
	doc, seen, err := p.planksNow(ctx, v, job, option, j.Notation)
	if err != nil {
		return planksPage{}, err
	}
	out.Seen = seen
	for i, row := range doc.Planks {
		out.Rows = append(out.Rows, plankLineOf(i, row))
	}
	if out.Plans, err = p.plansOfPlanks(v, job, option, doc); err != nil {
		return planksPage{}, err
	}
	hers, err := p.app.Planking(ctx, v.who, job)
	var none *store.NotFoundError
	if errors.As(err, &none) {
		out.Hers = plankingForms(nil)
		return out, nil
	}
	if err != nil {
		return planksPage{}, err
	}
	out.Planking, out.SeenPlanking = &hers.Doc, hers.N
	if simplePlanking(hers.Doc, j.Notation) {
		out.Hers = plankingForms(&hers.Doc)
	}
	return out, nil
}

// plansOfPlanks are the drawings of the sides that an option renews planks on; none of a side that cannot be drawn as it stands, of which
// the page of materials says why.
func (p *Pages) plansOfPlanks(v *visit, job, option string, doc plank.Document) ([]plan, error) {
	var out []plan
	for _, side := range boat.Sides {
		if !slices.ContainsFunc(doc.Planks, func(r plank.Row) bool { return r.ByHand == nil && slices.Contains(r.Side.Expand(), side) }) {
			continue
		}
		d, err := p.app.RenewedPlanks(v.Context(), v.who, job, option, side, v.width())
		var question *app.QuestionError
		var missing *app.MissingDocumentError
		var compute *app.ComputeError
		switch {
		case errors.As(err, &question), errors.As(err, &missing), errors.As(err, &compute):
			continue
		case err != nil:
			return nil, err
		}
		out = append(out, planOf(d, planksPath(job, option)+"/"+string(side)+"/renewed.svg"))
	}
	return out, nil
}

func (p *Pages) planksSVG(v *visit) error {
	side := boat.Side(v.PathValue("side"))
	if !side.One() {
		return errNothing
	}
	d, err := p.app.RenewedPlanks(v.Context(), v.who, v.PathValue("job"), v.PathValue("option"), side, v.width())
	return v.sendSVG(d, asNothing(err))
}

// planksNow are the planks of an option as they stand, in a document to add to.
func (p *Pages) planksNow(ctx context.Context, v *visit, job, option string, in notation.Notation) (plank.Document, int64, error) {
	d, err := p.app.Planks(ctx, v.who, job, option)
	var none *store.NotFoundError
	if errors.As(err, &none) {
		return plank.Document{Notation: in, Planks: []plank.Row{}}, 0, nil
	}
	return d.Doc, d.N, err
}

func plankLineOf(i int, row plank.Row) plankLine {
	out := plankLine{No: i, Row: row, Name: fmt.Sprintf("Strake %d %s", row.Strake, row.Side)}
	switch {
	case row.Whole:
		out.Name += ", the whole of it"
	case row.FromFrame != nil && row.ToFrame != nil:
		out.Name += fmt.Sprintf(", frames %d to %d", *row.FromFrame, *row.ToFrame)
	case row.From != "":
		out.Name += ", " + row.From + " to " + row.To
	}
	if out.Board = "as the lines say"; row.ByHand != nil {
		out.Board = row.ByHand.Length + " by " + row.ByHand.Width + ", by hand"
	}
	return out
}

// shareText is a measured share as percent: "13 %".
func shareText(f *float64) string { return strconv.FormatFloat(100**f, 'f', 0, 64) + "\u00a0%" }

// Pickers and inputs of the form.
func (b planksPage) SidePicker() picker  { return b.picker("side", "Side", "", plankSides) }
func (b planksPage) PiecePicker() picker { return b.picker("piece", "How much of it", "", plankPieces) }
func (b planksPage) WoodPicker() picker  { return b.picker("species", "Wood", "", b.woods) }

// OptionPath is the page of materials and hours.
func (b planksPage) OptionPath() string { return optionPath(b.Job.ID, b.Option.ID) }

// Example of a length in the job's notation.
func (b planksPage) Example() string { return b.Job.Notation.Example() }

// planks is the page of the planks that an option renews.
func (p *Pages) planks(v *visit) error {
	body, err := p.planksPageOf(v)
	if err != nil {
		return err
	}
	return p.showPlanks(v, http.StatusOK, body)
}

func (p *Pages) showPlanks(v *visit, status int, body planksPage) error {
	job, option := body.Job.ID, body.Option.ID
	return p.show(v, status, "planks", page{Title: body.title("Planks renewed on " + body.Job.Boat.Name + ", option “" + body.Option.Name + "”"),
		Way: []link{{"Jobs", "/"}, {body.Job.Boat.Name, jobPath(job)}, {"Option “" + body.Option.Name + "”", optionPath(job, option)}}, Body: body})
}

// seenAt is the version that a form was read at.
func seenAt(text string) (store.Seen, error) {
	n, err := strconv.ParseInt(text, 10, 64)
	if err != nil || n < 0 {
		return store.Absent, errForm
	}
	if n == 0 {
		return store.Absent, nil
	}
	return store.Seen(n), nil
}

// planksForm is one of the page's forms as it was sent, the page that it came from, and the version that it was read at.
func (p *Pages) planksForm(v *visit, fields []string) (form, planksPage, store.Seen, error) {
	f, err := v.filled(append([]string{"seen"}, fields...)...)
	if err != nil {
		return f, planksPage{}, store.Absent, err
	}
	seen, err := seenAt(f.Values["seen"])
	if err != nil {
		return f, planksPage{}, store.Absent, err
	}
	body, err := p.planksPageOf(v)
	return f, body, seen, err
}

// addPlank puts one more plank with those of the option.
func (p *Pages) addPlank(v *visit) error {
	f, body, seen, err := p.planksForm(v, plankFields)
	if err != nil {
		return err
	}
	body.Values = f.Values
	doc, _, err := p.planksNow(v.Context(), v, body.Job.ID, body.Option.ID, body.Job.Notation)
	if err != nil {
		return err
	}
	row, faults := plankRowFrom(f.Values)
	at := "/planks/" + strconv.Itoa(len(doc.Planks))
	if err = faults.Err(); err == nil {
		doc.Planks = append(doc.Planks, row)
		_, err = p.app.PutPlanks(v.Context(), v.who, body.Job.ID, body.Option.ID, doc, seen)
	}
	if body.wrong(onForm(err, at), plankLabels) {
		return p.showPlanks(v, http.StatusUnprocessableEntity, body)
	}
	if err != nil {
		return err
	}
	return v.to(body.Path)
}

// plankRowFrom is a row as the form was filled in; figures that are none are told by their field.
func plankRowFrom(x map[string]string) (plank.Row, document.Faults) {
	var faults document.Faults
	number := func(name string) *int {
		if x[name] == "" {
			return nil
		}
		n, err := strconv.Atoi(x[name])
		if err != nil {
			faults.Add("/"+name, "a number", "%s is no number", notation.Quote(x[name]))
		}
		return &n
	}
	row := plank.Row{Side: boat.Side(x["side"]), Whole: x["piece"] == "whole", FromFrame: number("from_frame"), ToFrame: number("to_frame"), Species: x["species"], Grade: x["grade"], Thickness: x["thickness"]}
	if n := number("strake"); n != nil {
		row.Strake = *n
	}
	if x["length"] != "" || x["width"] != "" {
		row.ByHand = &plank.ByHandRow{Length: x["length"], Width: x["width"]}
	}
	return row, faults
}

// onForm are faults of a document with those of one of its rows told by the form's fields.
func onForm(err error, at string) error {
	var faults document.Faults
	if !errors.As(err, &faults) {
		return err
	}
	out := slices.Clone(faults)
	for i := range out {
		if rest, ok := strings.CutPrefix(out[i].Pointer, at); ok {
			out[i].Pointer = strings.Replace(rest, "/by_hand/", "/", 1)
		}
	}
	return out
}

// takeOutPlank takes one plank from those of the option.
func (p *Pages) takeOutPlank(v *visit) error {
	f, err := v.filled("seen", "row")
	if err != nil {
		return err
	}
	seen, err := seenAt(f.Values["seen"])
	if err != nil {
		return err
	}
	job, option := v.PathValue("job"), v.PathValue("option")
	d, err := p.app.Planks(v.Context(), v.who, job, option)
	if err != nil {
		return err
	}
	row, err := strconv.Atoi(f.Values["row"])
	if err != nil || row < 0 || row >= len(d.Doc.Planks) {
		return errForm
	}
	d.Doc.Planks = slices.Delete(d.Doc.Planks, row, row+1)
	if _, err := p.app.PutPlanks(v.Context(), v.who, job, option, d.Doc, seen); err != nil {
		return err
	}
	return v.to(planksPath(job, option))
}
