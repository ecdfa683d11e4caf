package store_test

import (
	"context"
	"testing"

	"ribband/server/internal/store"
)

// estimator is who writes in the tests.
var estimator = store.Actor{TokenID: "token-1", Role: "estimator", Name: "an estimator"}

// founded makes a yard and returns its identifier.
func founded(t testing.TB, s *store.Store) string {
	t.Helper()
	var yard string
	_, _, err := s.Write(t.Context(), store.Request{Action: "found", Found: &store.Founding{Name: "Test yard", Invented: true}},
		func(_ context.Context, tx *store.Tx) (store.Answer, error) {
			yard = tx.YardID()
			return store.Answer{}, nil
		})
	if err != nil {
		t.Fatal(err)
	}
	return yard
}

// write runs a change that must succeed.
func write(t testing.TB, s *store.Store, yard string, change func(context.Context, *store.Tx) error) {
	t.Helper()
	if err := tryWrite(t.Context(), s, yard, change); err != nil {
		t.Fatal(err)
	}
}

// tryWrite runs a change without key and answer.
func tryWrite(ctx context.Context, s *store.Store, yard string, change func(context.Context, *store.Tx) error) error {
	_, _, err := s.Write(ctx, store.Request{Yard: yard, Actor: estimator, Action: "test"},
		func(ctx context.Context, tx *store.Tx) (store.Answer, error) { return store.Answer{}, change(ctx, tx) })
	return err
}

// aJob adds a job.
func aJob(t testing.TB, s *store.Store, yard string) store.Job {
	t.Helper()
	var job store.Job
	write(t, s, yard, func(ctx context.Context, tx *store.Tx) (err error) {
		job, err = tx.AddJob(ctx, store.Job{Boat: "Wagtail", Owner: "an invented owner", Notation: "feet_inches_eighths",
			Currency: "USD", OpenedDate: "2026-03-02", Body: []byte(`{}`)})
		return err
	})
	return job
}

// anOption adds an option to a job.
func anOption(t testing.TB, s *store.Store, yard, job string) store.Option {
	t.Helper()
	var option store.Option
	write(t, s, yard, func(ctx context.Context, tx *store.Tx) (err error) {
		option, err = tx.AddOption(ctx, store.Option{JobID: job, Name: "all frames", Body: []byte(`{}`)})
		return err
	})
	return option
}

// put writes a document that must go in.
func put(t testing.TB, s *store.Store, yard, kind, id, body string, seen store.Seen) store.Document {
	t.Helper()
	var document store.Document
	write(t, s, yard, func(ctx context.Context, tx *store.Tx) (err error) {
		document, err = tx.PutDocument(ctx, store.Document{Kind: kind, ID: id, Schema: 1, Body: []byte(body)}, seen)
		return err
	})
	return document
}

// issued adds a quote with one option and issues its first revision.
func issued(t testing.TB, s *store.Store, yard string) (store.Quote, store.Revision, store.Option) {
	t.Helper()
	job := aJob(t, s, yard)
	option := anOption(t, s, yard, job.ID)
	var quote store.Quote
	var revision store.Revision
	write(t, s, yard, func(ctx context.Context, tx *store.Tx) error {
		var err error
		if quote, revision, err = tx.AddQuote(ctx, job.ID, []byte(`{"valid_days":30}`)); err != nil {
			return err
		}
		if quote.Number, err = tx.QuoteNumber(ctx, quote.ID, 2026); err != nil {
			return err
		}
		revision, err = tx.IssueRevision(ctx, quote.ID, 1, store.Issue{Snapshot: []byte(`{"total":"120.00"}`), PDF: []byte("%PDF-1.3 \x00\xff"),
			Totals: []store.Total{{OptionID: option.ID, Currency: "USD", NetMinor: 10000, TaxMinor: 2000, TotalMinor: 12000}}}, store.Seen(revision.Edit))
		return err
	})
	return quote, revision, option
}

// draftOf is a change that adds a quote of a job and leaves it a draft.
func draftOf(jobID string) func(context.Context, *store.Tx) error {
	return func(ctx context.Context, tx *store.Tx) error {
		_, _, err := tx.AddQuote(ctx, jobID, []byte("{}"))
		return err
	}
}
