package web

import (
	"context"
	"log/slog"
	"net/http"
	"slices"
	"strings"
	"time"

	"github.com/alexedwards/scs/v2"

	"ribband/server/internal/app"
	"ribband/server/internal/auth"
)

// Pages is the pages as an http.Handler.
type Pages struct {
	app      *app.App
	log      *slog.Logger
	now      func() time.Time
	address  Address
	sessions *scs.SessionManager
	look     look
	handler  http.Handler
}

// New is the pages of a service. Sessions are kept in kept; address is how people reach it.
func New(a *app.App, kept Sessions, address Address, now func() time.Time, log *slog.Logger) (*Pages, error) {
	l, err := newLook()
	if err != nil {
		return nil, err
	}
	p := &Pages{app: a, log: log, now: now, address: address, look: l, sessions: newSessions(kept, address)}
	p.sessions.ErrorFunc = func(w http.ResponseWriter, r *http.Request, err error) { p.fail(w, r, err) }
	mux := http.NewServeMux()
	for pattern, ways := range byPattern(routes) {
		mux.HandleFunc(pattern, p.answer(ways))
	}
	mux.HandleFunc("/", func(w http.ResponseWriter, r *http.Request) { p.fail(w, r, errNothing) })
	mux.HandleFunc("GET /favicon.ico", func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusNoContent) })
	mux.HandleFunc("GET "+l.css.path, l.css.serve)
	protection := http.NewCrossOriginProtection()
	protection.SetDenyHandler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { p.fail(w, r, errElsewhere) }))
	p.handler = p.traced(protection.Handler(p.sessions.LoadAndSave(mux)))
	return p, nil
}

// ServeHTTP answers one request.
func (p *Pages) ServeHTTP(w http.ResponseWriter, r *http.Request) { p.handler.ServeHTTP(w, r) }

// Beside mounts the pages beside the operations of the API: what begins with /api/, and the few paths that machines
// ask for, goes to the API, everything else to the pages.
func (p *Pages) Beside(api http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasPrefix(r.URL.Path, "/api/") || slices.Contains(machines, r.URL.Path) {
			api.ServeHTTP(w, r)
			return
		}
		p.ServeHTTP(w, r)
	})
}

var machines = []string{"/openapi.yaml", "/healthz", "/readyz", "/metrics"}

// route is one page or one form: where, who may, and what it does. No roles: anybody may.
type route struct {
	method, path string
	roles        []auth.Role
	handle       func(*Pages, *visit) error
	longest      int64 // of the body; 0 for what a form needs
}

// byPattern gathers the routes of a path by method.
func byPattern(all []route) map[string]map[string]route {
	out := map[string]map[string]route{}
	for _, r := range all {
		pattern := r.path
		if strings.HasSuffix(pattern, "/") {
			pattern += "{$}"
		}
		if out[pattern] == nil {
			out[pattern] = map[string]route{}
		}
		out[pattern][r.method] = r
	}
	return out
}

// longestForm is how long the body of a form may be.
const longestForm = 64 << 10

// visit is one request on its way: who asks, and what for. Nobody has an empty role.
type visit struct {
	http.ResponseWriter
	*http.Request
	who auth.Principal
}

func (v *visit) in() bool { return v.who.Role != "" }

// is reports whether who asks has one of the roles.
func (v *visit) is(roles ...auth.Role) bool { return slices.Contains(roles, v.who.Role) }

// Context of the request.
func (v *visit) Context() context.Context { return v.Request.Context() }

// answer finds out who asks and whether it is for them, and answers.
func (p *Pages) answer(ways map[string]route) http.HandlerFunc {
	var allowed []string
	for method := range ways {
		allowed = append(allowed, method)
		if method == http.MethodGet {
			allowed = append(allowed, http.MethodHead)
		}
	}
	slices.Sort(allowed)
	return func(w http.ResponseWriter, r *http.Request) {
		method := r.Method
		if method == http.MethodHead {
			method = http.MethodGet
		}
		way, ok := ways[method]
		if !ok {
			w.Header().Set("Allow", strings.Join(allowed, ", "))
			p.fail(w, r, &otherMethodError{allowed})
			return
		}
		who, err := p.whoAsks(r)
		if err != nil {
			p.fail(w, r, err)
			return
		}
		if who.TokenID != "" {
			noteToken(r, who.TokenID)
		}
		if len(way.roles) > 0 && !slices.Contains(way.roles, who.Role) {
			err := errNothing
			if who.Role == "" && method == http.MethodPost {
				err = errSignedOut
			}
			p.fail(w, r, err)
			return
		}
		longest := way.longest
		if longest == 0 {
			longest = longestForm
		}
		r.Body = http.MaxBytesReader(w, r.Body, longest)
		if err := way.handle(p, &visit{w, r, who}); err != nil {
			p.fail(w, r, err)
		}
	}
}
