package app

import (
	"context"
	"errors"
	"time"

	"ribband/pricing/quote"
	"ribband/pricing/sheet"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"
	"ribband/takeoff/step"
)

// QuoteFields is what a quote is made of: options of the job, a published version of a price sheet, and the terms.
type QuoteFields struct {
	Options []string    `json:"options"`
	Sheet   string      `json:"sheet"`
	Version int64       `json:"version"`
	Terms   quote.Terms `json:"terms"`
}

// OptionBasis is the documents that an option's part of a quote rests on.
type OptionBasis struct {
	Option    string   `json:"option"`
	Basis     []Source `json:"basis"`
	BasisHash string   `json:"basis_hash"`
}

// draft is a revision as it is kept while it may still change.
type draft struct {
	QuoteFields
	// JobVersion is the job's: owner and boat stand on the estimate.
	JobVersion int64         `json:"job_version"`
	Bases      []OptionBasis `json:"bases"`
	Prices     Source        `json:"prices"`
}

// mostOptions is how many options one quote compares. Assumption: more columns fit no paper.
const mostOptions = 6

// estimated is a quote worked out: what each option's takeoff is and what it costs.
type estimated struct {
	draft   draft
	job     Job
	options []Option
	works   []*worked
	bought  []quote.OptionInput
	// planned is the work of each option with the scarfs that its boards are made with.
	planned [][]step.Work
	prices  store.Document
	content sheet.Content // of prices
	priced  quote.Quote
	// yard makes the estimate on day; named is whether it has said who it is, invented whether the program's own
	// figures are behind it unsaid.
	yard            Letterhead
	now             time.Time
	day             string
	named, invented bool
}

// begin is a quote worked out on the documents as they stand now.
func (a *App) begin(ctx context.Context, who auth.Principal, jobID string, fields QuoteFields) (*estimated, error) {
	e := &estimated{draft: draft{QuoteFields: fields}}
	var err error
	if e.job, err = a.Job(ctx, who, jobID); err != nil {
		return nil, err
	}
	e.draft.JobVersion = e.job.N
	if err := a.refer(ctx, who, e); err != nil {
		return nil, err
	}
	if err := e.address(ctx, a, who); err != nil {
		return nil, err
	}
	for _, o := range e.options {
		w, err := a.takeoff(ctx, who, o)
		if err != nil {
			return nil, err
		}
		e.works = append(e.works, w)
		e.draft.Bases = append(e.draft.Bases, OptionBasis{o.ID, w.basis, w.hash})
	}
	return e, e.price()
}

// resume is a draft worked out again on the very documents it rests on.
func (a *App) resume(ctx context.Context, who auth.Principal, jobID string, d draft) (*estimated, error) {
	e := &estimated{draft: d}
	var err error
	if e.job, err = a.Job(ctx, who, jobID); err != nil {
		return nil, err
	}
	if err := a.refer(ctx, who, e); err != nil {
		return nil, err
	}
	if err := e.address(ctx, a, who); err != nil {
		return nil, err
	}
	for _, b := range d.Bases {
		w, err := a.takeoffOn(ctx, who, b.Basis)
		if err != nil {
			return nil, err
		}
		e.works = append(e.works, w)
	}
	return e, e.price()
}

// refer finds the options and the prices that the fields name, and says what is wrong with them all.
func (a *App) refer(ctx context.Context, who auth.Principal, e *estimated) error {
	var f document.Faults
	fields := e.draft.QuoteFields
	if n := len(fields.Options); n < 1 || n > mostOptions {
		f.Add("/options", "from 1 to "+itoa(mostOptions)+" options of the job", "%d options are named", n)
		fields.Options = nil
	}
	seen := map[string]bool{}
	for i, id := range fields.Options {
		at := "/options/" + itoa(i)
		if seen[id] {
			f.Add(at, "each option once", "the option is named twice")
			continue
		}
		seen[id] = true
		o, err := a.Option(ctx, who, e.job.ID, id)
		if gone(err) {
			f.Add(at, "the id of an option of this job", "the job has no option %s", notation.Quote(id))
			continue
		}
		if err != nil {
			return err
		}
		e.options = append(e.options, o)
	}
	if err := a.referPrices(ctx, who, e, &f); err != nil {
		return err
	}
	var inTerms document.Faults
	if err := fields.Terms.Validate(); errors.As(err, &inTerms) {
		f = append(f, inTerms.Under("/terms")...)
	} else if err != nil {
		return err
	}
	return f.Err()
}

func (a *App) referPrices(ctx context.Context, who auth.Principal, e *estimated, f *document.Faults) error {
	fields := e.draft.QuoteFields
	if fields.Version < 1 {
		f.Add("/version", "the number of a published version, from 1", "%d is not a version", fields.Version)
		return nil
	}
	d, content, err := a.published(ctx, who, fields.Sheet, fields.Version)
	var unpublished *NotPublishedError
	switch {
	case gone(err):
		f.Add("/sheet", "the id of a price sheet and the number of one of its published versions", "there is no version %d of the price sheet %s", fields.Version, notation.Quote(fields.Sheet))
		return nil
	case errors.As(err, &unpublished):
		f.Add("/version", "a published version", "version %d is still a draft", fields.Version)
		return nil
	case err != nil:
		return err
	}
	if content.Currency != e.job.Currency {
		f.Add("/sheet", "a price sheet in the currency of the job, "+string(e.job.Currency), "the price sheet is in %s", content.Currency)
	}
	e.prices, e.draft.Prices = d, Source{d.Kind, d.ID, d.N, d.Hash}
	return nil
}

// gone reports the store's word for what is not there.
func gone(err error) bool {
	var none *store.NotFoundError
	return errors.As(err, &none)
}
