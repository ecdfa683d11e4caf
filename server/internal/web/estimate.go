package web

import (
	"net/http"

	"ribband/pricing/quote"
	"ribband/server/internal/app"
	"ribband/server/internal/store"
	"ribband/takeoff/quantity"
)

// estimatePage is an issued revision as its owner reads it, at selling prices only.
type estimatePage struct {
	*explainer
	app.OwnerPaper
	Path    string
	Options []estimateOption
	Against []against
	// Newer is the path of a revision that was issued later, and Others are the owner's other estimates.
	Newer  string
	Others []app.Quote
}

// estimateOption is one option in plain words.
type estimateOption struct {
	quote.OwnerOption
	Does, Undone []string
	WeightKg     string
	Plan         *plan
}

// against is an option set against the first, line by line.
type against struct {
	quote.OptionDifference
	First, Second int
	text          func(key string) string
}

// LineText is what a line is called on paper.
func (a against) LineText(key string) string { return a.text(key) }

// Dearer tells which way a difference goes.
func (a against) Dearer() bool { return a.Total.Difference.Sign() > 0 }

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
		body.Options = append(body.Options, estimateOption{o, said.InPlainWords, said.Undone, said.WeightKg, &drawn})
		if i == 0 {
			continue
		}
		diff, err := paper.Difference(0, i)
		if err != nil {
			return err
		}
		body.Against = append(body.Against, against{diff, 0, i, paper.LineText})
	}
	if body.Newer, err = p.newer(v, id, n); err != nil {
		return err
	}
	return p.show(v, http.StatusOK, "estimate", page{Title: "Estimate " + paper.Number + " for " + paper.Paper.Boat.Name, Body: body})
}

// newer is the path of the newest issued revision where that is another one.
func (p *Pages) newer(v *visit, id string, n int64) (string, error) {
	q, err := p.app.Quote(v.Context(), v.who, id)
	if err != nil {
		return "", err
	}
	last := n
	for _, r := range q.Revisions {
		if r.IssuedAt != nil {
			last = max(last, r.N)
		}
	}
	if last == n {
		return "", nil
	}
	return revisionPath(id, last), nil
}

// others are the owner's other estimates.
func (p *Pages) others(v *visit, job, but string) ([]app.Quote, error) {
	list, err := p.app.Quotes(v.Context(), v.who, job, store.Page{Limit: store.LargestLimit})
	if err != nil {
		return nil, err
	}
	var out []app.Quote
	for _, q := range list.Items {
		if q.ID != but {
			out = append(out, q)
		}
	}
	return out, nil
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
