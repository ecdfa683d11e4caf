package app

import (
	"context"
	"time"

	"ribband/pricing/quote"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/bill"
)

// Revision is one state of a quote as the yard sees it, with cost, wage and markup.
type Revision struct {
	Quote  string `json:"quote"`
	N      int64  `json:"n"`
	Edit   int64  `json:"-"`
	Job    string `json:"job"`
	Status string `json:"status"`
	QuoteFields
	// JobVersion is the version of the job that the revision rests on; 0 where it was not kept.
	JobVersion int64         `json:"job_version,omitempty"`
	Bases      []OptionBasis `json:"bases"`
	Prices     Source        `json:"prices"`
	Priced     quote.Quote   `json:"priced"`
	// Faults are what cannot be built; while there are any the revision is not issued.
	Faults []bill.Fault `json:"faults"`
	// Warnings are what rests on too little; they stop nothing.
	Warnings  []bill.Warning `json:"warnings"`
	CreatedAt time.Time      `json:"created_at"`
	ChangedAt time.Time      `json:"changed_at"`
	*Issued
	// Decision is what the owner decided on it; nil while nothing is.
	Decision *Decision `json:"decision,omitempty"`
}

// Issued is what an issued revision has and a draft has not.
type Issued struct {
	Number         string    `json:"number"`
	IssuedAt       time.Time `json:"issued_at"`
	IssuedDate     string    `json:"issued_date"`
	ValidUntilDate string    `json:"valid_until_date"`
	SnapshotHash   string    `json:"snapshot_hash"`
	PDFHash        string    `json:"pdf_hash"`
}

// revision is the view of a draft that was worked out.
func (e *estimated) revision(q store.Quote, r store.Revision, status string) Revision {
	return Revision{Quote: q.ID, N: r.N, Edit: r.Edit, Job: q.JobID, Status: status, QuoteFields: e.draft.QuoteFields, JobVersion: e.draft.JobVersion, Bases: e.draft.Bases,
		Prices: e.draft.Prices.version(e.draft.Version), Priced: e.priced, Faults: e.faults(), Warnings: e.warnings(), CreatedAt: r.CreatedAt, ChangedAt: r.ChangedAt}
}

// OwnerRevision is an issued revision as the owner sees it: selling prices only.
type OwnerRevision struct {
	Quote    string           `json:"quote"`
	N        int64            `json:"n"`
	Job      string           `json:"job"`
	Status   string           `json:"status"`
	Estimate quote.OwnerQuote `json:"estimate"`
	*Issued
	// Decision is what the owner decided on it; nil while nothing is.
	Decision *Decision `json:"decision,omitempty"`
}

// RevisionFields is what a new revision changes; what is left out stays as the newest revision has it.
type RevisionFields struct {
	Options []string     `json:"options,omitempty"`
	Sheet   string       `json:"sheet,omitempty"`
	Version int64        `json:"version,omitempty"`
	Terms   *quote.Terms `json:"terms,omitempty"`
	// Seen is the version of the newest revision that the caller saw; 0 asks for no particular one.
	Seen store.Seen `json:"-"`
}

func (f RevisionFields) over(old QuoteFields) QuoteFields {
	if f.Options != nil {
		old.Options = f.Options
	}
	if f.Sheet != "" {
		old.Sheet = f.Sheet
	}
	if f.Version != 0 {
		old.Version = f.Version
	}
	if f.Terms != nil {
		old.Terms = *f.Terms
	}
	return old
}

// revisionRecord finds a revision that who may see, with its quote and all its revisions.
func (a *App) revisionRecord(ctx context.Context, who auth.Principal, id string, n int64) (store.Quote, store.Revision, []store.Revision, error) {
	in := a.store.In(who.Yard)
	none := &store.NotFoundError{Kind: "revision", ID: id}
	q, err := in.Quote(ctx, id)
	if err != nil {
		return q, store.Revision{}, nil, err
	}
	all, err := in.Revisions(ctx, id)
	if err != nil {
		return q, store.Revision{}, nil, err
	}
	for _, r := range all {
		if r.N == n && who.Sees(q.JobID) && (who.Role != auth.Owner || r.Issued()) {
			return q, r, all, nil
		}
	}
	return q, store.Revision{}, nil, none
}

