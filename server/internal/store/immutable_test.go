package store_test

import (
	"context"
	"database/sql"
	"errors"
	"strings"
	"testing"

	"github.com/jackc/pgx/v5/pgconn"

	"ribband/server/internal/store"
	"ribband/server/internal/storetest"
)

// TestAppendOnlyInTheDatabase tries to change what stands for ever by plain SQL
// through a connection that knows nothing of the store.
func TestAppendOnlyInTheDatabase(t *testing.T) {
	both := []string{
		"UPDATE documents SET body = body",
		"UPDATE documents SET n = n + 100",
		"DELETE FROM documents",
		"UPDATE quote_events SET kind = 'accepted'",
		"DELETE FROM quote_events",
		"UPDATE audit SET name = 'somebody else'",
		"DELETE FROM audit WHERE n = 1",
		"UPDATE quote_totals SET total_minor = 1, net_minor = 1, tax_minor = 0",
		"DELETE FROM quote_totals",
		"INSERT INTO quote_totals SELECT yard_id, quote_id, revision, (SELECT MAX(id) FROM options), currency, 0, 0, 0 FROM quote_totals",
		"UPDATE quote_revisions SET snapshot = pdf WHERE issued_at IS NOT NULL",
		"UPDATE quote_revisions SET pdf = snapshot WHERE issued_at IS NOT NULL",
		"UPDATE quote_revisions SET body = snapshot WHERE issued_at IS NOT NULL",
		"UPDATE quote_revisions SET issued_at = NULL, number = NULL, snapshot = NULL, hash = NULL, pdf = NULL, pdf_hash = NULL",
		"UPDATE quote_revisions SET n = 9 WHERE issued_at IS NULL",
		"DELETE FROM quote_revisions WHERE issued_at IS NOT NULL",
		"UPDATE quotes SET number = '2026-0099' WHERE number IS NOT NULL",
		"UPDATE quotes SET number = NULL WHERE number IS NOT NULL",
		"DELETE FROM quotes",
		"UPDATE counters SET last = last + 2",
		"UPDATE counters SET last = 1",
		"DELETE FROM counters",
		"INSERT INTO counters SELECT yard_id, series, year + 1, 7 FROM counters",
		"UPDATE spend SET amount_minor = 1",
		"UPDATE spend SET step = ''",
		"DELETE FROM spend",
	}
	only := map[store.Engine][]string{
		// REPLACE deletes the row in its way without firing a delete trigger, whether
		// the keys meet or only the row numbers do.
		store.SQLite: {
			"INSERT OR REPLACE INTO documents SELECT yard_id, kind, id, n, schema, X'00', hash, created_at FROM documents LIMIT 1",
			"INSERT OR REPLACE INTO documents (rowid, yard_id, kind, id, n, schema, body, hash, created_at) SELECT rowid, yard_id, 'new', id, n, schema, body, hash, created_at FROM documents LIMIT 1",
			"INSERT OR REPLACE INTO audit SELECT yard_id, n, at, token_id, role, 'x', action, key, changes, previous, hash FROM audit LIMIT 1",
			"INSERT OR REPLACE INTO quote_events SELECT yard_id, id, quote_id, revision, 'accepted', option_id, token_id, name, body, created_at FROM quote_events LIMIT 1",
			"INSERT OR REPLACE INTO quote_totals SELECT yard_id, quote_id, revision, option_id, currency, 1, 0, 1 FROM quote_totals LIMIT 1",
			"INSERT OR REPLACE INTO quote_revisions SELECT yard_id, quote_id, n, edit, X'00', created_at, changed_at, number, snapshot, hash, pdf, pdf_hash, issued_at FROM quote_revisions WHERE issued_at IS NOT NULL",
			"INSERT OR REPLACE INTO counters SELECT yard_id, series, year, 1 FROM counters",
			"INSERT OR REPLACE INTO quotes SELECT yard_id, 'new', job_id, number, created_at FROM quotes WHERE number IS NOT NULL",
			"INSERT OR REPLACE INTO spend SELECT yard_id, id, job_id, identity, hash, date, kind, supplier, document, line, item, description, quantity, unit, 1, 0, currency, step, author, import_id, token_id, entered_by, created_at FROM spend LIMIT 1",
			"INSERT OR REPLACE INTO spend SELECT yard_id, 'new', job_id, identity, hash, date, kind, 'other', document, line, item, description, quantity, unit, 1, 0, currency, step, author, import_id, token_id, entered_by, created_at FROM spend LIMIT 1",
			"INSERT OR REPLACE INTO spend SELECT yard_id, 'new', job_id, hash, hash, date, kind, supplier, document, line, item, description, quantity, unit, 1, 0, currency, step, author, import_id, token_id, entered_by, created_at FROM spend LIMIT 1",
			"INSERT OR REPLACE INTO spend (rowid, yard_id, id, job_id, identity, hash, date, kind, supplier, document, line, item, description, quantity, unit, amount_minor, tax_minor, currency, step, author, token_id, entered_by, created_at) SELECT rowid, yard_id, 'new', job_id, hash, hash, date, kind, 'other', document, line, item, description, quantity, unit, 1, 0, currency, step, author, token_id, entered_by, created_at FROM spend LIMIT 1",
			"INSERT OR REPLACE INTO quote_events SELECT yard_id, 'new', quote_id, revision, kind, NULL, token_id, 'somebody else', body, created_at FROM quote_events WHERE kind = 'accepted'",
			"UPDATE OR REPLACE quote_revisions SET quote_id = (SELECT quote_id FROM quote_revisions WHERE issued_at IS NOT NULL) WHERE issued_at IS NULL",
		},
		store.PostgreSQL: {
			"TRUNCATE documents", "TRUNCATE audit", "TRUNCATE quote_totals", "TRUNCATE quote_events", "TRUNCATE counters",
			"TRUNCATE spend", "TRUNCATE quote_revisions CASCADE", "TRUNCATE quotes CASCADE",
			"INSERT INTO documents SELECT * FROM documents ON CONFLICT (yard_id, kind, id, n) DO UPDATE SET body = 'x'",
		},
	}
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		s := e.Open(t)
		yard := founded(t, s)
		quote, _, option := issued(t, s, yard)
		anOption(t, s, yard, option.JobID)
		put(t, s, yard, "hull", option.JobID, "{}", store.Absent)
		put(t, s, yard, "hull", option.JobID, "{}", 1)
		write(t, s, yard, draftOf(option.JobID))
		write(t, s, yard, func(ctx context.Context, tx *store.Tx) error {
			if _, err := tx.AddQuoteEvent(ctx, store.QuoteEvent{QuoteID: quote.ID, Revision: 1, Kind: store.EventAccepted, OptionID: option.ID}); err != nil {
				return err
			}
			_, err := tx.AddSpend(ctx, []store.Spend{anInvoice(option.JobID, "1")})
			return err
		})
		raw := e.Raw(t)
		before := dump(t, e, raw)
		for _, statement := range append(both, only[e.Engine]...) {
			_, err := raw.Exec(statement)
			if !isRefusal(err) {
				t.Errorf("%s\n\tgave %v", statement, err)
			}
		}
		if after := dump(t, e, raw); after != before {
			t.Errorf("the rows were\n%s\nand are\n%s", before, after)
		}

		// The triggers stop no more than they should: a draft and a counter move.
		for _, statement := range []string{
			"UPDATE quote_revisions SET edit = edit + 1 WHERE issued_at IS NULL",
			"UPDATE counters SET last = last + 1",
			"UPDATE quotes SET number = '2026-0002' WHERE number IS NULL",
		} {
			done, err := raw.Exec(statement)
			if err != nil {
				t.Fatalf("%s gave %v", statement, err)
			}
			if n, err := done.RowsAffected(); n != 1 || err != nil {
				t.Errorf("%s changed %d rows, %v", statement, n, err)
			}
		}
		if _, err := s.In(yard).Frozen(t.Context(), quote.ID, 1); err != nil {
			t.Error(err)
		}
	})
}

