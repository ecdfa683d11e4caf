package store_test

import (
	"database/sql"
	"testing"

	"ribband/server/internal/store"
	"ribband/server/internal/storetest"
)

// tables lists every table in the database, the migrations' own too, by asking
// the engine: a table that a later migration adds is counted without being named.
func tables(t testing.TB, e storetest.Place, raw *sql.DB) []string {
	t.Helper()
	query := "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name"
	if e.Engine == store.PostgreSQL {
		query = "SELECT tablename FROM pg_tables WHERE schemaname = current_schema() ORDER BY tablename"
	}
	return column(t, raw, query)
}

// column reads the texts of a query's only column.
func column(t testing.TB, raw *sql.DB, query string) []string {
	t.Helper()
	rows, err := raw.Query(query)
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	var texts []string
	for rows.Next() {
		var text string
		if err := rows.Scan(&text); err != nil {
			t.Fatal(err)
		}
		texts = append(texts, text)
	}
	if err := rows.Err(); err != nil {
		t.Fatal(err)
	}
	return texts
}

// counts are the rows of every table, with the yard's row itself, which moves with
// every write.
func counts(t testing.TB, e storetest.Place, raw *sql.DB) map[string]any {
	t.Helper()
	found := map[string]any{}
	for _, table := range tables(t, e, raw) {
		var n int64
		if err := raw.QueryRow("SELECT COUNT(*) FROM " + table).Scan(&n); err != nil {
			t.Fatal(err)
		}
		found[table] = n
	}
	found["heads"] = column(t, raw, "SELECT id || ' ' || last_at || ' ' || audit_n || ' ' || audit_hash FROM yards ORDER BY id")
	found["counters at"] = column(t, raw, "SELECT series || ' ' || year || ' ' || last FROM counters ORDER BY series, year")
	found["edits"] = column(t, raw, "SELECT quote_id || ' ' || edit FROM quote_revisions ORDER BY quote_id, n")
	return found
}

// countOf is the number of rows of one table.
func countOf(t testing.TB, raw *sql.DB, table string) int {
	t.Helper()
	var n int
	if err := raw.QueryRow("SELECT COUNT(*) FROM " + table).Scan(&n); err != nil {
		t.Fatal(err)
	}
	return n
}
