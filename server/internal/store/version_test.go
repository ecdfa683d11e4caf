package store_test

import (
	"context"
	"encoding/json"
	"errors"
	"strconv"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/google/go-cmp/cmp"

	"ribband/server/internal/store"
	"ribband/server/internal/storetest"
)

// TestWritersLoseNothing lets 16 writers each add one to a counter in a document
// 25 times, going by the version they read, through two servers.
func TestWritersLoseNothing(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		const writers, additions = 16, 25
		servers := []*store.Store{e.Open(t), e.Open(t)}
		yard := founded(t, servers[0])
		put(t, servers[0], yard, "counter", "c", "0", store.Absent)
		var all sync.WaitGroup
		var stale atomic.Int64
		for w := range writers {
			all.Go(func() {
				s := servers[w%2]
				for done := 0; done < additions; {
					document, err := s.In(yard).Document(t.Context(), "counter", "c")
					if err != nil {
						t.Error(err)
						return
					}
					var count int
					if err := json.Unmarshal(document.Body, &count); err != nil {
						t.Error(err)
						return
					}
					err = tryWrite(t.Context(), s, yard, func(ctx context.Context, tx *store.Tx) error {
						_, err := tx.PutDocument(ctx, store.Document{Kind: "counter", ID: "c", Schema: 1,
							Body: []byte(strconv.Itoa(count + 1))}, store.Seen(document.N))
						return err
					})
					var old *store.StaleError
					switch {
					case err == nil:
						done++
					case errors.As(err, &old) && old.Seen == document.N && old.Current > old.Seen:
						stale.Add(1)
					default:
						t.Error(err)
						return
					}
				}
			})
		}
		all.Wait()
		document, err := servers[0].In(yard).Document(t.Context(), "counter", "c")
		if err != nil || string(document.Body) != "400" || document.N != 401 {
			t.Errorf("the counter is %s at version %d after 400 additions, %v", document.Body, document.N, err)
		}
		if stale.Load() == 0 {
			t.Error("no writer ever met another, so nothing was shown")
		}
		page := store.Page{Limit: store.LargestLimit}
		for n := int64(1); ; {
			list, err := servers[0].In(yard).DocumentVersions(t.Context(), "counter", "c", page)
			if err != nil {
				t.Fatal(err)
			}
			for _, version := range list.Items {
				if version.N != n || string(version.Body) != strconv.FormatInt(n-1, 10) {
					t.Fatalf("version %d holds %s where %d was due", version.N, version.Body, n)
				}
				n++
			}
			if page.After = list.Next; page.After == "" {
				break
			}
		}
	})
}

