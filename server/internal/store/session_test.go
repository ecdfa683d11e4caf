package store_test

import (
	"errors"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"ribband/server/internal/store"
	"ribband/server/internal/storetest"
)

// A session is found until it expires or is ended, and an expired one is gone when the next begins.
func TestSessions(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		s := e.Open(t)
		noon := time.Date(2026, 3, 2, 12, 0, 0, 0, time.UTC)
		first := store.Session{Hash: store.HashOf([]byte("first")), Body: []byte("who"), ExpiresAt: noon.Add(time.Hour)}
		second := store.Session{Hash: store.HashOf([]byte("second")), Body: []byte{}, ExpiresAt: noon.Add(9 * time.Hour)}
		if err := s.PutSession(t.Context(), first, noon); err != nil {
			t.Fatal(err)
		}
		first.Body = []byte("who else")
		if err := s.PutSession(t.Context(), first, noon); err != nil {
			t.Fatal(err)
		}
		got, err := s.SessionByHash(t.Context(), first.Hash, noon.Add(time.Hour-time.Microsecond))
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(first, got); diff != "" {
			t.Error(diff)
		}
		var gone *store.NotFoundError
		if _, err := s.SessionByHash(t.Context(), first.Hash, first.ExpiresAt); !errors.As(err, &gone) {
			t.Errorf("at its end a session is still found: %v", err)
		}
		if err := s.PutSession(t.Context(), second, first.ExpiresAt); err != nil {
			t.Fatal(err)
		}
		if n := countOf(t, e.Raw(t), "sessions"); n != 1 {
			t.Errorf("%d sessions are kept, only one has not expired", n)
		}
		for range 2 {
			if err := s.DropSession(t.Context(), second.Hash); err != nil {
				t.Fatal(err)
			}
		}
		if _, err := s.SessionByHash(t.Context(), second.Hash, noon); !errors.As(err, &gone) {
			t.Errorf("a session that was ended is still found: %v", err)
		}
	})
}
