package api_test

import (
	"database/sql"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"sync/atomic"
	"testing"
	"time"

	_ "github.com/jackc/pgx/v5/stdlib" // the driver that counts rows
)

// secondEngine names a PostgreSQL server for the tests by a postgres:// address.
const secondEngine = "RIBBAND_TEST_POSTGRES"

// engines runs a test on an empty database of each engine: a file, and a schema of PostgreSQL where one is named.
func engines(t *testing.T, test func(t *testing.T, place place)) {
	t.Helper()
	t.Run("sqlite", func(t *testing.T) { test(t, file(t)) })
	t.Run("postgres", func(t *testing.T) { test(t, schema(t)) })
}

// place is where a database is, and how to look into it past the store.
type place struct{ address, driver, raw string }

func file(t testing.TB) place {
	path := filepath.Join(t.TempDir(), "ribband.db")
	return place{path, "sqlite", "file:" + path + "?_busy_timeout=5000"}
}

var schemas atomic.Int64

func schema(t testing.TB) place {
	address := os.Getenv(secondEngine)
	if address == "" {
		t.Skip(secondEngine + " names no PostgreSQL server")
	}
	server, err := url.Parse(address)
	if err != nil {
		t.Fatal(err)
	}
	name := fmt.Sprintf("api_%d_%d_%d", os.Getpid(), time.Now().UnixNano(), schemas.Add(1))
	outer := look(t, "pgx", address)
	if _, err := outer.Exec("CREATE SCHEMA " + name); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if _, err := outer.Exec("DROP SCHEMA " + name + " CASCADE"); err != nil {
			t.Error(err)
		}
	})
	query := server.Query()
	query.Set("search_path", name)
	server.RawQuery = query.Encode()
	return place{server.String(), "pgx", server.String()}
}

func look(t testing.TB, driver, address string) *sql.DB {
	t.Helper()
	pool, err := sql.Open(driver, address)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := pool.Close(); err != nil {
			t.Error(err)
		}
	})
	return pool
}

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
