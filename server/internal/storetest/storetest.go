// Package storetest gives tests empty databases of their own, one on each engine that the store runs on, and nothing
// else: only tests import it. PostgreSQL is left out, with a word, where the environment names no server.
package storetest

import (
	"context"
	"database/sql"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"sync/atomic"
	"testing"
	"time"

	_ "github.com/jackc/pgx/v5/stdlib" // the driver that looks past the store

	"ribband/server/internal/store"
)

// secondEngine names a PostgreSQL server for the tests by a postgres:// address.
const secondEngine = "RIBBAND_TEST_POSTGRES"

// unhurried is the patience of the stores in the tests: on a loaded machine a write may wait its turn for longer
// than a caller in a yard would.
const unhurried = time.Minute

// Place is an empty database on one engine.
type Place struct {
	Engine store.Engine
	// Address is what store.Open takes.
	Address string
	// Raw is a connection that knows nothing of the store; it is closed with the test.
	Raw func(testing.TB) *sql.DB
}

// Engines runs a test on an empty database of each engine.
func Engines(t *testing.T, test func(*testing.T, Place)) {
	t.Helper()
	t.Run("sqlite", func(t *testing.T) { test(t, SQLite(t)) })
	t.Run("postgres", func(t *testing.T) { test(t, PostgreSQL(t)) })
}

// SQLite is a new file, in a folder of the test's own and with a name that has to be written with care in an address.
func SQLite(t testing.TB) Place {
	path := filepath.Join(t.TempDir(), "yard # 1%20?.db")
	return Place{store.SQLite, path, func(t testing.TB) *sql.DB {
		return pool(t, "sqlite", "file:"+(&url.URL{Path: path}).EscapedPath()+"?_busy_timeout=5000")
	}}
}

var schemas atomic.Int64

// PostgreSQL is a new schema, dropped with the test. The test is skipped where no server is named.
func PostgreSQL(t testing.TB) Place {
	t.Helper()
	address := os.Getenv(secondEngine)
	if address == "" && os.Getenv("RIBBAND_CI") != "" {
		t.Fatal(secondEngine + " names no PostgreSQL server, and RIBBAND_CI asks for every check")
	}
	if address == "" {
		t.Skip(secondEngine + " names no PostgreSQL server")
	}
	server, err := url.Parse(address)
	if err != nil {
		t.Fatal(err)
	}
	schema := fmt.Sprintf("test_%d_%d_%d", os.Getpid(), time.Now().UnixNano(), schemas.Add(1))
	outer := pool(t, "pgx", address)
	if _, err := outer.ExecContext(t.Context(), "CREATE SCHEMA "+schema); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		// Cleanups run last first: the stores on this schema are closed by now, the
		// pool above is not. The test's own context is done.
		if _, err := outer.ExecContext(context.Background(), "DROP SCHEMA "+schema+" CASCADE"); err != nil {
			t.Error(err)
		}
	})
	query := server.Query()
	query.Set("search_path", schema)
	server.RawQuery = query.Encode()
	return Place{store.PostgreSQL, server.String(), func(t testing.TB) *sql.DB {
		return pool(t, "pgx", server.String())
	}}
}

func pool(t testing.TB, driver, address string) *sql.DB {
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

// Open opens a patient store there and closes it with the test.
func (p Place) Open(t testing.TB, settings ...store.Setting) *store.Store {
	t.Helper()
	settings = append([]store.Setting{store.WithPatience(unhurried)}, settings...)
	s, err := store.Open(t.Context(), p.Address, settings...)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	})
	return s
}
