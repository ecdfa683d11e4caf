package store_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"ribband/server/internal/store"
	"ribband/server/internal/storetest"
)

// TestWalkWhileOthersWrite reads a list page by page while two servers add to it.
// Each row that was there at the start comes once, in order; of the new ones none
// comes twice and none is passed over that an earlier page ended before.
func TestWalkWhileOthersWrite(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		servers := []*store.Store{e.Open(t), e.Open(t)}
		yard := founded(t, servers[0])
		add := func(s *store.Store, rows int) error {
			return tryWrite(t.Context(), s, yard, func(ctx context.Context, tx *store.Tx) error {
				for range rows {
					if _, err := tx.AddJob(ctx, store.Job{Boat: "Dunlin"}); err != nil {
						return err
					}
				}
				return nil
			})
		}
		const there = 60
		for range there / 3 {
			if err := add(servers[0], 3); err != nil { // rows of one write share no stamp
				t.Fatal(err)
			}
		}
		nothing := func() {}
		if old := walk(t, servers[0], yard, 7, nothing); len(old) != there {
			t.Fatalf("%d of %d rows", len(old), there)
		}
		// Between two pages both servers add rows at once; two more writers go on
		// beside that without waiting for anyone.
		const rounds = 40
		done := make(chan error, len(servers))
		for _, s := range servers {
			go func() {
				var fault error
				for range rounds {
					fault = errors.Join(fault, add(s, 2))
				}
				done <- fault
			}()
		}
		between := 0
		addBetween := func() {
			faults := make(chan error, len(servers))
			for _, s := range servers {
				go func() { faults <- add(s, 1) }()
			}
			for range servers {
				between++
				if err := <-faults; err != nil {
					t.Error(err)
				}
			}
		}
		var walks [][]string
		for i := range 3 {
			walks = append(walks, walk(t, servers[i%2], yard, 7, addBetween))
		}
		for range servers {
			if err := <-done; err != nil {
				t.Fatal(err)
			}
		}
		final := walk(t, servers[0], yard, 0, nothing)
		if want := there + len(servers)*rounds*2 + between; len(final) != want {
			t.Errorf("%d rows at the end, %d were written", len(final), want)
		}
		for _, seen := range walks {
			// A walk saw a beginning of what there is in the end: nothing twice, nothing
			// left out, nothing that later moved in between.
			if len(seen) <= there || len(seen) > len(final) || strings.Join(seen, " ") != strings.Join(final[:len(seen)], " ") {
				t.Errorf("a walk of %d rows is no beginning of the list", len(seen))
			}
		}
	})
}

// walk reads the whole list of jobs, so many to a page, and does something after
// each page.
func walk(t *testing.T, s *store.Store, yard string, limit int, after func()) []string {
	t.Helper()
	var ids []string
	for page := (store.Page{Limit: limit}); ; {
		list, err := s.In(yard).Jobs(t.Context(), page)
		if err != nil {
			t.Fatal(err)
		}
		for _, job := range list.Items {
			ids = append(ids, job.ID)
		}
		if page.After = list.Next; page.After == "" {
			return ids
		}
		after()
	}
}

// TestClockThatStandsOrGoesBack keeps the order of writing whatever the clock says.
func TestClockThatStandsOrGoesBack(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		now := time.Date(2026, 3, 29, 0, 59, 59, 0, time.UTC)
		s := e.Open(t, store.WithClock(func() time.Time { return now }))
		yard := founded(t, s)
		var want []string
		for _, jump := range []time.Duration{0, 0, time.Hour, -time.Hour, 10 * 365 * 24 * time.Hour, -20 * 365 * 24 * time.Hour, time.Nanosecond} {
			now = now.Add(jump)
			write(t, s, yard, func(ctx context.Context, tx *store.Tx) error {
				if !tx.Now().Equal(now.Truncate(time.Microsecond)) || tx.Now().Location() != time.UTC {
					t.Errorf("the transaction's time is %v, the clock's %v", tx.Now(), now)
				}
				for range 2 {
					job, err := tx.AddJob(ctx, store.Job{Boat: "Dunlin"})
					if err != nil {
						return err
					}
					want = append(want, job.ID)
				}
				return nil
			})
		}
		if got := walk(t, s, yard, 3, func() {}); strings.Join(got, " ") != strings.Join(want, " ") {
			t.Errorf("written as\n%v\nlisted as\n%v", want, got)
		}
	})
}

