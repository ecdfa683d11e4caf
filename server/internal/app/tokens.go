package app

import (
	"context"
	"time"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"
)

// ownerDays is how long a link to a job holds when nobody says otherwise. Assumption: longer than estimates stay open,
// and short enough that a link in an old letter opens nothing.
const ownerDays = 90

// TokenFields is what a new token is to stand for. An owner's always expires, after ownerDays unless it says when.
type TokenFields struct {
	Name      string     `json:"name"`
	Role      auth.Role  `json:"role"`
	Job       string     `json:"job,omitempty"`
	ExpiresAt *time.Time `json:"expires_at,omitempty"`
}

// Token is a token as it is kept; Text, and Link, which signs its holder in, are there only when it was just made.
type Token struct {
	ID        string     `json:"id"`
	Name      string     `json:"name"`
	Role      auth.Role  `json:"role"`
	Job       string     `json:"job,omitempty"`
	CreatedAt time.Time  `json:"created_at"`
	ExpiresAt *time.Time `json:"expires_at,omitempty"`
	RevokedAt *time.Time `json:"revoked_at,omitempty"`
	Text      string     `json:"text,omitempty"`
	Link      string     `json:"link,omitempty"`
}

func tokenOf(r store.Token) (Token, error) {
	t := Token{ID: r.ID, Name: r.Name, Role: auth.Role(r.Role), Job: r.JobID, CreatedAt: r.CreatedAt}
	if !r.ExpiresAt.IsZero() {
		t.ExpiresAt = &r.ExpiresAt
	}
	if !r.RevokedAt.IsZero() {
		t.RevokedAt = &r.RevokedAt
	}
	return t, nil
}

func (f TokenFields) check(now time.Time) document.Faults {
	var faults document.Faults
	named(&faults, "/name", f.Name)
	if !f.Role.Known() {
		faults.Add("/role", "lead, estimator, accountant or owner", "the role %s is not known", notation.Quote(string(f.Role)))
	} else if (f.Role == auth.Owner) != (f.Job != "") {
		faults.Add("/job", "a job for an owner, and for nobody else", "an owner is bound to one job; the other roles see every job")
	}
	if f.ExpiresAt != nil && !f.ExpiresAt.After(now) {
		faults.Add("/expires_at", "a time to come, or nothing", "the token would have expired already")
	}
	return faults
}

// MakeToken makes a token. Its text is handed out apart from the answer that is kept, which never holds it: fresh is
// false when the key had made one before, whose text nobody can show again.
func (a *App) MakeToken(ctx context.Context, who auth.Principal, key Key, fields TokenFields, reply Reply[Token]) (made Token, answer store.Answer, fresh bool, err error) {
	if answer, found, err := a.replay(ctx, who, "make token", key); err != nil || found {
		return Token{}, answer, false, err
	}
	faults := fields.check(a.now())
	grant := auth.Grant{Name: fields.Name, Role: fields.Role, Job: fields.Job}
	switch {
	case fields.ExpiresAt != nil:
		grant.ExpiresAt = *fields.ExpiresAt
	case fields.Role == auth.Owner:
		grant.ExpiresAt = a.now().AddDate(0, 0, ownerDays)
	}
	answer, replayed, err := a.write(ctx, who, "make token", key, func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
		if fields.Job != "" {
			if _, err := tx.Job(ctx, fields.Job); gone(err) {
				faults.Add("/job", "the id of a job", "there is no job %s", notation.Quote(fields.Job))
			} else if err != nil {
				return store.Answer{}, err
			}
		}
		if err := faults.Err(); err != nil {
			return store.Answer{}, err
		}
		minted, err := auth.Mint(ctx, tx, grant)
		if err != nil {
			return store.Answer{}, err
		}
		if made, err = tokenOf(minted.Token); err != nil {
			return store.Answer{}, err
		}
		kept, err := reply(made)
		made.Text = minted.Secret.Reveal()
		return kept, err
	})
	return made, answer, !replayed, err
}

// Tokens lists the yard's tokens.
func (a *App) Tokens(ctx context.Context, who auth.Principal, page store.Page) (List[Token], error) {
	rs, err := a.store.In(who.Yard).Tokens(ctx, page)
	if err != nil {
		return List[Token]{}, err
	}
	return listed(rs, tokenOf)
}

// RevokeToken puts a token out of force.
func (a *App) RevokeToken(ctx context.Context, who auth.Principal, id string) error {
	_, err := change(ctx, a, who, "revoke token", func(ctx context.Context, tx *store.Tx) (store.Token, error) {
		return tx.RevokeToken(ctx, id)
	})
	return err
}