func TestVersionsSeen(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		s := e.Open(t)
		yard := founded(t, s)
		job := aJob(t, s, yard)
		option := anOption(t, s, yard, job.ID)
		put(t, s, yard, "hull", job.ID, "{}", store.Absent)
		put(t, s, yard, "hull", job.ID, `{"a":1}`, 1)
		quote, _, _ := issued(t, s, yard)
		var draft store.Quote
		write(t, s, yard, func(ctx context.Context, tx *store.Tx) (err error) {
			draft, _, err = tx.AddQuote(ctx, job.ID, []byte("{}"))
			return err
		})
		document := func(id string, seen store.Seen) func(context.Context, *store.Tx) error {
			return func(ctx context.Context, tx *store.Tx) error {
				_, err := tx.PutDocument(ctx, store.Document{Kind: "hull", ID: id, Schema: 1, Body: []byte("{}")}, seen)
				return err
			}
		}
		for _, c := range []struct {
			name   string
			change func(context.Context, *store.Tx) error
			want   error
		}{
			{"document: first write of one that is there", document(job.ID, store.Absent), &store.ExistsError{Kind: "hull", ID: job.ID, Current: 2}},
			{"document: an old version", document(job.ID, 1), &store.StaleError{Kind: "hull", ID: job.ID, Seen: 1, Current: 2}},
			{"document: a version that never was", document(job.ID, 3), &store.StaleError{Kind: "hull", ID: job.ID, Seen: 3, Current: 2}},
			{"document: a version of nothing", document("other", 1), &store.StaleError{Kind: "hull", ID: "other", Seen: 1}},
			{"document: no version named", document(job.ID, 0), &store.UnseenError{Kind: "hull", ID: job.ID}},
			{"job: an old version", func(ctx context.Context, tx *store.Tx) error {
				_, err := tx.ChangeJob(ctx, store.Job{ID: job.ID}, 7)
				return err
			}, &store.StaleError{Kind: "job", ID: job.ID, Seen: 7, Current: 1}},
			{"job: unknown", func(ctx context.Context, tx *store.Tx) error {
				_, err := tx.ChangeJob(ctx, store.Job{ID: "none"}, 1)
				return err
			}, &store.NotFoundError{Kind: "job", ID: "none"}},
			{"option: no version named", func(ctx context.Context, tx *store.Tx) error {
				_, err := tx.ChangeOption(ctx, store.Option{ID: option.ID}, 0)
				return err
			}, &store.UnseenError{Kind: "option", ID: option.ID}},
			{"revision: an old edit", func(ctx context.Context, tx *store.Tx) error {
				_, err := tx.ChangeRevision(ctx, draft.ID, 1, []byte("{}"), 4)
				return err
			}, &store.StaleError{Kind: "revision", ID: draft.ID + "/1", Seen: 4, Current: 1}},
			{"revision: issued", func(ctx context.Context, tx *store.Tx) error {
				_, err := tx.ChangeRevision(ctx, quote.ID, 1, []byte("{}"), 1)
				return err
			}, &store.ImmutableError{Kind: "revision", ID: quote.ID + "/1"}},
			{"revision: issued again", func(ctx context.Context, tx *store.Tx) error {
				_, err := tx.IssueRevision(ctx, quote.ID, 1, store.Issue{Snapshot: []byte("{}"), PDF: []byte("x"),
					Totals: []store.Total{{OptionID: option.ID, Currency: "USD"}}}, 1)
				return err
			}, &store.ImmutableError{Kind: "revision", ID: quote.ID + "/1"}},
			{"revision: a second draft", func(ctx context.Context, tx *store.Tx) error {
				_, err := tx.AddRevision(ctx, draft.ID, []byte("{}"), 1)
				return err
			}, &store.ExistsError{Kind: "draft", ID: draft.ID + "/1", Current: 1}},
			{"event: of no revision", func(ctx context.Context, tx *store.Tx) error {
				_, err := tx.AddQuoteEvent(ctx, store.QuoteEvent{QuoteID: quote.ID, Revision: 2, Kind: store.EventDeclined})
				return err
			}, &store.NotFoundError{Kind: "revision", ID: quote.ID + "/2"}},
			{"quote: of no job", func(ctx context.Context, tx *store.Tx) error {
				_, _, err := tx.AddQuote(ctx, "none", []byte("{}"))
				return err
			}, &store.NotFoundError{Kind: "job", ID: "none"}},
		} {
			err := tryWrite(t.Context(), s, yard, c.change)
			if diff := cmp.Diff(c.want, err); diff != "" {
				t.Errorf("%s:\n%s", c.name, diff)
			}
		}
	})
}

