package app

import (
	"context"
	"errors"
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"ribband/pricing/money"
	"ribband/pricing/reconcile"
	"ribband/pricing/sheet"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/document"
	"ribband/takeoff/step"
)

// Spend is one entry as it is kept: what was spent, who entered it, and when. It is never changed; a correction is an
// entry that takes it back and a new one.
type Spend struct {
	ID string `json:"id"`
	reconcile.Entry
	// Import is the import that brought it; empty for an entry that was typed in.
	Import    string    `json:"import,omitempty"`
	EnteredBy string    `json:"entered_by"`
	CreatedAt time.Time `json:"created_at"`
}

// spendOf is a row as an entry; a *store.CorruptError where it no longer says what it said when it was entered.
func spendOf(r store.Spend) (Spend, error) {
	amount, err := money.New(r.AmountMinor, money.Currency(r.Currency))
	if err != nil {
		return Spend{}, damaged(r, err.Error())
	}
	tax, err := money.New(r.TaxMinor, money.Currency(r.Currency))
	if err != nil {
		return Spend{}, damaged(r, err.Error())
	}
	e := reconcile.Entry{Date: r.Date, Kind: reconcile.Kind(r.Kind), Supplier: r.Supplier, Document: r.Document, Line: r.Line,
		Item: r.Item, Description: r.Description, Unit: sheet.Unit(r.Unit), Amount: amount, Tax: tax, Step: r.Step, Author: r.Author}
	if r.Quantity != "" {
		if e.Quantity, err = decimal.NewFromString(r.Quantity); err != nil {
			return Spend{}, damaged(r, "quantity is no number")
		}
	}
	if e.Hash() != r.Hash || identityOf(e) != r.Identity {
		return Spend{}, damaged(r, "the row does not match its hash")
	}
	return Spend{r.ID, e, r.ImportID, r.EnteredBy, r.CreatedAt}, nil
}

func damaged(r store.Spend, reason string) error {
	return &store.CorruptError{Table: "spend", ID: r.ID, Reason: reason}
}

// identityOf is the identity that the store keeps once per job.
func identityOf(e reconcile.Entry) string { return store.HashOf([]byte(e.ID())) }

// spendRecord is an entry as the store keeps it.
func spendRecord(job, from string, e reconcile.Entry) store.Spend {
	row := e.Row()
	return store.Spend{JobID: job, Identity: identityOf(e), Hash: e.Hash(), Date: e.Date, Kind: string(e.Kind), Supplier: e.Supplier,
		Document: e.Document, Line: e.Line, Item: e.Item, Description: e.Description, Quantity: row.Quantity, Unit: string(e.Unit),
		AmountMinor: e.Amount.Minor(), TaxMinor: e.Tax.Minor(), Currency: string(e.Amount.Currency()), Step: e.Step, Author: e.Author,
		ImportID: from}
}

// bookedJob is a job for somebody of the yard: an owner knows of no books, whichever way the question comes.
func (a *App) bookedJob(ctx context.Context, who auth.Principal, job string) (Job, error) {
	if who.Role == auth.Owner {
		return Job{}, &store.NotFoundError{Kind: "job", ID: job}
	}
	return a.Job(ctx, who, job)
}

// SpendOf lists what was spent on a job, as it was entered.
func (a *App) SpendOf(ctx context.Context, who auth.Principal, job string, page store.Page) (List[Spend], error) {
	if _, err := a.bookedJob(ctx, who, job); err != nil {
		return List[Spend]{}, err
	}
	rows, err := a.store.In(who.Yard).SpendOf(ctx, job, page)
	if err != nil {
		return List[Spend]{}, err
	}
	return listed(rows, spendOf)
}

// allSpend is everything that was spent on a job.
func allSpend(ctx context.Context, in store.Reader, job string) ([]Spend, error) {
	rows, err := in.AllSpendOf(ctx, job)
	if err != nil {
		return nil, err
	}
	out := make([]Spend, 0, len(rows))
	for _, r := range rows {
		s, err := spendOf(r)
		if err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	return out, nil
}

func entriesOf(all []Spend) []reconcile.Entry {
	out := make([]reconcile.Entry, len(all))
	for i, s := range all {
		out[i] = s.Entry
	}
	return out
}

// EnterSpend enters one row on a job. An entry that is there already with the same content is that one: fresh is
// false then. Every fault is told by its place in the row.
func (a *App) EnterSpend(ctx context.Context, who auth.Principal, job string, key Key, row reconcile.Row, reply func(s Spend, fresh bool) (store.Answer, error)) (store.Answer, error) {
	if _, err := a.bookedJob(ctx, who, job); err != nil {
		return store.Answer{}, err
	}
	answer, _, err := a.write(ctx, who, "enter spend", key, func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
		fits, err := a.spendJob(ctx, tx.Reader, job)
		if err != nil {
			return store.Answer{}, err
		}
		posted, err := allSpend(ctx, tx.Reader, job)
		if err != nil {
			return store.Answer{}, err
		}
		read := reconcile.FromRows([]reconcile.Row{row}, fits, entriesOf(posted))
		if err := read.Err(); err != nil {
			return store.Answer{}, alone(err)
		}
		if len(read.Again) > 0 {
			id := read.Again[0].Entry.ID()
			i := slices.IndexFunc(posted, func(s Spend) bool { return s.Entry.ID() == id })
			return reply(posted[i], false)
		}
		added, err := tx.AddSpend(ctx, []store.Spend{spendRecord(job, "", read.Good[0].Entry)})
		if err != nil {
			return store.Answer{}, err
		}
		s, err := spendOf(added[0])
		if err != nil {
			return store.Answer{}, err
		}
		return reply(s, true)
	})
	return answer, err
}

// alone places the faults of the only row in the body that it is.
func alone(err error) error {
	var faults document.Faults
	if !errors.As(err, &faults) {
		return err
	}
	out := slices.Clone(faults)
	for i := range out {
		out[i].Pointer = strings.TrimPrefix(out[i].Pointer, "/entries/0")
	}
	return out
}

// spendJob is what spend on a job has to fit.
func (a *App) spendJob(ctx context.Context, in store.Reader, job string) (reconcile.Job, error) {
	r, err := in.Job(ctx, job)
	if err != nil {
		return reconcile.Job{}, err
	}
	steps, err := knownSteps(ctx, in)
	return reconcile.Job{Currency: money.Currency(r.Currency), OpenedDate: r.OpenedDate, Today: a.latestToday(), Steps: steps}, err
}

// firstZone is how far ahead of UTC the day begins where it begins first, so that no yard's own day is refused.
const firstZone = 14 * time.Hour

// latestToday is the last day that is today anywhere.
func (a *App) latestToday() string { return a.now().UTC().Add(firstZone).Format(time.DateOnly) }

// knownSteps are the steps of every version of the yard's library, under every name they have had: a quote keeps the
// steps that it was made with.
func knownSteps(ctx context.Context, in store.Reader) ([]reconcile.KnownStep, error) {
	out := []reconcile.KnownStep{}
	for page := (store.Page{Limit: store.LargestLimit}); ; {
		list, err := in.DocumentVersions(ctx, kindSteps, yardOwn, page)
		if err != nil {
			return nil, err
		}
		for _, d := range list.Items {
			lib, err := stored[step.Library](kindSteps, d.Body)
			if err != nil {
				return nil, err
			}
			for _, s := range lib.Steps {
				if known := (reconcile.KnownStep{Code: s.Code, Name: s.Name}); !slices.Contains(out, known) {
					out = append(out, known)
				}
			}
		}
		if page.After = list.Next; page.After == "" {
			return out, nil
		}
	}
}
