package store_test

import (
	"net"
	"net/url"
	"os"
	"strings"
	"testing"

	"ribband/server/internal/store"
)

// A PostgreSQL server that does not open the database is told in plain words, without the password.
func TestWhyPostgreSQLDoesNotOpenIsSaidPlainly(t *testing.T) {
	closed, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	address := closed.Addr().String()
	if err := closed.Close(); err != nil {
		t.Fatal(err)
	}
	refused(t, "postgres://yard:secret@"+address+"/yard?sslmode=disable", "no server listens there")
	if server := os.Getenv("RIBBAND_TEST_POSTGRES"); server != "" {
		u, err := url.Parse(server)
		if err != nil {
			t.Fatal(err)
		}
		u.Path = "/no_such_yard"
		refused(t, u.String(), "has no database of that name")
	}
}

func refused(t *testing.T, address, reason string) {
	t.Helper()
	kept, err := store.Open(t.Context(), address)
	if err == nil {
		_ = kept.Close()
		t.Fatalf("%s opens", reason)
	}
	said := err.Error()
	if !strings.Contains(said, reason) || strings.Contains(said, "secret") || strings.Contains(said, "dial") || strings.Contains(said, "SQLSTATE") || strings.Contains(said, "\n") {
		t.Errorf("the refusal says %q, want %q", said, reason)
	}
}
