package auth_test

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/server/internal/storetest"
)

// yards runs a test on a new yard with one job, on each engine.
func yards(t *testing.T, test func(t *testing.T, s *store.Store, yard, job string)) {
	storetest.Engines(t, func(t *testing.T, p storetest.Place) { begin(t, p.Open(t), test) })
}

func begin(t *testing.T, s *store.Store, test func(t *testing.T, s *store.Store, yard, job string)) {
	var yard, job string
	_, _, err := s.Write(t.Context(), store.Request{Action: "found", Found: &store.Founding{Name: "Test yard", Invented: true}},
		func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
			added, err := tx.AddJob(ctx, store.Job{Boat: "Wagtail"})
			yard, job = tx.YardID(), added.ID
			return store.Answer{}, err
		})
	if err != nil {
		t.Fatal(err)
	}
	test(t, s, yard, job)
}

// change runs a write in the name of the server itself.
func change(t *testing.T, s *store.Store, yard string, do func(context.Context, *store.Tx) error) error {
	t.Helper()
	_, _, err := s.Write(t.Context(), store.Request{Yard: yard, Actor: store.Actor{Name: "start"}, Action: "tokens"},
		func(ctx context.Context, tx *store.Tx) (store.Answer, error) { return store.Answer{}, do(ctx, tx) })
	return err
}

var now = time.Date(2026, 3, 2, 12, 0, 0, 0, time.UTC)

