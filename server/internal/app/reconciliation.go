package app

import (
	"context"
	"io"

	"ribband/pricing/reconcile"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
)

// Against names what spend is held against. Empty is what the owner accepted; a quote alone is what was accepted of
// it; quote, revision and option are an issued estimate, accepted or not.
type Against struct {
	Quote    string
	Revision int64
	Option   string
}

// Reconciled is a job's spend against one option of one issued revision, from what was frozen with it.
type Reconciled struct {
	Job        string `json:"job"`
	Quote      string `json:"quote"`
	Number     string `json:"number"`
	Revision   int64  `json:"revision"`
	Option     string `json:"option"`
	OptionName string `json:"option_name"`
	Boat       string `json:"boat"`
	// Accepted is false while it is only looked at what spend would mean against an estimate that is still open.
	Accepted bool `json:"accepted"`
	// AcceptedDate is the day of the acceptance; empty where the option is not accepted.
	AcceptedDate string `json:"accepted_date,omitempty"`
	reconcile.Reconciliation
}

// WriteCSV writes it as a table that says what it is of.
func (r Reconciled) WriteCSV(w io.Writer) error {
	return r.Reconciliation.WriteCSV(w, reconcile.About{Job: r.Job, Boat: r.Boat, Quote: r.Number, Revision: r.Revision, Option: r.OptionName, Accepted: r.AcceptedDate})
}

// NothingAcceptedError: there is no accepted option to hold spend against.
type NothingAcceptedError struct {
	// Several is how many quotes of the job are accepted, when one has to be named; 0 when none is.
	Several int
}

func (e *NothingAcceptedError) Error() string {
	if e.Several > 0 {
		return "several quotes of the job are accepted"
	}
	return "no option is accepted"
}

// Reconcile holds what was spent on a job against an option, by step and line.
func (a *App) Reconcile(ctx context.Context, who auth.Principal, job string, against Against) (Reconciled, error) {
	j, err := a.bookedJob(ctx, who, job)
	if err != nil {
		return Reconciled{}, err
	}
	at, err := a.against(ctx, who, job, against)
	if err != nil {
		return Reconciled{}, err
	}
	_, r, all, err := a.revisionRecord(ctx, who, at.Quote, at.Revision)
	if err != nil {
		return Reconciled{}, err
	}
	s, err := a.snapshot(ctx, who, at.Quote, at.Revision)
	if err != nil {
		return Reconciled{}, err
	}
	i := s.option(at.Option)
	if i < 0 {
		return Reconciled{}, &store.NotFoundError{Kind: "option", ID: at.Option}
	}
	st, err := a.standing(ctx, who, at.Quote, all)
	if err != nil {
		return Reconciled{}, err
	}
	spent, err := allSpend(ctx, a.store.In(who.Yard), job)
	if err != nil {
		return Reconciled{}, err
	}
	out := Reconciled{Job: job, Quote: at.Quote, Number: r.Number, Revision: r.N, Option: at.Option, OptionName: s.Priced.Options[i].Name, Boat: j.Boat.Name}
	if st.accepted != nil && st.accepted.Revision == r.N && st.accepted.Option == at.Option {
		out.Accepted, out.AcceptedDate = true, st.accepted.Date
	}
	out.Reconciliation, err = reconcile.Reconcile(s.Priced.Options[i], s.Takeoffs[i].BuyList, entriesOf(spent))
	return out, err
}

// against finds the option that is meant. A quote of another job is not found.
func (a *App) against(ctx context.Context, who auth.Principal, job string, at Against) (Against, error) {
	if at.Quote == "" {
		return a.acceptedOn(ctx, who, job)
	}
	q, err := a.Quote(ctx, who, at.Quote)
	if err != nil {
		return Against{}, err
	}
	switch {
	case q.Job != job:
		return Against{}, &store.NotFoundError{Kind: "quote", ID: at.Quote}
	case at.Option != "":
		return at, nil
	case q.Acceptance == nil:
		return Against{}, &NothingAcceptedError{}
	}
	return Against{q.ID, q.Acceptance.Revision, q.Acceptance.Option}, nil
}

// acceptedOn finds the one acceptance of a job.
func (a *App) acceptedOn(ctx context.Context, who auth.Principal, job string) (Against, error) {
	var found []Against
	for page := (store.Page{Limit: store.LargestLimit}); ; {
		list, err := a.Quotes(ctx, who, job, page)
		if err != nil {
			return Against{}, err
		}
		for _, q := range list.Items {
			if q.Acceptance != nil {
				found = append(found, Against{q.ID, q.Acceptance.Revision, q.Acceptance.Option})
			}
		}
		if page.After = list.Next; page.After == "" {
			break
		}
	}
	switch len(found) {
	case 0:
		return Against{}, &NothingAcceptedError{}
	case 1:
		return found[0], nil
	}
	return Against{}, &NothingAcceptedError{Several: len(found)}
}
