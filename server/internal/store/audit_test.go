package store_test

import (
	"context"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"ribband/server/internal/store"
	"ribband/server/internal/storetest"
)

// TestAuditEntry reads back who did what.
func TestAuditEntry(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		s := e.Open(t)
		yard := founded(t, s)
		if _, _, err := post(t.Context(), s, yard, estimator, "key-1", "Dunlin"); err != nil {
			t.Fatal(err)
		}
		document := put(t, s, yard, "hull", "h", "{}", store.Absent)
		entries, err := s.In(yard).Audit(t.Context(), 1, 10)
		if err != nil || len(entries) != 2 {
			t.Fatalf("%+v, %v", entries, err)
		}
		first, second := entries[0], entries[1]
		if first.N != 2 || first.Action != "create_job" || first.Key != "key-1" || first.TokenID != estimator.TokenID ||
			first.Role != estimator.Role || first.Name != estimator.Name || len(first.Changes) != 1 || first.Changes[0].What != "job" {
			t.Errorf("%+v", first)
		}
		if diff := cmp.Diff([]store.Change{{What: "document hull", ID: "h", N: 1, Hash: document.Hash}}, second.Changes); diff != "" {
			t.Error(diff)
		}
		if second.Previous != first.Hash || !second.At.After(first.At) {
			t.Errorf("%+v does not follow %+v", second, first)
		}
	})
}

// TestAuditChain tampers with the audit in each way there is, the triggers taken
// off, and looks whether verifying finds it where it is.
func TestAuditChain(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, first storetest.Place) {
		for _, c := range []struct {
			name, statement string
			n               int64 // where it must be found; 0: nowhere
		}{
			{"nothing", "UPDATE audit SET name = name", 0},
			{"who", "UPDATE audit SET name = 'somebody else' WHERE n = 4", 4},
			{"whose token", "UPDATE audit SET token_id = 'token-9' WHERE n = 4", 4},
			{"role", "UPDATE audit SET role = 'lead' WHERE n = 4", 4},
			{"what", "UPDATE audit SET action = 'nothing' WHERE n = 5", 5},
			{"when", "UPDATE audit SET at = at + 1 WHERE n = 1", 1},
			{"key", "UPDATE audit SET key = 'k' WHERE n = 6", 6},
			{"changes", "UPDATE audit SET changes = (SELECT changes FROM audit WHERE n = 3) WHERE n = 4", 4},
			{"letter moved between fields", "UPDATE audit SET role = role || 'a', name = SUBSTR(name, 2) WHERE n = 4", 4},
			{"hash", "UPDATE audit SET hash = previous WHERE n = 4", 4},
			{"one taken out", "DELETE FROM audit WHERE n = 3", 3},
			{"first taken out", "DELETE FROM audit WHERE n = 1", 1},
			{"last taken out", "DELETE FROM audit WHERE n = 7", 7},
			{"all taken out", "DELETE FROM audit", 1},
			{"cut off and forged short", "UPDATE yards SET audit_n = 6", 6},
			{"head forged", "UPDATE yards SET audit_hash = (SELECT hash FROM audit WHERE n = 6)", 7},
			{"two changed over", "UPDATE audit SET n = CASE n WHEN 4 THEN -5 WHEN 5 THEN -4 ELSE n END; UPDATE audit SET n = -n WHERE n < 0", 4},
		} {
			e := another(t, first)
			s := e.Open(t)
			yard := founded(t, s)
			put(t, s, yard, "counter", "c", "0", store.Absent)
			for n := range 5 {
				put(t, s, yard, "counter", "c", "0", store.Seen(n+1))
			}
			raw := e.Raw(t)
			disarm(t, e, raw, "audit")
			if e.Engine == store.PostgreSQL {
				_, err := raw.Exec("ALTER TABLE audit DROP CONSTRAINT audit_n_check")
				if err != nil {
					t.Fatal(err)
				}
			} else if _, err := raw.Exec("PRAGMA ignore_check_constraints = on"); err != nil {
				t.Fatal(err)
			}
			raw.SetMaxOpenConns(1)
			if _, err := raw.Exec(c.statement); err != nil {
				t.Fatal(c.name, err)
			}
			n, hash, err := s.In(yard).VerifyAudit(t.Context())
			var broken *store.AuditError
			switch {
			case c.n == 0 && (err != nil || n != 7 || len(hash) != 64):
				t.Errorf("%s: %d %s %v", c.name, n, hash, err)
			case c.n != 0 && (!errors.As(err, &broken) || broken.N != c.n):
				t.Errorf("%s at entry %d: %v", c.name, c.n, err)
			}
		}
	})
}

// TestAuditForgedWhole edits an entry and works its hash out anew, as someone who
// knows how may: the next entry no longer follows. The hash is worked out here
// apart from the code that is tested.
func TestAuditForgedWhole(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		s := e.Open(t)
		yard := founded(t, s)
		for n := range 4 {
			put(t, s, yard, "counter", fmt.Sprint(n), "0", store.Absent)
		}
		raw := e.Raw(t)
		disarm(t, e, raw, "audit")
		var n, at int64
		var token, role, name, action, key, previous, hash string
		var changes []byte
		if err := raw.QueryRow("SELECT n, at, token_id, role, name, action, key, changes, previous, hash FROM audit WHERE n = 3").
			Scan(&n, &at, &token, &role, &name, &action, &key, &changes, &previous, &hash); err != nil {
			t.Fatal(err)
		}
		work := func(name string) string {
			sum := sha256.New()
			for _, text := range []string{yard, fmt.Sprint(n), fmt.Sprint(at), token, role, name, action, key, string(changes), previous} {
				fmt.Fprintf(sum, "%s%s", binary.BigEndian.AppendUint64(nil, uint64(len(text))), text)
			}
			return hex.EncodeToString(sum.Sum(nil))
		}
		if work(name) != hash {
			t.Fatalf("entry 3 hashes to %s, stored is %s", work(name), hash)
		}
		if _, err := raw.Exec("UPDATE audit SET name = 'somebody else', hash = '" + work("somebody else") + "' WHERE n = 3"); err != nil {
			t.Fatal(err)
		}
		_, _, err := s.In(yard).VerifyAudit(t.Context())
		var broken *store.AuditError
		if !errors.As(err, &broken) || broken.N != 4 {
			t.Errorf("a forged entry 3 gave %v", err)
		}
	})
}

// TestAuditLongerThanOneRead verifies across several reads, beside a writer.
func TestAuditLongerThanOneRead(t *testing.T) {
	s := storetest.SQLite(t).Open(t)
	yard := founded(t, s)
	nothing := func(context.Context, *store.Tx) error { return nil }
	for range 1100 {
		write(t, s, yard, nothing)
	}
	stop := make(chan struct{})
	writer := make(chan error, 1)
	go func() {
		for {
			select {
			case <-stop:
				writer <- nil
				return
			default:
			}
			if err := tryWrite(t.Context(), s, yard, nothing); err != nil {
				writer <- err
				return
			}
		}
	}()
	for range 5 {
		if n, _, err := s.In(yard).VerifyAudit(t.Context()); err != nil || n < 1101 {
			t.Errorf("%d entries, %v", n, err)
		}
	}
	close(stop)
	if err := <-writer; err != nil {
		t.Error(err)
	}
}
