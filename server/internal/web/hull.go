package web

import (
	"context"
	"errors"
	"net/http"

	"ribband/server/internal/app"
	"ribband/server/internal/store"
	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/hull/offsets"
)

// hullPage is what the shape of a boat gives: areas, strakes, offsets out of line, and what to measure next.
type hullPage struct {
	form
	Job  app.Job
	Path string
	// Lines is false where there is no table of offsets; Nothing says what is wanting where nothing was measured at all.
	Lines   bool
	Nothing *fault
	In      lengths
	Measured
	Strakes *strakesTable
	// StrakesFault is why the strakes that were asked for cannot be laid out.
	StrakesFault *fault
	Options      []app.Option
	Further      *further
}

// further is the one further measurement worth taking for an option, or why it cannot be told.
type further struct {
	Option app.Option
	Letter string
	*takeoff.Narrowing
	Fault *fault
}

// hullFields are what the page is asked; all stand in its address, so that a question can be kept and sent on.
var hullFields = []string{"waterline", "side", "strakes", "thickness", "stock", "further"}

var hullLabels = map[string]string{"waterline": "Waterline", "side": "Side", "strakes": "Number of strakes", "thickness": "Thickness of the planks", "stock": "Lengths of stock"}

func hullPath(job string) string { return jobPath(job) + "/hull" }

// hull is the page of a boat's shape.
func (p *Pages) hull(v *visit) error {
	ctx, id := v.Context(), v.PathValue("job")
	j, err := p.app.Job(ctx, v.who, id)
	if err != nil {
		return err
	}
	body := hullPage{form: newForm(hullFields...), Job: j, Path: hullPath(id), In: lengths{j.Notation}}
	for _, name := range hullFields {
		body.Values[name] = trimmed(v.FormValue(name))
	}
	lines, err := p.app.Hull(ctx, v.who, id)
	var none *store.NotFoundError
	switch {
	case err == nil:
		body.Lines, body.In = true, lengths{lines.Doc.Notation}
	case !errors.As(err, &none):
		return err
	}
	question := body.question()
	if err := body.measure(ctx, p.app, v, id); err != nil {
		return err
	}
	if body.Lines && body.Values["strakes"] != "" && !body.Bad() {
		if err := body.lay(ctx, p.app, v, id, question); err != nil {
			return err
		}
	}
	if err := body.look(ctx, p.app, v, id); err != nil {
		return err
	}
	status := http.StatusOK
	if body.Bad() {
		status = http.StatusUnprocessableEntity
	}
	return p.show(v, status, "hull", page{Title: body.title("Hull of " + j.Boat.Name), Way: []link{{"Jobs", "/"}, {j.Boat.Name, jobPath(id)}}, Body: body})
}

// measure reads the measures, at the waterline asked for where it can be read.
func (b *hullPage) measure(ctx context.Context, a *app.App, v *visit, job string) error {
	var waterline *float64
	if mm, ok := b.length("waterline", false); ok {
		waterline = &mm
	}
	m, err := a.Measures(ctx, v.who, job, waterline)
	var missing *app.MissingDocumentError
	if errors.As(err, &missing) {
		f := faultOf(err)
		b.Nothing = &f
		return nil
	}
	if err != nil {
		return err
	}
	b.Measured = measuredOf(m, b.In)
	return nil
}

// lay lays the strakes out; what cannot be is told beside the form.
func (b *hullPage) lay(ctx context.Context, a *app.App, v *visit, job string, q app.StrakesQuestion) error {
	s, err := a.StrakesOf(ctx, v.who, job, q)
	if err == nil {
		t := strakesTableOf(s, b.In)
		b.Strakes = &t
		return nil
	}
	f, ok := told(err)
	if !ok {
		return err
	}
	b.StrakesFault = f
	return nil
}

// look looks for the one further measurement, for the option that is asked for.
func (b *hullPage) look(ctx context.Context, a *app.App, v *visit, job string) error {
	options, err := a.Options(ctx, v.who, job, store.Page{Limit: store.LargestLimit})
	if err != nil {
		return err
	}
	b.Options = options.Items
	for i, o := range b.Options {
		if o.ID != b.Values["further"] {
			continue
		}
		b.Further = &further{Option: o, Letter: letter(i)}
		n, err := a.Narrowing(ctx, v.who, job, o.ID)
		if err == nil {
			b.Further.Narrowing = &n
			return nil
		}
		f, ok := told(err)
		if !ok {
			return err
		}
		b.Further.Fault = f
		return nil
	}
	if b.Values["further"] != "" {
		return errNothing
	}
	return nil
}

// told is an error that is told in its own part of a page, the rest standing; false where the page as a whole has to say
// it.
func told(err error) (*fault, bool) {
	f := faultOf(err)
	return &f, f.Status == http.StatusConflict || f.Status == http.StatusUnprocessableEntity
}

// sides that strakes are asked for, port first.
func (hullPage) Sides() []boat.Side { return boat.Sides[:] }

// Chosen is the side that the form shows.
func (b hullPage) Chosen() boat.Side { return b.side() }

// Surface says which face of the plank the offsets are to, in words.
func (m Measured) Surface() string {
	if m.MeasuredTo == offsets.Outside {
		return "outside"
	}
	return "inside"
}
