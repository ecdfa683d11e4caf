package app

import (
	"context"
	"slices"
	"time"

	"ribband/pdf"
	"ribband/pricing/quote"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
)

// Issue freezes a draft: number, snapshot, PDF and totals, in one transaction. It refuses while something cannot be
// built, while the yard has not said who it is, while prices are missing, when a document has moved since the draft was made, and once a revision of the quote
// was accepted.
func (a *App) Issue(ctx context.Context, who auth.Principal, id string, n int64, key Key, reply Reply[Revision]) (store.Answer, error) {
	const action = "issue quote"
	q, r, _, err := a.revisionRecord(ctx, who, id, n)
	if err != nil {
		return store.Answer{}, err
	}
	if answer, found, err := a.replay(ctx, who, action, key); err != nil || found {
		return answer, err
	}
	if r.Issued() {
		return store.Answer{}, &store.ImmutableError{Kind: "revision", ID: id}
	}
	d, err := stored[draft]("draft", r.Body)
	if err != nil {
		return store.Answer{}, err
	}
	if err := moved(ctx, a.store.In(who.Yard), q.JobID, d); err != nil {
		return store.Answer{}, err
	}
	e, err := a.resume(ctx, who, q.JobID, d)
	if err != nil {
		return store.Answer{}, err
	}
	if err := e.sound(); err != nil {
		return store.Answer{}, err
	}
	answer, _, err := a.write(ctx, who, action, key, func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
		if err := unaccepted(ctx, tx.Reader, id); err != nil {
			return store.Answer{}, err
		}
		if err := moved(ctx, tx.Reader, q.JobID, d); err != nil {
			return store.Answer{}, err
		}
		issued, s, err := e.issue(ctx, tx, a.version, id, r)
		if err != nil {
			return store.Answer{}, err
		}
		q.Number = issued.Number
		view := e.revision(q, issued, statusIssued)
		view.Issued = issuedOf(issued, s)
		return reply(view)
	})
	return answer, err
}

// issue writes the frozen revision within tx.
func (e *estimated) issue(ctx context.Context, tx *store.Tx, program string, id string, r store.Revision) (store.Revision, snapshot, error) {
	now := tx.Now()
	number, err := tx.QuoteNumber(ctx, id, now.Year())
	if err != nil {
		return store.Revision{}, snapshot{}, err
	}
	s := e.freeze(program, number, now.Format(time.DateOnly), quote.ValidUntil(now, e.draft.Terms.ValidDays), id, r.N)
	bytes, err := encode("snapshot", s)
	if err != nil {
		return store.Revision{}, snapshot{}, err
	}
	paper, err := estimateOf(s, now, store.HashOf(bytes), false)
	if err != nil {
		return store.Revision{}, snapshot{}, err
	}
	file, err := pdf.WriteEstimate(paper)
	if err != nil {
		return store.Revision{}, snapshot{}, err
	}
	issue := store.Issue{Snapshot: bytes, PDF: file}
	for _, o := range e.priced.Options {
		issue.Totals = append(issue.Totals, store.Total{OptionID: o.ID, Currency: string(e.priced.Currency),
			NetMinor: o.Net.Minor(), TaxMinor: o.Tax.Minor(), TotalMinor: o.Total.Minor()})
	}
	issued, err := tx.IssueRevision(ctx, id, r.N, issue, store.Seen(r.Edit))
	return issued, s, err
}

// comeIn adds lines, patterns, findings, floors, planking and planks that the job or an option has got since: a basis without them does not name them.
func comeIn(ctx context.Context, in store.Reader, job string, d draft, out []Moved) ([]Moved, error) {
	for _, kind := range []string{kindHull, kindPatterns, kindFindings, kindFloors, kindPlanking} {
		without := slices.ContainsFunc(d.Bases, func(b OptionBasis) bool {
			return (kind != kindPlanking || b.has(kindPlanks)) && !b.has(kind)
		})
		if !without {
			continue
		}
		now, err := in.Document(ctx, kind, job)
		if gone(err) {
			continue
		}
		if err != nil {
			return nil, err
		}
		out = append(out, Moved{kind, job, 0, now.N})
	}
	for _, b := range d.Bases {
		if b.has(kindPlanks) {
			continue
		}
		now, err := in.Document(ctx, kindPlanks, b.Option)
		if gone(err) {
			continue
		}
		if err != nil {
			return nil, err
		}
		out = append(out, Moved{kindPlanks, b.Option, 0, now.N})
	}
	return out, nil
}

// has says that a basis names a document of a kind.
func (b OptionBasis) has(kind string) bool {
	return slices.ContainsFunc(b.Basis, func(s Source) bool { return s.Kind == kind })
}

// moved refuses a draft whose job or documents have another version now.
func moved(ctx context.Context, in store.Reader, job string, d draft) error {
	var out []Moved
	j, err := in.Job(ctx, job)
	if err != nil {
		return err
	}
	if j.N != d.JobVersion {
		out = append(out, Moved{"job", job, d.JobVersion, j.N})
	}
	seen := map[[2]string]bool{}
	if out, err = comeIn(ctx, in, job, d, out); err != nil {
		return err
	}
	for _, b := range d.Bases {
		for _, s := range b.Basis {
			// An option names the versions of the yard's knowledge, so newer ones change nothing for it.
			if s.ID == yardOwn || seen[[2]string{s.Kind, s.ID}] {
				continue
			}
			seen[[2]string{s.Kind, s.ID}] = true
			now, err := in.Document(ctx, s.Kind, s.ID)
			if err != nil {
				return err
			}
			if now.N != s.N {
				out = append(out, Moved{s.Kind, s.ID, s.N, now.N})
			}
		}
	}
	if len(out) > 0 {
		return &BasisMovedError{out}
	}
	return nil
}