func TestWhoIsAsking(t *testing.T) {
	yards(t, func(t *testing.T, s *store.Store, yard, job string) {
		var lead, owner auth.Minted
		err := change(t, s, yard, func(ctx context.Context, tx *store.Tx) (err error) {
			if lead, err = auth.Mint(ctx, tx, auth.Grant{Name: "the lead", Role: auth.Lead}); err != nil {
				return err
			}
			owner, err = auth.Mint(ctx, tx, auth.Grant{Name: "the owner", Role: auth.Owner, Job: job, ExpiresAt: now.Add(time.Hour)})
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		got, err := auth.Authenticate(t.Context(), s, lead.Secret.Reveal(), now)
		want := auth.Principal{Yard: yard, TokenID: lead.Token.ID, Role: auth.Lead, Name: "the lead"}
		if diff := cmp.Diff(want, got); err != nil || diff != "" {
			t.Errorf("%v\n%s", err, diff)
		}
		if !got.Sees(job) || !got.Sees("another") {
			t.Error("the lead does not see every job")
		}
		got, err = auth.Authenticate(t.Context(), s, owner.Secret.Reveal(), now)
		want = auth.Principal{Yard: yard, TokenID: owner.Token.ID, Role: auth.Owner, Job: job, Name: "the owner"}
		if diff := cmp.Diff(want, got); err != nil || diff != "" {
			t.Errorf("%v\n%s", err, diff)
		}
		if !got.Sees(job) || got.Sees("another") || got.Sees("") {
			t.Error("the owner sees another job, or not the own one")
		}

		refused := func(name, text string, at time.Time, reason string) {
			t.Helper()
			principal, err := auth.Authenticate(t.Context(), s, text, at)
			var no *auth.RefusedError
			if !errors.As(err, &no) || no.Reason != reason || principal != (auth.Principal{}) {
				t.Errorf("%s: %+v, %v", name, principal, err)
			}
		}
		stranger, err := auth.NewSecret()
		if err != nil {
			t.Fatal(err)
		}
		refused("a token of nobody", stranger.Reveal(), now, "unknown")
		refused("at the hour of expiry", owner.Secret.Reveal(), now.Add(time.Hour), "expired")
		if _, err := auth.Authenticate(t.Context(), s, owner.Secret.Reveal(), now.Add(time.Hour-time.Microsecond)); err != nil {
			t.Errorf("just before expiry: %v", err)
		}
		for name, text := range map[string]string{
			"nothing": "", "prefix": auth.Prefix, "hash": lead.Token.Hash, "identifier": lead.Token.ID,
			"no prefix": strings.TrimPrefix(lead.Secret.Reveal(), auth.Prefix), "blank behind": lead.Secret.Reveal() + " ",
			"cut short": lead.Secret.Reveal()[:40], "line break": lead.Secret.Reveal()[:46] + "\n", "NUL": lead.Secret.Reveal()[:46] + "\x00",
		} {
			refused(name, text, now, "malformed")
		}
		if err := change(t, s, yard, func(ctx context.Context, tx *store.Tx) error {
			_, err := tx.RevokeToken(ctx, lead.Token.ID)
			return err
		}); err != nil {
			t.Fatal(err)
		}
		refused("revoked", lead.Secret.Reveal(), now, "revoked")
	})
}

// TestNothingBuysTheToken looks for the token's text in what is stored.
func TestNothingBuysTheToken(t *testing.T) {
	yards(t, func(t *testing.T, s *store.Store, yard, _ string) {
		var minted auth.Minted
		err := change(t, s, yard, func(ctx context.Context, tx *store.Tx) (err error) {
			minted, err = auth.Mint(ctx, tx, auth.Grant{Role: auth.Lead})
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		tokens, err := s.In(yard).Tokens(t.Context(), store.Page{})
		if err != nil || len(tokens.Items) != 1 {
			t.Fatalf("%+v, %v", tokens, err)
		}
		entries, err := s.In(yard).Audit(t.Context(), 0, 100)
		if err != nil {
			t.Fatal(err)
		}
		secret := strings.TrimPrefix(minted.Secret.Reveal(), auth.Prefix)
		if kept := fmt.Sprintf("%+v %+v", tokens, entries); strings.Contains(kept, secret) {
			t.Error("the token itself is stored")
		}
		if tokens.Items[0].Hash != minted.Secret.Hash() || len(minted.Secret.Hash()) != 64 {
			t.Errorf("kept as %q", tokens.Items[0].Hash)
		}
		for _, shown := range []string{fmt.Sprint(minted), fmt.Sprintf("%+v", minted), fmt.Sprintf("%#v", minted), fmt.Sprintf("%s %v %q", minted.Secret, minted.Secret, minted.Secret)} {
			if strings.Contains(shown, secret) {
				t.Errorf("printed by accident: %s", shown)
			}
		}
	})
}

// TestMintAll replaces every token of a yard in one write.
func TestMintAll(t *testing.T) {
	yards(t, func(t *testing.T, s *store.Store, yard, job string) {
		var first, second []auth.Minted
		mint := func(into *[]auth.Minted) error {
			return change(t, s, yard, func(ctx context.Context, tx *store.Tx) (err error) {
				*into, err = auth.MintAll(ctx, tx, job)
				return err
			})
		}
		good := func(minted []auth.Minted) (n int) {
			for i, token := range minted {
				principal, err := auth.Authenticate(t.Context(), s, token.Secret.Reveal(), now)
				if err == nil {
					n++
					if principal.Role != auth.Roles()[i] || (principal.Job == job) != (principal.Role == auth.Owner) {
						t.Errorf("token %d: %+v", i, principal)
					}
				}
			}
			return n
		}
		if err := mint(&first); err != nil || len(first) != 4 || good(first) != 4 {
			t.Fatalf("%d of %d tokens are good, %v", good(first), len(first), err)
		}
		// Minting for a job that is not there fails as a whole: the old ones stand.
		err := change(t, s, yard, func(ctx context.Context, tx *store.Tx) error {
			_, err := auth.MintAll(ctx, tx, "no such job")
			return err
		})
		var missing *store.NotFoundError
		if !errors.As(err, &missing) || good(first) != 4 {
			t.Errorf("%v, and %d of the old tokens are good", err, good(first))
		}
		if err := mint(&second); err != nil || good(first) != 0 || good(second) != 4 {
			t.Errorf("%d old and %d new tokens are good, %v", good(first), good(second), err)
		}
	})
}

func TestGrantsThatMakeNoSense(t *testing.T) {
	yards(t, func(t *testing.T, s *store.Store, yard, job string) {
		for name, grant := range map[string]auth.Grant{
			"no role":          {},
			"unknown role":     {Role: "skipper"},
			"owner of no job":  {Role: auth.Owner},
			"lead of one job":  {Role: auth.Lead, Job: job},
			"owner of nothing": {Role: auth.Owner, Job: "no such job"},
		} {
			err := change(t, s, yard, func(ctx context.Context, tx *store.Tx) error {
				_, err := auth.Mint(ctx, tx, grant)
				return err
			})
			if err == nil {
				t.Errorf("%s was granted", name)
			}
		}
		tokens, err := s.In(yard).Tokens(t.Context(), store.Page{})
		if err != nil || len(tokens.Items) != 0 {
			t.Errorf("%d tokens, %v", len(tokens.Items), err)
		}
	})
}

// outage is a store that does not answer.
type outage struct{}

func (outage) TokenByHash(context.Context, string) (store.Token, error) {
	return store.Token{}, &store.UnavailableError{}
}

// liar is a store that hands out somebody else's token.
type liar struct{ store.Token }

func (l liar) TokenByHash(context.Context, string) (store.Token, error) { return l.Token, nil }

func TestStoreThatFails(t *testing.T) {
	secret, err := auth.NewSecret()
	if err != nil {
		t.Fatal(err)
	}
	var unavailable *store.UnavailableError
	if _, err := auth.Authenticate(t.Context(), outage{}, secret.Reveal(), now); !errors.As(err, &unavailable) {
		t.Errorf("an outage is told as %v", err)
	}
	var refused *auth.RefusedError
	if _, err := auth.Authenticate(t.Context(), liar{store.Token{Role: "lead", Hash: store.HashOf(nil)}}, secret.Reveal(), now); !errors.As(err, &refused) {
		t.Errorf("another token's row gave %v", err)
	}
	var damaged *store.CorruptError
	if _, err := auth.Authenticate(t.Context(), liar{store.Token{Role: "skipper", Hash: secret.Hash()}}, secret.Reveal(), now); !errors.As(err, &damaged) {
		t.Errorf("an unknown role gave %v", err)
	}
}

// TestSecrets checks length and that no two are alike.
func TestSecrets(t *testing.T) {
	const many = 100_000
	seen := make(map[string]bool, many)
	for range many {
		secret, err := auth.NewSecret()
		if err != nil {
			t.Fatal(err)
		}
		text := secret.Reveal()
		if len(text) != len(auth.Prefix)+43 || !strings.HasPrefix(text, auth.Prefix) || seen[text] { // 43 = 256 bits in base64
			t.Fatalf("token %q of %d characters", text, len(text))
		}
		seen[text] = true
	}
}

func FuzzParseSecret(f *testing.F) {
	secret, err := auth.NewSecret()
	if err != nil {
		f.Fatal(err)
	}
	f.Add(secret.Reveal())
	f.Add(auth.Prefix + strings.Repeat("A", 43))
	f.Add(auth.Prefix + strings.Repeat("A", 42) + "B")
	f.Add(auth.Prefix + strings.Repeat("A", 42) + "\n")
	f.Fuzz(func(t *testing.T, text string) {
		secret, ok := auth.ParseSecret(text)
		if ok && (secret.Reveal() != text || len(text) != 47 || strings.ContainsAny(text, "\r\n \x00=+/")) {
			t.Errorf("%q was taken as %q", text, secret.Reveal())
		}
	})
}

// TestConfirm asks of a token by its id what Authenticate asks by its text.
func TestConfirm(t *testing.T) {
	yards(t, func(t *testing.T, s *store.Store, yard, job string) {
		var minted auth.Minted
		err := change(t, s, yard, func(ctx context.Context, tx *store.Tx) (err error) {
			minted, err = auth.Mint(ctx, tx, auth.Grant{Role: auth.Owner, Job: job, ExpiresAt: now.Add(time.Hour)})
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		byID := func(in, id string, at time.Time) string {
			t.Helper()
			who, err := auth.Confirm(t.Context(), s.In(in), id, at)
			var refused *auth.RefusedError
			switch {
			case errors.As(err, &refused):
				return refused.Reason
			case err != nil:
				t.Fatal(err)
			case who.Job != job || who.TokenID != id || who.Role != auth.Owner:
				t.Errorf("%+v", who)
			}
			return "good"
		}
		id := minted.Token.ID
		got := []string{byID(yard, id, now), byID(yard, id, now.Add(time.Hour)), byID(yard, "none", now), byID("other", id, now)}
		err = change(t, s, yard, func(ctx context.Context, tx *store.Tx) error {
			_, err := tx.RevokeToken(ctx, id)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		got = append(got, byID(yard, id, now))
		if want := []string{"good", "expired", "unknown", "unknown", "revoked"}; !slices.Equal(got, want) {
			t.Errorf("%q, want %q", got, want)
		}
	})
}
