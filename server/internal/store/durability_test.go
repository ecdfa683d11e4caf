package store_test

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"testing"

	"github.com/google/go-cmp/cmp"
	modernc "modernc.org/sqlite"

	"ribband/server/internal/store"
	"ribband/server/internal/storetest"
)

// TestSQLiteSettings reads back what every connection runs with. WAL with
// synchronous=FULL is what keeps an answered write through a power cut.
func TestSQLiteSettings(t *testing.T) {
	e := storetest.SQLite(t)
	s := e.Open(t)
	pools := s.Pools()
	if len(pools) != 2 {
		t.Fatalf("%d pools", len(pools))
	}
	for i, want := range []map[string]string{
		{"connections": "1", "journal_mode": "wal", "synchronous": "2", "foreign_keys": "1", "busy_timeout": "5000", "query_only": "0"},
		{"connections": "4", "journal_mode": "wal", "synchronous": "2", "foreign_keys": "1", "busy_timeout": "5000", "query_only": "1"},
	} {
		most := pools[i].Stats().MaxOpenConnections
		if got := map[int]string{1: "1", 4: "4"}[most]; got != want["connections"] {
			t.Errorf("pool %d has %d connections", i, most)
		}
		delete(want, "connections")
		// All of the pool's connections at once, so that each one is asked.
		var held []*sql.Conn
		for range most {
			conn, err := pools[i].Conn(t.Context())
			if err != nil {
				t.Fatal(err)
			}
			held = append(held, conn)
			for pragma, value := range want {
				var got string
				if err := conn.QueryRowContext(t.Context(), "PRAGMA "+pragma).Scan(&got); err != nil || got != value {
					t.Errorf("pool %d: %s is %q, %v", i, pragma, got, err)
				}
			}
		}
		for _, conn := range held {
			if err := conn.Close(); err != nil {
				t.Error(err)
			}
		}
	}
	_, err := pools[1].Exec("DELETE FROM jobs")
	var refused *modernc.Error
	if !errors.As(err, &refused) || refused.Code()&0xff != 8 {
		t.Errorf("writing through a reader gave %v", err)
	}
	info, err := os.Stat(e.Address)
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the file has mode %v, %v: others may read the yard's prices", info.Mode(), err)
	}
}

// TestPostgreSQLSettings reads back what keeps an answered write there.
func TestPostgreSQLSettings(t *testing.T) {
	s := storetest.PostgreSQL(t).Open(t)
	for setting, want := range map[string]string{"synchronous_commit": "on", "fsync": "on", "application_name": "ribband", "idle_in_transaction_session_timeout": "15s"} {
		var got string
		if err := s.Pools()[0].QueryRow("SHOW " + setting).Scan(&got); err != nil || got != want {
			t.Errorf("%s is %q, %v", setting, got, err)
		}
	}
}

// TestWriterElsewhere holds SQLite's one place for a writer from another process's
// connection: a write gives up in its own time and succeeds afterwards.
func TestWriterElsewhere(t *testing.T) {
	e := storetest.SQLite(t)
	s := e.Open(t)
	yard := founded(t, s)
	raw := e.Raw(t)
	raw.SetMaxOpenConns(1)
	if _, err := raw.Exec("BEGIN IMMEDIATE"); err != nil {
		t.Fatal(err)
	}
	err := tryWrite(briefly(t), s, yard, draftOf("none"))
	var unavailable *store.UnavailableError
	var busy *store.BusyError
	if !errors.As(err, &unavailable) && !errors.As(err, &busy) {
		t.Errorf("a writer elsewhere gave %v", err)
	}
	if _, err := s.In(yard).Yard(t.Context()); err != nil {
		t.Errorf("reading beside a writer: %v", err)
	}
	if _, err := raw.Exec("ROLLBACK"); err != nil {
		t.Fatal(err)
	}
	aJob(t, s, yard)
}

// TestDiskFull lets the file grow no further: the engine's own limit on pages
// fails with the same code as a full disk (sqlite.org/rescode.html, SQLITE_FULL).
func TestDiskFull(t *testing.T) {
	e := storetest.SQLite(t)
	s := e.Open(t)
	yard := founded(t, s)
	raw := e.Raw(t)
	limit := func(pages int) {
		t.Helper()
		if _, err := s.Pools()[0].Exec(fmt.Sprintf("PRAGMA max_page_count = %d", pages)); err != nil {
			t.Fatal(err)
		}
	}
	big := func(ctx context.Context, tx *store.Tx) error {
		_, err := tx.PutDocument(ctx, store.Document{Kind: "hull", ID: "h", Schema: 1, Body: bytes.Repeat([]byte("1 "), 1<<20)}, store.Absent)
		return err
	}
	limit(1) // the engine takes no less than the file has
	before := counts(t, e, raw)
	err := tryWrite(t.Context(), s, yard, big)
	var full *store.UnavailableError
	if !errors.As(err, &full) {
		t.Errorf("a full disk gave %v", err)
	}
	if diff := cmp.Diff(before, counts(t, e, raw)); diff != "" {
		t.Errorf("a full disk left a trace:\n%s", diff)
	}
	limit(1 << 30)
	write(t, s, yard, big)
	var sound string
	if err := raw.QueryRow("PRAGMA integrity_check").Scan(&sound); err != nil || sound != "ok" {
		t.Errorf("the file is %q, %v", sound, err)
	}
}
