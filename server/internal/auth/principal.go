package auth

import (
	"context"
	"crypto/subtle"
	"errors"
	"time"

	"ribband/server/internal/store"
)

// Principal is who is asking, once the token has been found good.
type Principal struct {
	Yard    string
	TokenID string
	Role    Role
	Job     string // the one job an owner sees; empty for every other role
	Name    string
}

// Actor is the principal as the store's audit keeps it.
func (p Principal) Actor() store.Actor {
	return store.Actor{TokenID: p.TokenID, Role: string(p.Role), Name: p.Name}
}

// Sees tells whether the principal may know of a job of its yard.
func (p Principal) Sees(jobID string) bool { return p.Role != Owner || p.Job == jobID }

// RefusedError says why a token is not taken. Callers are told only that it is
// not; the reason is for the log.
type RefusedError struct {
	Reason  string // "malformed", "unknown", "revoked" or "expired"
	TokenID string // where the token is known
}

func (e *RefusedError) Error() string { return "the token is " + e.Reason }

// Tokens is where tokens are looked up: the store.
type Tokens interface {
	TokenByHash(ctx context.Context, hash string) (store.Token, error)
}

// Authenticate finds out who brings a token. It returns [RefusedError] for one
// that is malformed, unknown, revoked or, at now, expired, and the store's own
// errors.
func Authenticate(ctx context.Context, tokens Tokens, text string, now time.Time) (Principal, error) {
	secret, ok := ParseSecret(text)
	if !ok {
		return Principal{}, &RefusedError{Reason: "malformed"}
	}
	hash := secret.Hash()
	token, err := tokens.TokenByHash(ctx, hash)
	var unknown *store.NotFoundError
	switch {
	case errors.As(err, &unknown):
		return Principal{}, &RefusedError{Reason: "unknown"}
	case err != nil:
		return Principal{}, err
	// The index compares hashes byte by byte, which tells nothing about a token
	// whose hash cannot be chosen; the last word is a comparison in constant time.
	case subtle.ConstantTimeCompare([]byte(token.Hash), []byte(hash)) != 1:
		return Principal{}, &RefusedError{Reason: "unknown"}
	}
	return principalOf(token, now)
}

// ByID is a token that was brought before and is known by its id.
type ByID interface {
	Token(ctx context.Context, id string) (store.Token, error)
}

// Confirm finds out whether a token that was taken before, and whose holder has a
// session since, still holds at now. Errors as [Authenticate].
func Confirm(ctx context.Context, tokens ByID, id string, now time.Time) (Principal, error) {
	token, err := tokens.Token(ctx, id)
	var unknown *store.NotFoundError
	if errors.As(err, &unknown) {
		return Principal{}, &RefusedError{Reason: "unknown"}
	}
	if err != nil {
		return Principal{}, err
	}
	return principalOf(token, now)
}

// principalOf is who holds a token, unless it is revoked or, at now, expired.
func principalOf(token store.Token, now time.Time) (Principal, error) {
	switch {
	case !token.RevokedAt.IsZero():
		return Principal{}, &RefusedError{Reason: "revoked", TokenID: token.ID}
	case !token.ExpiresAt.IsZero() && !now.Before(token.ExpiresAt):
		return Principal{}, &RefusedError{Reason: "expired", TokenID: token.ID}
	}
	role := Role(token.Role)
	if !role.Known() {
		return Principal{}, &store.CorruptError{Table: "tokens", ID: token.ID, Reason: "the role is none that is known"}
	}
	return Principal{Yard: token.YardID, TokenID: token.ID, Role: role, Job: token.JobID, Name: token.Name}, nil
}
