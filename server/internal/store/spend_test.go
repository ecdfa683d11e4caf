package store_test

import (
	"context"
	"database/sql"
	"errors"
	"strconv"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"ribband/server/internal/store"
	"ribband/server/internal/storetest"
)

// anInvoice is one line of an invoice.
func anInvoice(job, line string) store.Spend {
	return store.Spend{JobID: job, Identity: store.HashOf([]byte("hollow oak/h-1/" + line)), Hash: store.HashOf([]byte(line)), Date: "2026-03-09",
		Kind: "invoice", Supplier: "Hollow Oak", Document: "H-1", Line: line, Item: "white_oak FAS", Quantity: "12.50", Unit: "BFT",
		AmountMinor: 15000, TaxMinor: 900, Currency: "USD", Step: "laminate", Author: "A. Tern", ImportID: "an import"}
}

func TestSpendIsReadAsItWasEntered(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		s := e.Open(t)
		yard := founded(t, s)
		job, other := aJob(t, s, yard), aJob(t, s, yard)
		// More rows than one statement takes, and the same document on another job.
		const many = 1203
		var want []store.Spend
		for i := range many {
			want = append(want, anInvoice(job.ID, strconv.Itoa(i)))
		}
		for _, rows := range [][]store.Spend{want, {anInvoice(other.ID, "0")}} {
			write(t, s, yard, func(ctx context.Context, tx *store.Tx) error {
				_, err := tx.AddSpend(ctx, rows)
				return err
			})
		}
		for i := range want {
			want[i].TokenID, want[i].EnteredBy = estimator.TokenID, estimator.Name
		}
		made := cmpopts.IgnoreFields(store.Spend{}, "ID", "CreatedAt")
		got, err := s.In(yard).AllSpendOf(t.Context(), job.ID)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, got, made); diff != "" {
			t.Error(diff)
		}
		var walked []store.Spend
		for page := (store.Page{Limit: 200}); ; {
			list, err := s.In(yard).SpendOf(t.Context(), job.ID, page)
			if err != nil {
				t.Fatal(err)
			}
			walked = append(walked, list.Items...)
			if page.After = list.Next; page.After == "" {
				break
			}
		}
		if diff := cmp.Diff(got, walked); diff != "" {
			t.Errorf("page by page it reads otherwise:\n%s", diff)
		}
	})
}

func TestSpendOfOneIdentityIsEnteredOnce(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		s := e.Open(t)
		yard := founded(t, s)
		job := aJob(t, s, yard)
		enter := func(rows ...store.Spend) error {
			return tryWrite(t.Context(), s, yard, func(ctx context.Context, tx *store.Tx) error {
				_, err := tx.AddSpend(ctx, rows)
				return err
			})
		}
		if err := enter(anInvoice(job.ID, "1")); err != nil {
			t.Fatal(err)
		}
		raw := e.Raw(t)
		before := counts(t, e, raw)
		var there *store.ExistsError
		if err := enter(anInvoice(job.ID, "2"), anInvoice(job.ID, "1")); !errors.As(err, &there) || there.Kind != "spend" {
			t.Errorf("a row entered twice gave %v", err)
		}
		var none *store.NotFoundError
		if err := enter(anInvoice("no such job", "1")); !errors.As(err, &none) || none.Kind != "job" {
			t.Errorf("spend on no job gave %v", err)
		}
		var text *store.TextError
		bad := anInvoice(job.ID, "3")
		bad.Description = "a \x00 in it"
		if err := enter(bad); !errors.As(err, &text) {
			t.Errorf("a NUL gave %v", err)
		}
		if diff := cmp.Diff(before, counts(t, e, raw)); diff != "" {
			t.Errorf("a refusal left a trace:\n%s", diff)
		}
		// The database itself refuses it, past the store and under either name.
		for _, columns := range []string{"'new', job_id, identity, hash, date, kind, 'another'", "'new', job_id, hash, hash, date, kind, supplier"} {
			if err := copySpend(raw, columns); err == nil {
				t.Errorf("a second row went in as %s", columns)
			}
		}
		if err := copySpend(raw, "'new', job_id, hash, hash, date, kind, 'another'"); err != nil {
			t.Errorf("a row of its own is refused: %v", err)
		}
	})
}

// copySpend enters the only row again, its first columns changed.
func copySpend(raw *sql.DB, columns string) error {
	_, err := raw.Exec("INSERT INTO spend SELECT yard_id, " + columns + ", document, line, item, description, quantity, unit, amount_minor," +
		" tax_minor, currency, step, author, import_id, token_id, entered_by, created_at FROM spend")
	return err
}

// The database keeps a quote from being accepted twice, whatever the program does.
func TestAQuoteIsAcceptedOnceInTheDatabase(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		s := e.Open(t)
		yard := founded(t, s)
		quote, _, option := issued(t, s, yard)
		accept := func(ctx context.Context, tx *store.Tx) error {
			_, err := tx.AddQuoteEvent(ctx, store.QuoteEvent{QuoteID: quote.ID, Revision: 1, Kind: store.EventAccepted, OptionID: option.ID})
			return err
		}
		write(t, s, yard, accept)
		var there *store.ExistsError
		if err := tryWrite(t.Context(), s, yard, accept); !errors.As(err, &there) || there.Kind != "acceptance" {
			t.Errorf("a second acceptance gave %v", err)
		}
	})
}
