package web

import (
	"slices"
	"strings"

	"ribband/server/internal/auth"
)

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

// Meanings is what every word of the trade means, by its first form and what it has to stand in.
func Meanings() map[string]string {
	out := map[string]string{}
	for _, w := range words {
		out[w.forms[0]+" "+strings.Join(w.in, ", ")] = w.means
	}
	return out
}

// TradeWords finds the words of the trade in a text, as they stand.
func TradeWords(text string) []string {
	var out []string
	for _, at := range wordForms.FindAllStringIndex(text, -1) {
		if _, ok := wordAt(text, at[0], at[1]); ok {
			out = append(out, strings.ToLower(text[at[0]:at[1]]))
		}
	}
	return out
}

// SameWord reports whether two forms belong to one word, or one is explained along with the other.
func SameWord(a, b string) bool {
	for _, w := range words {
		forms := strings.ToLower("/" + strings.Join(append(slices.Clone(w.forms), w.covers...), "/") + "/")
		if strings.Contains(forms, "/"+a+"/") && strings.Contains(forms, "/"+b+"/") {
			return true
		}
	}
	return false
}
