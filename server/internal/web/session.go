package web

import (
	"context"
	"errors"
	"net/http"
	"time"

	"github.com/alexedwards/scs/v2"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
)

// How long somebody stays signed in: after the last page, and after signing in.
const (
	idleAfter  = 30 * time.Minute
	endsAfter  = 8 * time.Hour
	seenWithin = time.Minute // the last page is noted this often, so that looking does not write every time
)

// Names of the cookie. A browser takes one with the prefix __Host- only over https, for the whole host and no other.
const (
	secureCookie = "__Host-ribband"
	localCookie  = "ribband"
)

// Sessions is where sessions are kept: the store.
type Sessions interface {
	SessionByHash(ctx context.Context, hash string, now time.Time) (store.Session, error)
	PutSession(ctx context.Context, session store.Session, now time.Time) error
	DropSession(ctx context.Context, hash string) error
}

func newSessions(kept Sessions, address Address) *scs.SessionManager {
	m := scs.New()
	m.Store = keeper{kept}
	m.Lifetime = endsAfter
	m.Cookie.Name = localCookie
	if !address.Local {
		m.Cookie.Name, m.Cookie.Secure = secureCookie, true
	}
	m.Cookie.HttpOnly, m.Cookie.SameSite, m.Cookie.Path = true, http.SameSiteLaxMode, "/"
	m.Cookie.Persist = false // the cookie goes when the browser is closed
	return m
}

// keeper keeps sessions under the hash of what the browser brings, so that nobody who reads the database gets in. It
// goes by the system's clock, as the manager of sessions does, which only clears away what has long ended: whether a
// session still holds is decided in whoAsks, by the service's clock.
type keeper struct{ kept Sessions }

// FindCtx finds a session that has not expired.
func (k keeper) FindCtx(ctx context.Context, token string) ([]byte, bool, error) {
	s, err := k.kept.SessionByHash(ctx, store.HashOf([]byte(token)), time.Now())
	var none *store.NotFoundError
	if errors.As(err, &none) {
		return nil, false, nil
	}
	return s.Body, err == nil, err
}

// CommitCtx keeps a session.
func (k keeper) CommitCtx(ctx context.Context, token string, body []byte, expiry time.Time) error {
	return k.kept.PutSession(ctx, store.Session{Hash: store.HashOf([]byte(token)), Body: body, ExpiresAt: expiry}, time.Now())
}

// DeleteCtx ends a session.
func (k keeper) DeleteCtx(ctx context.Context, token string) error {
	return k.kept.DropSession(ctx, store.HashOf([]byte(token)))
}

// Find, Commit and Delete are the same for callers without a context.
func (k keeper) Find(token string) ([]byte, bool, error) {
	return k.FindCtx(context.Background(), token)
}

// Commit is CommitCtx.
func (k keeper) Commit(token string, body []byte, expiry time.Time) error {
	return k.CommitCtx(context.Background(), token, body, expiry)
}

// Delete is DeleteCtx.
func (k keeper) Delete(token string) error { return k.DeleteCtx(context.Background(), token) }

// What a session holds.
const (
	sessionYard  = "yard"
	sessionToken = "token"
	sessionBegan = "began"
	sessionSeen  = "seen"
)

// begin signs the holder of a token in, under a new name of the session.
func (p *Pages) begin(ctx context.Context, who auth.Principal) error {
	if err := p.sessions.RenewToken(ctx); err != nil {
		return err
	}
	now := p.now().Unix()
	p.sessions.Put(ctx, sessionYard, who.Yard)
	p.sessions.Put(ctx, sessionToken, who.TokenID)
	p.sessions.Put(ctx, sessionBegan, now)
	p.sessions.Put(ctx, sessionSeen, now)
	return nil
}

// whoAsks is whom the session stands for; nobody where there is none, where it has ended, and where its token does
// not hold any more.
func (p *Pages) whoAsks(r *http.Request) (auth.Principal, error) {
	ctx := r.Context()
	token := p.sessions.GetString(ctx, sessionToken)
	if token == "" {
		return auth.Principal{}, nil
	}
	now := p.now()
	began := time.Unix(p.sessions.GetInt64(ctx, sessionBegan), 0)
	seen := time.Unix(p.sessions.GetInt64(ctx, sessionSeen), 0)
	if now.Sub(began) >= endsAfter || now.Sub(seen) >= idleAfter {
		return auth.Principal{}, p.sessions.Destroy(ctx)
	}
	who, err := p.app.Still(ctx, p.sessions.GetString(ctx, sessionYard), token)
	var refused *auth.RefusedError
	if errors.As(err, &refused) {
		return auth.Principal{}, p.sessions.Destroy(ctx)
	}
	if err == nil && now.Sub(seen) >= seenWithin {
		p.sessions.Put(ctx, sessionSeen, now.Unix())
	}
	return who, err
}
