package app

import (
	"context"
	"time"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
)

// What has become of a revision. Accepted and declined follow from events; expired and superseded are worked out,
// not stored.
const (
	statusDraft      = "draft"
	statusIssued     = "issued"
	statusSuperseded = "superseded"
	statusExpired    = "expired"
	statusAccepted   = "accepted"
	statusDeclined   = "declined"
)

// standing is how the revisions of one quote stand on a day.
type standing struct {
	status   map[int64]string
	until    map[int64]string // last day of those whose day had to be looked at
	decided  map[int64]Decision
	accepted *Decision
	newest   int64 // newest issued revision; 0 for none
}

// decision on revision n; nil for none.
func (s standing) decision(n int64) *Decision {
	if d, ok := s.decided[n]; ok {
		return &d
	}
	return nil
}

// standing of a quote now.
func (a *App) standing(ctx context.Context, who auth.Principal, quote string, revisions []store.Revision) (standing, error) {
	return a.standingIn(ctx, a.store.In(who.Yard), quote, revisions, a.today())
}

// today is the day by the server's clock, in UTC.
func (a *App) today() string { return a.now().UTC().Format(time.DateOnly) }

// standingIn is the standing as in reads it. What was decided goes before what has happened since: an accepted
// revision stays accepted, whatever is issued or however long ago.
func (a *App) standingIn(ctx context.Context, in store.Reader, quote string, revisions []store.Revision, today string) (standing, error) {
	s := standing{status: map[int64]string{}, until: map[int64]string{}, decided: map[int64]Decision{}}
	decisions, err := decisionsOf(ctx, in, quote)
	if err != nil {
		return standing{}, err
	}
	for _, d := range decisions {
		s.decided[d.Revision] = d
		if d.Option != "" {
			s.accepted = &d
		}
	}
	for _, r := range revisions {
		if r.Issued() {
			s.newest = max(s.newest, r.N)
		}
	}
	for _, r := range revisions {
		d, decided := s.decided[r.N]
		switch {
		case !r.Issued():
			s.status[r.N] = statusDraft
		case decided && d.Option != "":
			s.status[r.N] = statusAccepted
		case decided:
			s.status[r.N] = statusDeclined
		case r.N < s.newest:
			s.status[r.N] = statusSuperseded
		default:
			if s.until[r.N], err = a.validUntil(ctx, in, r); err != nil {
				return standing{}, err
			}
			s.status[r.N] = statusIssued
			if today > s.until[r.N] {
				s.status[r.N] = statusExpired
			}
		}
	}
	return s, nil
}

// validUntil is the last day of an issued revision, as its snapshot has it. A snapshot never changes, so its day is
// kept under its hash.
func (a *App) validUntil(ctx context.Context, in store.Reader, r store.Revision) (string, error) {
	if day, ok := a.days.get(r.Hash); ok {
		return day, nil
	}
	f, err := in.Frozen(ctx, r.QuoteID, r.N)
	if err != nil {
		return "", err
	}
	s, err := stored[struct {
		ValidUntilDate string `json:"valid_until_date"`
	}]("snapshot", f.Snapshot)
	if err == nil {
		a.days.put(r.Hash, s.ValidUntilDate)
	}
	return s.ValidUntilDate, err
}

// decisionsOf is what was decided on a quote's revisions, oldest first.
func decisionsOf(ctx context.Context, in store.Reader, quote string) ([]Decision, error) {
	var out []Decision
	for page := (store.Page{Limit: store.LargestLimit}); ; {
		list, err := in.QuoteEvents(ctx, quote, page)
		if err != nil {
			return nil, err
		}
		for _, e := range list.Items {
			if e.Kind != store.EventAccepted && e.Kind != store.EventDeclined {
				continue
			}
			d, err := decisionOf(e)
			if err != nil {
				return nil, err
			}
			out = append(out, d)
		}
		if page.After = list.Next; page.After == "" {
			return out, nil
		}
	}
}

func decisionOf(e store.QuoteEvent) (Decision, error) {
	b, err := stored[decisionBody]("decision", e.Body)
	return Decision{e.Revision, e.OptionID, b.OptionName, e.Name, b.Reason, b.Date, e.CreatedAt, b.EnteredBy}, err
}
