package store_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/jackc/pgx/v5/pgconn"

	"ribband/server/internal/store"
	"ribband/server/internal/storetest"
)

var errChangedMind = errors.New("the change was given up")

// steps is a change that touches every table there is, one step after the other.
func steps(quoteID, jobID, optionID string) []func(context.Context, *store.Tx) error {
	var quote store.Quote
	return []func(context.Context, *store.Tx) error{
		func(ctx context.Context, tx *store.Tx) error {
			_, err := tx.AddJob(ctx, store.Job{Boat: "Dunlin", Currency: "USD"})
			return err
		},
		func(ctx context.Context, tx *store.Tx) error {
			_, err := tx.AddOption(ctx, store.Option{JobID: jobID, Name: "worst frames"})
			return err
		},
		func(ctx context.Context, tx *store.Tx) error {
			_, err := tx.PutDocument(ctx, store.Document{Kind: "hull", ID: jobID, Schema: 1, Body: []byte("{}")}, store.Absent)
			return err
		},
		func(ctx context.Context, tx *store.Tx) error {
			_, err := tx.AddToken(ctx, store.Token{Name: "a lead", Role: "lead", Hash: store.HashOf([]byte("a secret"))})
			return err
		},
		func(ctx context.Context, tx *store.Tx) error {
			_, err := tx.ChangeRevision(ctx, quoteID, 1, []byte(`{"valid_days":14}`), 1)
			return err
		},
		func(ctx context.Context, tx *store.Tx) (err error) {
			quote, _, err = tx.AddQuote(ctx, jobID, []byte("{}"))
			return err
		},
		func(ctx context.Context, tx *store.Tx) error {
			_, err := tx.QuoteNumber(ctx, quote.ID, 2026)
			return err
		},
		func(ctx context.Context, tx *store.Tx) error {
			_, err := tx.IssueRevision(ctx, quote.ID, 1, store.Issue{Snapshot: []byte("{}"), PDF: []byte("%PDF"),
				Totals: []store.Total{{OptionID: optionID, Currency: "USD", NetMinor: 1, TotalMinor: 1}}}, 1)
			return err
		},
		func(ctx context.Context, tx *store.Tx) error {
			_, err := tx.AddQuoteEvent(ctx, store.QuoteEvent{QuoteID: quote.ID, Revision: 1, Kind: store.EventAccepted, OptionID: optionID})
			return err
		},
		func(ctx context.Context, tx *store.Tx) error {
			_, err := tx.AddSpend(ctx, []store.Spend{anInvoice(jobID, "1"), anInvoice(jobID, "2")})
			return err
		},
	}
}

// TestRefusalLeavesNoTrace fails a change after each of its steps in each way a
// change can fail, and compares every table with what it held before.
func TestRefusalLeavesNoTrace(t *testing.T) {
	ends := []struct {
		name   string
		answer store.Answer
		end    func(context.Context, *store.Tx) error
	}{
		{"error", store.Answer{Status: 201}, func(context.Context, *store.Tx) error { return errChangedMind }},
		{"panic", store.Answer{Status: 201}, func(context.Context, *store.Tx) error { panic(errChangedMind) }},
		{"failed statement passed over", store.Answer{Status: 201}, func(ctx context.Context, tx *store.Tx) error {
			_, err := tx.AddOption(ctx, store.Option{JobID: "no such job", Name: "x"})
			var missing *store.NotFoundError
			if !errors.As(err, &missing) || missing.Kind != "job" {
				return fmt.Errorf("an option of no job gave %w", err)
			}
			return nil
		}},
		{"answer that is a refusal", store.Answer{Status: 409}, func(context.Context, *store.Tx) error { return nil }},
		{"no answer under a key", store.Answer{}, func(context.Context, *store.Tx) error { return nil }},
		{"NUL in the answer's place", store.Answer{Status: 201, Location: "/jobs/\x00"}, func(context.Context, *store.Tx) error { return nil }},
	}
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		s := e.Open(t)
		yard := founded(t, s)
		job := aJob(t, s, yard)
		option := anOption(t, s, yard, job.ID)
		var draft store.Quote
		write(t, s, yard, func(ctx context.Context, tx *store.Tx) (err error) {
			draft, _, err = tx.AddQuote(ctx, job.ID, []byte("{}"))
			return err
		})
		raw := e.Raw(t)
		before := counts(t, e, raw)
		all := steps(draft.ID, job.ID, option.ID)
		change := func(done int, end func(context.Context, *store.Tx) error, answer store.Answer) (err error) {
			defer func() {
				if fault := recover(); fault != nil {
					err = fault.(error)
				}
			}()
			_, _, err = s.Write(t.Context(), store.Request{Yard: yard, Actor: estimator, Action: "test", Key: "k", RequestHash: store.HashOf(nil)},
				func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
					for _, step := range all[:done] {
						if err := step(ctx, tx); err != nil {
							t.Error(err)
						}
					}
					return answer, end(ctx, tx)
				})
			return err
		}
		for _, end := range ends {
			for done := range len(all) + 1 {
				if err := change(done, end.end, end.answer); err == nil {
					t.Fatalf("%s after %d steps was let through", end.name, done)
				}
				if diff := cmp.Diff(before, counts(t, e, raw)); diff != "" {
					t.Fatalf("%s after %d steps left a trace:\n%s", end.name, done, diff)
				}
			}
		}
		// The same steps without a failure do leave their rows, under the same key.
		if err := change(len(all), func(context.Context, *store.Tx) error { return nil }, store.Answer{Status: 201}); err != nil {
			t.Fatal(err)
		}
		after := counts(t, e, raw)
		for table, rows := range before {
			// Sessions of the pages are no part of a change: they come and go beside it.
			if table != "goose_db_version" && table != "yards" && table != "sessions" && cmp.Equal(rows, after[table]) {
				t.Errorf("the steps touch nothing in %s, so nothing was shown about it", table)
			}
		}
	})
}

