package store_test

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"
	"testing"

	"ribband/server/internal/store"
	"ribband/server/internal/storetest"
)

// TestNumbersWithoutGaps issues 50 quotes at once through two servers. Every third
// fails after it has taken its number, which must go to another.
func TestNumbersWithoutGaps(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		const quotes = 50
		servers := []*store.Store{e.Open(t), e.Open(t)}
		yard := founded(t, servers[0])
		job := aJob(t, servers[0], yard)
		option := anOption(t, servers[0], yard, job.ID)
		var all sync.WaitGroup
		for i := range quotes {
			all.Go(func() {
				fails := i%3 == 0
				err := tryWrite(t.Context(), servers[i%2], yard, func(ctx context.Context, tx *store.Tx) error {
					quote, revision, err := tx.AddQuote(ctx, job.ID, []byte("{}"))
					if err != nil {
						return err
					}
					if _, err = tx.QuoteNumber(ctx, quote.ID, 2026); err != nil {
						return err
					}
					if fails {
						return errChangedMind
					}
					_, err = tx.IssueRevision(ctx, quote.ID, 1, store.Issue{Snapshot: []byte("{}"), PDF: []byte("%PDF"),
						Totals: []store.Total{{OptionID: option.ID, Currency: "USD", NetMinor: 7, TotalMinor: 7}}}, store.Seen(revision.Edit))
					return err
				})
				if fails != errors.Is(err, errChangedMind) || !fails && err != nil {
					t.Error(err)
				}
			})
		}
		all.Wait()
		raw := e.Raw(t)
		numbers := column(t, raw, "SELECT number FROM quote_revisions WHERE issued_at IS NOT NULL")
		slices.Sort(numbers)
		var want []string
		for n := range 33 {
			want = append(want, fmt.Sprintf("2026-%04d", n+1))
		}
		if !slices.Equal(numbers, want) {
			t.Errorf("33 of 50 quotes were issued, numbered %v", numbers)
		}
		var sum int64
		if err := raw.QueryRow("SELECT CAST(SUM(total_minor) AS BIGINT) FROM quote_totals").Scan(&sum); err != nil || sum != 33*7 {
			t.Errorf("the totals sum to %d, %v", sum, err)
		}
		// Each series and year counts for itself, and so does each yard.
		elsewhere := founded(t, servers[0])
		for _, c := range []struct {
			yard, series string
			year         int
			want         int64
		}{{yard, "quote", 2026, 34}, {yard, "quote", 2027, 1}, {yard, "change-order", 2026, 1}, {elsewhere, "quote", 2026, 1}} {
			write(t, servers[1], c.yard, func(ctx context.Context, tx *store.Tx) error {
				n, err := tx.Next(ctx, c.series, c.year)
				if n != c.want {
					t.Errorf("%s %d: %d instead of %d", c.series, c.year, n, c.want)
				}
				return err
			})
		}
	})
}
