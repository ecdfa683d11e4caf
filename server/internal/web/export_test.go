package web

import "ribband/server/internal/auth"

// Route is one page or form, for tests that walk them all.
type Route struct {
	Method, Path string
	Roles        []auth.Role
}

// Routes lists every page and every form there is.
func Routes() []Route {
	var out []Route
	for _, r := range routes {
		out = append(out, Route{r.method, r.path, r.roles})
	}
	return out
}

// Names of the cookie.
const (
	SecureCookie = secureCookie
	LocalCookie  = localCookie
)

// Explain is what an explainer makes of texts, one after the other.
func Explain(texts ...string) []string {
	e := newExplainer()
	var out []string
	for _, t := range texts {
		out = append(out, string(e.Explain(t)))
	}
	return out
}

// Grouped sets decimal text for reading.
func Grouped(s string) string { return grouped(s) }