// TestEngineAsksAgain hands the helper what PostgreSQL says when a transaction
// should be begun again (manual, table A.1: 40001, 40P01).
func TestEngineAsksAgain(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		s := e.Open(t)
		yard := founded(t, s)
		for _, code := range []string{"40001", "40P01"} {
			tries := 0
			write(t, s, yard, func(ctx context.Context, tx *store.Tx) error {
				tries++
				if _, err := tx.AddJob(ctx, store.Job{Boat: code}); err != nil {
					return err
				}
				if tries < 5 {
					return fmt.Errorf("injected: %w", &pgconn.PgError{Code: code})
				}
				return nil
			})
			if tries != 5 {
				t.Errorf("%s: %d tries", code, tries)
			}
		}
		if n := countOf(t, e.Raw(t), "jobs"); n != 2 {
			t.Errorf("%d jobs after two changes that were begun again", n)
		}
		tries := 0
		err := tryWrite(t.Context(), s, yard, func(context.Context, *store.Tx) error {
			tries++
			return &pgconn.PgError{Code: "40001"}
		})
		var busy *store.BusyError
		if !errors.As(err, &busy) || busy.Tries != 5 || tries != 5 || busy.RetryAfter <= 0 {
			t.Errorf("after %d tries: %v", tries, err)
		}
		tries = 0
		err = tryWrite(t.Context(), s, yard, func(context.Context, *store.Tx) error {
			tries++
			return &pgconn.PgError{Code: "23514"}
		})
		if tries != 1 || err == nil {
			t.Errorf("a broken rule was tried %d times: %v", tries, err)
		}
		ctx, cancel := context.WithCancel(t.Context())
		err = tryWrite(ctx, s, yard, func(context.Context, *store.Tx) error {
			cancel()
			return &pgconn.PgError{Code: "40001"}
		})
		if !errors.Is(err, context.Canceled) {
			t.Errorf("a caller that left got %v", err)
		}
	})
}

// TestOuterHandleOutOfReach uses the store inside a change and the transaction
// outside of one.
func TestOuterHandleOutOfReach(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		s := e.Open(t)
		yard := founded(t, s)
		var kept *store.Tx
		err := tryWrite(t.Context(), s, yard, func(ctx context.Context, tx *store.Tx) error {
			kept = tx
			nested := tryWrite(ctx, s, yard, func(context.Context, *store.Tx) error { return nil })
			_, read := s.In(yard).Jobs(ctx, store.Page{})
			_, yards := s.Yards(ctx)
			for _, err := range []error{nested, read, yards} {
				if !errors.Is(err, store.ErrInsideWrite) {
					t.Errorf("inside a change: %v", err)
				}
			}
			job, err := tx.AddJob(ctx, store.Job{Boat: "Dunlin"})
			if err != nil {
				return err
			}
			_, err = tx.Job(ctx, job.ID) // the transaction sees its own rows
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		var usage *store.UsageError
		if _, err := kept.AddJob(t.Context(), store.Job{}); !errors.As(err, &usage) {
			t.Errorf("writing after the change: %v", err)
		}
		if _, err := kept.Jobs(t.Context(), store.Page{}); !errors.As(err, &usage) {
			t.Errorf("reading after the change: %v", err)
		}
	})
}