// isRefusal tells the triggers' refusal from any other error, such as a misspelt
// column.
func isRefusal(err error) bool {
	var pg *pgconn.PgError
	if errors.As(err, &pg) {
		return pg.Code == "RB001"
	}
	return err != nil && strings.Contains(err.Error(), "append-only: ")
}

// dump writes out the append-only tables.
func dump(t *testing.T, e storetest.Place, raw *sql.DB) string {
	t.Helper()
	text := "CAST(%s AS TEXT)"
	hex := "hex(%s)"
	if e.Engine == store.PostgreSQL {
		hex = "encode(%s, 'hex')"
	}
	var lines []string
	for _, query := range []string{
		"SELECT kind || id || n || " + hex + " FROM documents ORDER BY kind, id, n|body",
		"SELECT id || kind || quote_id || " + hex + " FROM quote_events ORDER BY id|body",
		"SELECT n || name || hash || " + hex + " FROM audit ORDER BY n|changes",
		"SELECT option_id || net_minor || ' ' || tax_minor || ' ' || " + text + " FROM quote_totals ORDER BY option_id|total_minor",
		"SELECT n || COALESCE(number, '') || COALESCE(hash, '') || COALESCE(pdf_hash, '') || " + hex + " FROM quote_revisions ORDER BY quote_id, n|body",
		"SELECT id || COALESCE(number, '') || " + text + " FROM quotes ORDER BY id|created_at",
		"SELECT series || year || ' ' || " + text + " FROM counters ORDER BY series, year|last",
		"SELECT id || identity || hash || supplier || step || amount_minor || ' ' || " + text + " FROM spend ORDER BY id|tax_minor",
	} {
		query, subject, _ := strings.Cut(query, " ORDER BY ")
		order, subject, _ := strings.Cut(subject, "|")
		lines = append(lines, column(t, raw, strings.Replace(query, "%s", subject, 1)+" ORDER BY "+order)...)
	}
	return strings.Join(lines, "\n")
}

