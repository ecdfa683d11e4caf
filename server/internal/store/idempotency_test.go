package store_test

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"ribband/server/internal/store"
	"ribband/server/internal/storetest"
)

// post adds a job under a key, as a creating request does.
func post(ctx context.Context, s *store.Store, yard string, actor store.Actor, key, body string) (store.Answer, bool, error) {
	request := store.Request{Yard: yard, Actor: actor, Action: "create_job", Key: key,
		RequestHash: store.RequestHash("POST", "/api/v1/jobs", []byte(body))}
	return s.Write(ctx, request, func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
		job, err := tx.AddJob(ctx, store.Job{Boat: body})
		if err != nil {
			return store.Answer{}, err
		}
		return store.Answer{Status: 201, ETag: `"1"`, Location: "/api/v1/jobs/" + job.ID,
			ContentType: "application/json", Body: fmt.Appendf(nil, `{"id":%q}`, job.ID)}, nil
	})
}

// TestParallelPostsOfOneKey sends one request 32 times at once, half through
// another server on the same database.
func TestParallelPostsOfOneKey(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		const posts = 32
		servers := []*store.Store{e.Open(t), e.Open(t)}
		yard := founded(t, servers[0])
		answers := make([]store.Answer, posts)
		replays := make([]bool, posts)
		var all sync.WaitGroup
		start := make(chan struct{})
		for i := range posts {
			all.Go(func() {
				<-start
				var err error
				if answers[i], replays[i], err = post(t.Context(), servers[i%2], yard, estimator, "key-1", "Dunlin"); err != nil {
					t.Error(err)
				}
			})
		}
		close(start)
		all.Wait()
		first := 0
		for i := range posts {
			if diff := cmp.Diff(answers[0], answers[i]); diff != "" {
				t.Errorf("answer %d differs:\n%s", i, diff)
			}
			if !replays[i] {
				first++
			}
		}
		raw := e.Raw(t)
		if first != 1 || countOf(t, raw, "jobs") != 1 || countOf(t, raw, "idempotency_keys") != 1 || answers[0].Status != 201 {
			t.Errorf("%d first answers, %d jobs, %d keys, status %d", first, countOf(t, raw, "jobs"), countOf(t, raw, "idempotency_keys"), answers[0].Status)
		}
		// One audit entry for the founding and one for the job: a replay writes nothing.
		if n, _, err := servers[1].In(yard).VerifyAudit(t.Context()); err != nil || n != 2 {
			t.Errorf("%d audit entries, %v", n, err)
		}
	})
}

func TestKeys(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		s, err := store.Open(t.Context(), e.Address)
		if err != nil {
			t.Fatal(err)
		}
		yard := founded(t, s)
		first, _, err := post(t.Context(), s, yard, estimator, "key-1", "Dunlin")
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}

		s = e.Open(t) // a key outlives the server
		again, replayed, err := post(t.Context(), s, yard, estimator, "key-1", "Dunlin")
		if err != nil || !replayed || !cmp.Equal(first, again) {
			t.Errorf("after a restart: replayed %v, %v, %s", replayed, err, cmp.Diff(first, again))
		}
		var reused *store.KeyReusedError
		if _, _, err := post(t.Context(), s, yard, estimator, "key-1", "Knot"); !errors.As(err, &reused) || reused.Key != "key-1" {
			t.Errorf("another body under the same key: %v", err)
		}
		lead := store.Actor{TokenID: "token-2", Role: "lead"}
		other, replayed, err := post(t.Context(), s, yard, lead, "key-1", "Knot")
		if err != nil || replayed || other.Location == first.Location {
			t.Errorf("the key of another token: replayed %v, %v", replayed, err)
		}
		elsewhere := founded(t, s)
		if _, replayed, err := post(t.Context(), s, elsewhere, estimator, "key-1", "Knot"); err != nil || replayed {
			t.Errorf("the key in another yard: replayed %v, %v", replayed, err)
		}

		// An error is not kept: the key is free for a better request.
		if _, _, err := post(t.Context(), s, yard, estimator, "key-2", "Dun\x00lin"); err == nil {
			t.Error("a NUL went in")
		}
		if _, replayed, err := post(t.Context(), s, yard, estimator, "key-2", "Dunlin"); err != nil || replayed {
			t.Errorf("after a refusal: replayed %v, %v", replayed, err)
		}

		// Old keys go when asked, the yard's own only; an answer without body was one.
		write(t, s, yard, func(ctx context.Context, tx *store.Tx) error {
			n, err := tx.ForgetKeys(ctx, tx.Now().Add(time.Hour))
			if n != 3 {
				t.Errorf("%d keys forgotten", n)
			}
			return err
		})
		if n := countOf(t, e.Raw(t), "idempotency_keys"); n != 1 {
			t.Errorf("%d keys left", n)
		}
	})
}

// TestRequestHash shows that no two different requests read alike.
func TestRequestHash(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range [][3]string{{"POST", "/jobs", "a"}, {"POST", "/job", "sa"}, {"POST", "/jobsa", ""}, {"POST/", "jobs", "a"}, {"PUT", "/jobs", "a"}} {
		seen[store.RequestHash(r[0], r[1], []byte(r[2]))] = true
	}
	if len(seen) != 5 {
		t.Errorf("5 requests have %d hashes", len(seen))
	}
}