func TestRequestMustBeWhole(t *testing.T) {
	s := storetest.SQLite(t).Open(t)
	yard := founded(t, s)
	for name, request := range map[string]store.Request{
		"no action":      {Yard: yard},
		"no yard":        {Action: "a"},
		"key, no hash":   {Yard: yard, Action: "a", Actor: estimator, Key: "k"},
		"hash, no key":   {Yard: yard, Action: "a", Actor: estimator, RequestHash: store.HashOf(nil)},
		"key of nobody":  {Yard: yard, Action: "a", Key: "k", RequestHash: store.HashOf(nil)},
		"no UTF-8":       {Yard: yard, Action: "a", Actor: store.Actor{Name: "\xff"}},
		"unknown yard":   {Yard: "no such yard", Action: "a"},
		"NUL in the key": {Yard: yard, Action: "a", Actor: estimator, Key: "\x00", RequestHash: store.HashOf(nil)},
	} {
		_, _, err := s.Write(t.Context(), request, func(context.Context, *store.Tx) (store.Answer, error) {
			t.Errorf("%s: the change was run", name)
			return store.Answer{}, nil
		})
		if err == nil {
			t.Errorf("%s was let through", name)
		}
	}
}

// TestFoundingAlone founds a yard from several servers at once.
func TestFoundingAlone(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		const servers = 8
		var all [servers]*store.Store
		for i := range all {
			all[i] = e.Open(t)
			if err := all[i].Ping(t.Context()); err != nil { // connections are up before the start
				t.Fatal(err)
			}
		}
		faults := make(chan error, servers)
		start := make(chan struct{})
		for _, s := range all {
			go func() {
				<-start
				_, _, err := s.Write(t.Context(), store.Request{Action: "found", Found: &store.Founding{Name: "Test yard", Alone: true}},
					func(context.Context, *store.Tx) (store.Answer, error) { return store.Answer{}, nil })
				faults <- err
			}()
		}
		close(start)
		founders := 0
		for range servers {
			err := <-faults
			var exists *store.ExistsError
			switch {
			case err == nil:
				founders++
			case !errors.As(err, &exists) || exists.Kind != "yard" || exists.ID == "":
				t.Error(err)
			}
		}
		yards, err := e.Open(t).Yards(t.Context())
		if err != nil || founders != 1 || len(yards) != 1 {
			t.Errorf("%d founders, %d yards, %v", founders, len(yards), err)
		}
	})
}

// TestErrorsReadPlainly holds every text to the house's tone.
func TestErrorsReadPlainly(t *testing.T) {
	for _, err := range []error{
		store.ErrInsideWrite, &store.NotFoundError{Kind: "job", ID: "a"}, &store.StaleError{Kind: "hull", ID: "a", Seen: 2, Current: 3},
		&store.StaleError{Kind: "hull", ID: "a", Seen: 2}, &store.ExistsError{Kind: "hull", ID: "a"}, &store.UnseenError{Kind: "hull", ID: "a"},
		&store.KeyReusedError{Key: "k"}, &store.ImmutableError{Kind: "documents"}, &store.ImmutableError{Kind: "revision", ID: "a/1"},
		&store.TextError{Field: "boat", Reason: "is not UTF-8"}, &store.CursorError{}, &store.PlaceError{Place: "a", Reason: "b", Fix: "C."},
		&store.SchemaError{Place: "a", Have: 2, Known: 1}, &store.CorruptError{Table: "a", ID: "b", Reason: "c"}, &store.AuditError{N: 1, Reason: "a"},
	} {
		text := err.Error()
		if text == "" || strings.ContainsAny(text, "!") || strings.Contains(strings.ToLower(text), "please") || strings.Contains(text, "%!") {
			t.Errorf("%T reads %q", err, text)
		}
	}
}
