package app

import (
	"context"
	"fmt"
	"slices"
	"time"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"
)

// AcceptFields is what somebody says who accepts an estimate: which of its options, and the name that stands for it.
type AcceptFields struct {
	Option string `json:"option"`
	Name   string `json:"name"`
}

// DeclineFields is what somebody says who turns an estimate down.
type DeclineFields struct {
	Name   string `json:"name"`
	Reason string `json:"reason,omitempty"`
}

// Decision is what the owner decided on one revision, as it is kept. The date is the server's, in UTC.
type Decision struct {
	Revision int64 `json:"revision"`
	// Option and OptionName are of an acceptance only.
	Option     string    `json:"option,omitempty"`
	OptionName string    `json:"option_name,omitempty"`
	Name       string    `json:"name"`
	Reason     string    `json:"reason,omitempty"`
	Date       string    `json:"date"`
	At         time.Time `json:"at"`
	// EnteredBy is the role of who entered it: the owner, or somebody of the yard on the owner's behalf.
	EnteredBy auth.Role `json:"entered_by"`
}

// decisionBody is what the columns of an event do not hold.
type decisionBody struct {
	OptionName string    `json:"option_name,omitempty"`
	Reason     string    `json:"reason,omitempty"`
	Date       string    `json:"date"`
	EnteredBy  auth.Role `json:"entered_by"`
}

// AcceptedError: the quote was accepted before. Nothing is accepted, declined or issued after that.
type AcceptedError struct{ Decision Decision }

func (e *AcceptedError) Error() string {
	return fmt.Sprintf("revision %d was accepted on %s", e.Decision.Revision, e.Decision.Date)
}

// NotOpenError: a revision that cannot be accepted or declined as it stands.
type NotOpenError struct {
	N      int64
	Status string
	// ValidUntilDate is set where the day has passed, Newest where a newer revision stands.
	ValidUntilDate string
	Newest         int64
}

func (e *NotOpenError) Error() string {
	return fmt.Sprintf("revision %d is %s", e.N, e.Status)
}

// Accept accepts one option of an issued revision, once for the whole quote. The owner of the job does, or the yard on
// the owner's behalf.
func (a *App) Accept(ctx context.Context, who auth.Principal, id string, n int64, key Key, fields AcceptFields, reply Reply[Quote]) (store.Answer, error) {
	return a.decide(ctx, who, id, n, key, "accept quote", reply, func(s snapshot) (store.QuoteEvent, decisionBody, error) {
		var f document.Faults
		named(&f, "/name", fields.Name)
		i := slices.Index(s.Options, fields.Option)
		if i < 0 {
			f.Add("/option", "the id of one of the options of this estimate", "the estimate has no option %s", notation.Quote(fields.Option))
			return store.QuoteEvent{}, decisionBody{}, f
		}
		return store.QuoteEvent{Kind: store.EventAccepted, OptionID: fields.Option, Name: fields.Name},
			decisionBody{OptionName: s.Priced.Options[i].Name}, f.Err()
	})
}

// Decline turns an issued revision down. Another revision may still be issued and accepted.
func (a *App) Decline(ctx context.Context, who auth.Principal, id string, n int64, key Key, fields DeclineFields, reply Reply[Quote]) (store.Answer, error) {
	return a.decide(ctx, who, id, n, key, "decline quote", reply, func(snapshot) (store.QuoteEvent, decisionBody, error) {
		var f document.Faults
		named(&f, "/name", fields.Name)
		short(&f, "/reason", fields.Reason, longestText)
		return store.QuoteEvent{Kind: store.EventDeclined, Name: fields.Name}, decisionBody{Reason: fields.Reason}, f.Err()
	})
}

// decide appends what the owner decided. That the revision is still open is looked at within the write, where nobody
// else can decide or issue meanwhile.
func (a *App) decide(ctx context.Context, who auth.Principal, id string, n int64, key Key, action string, reply Reply[Quote],
	say func(snapshot) (store.QuoteEvent, decisionBody, error)) (store.Answer, error) {
	_, r, _, err := a.revisionRecord(ctx, who, id, n)
	if err != nil {
		return store.Answer{}, err
	}
	if answer, found, err := a.replay(ctx, who, action, key); err != nil || found {
		return answer, err
	}
	if !r.Issued() {
		return store.Answer{}, &NotOpenError{N: n, Status: statusDraft}
	}
	s, err := a.snapshot(ctx, who, id, n)
	if err != nil {
		return store.Answer{}, err
	}
	event, body, err := say(s)
	if err != nil {
		return store.Answer{}, err
	}
	answer, _, err := a.write(ctx, who, action, key, func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
		body.Date, body.EnteredBy = tx.Now().Format(time.DateOnly), who.Role
		if err := a.stillOpen(ctx, tx, id, n, body.Date); err != nil {
			return store.Answer{}, err
		}
		event.QuoteID, event.Revision = id, n
		if event.Body, err = encode("decision", body); err != nil {
			return store.Answer{}, err
		}
		if _, err := tx.AddQuoteEvent(ctx, event); err != nil {
			return store.Answer{}, err
		}
		q, err := tx.Quote(ctx, id)
		if err != nil {
			return store.Answer{}, err
		}
		view, err := a.quoteIn(ctx, tx.Reader, who, q, body.Date)
		if err != nil {
			return store.Answer{}, err
		}
		return reply(view)
	})
	return answer, err
}

// stillOpen refuses what cannot be decided on any more, on a day.
func (a *App) stillOpen(ctx context.Context, tx *store.Tx, id string, n int64, today string) error {
	revisions, err := tx.Revisions(ctx, id)
	if err != nil {
		return err
	}
	s, err := a.standingIn(ctx, tx.Reader, id, revisions, today)
	if err != nil {
		return err
	}
	if s.accepted != nil {
		return &AcceptedError{*s.accepted}
	}
	switch status := s.status[n]; status {
	case statusIssued:
		return nil
	case statusExpired:
		return &NotOpenError{N: n, Status: status, ValidUntilDate: s.until[n]}
	default:
		return &NotOpenError{N: n, Status: status, Newest: s.newest}
	}
}

// unaccepted refuses a quote that was accepted: what comes on top of it is a quote of its own.
func unaccepted(ctx context.Context, in store.Reader, id string) error {
	decisions, err := decisionsOf(ctx, in, id)
	if err != nil {
		return err
	}
	for _, d := range decisions {
		if d.Option != "" {
			return &AcceptedError{d}
		}
	}
	return nil
}