func TestPages(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		s := e.Open(t)
		yard := founded(t, s)
		write(t, s, yard, func(ctx context.Context, tx *store.Tx) error {
			for range store.LargestLimit + 1 {
				if _, err := tx.AddJob(ctx, store.Job{}); err != nil {
					return err
				}
			}
			return nil
		})
		for limit, want := range map[int]int{-1: store.DefaultLimit, 0: store.DefaultLimit, 1: 1, 200: 200, 100000: store.LargestLimit} {
			list, err := s.In(yard).Jobs(t.Context(), store.Page{Limit: limit})
			if err != nil || len(list.Items) != want || list.Next == "" {
				t.Errorf("limit %d gave %d rows, %v", limit, len(list.Items), err)
			}
		}
		for _, cursor := range []string{"x", "AQ", "!!!", "AAAAAAAAAAAAAAAAAA", strings.Repeat("A", 4000), "\x00"} {
			_, err := s.In(yard).Jobs(t.Context(), store.Page{After: cursor})
			var wrong *store.CursorError
			if !errors.As(err, &wrong) {
				t.Errorf("cursor %.20q gave %v", cursor, err)
			}
		}
		// A cursor past the end is an empty last page.
		list, err := s.In(yard).Jobs(t.Context(), store.Page{After: store.EncodeCursor(1<<62, "z")})
		if err != nil || len(list.Items) != 0 || list.Items == nil || list.Next != "" {
			t.Errorf("%+v, %v", list, err)
		}
	})
}

func FuzzCursor(f *testing.F) {
	f.Add(store.EncodeCursor(1, "a"))
	f.Add("")
	f.Add("AQAAAAAAAAAAAA")
	f.Fuzz(func(t *testing.T, cursor string) {
		micros, id, err := store.DecodeCursor(cursor)
		if err != nil {
			return
		}
		if again := store.EncodeCursor(micros, id); again != cursor {
			t.Errorf("%q reads as %d %q, which writes as %q", cursor, micros, id, again)
		}
		if id == "" || strings.ContainsRune(id, 0) {
			t.Errorf("%q names the identifier %q", cursor, id)
		}
	})
}

