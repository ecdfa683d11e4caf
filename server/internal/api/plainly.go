package api

import (
	"net/http"
	"path"
	"strings"
)

// Plainly sets pages in front of people only. Whoever does not ask for pages is told what goes wrong among them as a
// problem, as by every operation; and an address that no page can have, such as //api, goes to the operations.
func Plainly(pages, operations http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch at := strings.TrimSuffix(r.URL.Path, "/"); {
		case at != "" && path.Clean(at) != at, at == "/api":
			operations.ServeHTTP(w, r)
		case asksForPages(r):
			pages.ServeHTTP(w, r)
		default:
			pages.ServeHTTP(&plain{ResponseWriter: w, request: r}, r)
		}
	})
}

// asksForPages reports whether the caller names pages among what it takes, as browsers do.
func asksForPages(r *http.Request) bool {
	for _, one := range strings.Split(strings.Join(r.Header.Values("Accept"), ","), ",") {
		kind, _, _ := strings.Cut(one, ";")
		if kind = strings.TrimSpace(kind); strings.EqualFold(kind, "text/html") || strings.EqualFold(kind, "application/xhtml+xml") {
			return true
		}
	}
	return false
}

// plain writes problems in the place of pages that say what is wrong.
type plain struct {
	http.ResponseWriter
	request *http.Request
	instead bool // of a page, which is not written
}

// WriteHeader writes the head, or a problem with the same status.
func (w *plain) WriteHeader(status int) {
	if status < http.StatusBadRequest || !strings.HasPrefix(w.Header().Get("Content-Type"), "text/html") {
		w.ResponseWriter.WriteHeader(status)
		return
	}
	w.instead = true
	pageProblem(status, w.request.Method, w.Header().Get("Allow")).write(w.ResponseWriter, w.Header().Get("X-Request-Id"))
}

// Write writes what belongs to the answer.
func (w *plain) Write(b []byte) (int, error) {
	if w.instead {
		return len(b), nil
	}
	return w.ResponseWriter.Write(b)
}

// Unwrap is the writer underneath.
func (w *plain) Unwrap() http.ResponseWriter { return w.ResponseWriter }

// pageProblem is what a page with a status says is wrong.
func pageProblem(status int, method, allow string) *problem {
	switch status {
	case http.StatusNotFound:
		return nothingHere()
	case http.StatusMethodNotAllowed:
		return methodNotAllowed.say("%s cannot be done here; %s can.", shown(method), allow)
	}
	const words = "This is a page for people: ask for text/html in Accept to read what is wrong."
	for _, c := range classes {
		if c.status == status {
			return c.say(words)
		}
	}
	if status < http.StatusInternalServerError {
		return malformedRequest.as(status).say(words)
	}
	return internal.as(status).say(words)
}
