package app

import (
	"context"
	"time"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
)

// Quote is the record that revisions belong to.
type Quote struct {
	ID string `json:"id"`
	// Number is the yard's, from the first issue on.
	Number    string        `json:"number,omitempty"`
	Job       string        `json:"job"`
	Revisions []RevisionRef `json:"revisions"`
	// Acceptance is what was accepted, of which revision; nil while nothing is.
	Acceptance *Decision `json:"acceptance,omitempty"`
	CreatedAt  time.Time `json:"created_at"`
}

// RevisionRef is a revision in the list of its quote.
type RevisionRef struct {
	N        int64      `json:"n"`
	Status   string     `json:"status"`
	IssuedAt *time.Time `json:"issued_at,omitempty"`
}

// MakeQuote begins a quote with a draft on the documents as they stand.
func (a *App) MakeQuote(ctx context.Context, who auth.Principal, job string, key Key, fields QuoteFields, reply Reply[Revision]) (store.Answer, error) {
	const action = "make quote"
	if _, err := a.Job(ctx, who, job); err != nil {
		return store.Answer{}, err
	}
	if answer, found, err := a.replay(ctx, who, action, key); err != nil || found {
		return answer, err
	}
	e, err := a.begin(ctx, who, job, fields)
	if err != nil {
		return store.Answer{}, err
	}
	body, err := encode("draft", e.draft)
	if err != nil {
		return store.Answer{}, err
	}
	answer, _, err := a.write(ctx, who, action, key, func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
		q, r, err := tx.AddQuote(ctx, job, body)
		if err != nil {
			return store.Answer{}, err
		}
		return reply(e.revision(q, r, statusDraft))
	})
	return answer, err
}

// Quote reads a quote with its revisions; an owner sees the issued ones, and no quote that has none.
func (a *App) Quote(ctx context.Context, who auth.Principal, id string) (Quote, error) {
	q, err := a.store.In(who.Yard).Quote(ctx, id)
	if err != nil {
		return Quote{}, err
	}
	if !who.Sees(q.JobID) {
		return Quote{}, &store.NotFoundError{Kind: "quote", ID: id}
	}
	out, err := a.quoteOf(ctx, who, q)
	if err == nil && who.Role == auth.Owner && len(out.Revisions) == 0 {
		err = &store.NotFoundError{Kind: "quote", ID: id}
	}
	return out, err
}

func (a *App) quoteOf(ctx context.Context, who auth.Principal, q store.Quote) (Quote, error) {
	return a.quoteIn(ctx, a.store.In(who.Yard), who, q, a.today())
}

// quoteIn is the quote as in reads it, on a day.
func (a *App) quoteIn(ctx context.Context, in store.Reader, who auth.Principal, q store.Quote, today string) (Quote, error) {
	revisions, err := in.Revisions(ctx, q.ID)
	if err != nil {
		return Quote{}, err
	}
	s, err := a.standingIn(ctx, in, q.ID, revisions, today)
	if err != nil {
		return Quote{}, err
	}
	out := Quote{ID: q.ID, Number: q.Number, Job: q.JobID, Revisions: []RevisionRef{}, Acceptance: s.accepted, CreatedAt: q.CreatedAt}
	for _, r := range revisions {
		if who.Role == auth.Owner && !r.Issued() {
			continue
		}
		ref := RevisionRef{N: r.N, Status: s.status[r.N]}
		if r.Issued() {
			ref.IssuedAt = &r.IssuedAt
		}
		out.Revisions = append(out.Revisions, ref)
	}
	return out, nil
}

// Quotes lists a job's quotes; an owner's page leaves out those without an issued revision.
func (a *App) Quotes(ctx context.Context, who auth.Principal, job string, page store.Page) (List[Quote], error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return List[Quote]{}, err
	}
	qs, err := a.store.In(who.Yard).Quotes(ctx, job, page)
	if err != nil {
		return List[Quote]{}, err
	}
	all, err := listed(qs, func(q store.Quote) (Quote, error) { return a.quoteOf(ctx, who, q) })
	if err != nil || who.Role != auth.Owner {
		return all, err
	}
	out := List[Quote]{Items: []Quote{}, Next: all.Next}
	for _, q := range all.Items {
		if len(q.Revisions) > 0 {
			out.Items = append(out.Items, q)
		}
	}
	return out, nil
}
