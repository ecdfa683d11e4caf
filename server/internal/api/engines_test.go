package api_test

import (
	"testing"

	"ribband/server/internal/storetest"
)

// place is an empty database on one engine.
type place = storetest.Place

// engines runs a test on an empty database of each engine.
func engines(t *testing.T, test func(*testing.T, place)) {
	t.Helper()
	storetest.Engines(t, test)
}

// file is an empty database on the engine that needs no server.
func file(t testing.TB) place { return storetest.SQLite(t) }

// tables hold everything that is stored.
var tables = []string{"yards", "jobs", "options", "tokens", "documents", "quotes", "quote_revisions", "quote_totals", "quote_events",
	"counters", "idempotency_keys", "audit", "spend"}

// rows counts what is stored, table by table.
func (d *desk) rows() map[string]int {
	d.t.Helper()
	out := map[string]int{}
	for _, table := range tables {
		var n int
		if err := d.raw.QueryRow("SELECT COUNT(*) FROM " + table).Scan(&n); err != nil {
			d.t.Fatal(err)
		}
		out[table] = n
	}
	return out
}
