package web

import (
	"context"
	"errors"
	"net/http"
	"runtime/debug"
	"strings"
	"time"

	"github.com/google/uuid"

	"ribband/server/internal/auth"
)

// patience is how long one request may take before it is given up.
const patience = 30 * time.Second

// headers stand on every answer, faults included. A page loads nothing but its own style sheet and drawings, runs
// nothing, and stands in no frame.
var headers = map[string]string{
	"Content-Security-Policy": "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; " +
		"font-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
	"X-Content-Type-Options":       "nosniff",
	"Referrer-Policy":              referrer,
	"X-Frame-Options":              "DENY",
	"Cross-Origin-Resource-Policy": "same-origin",
	"Cross-Origin-Opener-Policy":   "same-origin",
	"Permissions-Policy":           "camera=(), microphone=(), geolocation=()",
	"Cache-Control":                "no-store",
}

// What browsers say of the page that somebody comes from. Nothing is said to other sites. Under no-referrer a browser
// that knows no Sec-Fetch-Site would send forms with the origin null, which cannot be told from another site's; and of
// a page whose address holds a token no more is said than the site, so that no token stands in the log of a server in
// front of this one.
const (
	referrer      = "same-origin"
	enterReferrer = "strict-origin"
)

// strictTransport tells browsers to come by https only, for a year.
const strictTransport = "max-age=31536000"

// trace is what the log says of a request.
type trace struct {
	id, token string
	status    int
	wrote     bool
}

type traceKey struct{}

func traceOf(ctx context.Context) *trace {
	t, ok := ctx.Value(traceKey{}).(*trace)
	if !ok {
		return &trace{}
	}
	return t
}

// noteToken tells the log whose token asks: its id, which opens nothing.
func noteToken(r *http.Request, id string) { traceOf(r.Context()).token = id }

// watched notes what was answered.
type watched struct {
	http.ResponseWriter
	trace *trace
}

// WriteHeader notes the status.
func (w watched) WriteHeader(status int) {
	if !w.trace.wrote {
		w.trace.status, w.trace.wrote = status, true
	}
	w.ResponseWriter.WriteHeader(status)
}

// Write writes, with 200 where nothing else was said.
func (w watched) Write(b []byte) (int, error) {
	if !w.trace.wrote {
		w.WriteHeader(http.StatusOK)
	}
	return w.ResponseWriter.Write(b)
}

// Unwrap is the writer underneath.
func (w watched) Unwrap() http.ResponseWriter { return w.ResponseWriter }

var errPanic = errors.New("panic")

// traced gives every request an id, a deadline, the headers of every answer, a line in the log, and an answer even
// when the program panics.
func (p *Pages) traced(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		began := time.Now()
		t := &trace{id: uuid.NewString()}
		ctx, cancel := context.WithTimeout(context.WithValue(r.Context(), traceKey{}, t), patience)
		defer cancel()
		r = r.WithContext(ctx)
		for name, value := range headers {
			w.Header().Set(name, value)
		}
		if strings.HasPrefix(r.URL.Path, enterPath) {
			w.Header().Set("Referrer-Policy", enterReferrer)
		}
		if p.address.Secure {
			w.Header().Set("Strict-Transport-Security", strictTransport)
		}
		w.Header().Set("X-Request-Id", t.id)
		seen := watched{w, t}
		defer func() {
			if cause := recover(); cause != nil {
				p.log.Error("panic", "request_id", t.id, "cause", auth.HideCause(cause), "stack", string(debug.Stack()))
				if !t.wrote {
					p.fail(seen, r, errPanic)
				}
			}
			p.log.Info("page", "request_id", t.id, "method", r.Method, "path", hidden(r.URL.Path), "status", t.status,
				"token", t.token, "ms", time.Since(began).Milliseconds())
		}()
		next.ServeHTTP(seen, r)
	})
}

// hidden is a path as the log may hold it: without what comes after /enter/, and without anything like a token.
func hidden(path string) string {
	if len(path) > len(enterPath) && strings.HasPrefix(path, enterPath) {
		return enterPath + "(hidden)"
	}
	return auth.Hide(path)
}