// TestTextThatIsNone puts NUL and broken UTF-8 everywhere text goes: one engine
// would store it, the other not.
func TestTextThatIsNone(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		s := e.Open(t)
		yard := founded(t, s)
		quote, _, option := issued(t, s, yard)
		before := countOf(t, e.Raw(t), "audit")
		for _, bad := range []string{"a\x00b", "\xff", "\xc3", "\xed\xa0\x80"} {
			for name, change := range map[string]func(context.Context, *store.Tx) error{
				"boat": func(ctx context.Context, tx *store.Tx) error {
					_, err := tx.AddJob(ctx, store.Job{Boat: bad})
					return err
				},
				"job body": func(ctx context.Context, tx *store.Tx) error {
					_, err := tx.AddJob(ctx, store.Job{Body: []byte(bad)})
					return err
				},
				"option": func(ctx context.Context, tx *store.Tx) error {
					_, err := tx.AddOption(ctx, store.Option{JobID: option.JobID, Name: bad})
					return err
				},
				"option's job": func(ctx context.Context, tx *store.Tx) error {
					_, err := tx.AddOption(ctx, store.Option{JobID: bad})
					return err
				},
				"document": func(ctx context.Context, tx *store.Tx) error {
					_, err := tx.PutDocument(ctx, store.Document{Kind: "hull", ID: "h", Schema: 1, Body: []byte(bad)}, store.Absent)
					return err
				},
				"document's id": func(ctx context.Context, tx *store.Tx) error {
					_, err := tx.PutDocument(ctx, store.Document{Kind: "hull", ID: bad, Schema: 1}, store.Absent)
					return err
				},
				"draft": func(ctx context.Context, tx *store.Tx) error {
					_, _, err := tx.AddQuote(ctx, option.JobID, []byte(bad))
					return err
				},
				"event's name": func(ctx context.Context, tx *store.Tx) error {
					_, err := tx.AddQuoteEvent(ctx, store.QuoteEvent{QuoteID: quote.ID, Revision: 1, Kind: store.EventAccepted, Name: bad})
					return err
				},
				"token's name": func(ctx context.Context, tx *store.Tx) error {
					_, err := tx.AddToken(ctx, store.Token{Name: bad, Role: "lead", Hash: store.HashOf(nil)})
					return err
				},
			} {
				err := tryWrite(t.Context(), s, yard, change)
				var text *store.TextError
				if !errors.As(err, &text) || text.Field == "" || text.Reason == "" {
					t.Errorf("%q as %s gave %v", bad, name, err)
				}
			}
			// Asking for it is asking for what is not there.
			in := s.In(yard)
			_, job := in.Job(t.Context(), bad)
			_, document := in.Document(t.Context(), "hull", bad)
			_, kind := in.Document(t.Context(), bad, "h")
			_, revision := in.Revision(t.Context(), bad, 1)
			_, other := s.In(bad).Yard(t.Context())
			for i, err := range []error{job, document, kind, revision, other} {
				var missing *store.NotFoundError
				if !errors.As(err, &missing) {
					t.Errorf("reading %q (%d) gave %v", bad, i, err)
				}
			}
			if list, err := in.Options(t.Context(), bad, store.Page{}); err != nil || len(list.Items) != 0 {
				t.Errorf("listing %q gave %v", bad, err)
			}
		}
		if after := countOf(t, e.Raw(t), "audit"); after != before {
			t.Errorf("%d writes went in", after-before)
		}
	})
}

// TestUsage names documents and series that no caller may make up.
func TestUsage(t *testing.T) {
	s := storetest.SQLite(t).Open(t)
	yard := founded(t, s)
	for name, change := range map[string]func(context.Context, *store.Tx) error{
		"no kind": func(ctx context.Context, tx *store.Tx) error {
			_, err := tx.PutDocument(ctx, store.Document{ID: "a", Schema: 1}, store.Absent)
			return err
		},
		"kind in capitals": func(ctx context.Context, tx *store.Tx) error {
			_, err := tx.PutDocument(ctx, store.Document{Kind: "Hull", ID: "a", Schema: 1}, store.Absent)
			return err
		},
		"no schema": func(ctx context.Context, tx *store.Tx) error {
			_, err := tx.PutDocument(ctx, store.Document{Kind: "hull", ID: "a"}, store.Absent)
			return err
		},
		"date": func(ctx context.Context, tx *store.Tx) error {
			_, err := tx.AddJob(ctx, store.Job{OpenedDate: "2026-02-30"})
			return err
		},
		"series": func(ctx context.Context, tx *store.Tx) error { _, err := tx.Next(ctx, "", 2026); return err },
		"total that does not foot": func(ctx context.Context, tx *store.Tx) error {
			_, err := tx.IssueRevision(ctx, "q", 1, store.Issue{Snapshot: []byte("{}"), PDF: []byte("x"), Totals: []store.Total{{NetMinor: 1}}}, 1)
			return err
		},
		"issue without a number": func(ctx context.Context, tx *store.Tx) error {
			job, err := tx.AddJob(ctx, store.Job{})
			if err != nil {
				return err
			}
			quote, _, err := tx.AddQuote(ctx, job.ID, nil)
			if err != nil {
				return err
			}
			_, err = tx.IssueRevision(ctx, quote.ID, 1, store.Issue{Snapshot: []byte("{}"), PDF: []byte("x"), Totals: []store.Total{{}}}, 1)
			return err
		},
	} {
		var usage *store.UsageError
		if err := tryWrite(t.Context(), s, yard, change); !errors.As(err, &usage) {
			t.Errorf("%s gave %v", name, err)
		}
	}
	if got := fmt.Sprint(&store.UsageError{Reason: "x"}); got != "store used wrongly: x" {
		t.Error(got)
	}
}
