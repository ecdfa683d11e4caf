package app

import (
	"context"
	"time"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
)

// OwnerLinks lists the tokens of a job's owner, which are private links to it, newest first, revoked and expired ones
// too.
func (a *App) OwnerLinks(ctx context.Context, who auth.Principal, job string) ([]Token, error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return nil, err
	}
	var out []Token
	for page := (store.Page{Limit: store.LargestLimit}); ; {
		list, err := a.Tokens(ctx, who, page)
		if err != nil {
			return nil, err
		}
		for _, t := range list.Items {
			if t.Role == auth.Owner && t.Job == job {
				out = append([]Token{t}, out...)
			}
		}
		if page.After = list.Next; page.After == "" {
			return out, nil
		}
	}
}

// RevokeOwnerLink puts a private link of a job out of force. A token that is no link of this job is not found, so that
// whoever may end links cannot end the tokens of the yard's own people.
func (a *App) RevokeOwnerLink(ctx context.Context, who auth.Principal, job, id string) error {
	t, err := a.store.In(who.Yard).Token(ctx, id)
	if err != nil {
		return err
	}
	if auth.Role(t.Role) != auth.Owner || t.JobID != job {
		return &store.NotFoundError{Kind: "token", ID: id}
	}
	return a.RevokeToken(ctx, who, id)
}

// State of a token at a time, in a word.
func (t Token) State(now time.Time) string {
	switch {
	case t.RevokedAt != nil:
		return "revoked"
	case t.ExpiresAt != nil && !now.Before(*t.ExpiresAt):
		return "expired"
	}
	return "holds"
}
