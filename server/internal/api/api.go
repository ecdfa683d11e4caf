package api

import (
	"context"
	"errors"
	"log/slog"
	"net/http"
	"runtime/debug"
	"sort"
	"strings"
	"time"

	"github.com/gin-gonic/gin"
	"github.com/google/uuid"

	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/takeoff/document"
)

// patience is how long one request may take before it is given up.
const patience = 30 * time.Second

// Setting is something about the service that its operations cannot know by themselves.
type Setting func(*server)

// Links says how the text of a token becomes the link that signs its holder in. Without it no answer holds a link.
func Links(of func(token string) string) Setting { return func(s *server) { s.link = of } }

// New is the service over HTTP. Everything that goes wrong is logged to log, once, with the request's id.
func New(a *app.App, log *slog.Logger, settings ...Setting) (http.Handler, error) {
	gin.SetMode(gin.ReleaseMode)
	engine := gin.New()
	engine.HandleMethodNotAllowed = true
	engine.RedirectTrailingSlash = false
	engine.ContextWithFallback = true
	if err := engine.SetTrustedProxies(nil); err != nil {
		return nil, err
	}
	s := &server{app: a, log: log}
	for _, set := range settings {
		set(s)
	}
	engine.Use(s.traced)
	engine.NoRoute(func(c *gin.Context) { s.refuse(c, nothingHere()) })
	engine.NoMethod(s.otherMethod(engine))
	for _, r := range routes {
		handle := s.route(r)
		engine.Handle(r.method, r.path, handle)
		if r.method == http.MethodGet {
			engine.Handle(http.MethodHead, r.path, handle)
		}
	}
	return engine, nil
}

type server struct {
	app *app.App
	log *slog.Logger
	// link of a token; nil where nobody can sign in by one.
	link func(token string) string
}

const requestIDKey = "request id"

// traced gives every request an id, a deadline, the headers of every answer, a line in the log, and an answer even
// when the program panics.
func (s *server) traced(c *gin.Context) {
	began := time.Now()
	id := uuid.NewString()
	c.Set(requestIDKey, id)
	for name, value := range securityHeaders {
		c.Header(name, value)
	}
	c.Header("X-Request-Id", id)
	ctx, cancel := context.WithTimeout(c.Request.Context(), patience)
	defer cancel()
	c.Request = c.Request.WithContext(ctx)
	defer func() {
		if cause := recover(); cause != nil {
			s.log.Error("panic", "request_id", id, "cause", auth.HideCause(cause), "stack", string(debug.Stack()))
			if !c.Writer.Written() {
				problemOf(errPanic).write(c.Writer, id)
			}
			c.Abort()
		}
		s.log.Info("request", "request_id", id, "method", c.Request.Method, "path", auth.Hide(c.Request.URL.Path),
			"status", c.Writer.Status(), "token", c.GetString(tokenKey), "ms", time.Since(began).Milliseconds())
	}()
	c.Next()
}

const tokenKey = "token id"

var errPanic = errors.New("panic")

// securityHeaders stand on every answer. Nothing that is answered here is a page, so nothing in it may load or run.
var securityHeaders = map[string]string{
	"X-Content-Type-Options":       "nosniff",
	"Content-Security-Policy":      "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'",
	"Referrer-Policy":              "no-referrer",
	"X-Frame-Options":              "DENY",
	"Cross-Origin-Resource-Policy": "same-origin",
	"Cache-Control":                "no-store",
}

// refuse answers with the problem that err is, and logs what nobody outside is told.
func (s *server) refuse(c *gin.Context, err error) {
	p := problemOf(err)
	id := c.GetString(requestIDKey)
	if p.Status >= 500 {
		s.log.Error("refused", "request_id", id, "status", p.Status, "error", auth.Hide(err.Error()))
	} else {
		s.log.Debug("refused", "request_id", id, "status", p.Status, "type", p.Type, "error", auth.Hide(err.Error()))
	}
	p.write(c.Writer, id)
	c.Abort()
}

// otherMethod answers 405 with what can be done, and OPTIONS with the same.
func (s *server) otherMethod(engine *gin.Engine) gin.HandlerFunc {
	return func(c *gin.Context) {
		allowed := []string{http.MethodOptions}
		for _, r := range routes {
			if fits(r.path, c.Request.URL.Path) {
				allowed = append(allowed, r.method)
				if r.method == http.MethodGet {
					allowed = append(allowed, http.MethodHead)
				}
			}
		}
		sort.Strings(allowed)
		allow := strings.Join(allowed, ", ")
		c.Header("Allow", allow)
		if c.Request.Method == http.MethodOptions {
			c.Status(http.StatusNoContent)
			c.Writer.WriteHeaderNow()
			return
		}
		s.refuse(c, methodNotAllowed.say("%s cannot be done here; %s can.", shown(c.Request.Method), allow))
	}
}

// fits reports whether a path is one of a pattern's.
func fits(pattern, path string) bool {
	a, b := strings.Split(pattern, "/"), strings.Split(path, "/")
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] && !(strings.HasPrefix(a[i], ":") && b[i] != "") {
			return false
		}
	}
	return true
}

// route is what is done for every operation before its own handler: who asks, whether the role does this, and
// whether the query holds only what is known. In this order, so that nobody learns of what is not for him.
func (s *server) route(r route) gin.HandlerFunc {
	return func(g *gin.Context) {
		c := &call{Context: g, app: s.app, link: s.link}
		if err := c.single(); err != nil {
			s.refuse(g, err)
			return
		}
		if len(r.roles) > 0 {
			if err := c.admit(r.roles); err != nil {
				s.refuse(g, err)
				return
			}
			g.Set(tokenKey, c.who.TokenID)
		}
		if err := c.known(r); err != nil {
			s.refuse(g, err)
			return
		}
		err := r.handle(c)
		if c.misfits != nil {
			var content document.Faults
			_ = errors.As(err, &content) // anything else shows once the body fits
			err = c.misfits.with(content)
		}
		if err != nil {
			s.refuse(g, err)
		}
	}
}

// onceHeaders are headers that say one thing: of two, nobody knows which is meant, and servers in between may pick
// another than this one does.
var onceHeaders = []string{"Authorization", "Idempotency-Key", "Content-Type", "Content-Encoding"}

// single refuses a header that is there twice.
func (c *call) single() error {
	for _, name := range onceHeaders {
		if n := len(c.Request.Header.Values(name)); n > 1 {
			return malformedRequest.say("The header %s is there %d times. Send it once.", name, n)
		}
	}
	return nil
}

// admit finds out who asks and whether the role does this.
func (c *call) admit(roles []auth.Role) error {
	scheme, text, _ := strings.Cut(c.GetHeader("Authorization"), " ")
	if !strings.EqualFold(scheme, "Bearer") || text == "" {
		return tokenMissing.say("Send the header Authorization with the word Bearer and a token of the yard.")
	}
	who, err := c.app.Who(c.Request.Context(), strings.TrimSpace(text))
	var refused *auth.RefusedError
	if errors.As(err, &refused) {
		return tokenMissing.say("The token is not taken: it is not known, revoked, or expired. Ask the yard's lead for another.")
	}
	if err != nil {
		return err
	}
	c.who = who
	names := make([]string, len(roles))
	for i, role := range roles {
		if role == who.Role {
			return nil
		}
		names[i] = string(role)
	}
	return roleNotAllowed.say("This is for %s; the token's role is %s.", strings.Join(names, ", "), who.Role)
}
