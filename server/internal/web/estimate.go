package web

import (
	"net/http"
	"strings"

	"ribband/pricing/money"
	"ribband/pricing/quote"
	"ribband/server/internal/app"
	"ribband/takeoff/quantity"
)

// estimatePage is an issued revision as its owner reads it, at selling prices only.
type estimatePage struct {
	*explainer
	app.OwnerPaper
	Path    string
	Options []estimateOption
	Against []against
	// Newer is the path of a revision that was issued later.
	Newer string
	// Acceptance is what was accepted of the estimate, of whichever revision; AcceptedTotal is its amount where that
	// is this one.
	Acceptance    *app.Decision
	AcceptedTotal *money.Money
}

// estimateOption is one option in plain words.
type estimateOption struct {
	quote.OwnerOption
	Does, Undone []string
	WeightKg     string
	// Planks: it renews planks, which are not glued up.
	Planks bool
	Plan   *plan
}

// against is an option set against the first, line by line.
type against struct {
	*explainer
	quote.OptionDifference
	First, Second int
	text          func(key string) string
}

// LineText is what a line is called on paper.
func (a against) LineText(key string) string { return a.text(key) }

// StepTexts are the names of all steps.
func (a against) StepTexts() (out []string) {
	for _, s := range a.Steps {
		out = append(out, s.Name)
	}
	return out
}

// LineTexts are what all lines are called.
func (a against) LineTexts() (out []string) {
	for _, s := range a.Steps {
		for _, l := range s.Lines {
			out = append(out, a.text(l.Key))
		}
	}
	return out
}

// Gap says in words what the second option costs more or less than the first.
func (a against) Gap() string {
	switch d := a.Total.Difference; d.Sign() {
	case 1:
		return "costs " + priced(d) + " more than"
	case -1:
		return "costs " + strings.Replace(priced(d), minus, "", 1) + " less than"
	}
	return "costs the same as"
}

func (p *Pages) estimate(v *visit, id string, n int64) error {
	ctx := v.Context()
	paper, err := p.app.OwnerPaper(ctx, v.who, id, n)
	if err != nil {
		return err
	}
	body := estimatePage{explainer: newExplainer(), OwnerPaper: paper, Path: revisionPath(id, n)}
	for i, o := range paper.Estimate.Options {
		d, err := p.app.IssuedFramePlan(ctx, v.who, id, n, o.ID, v.width())
		if err != nil {
			return err
		}
		drawn := planOf(d, body.Path+"/frames/"+o.ID)
		said := paper.Paper.Options[i]
		body.Options = append(body.Options, estimateOption{o, said.InPlainWords, said.Undone, said.WeightKg, said.Planks, &drawn})
		if i == 0 {
			continue
		}
		diff, err := paper.Difference(0, i)
		if err != nil {
			return err
		}
		body.Against = append(body.Against, against{body.explainer, diff, 0, i, paper.LineText})
	}
	if err := p.standing(v, &body); err != nil {
		return err
	}
	return p.show(v, http.StatusOK, "estimate", page{Title: "Estimate " + paper.Number + " for " + paper.Paper.Boat.Name, Body: body})
}

// standing tells whether a newer revision was issued and what was accepted.
func (p *Pages) standing(v *visit, body *estimatePage) error {
	q, err := p.app.Quote(v.Context(), v.who, body.Quote)
	if err != nil {
		return err
	}
	if last := max(body.N, newestIssued(q)); last != body.N {
		body.Newer = revisionPath(body.Quote, last)
	}
	body.Acceptance = q.Acceptance
	for _, o := range body.Options {
		if q.Acceptance != nil && q.Acceptance.Revision == body.N && q.Acceptance.Option == o.ID {
			body.AcceptedTotal = &o.Total
		}
	}
	return nil
}

// hoursText is hours to the nearest whole one, for sentences.
func hoursText(q quantity.Quantity) string { return grouped(q.Value().Round(0).String()) }

// places of a pair of quantities in words: what one option has and the other has not is a dash.
func quantityText(q *quantity.Quantity) string {
	if q == nil {
		return "–"
	}
	return counted(*q)
}