// TestDamageIsNoAnswer changes stored bytes behind the triggers' back.
func TestDamageIsNoAnswer(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		s := e.Open(t)
		yard := founded(t, s)
		quote, _, option := issued(t, s, yard)
		put(t, s, yard, "hull", option.JobID, "{}", store.Absent)
		raw := e.Raw(t)
		disarm(t, e, raw, "documents", "quote_revisions")
		for _, statement := range []string{"UPDATE documents SET body = hash_bytes", "UPDATE quote_revisions SET pdf = hash_bytes"} {
			bytes := "X'7b7d20'"
			if e.Engine == store.PostgreSQL {
				bytes = `'\x7b7d20'::bytea`
			}
			if _, err := raw.Exec(strings.Replace(statement, "hash_bytes", bytes, 1)); err != nil {
				t.Fatal(err)
			}
		}
		_, document := s.In(yard).Document(t.Context(), "hull", option.JobID)
		_, frozen := s.In(yard).Frozen(t.Context(), quote.ID, 1)
		for _, err := range []error{document, frozen} {
			var damaged *store.CorruptError
			if !errors.As(err, &damaged) {
				t.Errorf("damaged bytes gave %v", err)
			}
		}
	})
}

// disarm takes the triggers off tables, as someone with an SQL prompt might.
func disarm(t *testing.T, e storetest.Place, raw *sql.DB, tables ...string) {
	t.Helper()
	for _, table := range tables {
		if e.Engine == store.PostgreSQL {
			if _, err := raw.Exec("ALTER TABLE " + table + " DISABLE TRIGGER USER"); err != nil {
				t.Fatal(err)
			}
			continue
		}
		for _, trigger := range column(t, raw, "SELECT name FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = '"+table+"'") {
			if _, err := raw.Exec("DROP TRIGGER " + trigger); err != nil {
				t.Fatal(err)
			}
		}
	}
}
