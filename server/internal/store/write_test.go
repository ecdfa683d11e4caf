package store_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestRoundTrip(t *testing.T) {
	engines(t, func(t *testing.T, e engine) {
		s := e.open(t)
		yard := founded(t, s)
		quote, revision, _ := issued(t, s, yard)
		if quote.Number != "2026-0001" || !revision.Issued() || len(revision.Totals) != 1 {
			t.Fatalf("issued as %+v %+v", quote, revision)
		}
		again, err := s.In(yard).Revision(t.Context(), quote.ID, 1)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(revision, again); diff != "" {
			t.Error(diff)
		}
		frozen, err := s.In(yard).Frozen(t.Context(), quote.ID, 1)
		if err != nil || string(frozen.PDF) != "%PDF-1.3 \x00\xff" {
			t.Errorf("frozen %+v, %v", frozen, err)
		}
		if n, _, err := s.In(yard).VerifyAudit(t.Context()); err != nil || n != 4 {
			t.Errorf("audit %d, %v", n, err)
		}
	})
}
