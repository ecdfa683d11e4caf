package app

import (
	"context"
	"encoding/json"
	"slices"

	"ribband/pricing/buy"
	"ribband/pricing/quote"
	"ribband/server/internal/auth"
	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"
)

// snapshotSchema is the shape that snapshots are written in now; old ones are read by it for ever.
const snapshotSchema = 1

// snapshot is everything an issued estimate says and rests on, by value. Its bytes are stored and hashed once and
// never made again. It holds no binary float: measured figures are exact texts.
type snapshot struct {
	Schema         int        `json:"schema"`
	Program        string     `json:"program"`
	Number         string     `json:"number"`
	Quote          string     `json:"quote"`
	Revision       int64      `json:"revision"`
	IssuedDate     string     `json:"issued_date"`
	ValidUntilDate string     `json:"valid_until_date"`
	Yard           Letterhead `json:"yard"`
	Job            Job        `json:"job"`
	JobVersion     int64      `json:"job_version,omitempty"`
	// Warnings are of the estimate as a whole; those of a takeoff stand in its bill.
	Warnings []bill.Warning `json:"warnings,omitempty"`
	QuoteFields
	Bases     []OptionBasis    `json:"bases"`
	Prices    Source           `json:"prices"`
	Documents []frozenDocument `json:"documents"`
	Takeoffs  []frozenTakeoff  `json:"takeoffs"`
	Priced    quote.Quote      `json:"priced"`
}

// frozenDocument is a document by value. Hash is of Body, byte for byte.
type frozenDocument struct {
	Source
	Body json.RawMessage `json:"body"`
}

// frozenTakeoff is what one option needs, and what is bought for it.
type frozenTakeoff struct {
	Option Option      `json:"option"`
	Bill   bill.Bill   `json:"bill"`
	Work   []step.Work `json:"work"`
	// Planned is Work with the scarfs of BuyList in it, where it makes any; it is what is priced.
	Planned    []step.Work         `json:"planned,omitempty"`
	TotalHours quantity.Quantity   `json:"total_hours"`
	Weight     quantity.Quantity   `json:"weight"`
	Figures    []derivation.Figure `json:"figures"`
	BuyList    buy.List            `json:"buy_list"`
}

// freeze is the estimate by value, under its number and dates.
func (e *estimated) freeze(program, number, issued, until, quoteID string, revision int64) snapshot {
	s := snapshot{Schema: snapshotSchema, Program: program, Number: number, Quote: quoteID, Revision: revision, IssuedDate: issued,
		ValidUntilDate: until, Yard: e.yard, Warnings: e.caveats(), Job: e.job, JobVersion: e.job.N, QuoteFields: e.draft.QuoteFields, Bases: e.draft.Bases, Prices: e.draft.Prices, Priced: e.priced}
	seen := map[Source]bool{}
	for i, w := range e.works {
		for _, d := range slices.Concat(w.from, sources{e.prices}) {
			at := Source{d.Kind, d.ID, d.N, d.Hash}
			if !seen[at] {
				seen[at] = true
				s.Documents = append(s.Documents, frozenDocument{at, d.Body})
			}
		}
		r := w.result
		s.Takeoffs = append(s.Takeoffs, frozenTakeoff{Option: e.options[i], Bill: r.Bill, Work: r.Work, Planned: e.scarfed(i), TotalHours: r.TotalHours, Weight: r.Weight, Figures: r.Figures, BuyList: e.bought[i].Buy})
	}
	return s
}

// Snapshot is the bytes of an issued revision's snapshot, with their hash.
func (a *App) Snapshot(ctx context.Context, who auth.Principal, id string, n int64) ([]byte, string, error) {
	if _, _, _, err := a.revisionRecord(ctx, who, id, n); err != nil {
		return nil, "", err
	}
	f, err := a.store.In(who.Yard).Frozen(ctx, id, n)
	return f.Snapshot, f.Hash, err
}

func (a *App) snapshot(ctx context.Context, who auth.Principal, id string, n int64) (snapshot, error) {
	f, err := a.store.In(who.Yard).Frozen(ctx, id, n)
	if err != nil {
		return snapshot{}, err
	}
	return stored[snapshot]("snapshot", f.Snapshot)
}