// TestRoundTrip reads every kind of thing back as it was written.
func TestRoundTrip(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		s := e.Open(t)
		yard := founded(t, s)
		in := s.In(yard)
		job := aJob(t, s, yard)
		option := anOption(t, s, yard, job.ID)
		write(t, s, yard, func(ctx context.Context, tx *store.Tx) (err error) {
			job.Boat, job.Body, job.OpenedDate = "Dunlin ⅜ Ω €", []byte(`{"invented":true}`), ""
			if job, err = tx.ChangeJob(ctx, job, 1); err != nil {
				return err
			}
			option.Name = "worst frames"
			option, err = tx.ChangeOption(ctx, option, 1)
			return err
		})
		if got, err := in.Job(t.Context(), job.ID); err != nil || !cmp.Equal(job, got) || got.N != 2 || !got.ChangedAt.After(got.CreatedAt) {
			t.Errorf("job: %v\n%s", err, cmp.Diff(job, got))
		}
		if got, err := in.Option(t.Context(), option.ID); err != nil || !cmp.Equal(option, got) || got.N != 2 {
			t.Errorf("option: %v\n%s", err, cmp.Diff(option, got))
		}
		first := put(t, s, yard, "hull", job.ID, `{ "a" : 1.50 }`, store.Absent)
		second := put(t, s, yard, "hull", job.ID, "", 1)
		if got, err := in.DocumentAt(t.Context(), "hull", job.ID, 1); err != nil || !cmp.Equal(first, got) {
			t.Errorf("document: %v\n%s", err, cmp.Diff(first, got))
		}
		if got, err := in.Document(t.Context(), "hull", job.ID); err != nil || !cmp.Equal(second, got) || got.N != 2 {
			t.Errorf("document: %v\n%s", err, cmp.Diff(second, got))
		}
		put(t, s, yard, "hull", "another", "{}", store.Absent)
		put(t, s, yard, "hull", job.ID, "{}", 2)
		hulls, err := in.Documents(t.Context(), "hull", store.Page{})
		if err != nil || len(hulls.Items) != 2 || hulls.Items[0].N != 3 || hulls.Items[1].ID != "another" {
			t.Errorf("documents: %+v, %v", hulls, err)
		}

		quote, revision, _ := issued(t, s, yard)
		if quote.Number != "2026-0001" || !revision.Issued() || revision.Number != quote.Number {
			t.Errorf("issued as %+v %+v", quote, revision)
		}
		if got, err := in.Quote(t.Context(), quote.ID); err != nil || !cmp.Equal(quote, got) {
			t.Errorf("quote: %v\n%s", err, cmp.Diff(quote, got))
		}
		if got, err := in.Revision(t.Context(), quote.ID, 1); err != nil || !cmp.Equal(revision, got) || got.Totals[0].TotalMinor != 12000 {
			t.Errorf("revision: %v\n%s", err, cmp.Diff(revision, got))
		}
		frozen, err := in.Frozen(t.Context(), quote.ID, 1)
		if err != nil || string(frozen.PDF) != "%PDF-1.3 \x00\xff" || string(frozen.Snapshot) != `{"total":"120.00"}` ||
			frozen.Hash != store.HashOf(frozen.Snapshot) || frozen.PDFHash != revision.PDFHash {
			t.Errorf("frozen: %+v, %v", frozen, err)
		}

		// A second revision keeps the number.
		write(t, s, yard, func(ctx context.Context, tx *store.Tx) error {
			if _, err := tx.AddRevision(ctx, quote.ID, []byte(`{"second":true}`), 1); err != nil {
				return err
			}
			number, err := tx.QuoteNumber(ctx, quote.ID, 2027)
			if number != quote.Number {
				t.Errorf("the second revision is numbered %s", number)
			}
			return err
		})
		revisions, err := in.Revisions(t.Context(), quote.ID)
		if err != nil || len(revisions) != 2 || revisions[1].Issued() || !cmp.Equal(revisions[0], revision) {
			t.Errorf("revisions: %+v, %v", revisions, err)
		}
		var missing *store.NotFoundError
		if _, err := in.Frozen(t.Context(), quote.ID, 2); !errors.As(err, &missing) {
			t.Errorf("a draft is frozen: %v", err)
		}
		events, err := in.QuoteEvents(t.Context(), quote.ID, store.Page{})
		var kinds []string
		for _, event := range events.Items {
			kinds = append(kinds, event.Kind)
		}
		if diff := cmp.Diff([]string{store.EventDrafted, store.EventIssued, store.EventDrafted}, kinds); diff != "" || err != nil {
			t.Errorf("events: %v\n%s", err, diff)
		}
		if got := events.Items[0]; got.TokenID != estimator.TokenID || got.Name != estimator.Name {
			t.Errorf("who did it: %+v", got)
		}
	})
}

// TestOtherYard looks for everything of one yard from another.
func TestOtherYard(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		s := e.Open(t)
		ours, theirs := founded(t, s), founded(t, s)
		quote, _, option := issued(t, s, ours)
		put(t, s, ours, "hull", option.JobID, "{}", store.Absent)
		ctx, in := t.Context(), s.In(theirs)
		look := map[string]func() error{
			"job":      func() error { _, err := in.Job(ctx, option.JobID); return err },
			"option":   func() error { _, err := in.Option(ctx, option.ID); return err },
			"document": func() error { _, err := in.Document(ctx, "hull", option.JobID); return err },
			"version":  func() error { _, err := in.DocumentAt(ctx, "hull", option.JobID, 1); return err },
			"quote":    func() error { _, err := in.Quote(ctx, quote.ID); return err },
			"revision": func() error { _, err := in.Revision(ctx, quote.ID, 1); return err },
			"list":     func() error { _, err := in.Revisions(ctx, quote.ID); return err },
			"frozen":   func() error { _, err := in.Frozen(ctx, quote.ID, 1); return err },
			"option of their job": func() error {
				return tryWrite(ctx, s, theirs, func(ctx context.Context, tx *store.Tx) error {
					_, err := tx.AddOption(ctx, store.Option{JobID: option.JobID})
					return err
				})
			},
			"token for their job": func() error {
				return tryWrite(ctx, s, theirs, func(ctx context.Context, tx *store.Tx) error {
					_, err := tx.AddToken(ctx, store.Token{Role: "owner", JobID: option.JobID, Hash: store.HashOf(nil)})
					return err
				})
			},
		}
		for name, find := range look {
			var missing *store.NotFoundError
			if err := find(); !errors.As(err, &missing) {
				t.Errorf("%s of another yard: %v", name, err)
			}
		}
		jobs, err := in.Jobs(ctx, store.Page{})
		events, err2 := in.QuoteEvents(ctx, quote.ID, store.Page{})
		if len(jobs.Items)+len(events.Items) != 0 || err != nil || err2 != nil {
			t.Errorf("lists show %d rows of another yard, %v %v", len(jobs.Items)+len(events.Items), err, err2)
		}
	})
}
