package app

import (
	"context"

	"ribband/pdf"
	"ribband/pricing/quote"
	"ribband/server/internal/auth"
)

// OwnerPaper is an issued revision in the words of its estimate on paper, at selling prices only, with what every
// later option differs from the first by.
type OwnerPaper struct {
	OwnerRevision
	Paper pdf.Estimate
}

// OwnerPaper reads an issued revision as a page shows it to the owner. A draft is not found.
func (a *App) OwnerPaper(ctx context.Context, who auth.Principal, id string, n int64) (OwnerPaper, error) {
	q, r, all, err := a.revisionRecord(ctx, who, id, n)
	if err != nil {
		return OwnerPaper{}, err
	}
	s, err := a.snapshot(ctx, who, id, n)
	if err != nil {
		return OwnerPaper{}, err
	}
	view, err := a.ownerRevision(ctx, who, q, r, all, s)
	if err != nil {
		return OwnerPaper{}, err
	}
	paper, err := estimateOf(s, r.IssuedAt, r.Hash, false)
	return OwnerPaper{view, paper}, err
}

// Difference is the second option against the first, both of this revision, by their places in it.
func (p OwnerPaper) Difference(first, second int) (quote.OptionDifference, error) {
	return quote.Difference(p.Estimate.Options[first], p.Estimate.Options[second])
}

// LineText is what a line of an option is called on paper. Lines of the paper stand in the order of the estimate's.
func (p OwnerPaper) LineText(key string) string {
	for i, o := range p.Estimate.Options {
		for j, s := range o.Steps {
			for k, l := range s.Lines {
				if l.Key == key {
					return p.Paper.Options[i].Steps[j].Lines[k].Text
				}
			}
		}
	}
	return key
}