// Revise makes the next draft on the documents as they stand: a new revision after an issued one, the same revision
// renewed while it is a draft. fresh tells which.
func (a *App) Revise(ctx context.Context, who auth.Principal, id string, key Key, fields RevisionFields, reply func(r Revision, fresh bool) (store.Answer, error)) (store.Answer, error) {
	const action = "revise quote"
	in := a.store.In(who.Yard)
	q, err := in.Quote(ctx, id)
	if err != nil {
		return store.Answer{}, err
	}
	if answer, found, err := a.replay(ctx, who, action, key); err != nil || found {
		return answer, err
	}
	all, err := in.Revisions(ctx, id)
	if err != nil {
		return store.Answer{}, err
	}
	newest := all[len(all)-1]
	if fields.Seen != 0 && int64(fields.Seen) != newest.Edit {
		return store.Answer{}, &store.StaleError{Kind: "revision", ID: id, Seen: int64(fields.Seen), Current: newest.Edit}
	}
	old, err := stored[draft]("draft", newest.Body)
	if err != nil {
		return store.Answer{}, err
	}
	e, err := a.begin(ctx, who, q.JobID, fields.over(old.QuoteFields))
	if err != nil {
		return store.Answer{}, err
	}
	body, err := encode("draft", e.draft)
	if err != nil {
		return store.Answer{}, err
	}
	answer, _, err := a.write(ctx, who, action, key, func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
		if newest.Issued() {
			r, err := tx.AddRevision(ctx, id, body, store.Seen(newest.N))
			if err != nil {
				return store.Answer{}, err
			}
			return reply(e.revision(q, r, statusDraft), true)
		}
		r, err := tx.ChangeRevision(ctx, id, newest.N, body, store.Seen(newest.Edit))
		if err != nil {
			return store.Answer{}, err
		}
		return reply(e.revision(q, r, statusDraft), false)
	})
	return answer, err
}

// Revision reads a revision as the yard sees it.
func (a *App) Revision(ctx context.Context, who auth.Principal, id string, n int64) (Revision, error) {
	q, r, all, err := a.revisionRecord(ctx, who, id, n)
	if err != nil {
		return Revision{}, err
	}
	if !r.Issued() {
		d, err := stored[draft]("draft", r.Body)
		if err != nil {
			return Revision{}, err
		}
		e, err := a.resume(ctx, who, q.JobID, d)
		if err != nil {
			return Revision{}, err
		}
		return e.revision(q, r, statusDraft), nil
	}
	s, err := a.snapshot(ctx, who, id, n)
	if err != nil {
		return Revision{}, err
	}
	st, err := a.standing(ctx, who, id, all)
	if err != nil {
		return Revision{}, err
	}
	return Revision{Quote: q.ID, N: r.N, Edit: r.Edit, Job: q.JobID, Status: st.status[n], Decision: st.decision(n), QuoteFields: s.QuoteFields, JobVersion: s.JobVersion, Bases: s.Bases,
		Prices: s.Prices.version(s.Version), Priced: s.Priced, Faults: []bill.Fault{}, Warnings: s.warnings(), CreatedAt: r.CreatedAt, ChangedAt: r.ChangedAt, Issued: issuedOf(r, s)}, nil
}

// OwnerRevision reads an issued revision as the owner sees it.
func (a *App) OwnerRevision(ctx context.Context, who auth.Principal, id string, n int64) (OwnerRevision, error) {
	q, r, all, err := a.revisionRecord(ctx, who, id, n)
	if err != nil {
		return OwnerRevision{}, err
	}
	s, err := a.snapshot(ctx, who, id, n)
	if err != nil {
		return OwnerRevision{}, err
	}
	return a.ownerRevision(ctx, who, q, r, all, s)
}

// ownerRevision is an issued revision with its snapshot as the owner sees it.
func (a *App) ownerRevision(ctx context.Context, who auth.Principal, q store.Quote, r store.Revision, all []store.Revision, s snapshot) (OwnerRevision, error) {
	view, err := s.Priced.OwnerView()
	if err != nil {
		return OwnerRevision{}, err
	}
	st, err := a.standing(ctx, who, q.ID, all)
	return OwnerRevision{q.ID, r.N, q.JobID, st.status[r.N], view, issuedOf(r, s), st.decision(r.N)}, err
}

func issuedOf(r store.Revision, s snapshot) *Issued {
	return &Issued{r.Number, r.IssuedAt, s.IssuedDate, s.ValidUntilDate, r.Hash, r.PDFHash}
}
