package web

import (
	"fmt"
	"net/http"
	"strconv"

	"ribband/pricing/quote"
	"ribband/server/internal/app"
	"ribband/server/internal/auth"
)

// revision is the page of one revision of a quote: the owner's at selling prices, the yard's with cost.
func (p *Pages) revision(v *visit) error {
	n, err := v.number("n")
	if err != nil {
		return err
	}
	if v.is(auth.Owner) {
		return p.estimate(v, v.PathValue("quote"), n)
	}
	return p.yardQuote(v, v.PathValue("quote"), n)
}

func (p *Pages) estimatePDF(v *visit) error {
	n, err := v.number("n")
	if err != nil {
		return err
	}
	file, number, err := p.app.EstimatePDF(v.Context(), v.who, v.PathValue("quote"), n)
	if err != nil {
		return err
	}
	v.Header().Set("Content-Type", "application/pdf")
	v.Header().Set("Content-Disposition", `inline; filename="estimate-`+number+`.pdf"`)
	v.send(http.StatusOK, file)
	return nil
}

type quotePage struct {
	Job      app.Job
	Quote    app.Quote
	Revision app.Revision
	Options  []pricedOption
	Steps    []comparedStep
	Sheet    app.Sheet
	Path     string
	// Decides is set for those who may enter an acceptance on the owner's behalf.
	Decides bool
}

// pricedOption is an option's lines gathered by step.
type pricedOption struct {
	quote.Option
	Steps []pricedStep
}

type pricedStep struct {
	Code, Name string
	Lines      []quote.Line
}

// comparedStep is a step over all options.
type comparedStep struct {
	quote.OwnerCompared
}

func (p *Pages) yardQuote(v *visit, id string, n int64) error {
	ctx := v.Context()
	r, err := p.app.Revision(ctx, v.who, id, n)
	if err != nil {
		return err
	}
	body := quotePage{Revision: r, Path: revisionPath(id, n), Decides: v.is(deciders...) && r.Status == "issued"}
	if body.Job, err = p.app.Job(ctx, v.who, r.Job); err != nil {
		return err
	}
	if body.Quote, err = p.app.Quote(ctx, v.who, id); err != nil {
		return err
	}
	if body.Sheet, err = p.app.Sheet(ctx, v.who, r.Sheet); err != nil {
		return err
	}
	view, err := r.Priced.OwnerView()
	if err != nil {
		return err
	}
	for _, c := range view.Comparison {
		body.Steps = append(body.Steps, comparedStep{c})
	}
	for _, o := range r.Priced.Options {
		out := pricedOption{Option: o}
		for _, l := range o.Lines {
			if k := len(out.Steps); k == 0 || out.Steps[k-1].Code != l.Step {
				out.Steps = append(out.Steps, pricedStep{Code: l.Step, Name: l.StepName})
			}
			s := &out.Steps[len(out.Steps)-1]
			s.Lines = append(s.Lines, l)
		}
		body.Options = append(body.Options, out)
	}
	return p.show(v, http.StatusOK, "quote", page{Title: quoteTitle(body.Quote.Number, r.N, body.Job.Boat.Name),
		Way: []link{{"Jobs", "/"}, {body.Job.Boat.Name, jobPath(r.Job)}}, Body: body})
}

func quoteTitle(number string, n int64, boat string) string {
	name := "Draft quote"
	if number != "" {
		name = "Quote " + number
	}
	return fmt.Sprintf("%s, revision %s, for %s", name, strconv.FormatInt(n, 10), boat)
}
