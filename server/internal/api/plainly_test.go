package api_test

import (
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"ribband/server/internal/api"
)

// pagesThatSay is pages in the style of the server's own: at every address but / they say that nothing is there.
func pagesThatSay() http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.Header().Set("X-Request-Id", "number one")
		switch {
		case r.URL.Path != "/":
			w.WriteHeader(http.StatusNotFound)
		case r.Method != http.MethodGet:
			w.Header().Set("Allow", "GET, HEAD")
			w.WriteHeader(http.StatusMethodNotAllowed)
		}
		_, _ = io.WriteString(w, "<p>a page</p>")
	})
}

// What goes wrong outside the operations is a problem too, unless the caller asks for pages.
func TestFaultsArePagesOnlyForWhoAsksForPages(t *testing.T) {
	d := open(t, file(t))
	front := api.Plainly(pagesThatSay(), d.handler)
	const page = "text/html; charset=utf-8"
	const told = "application/problem+json"
	for _, c := range []struct {
		method, path, accept string
		status               int
		kind                 string
	}{
		{"GET", "/", "*/*", 200, page},
		{"GET", "/nope", "*/*", 404, told},
		{"GET", "/nope", "", 404, told},
		{"GET", "/nope", "application/json", 404, told},
		{"HEAD", "/nope", "", 404, told},
		{"GET", "/nope", "text/html,application/xhtml+xml;q=0.9,*/*;q=0.8", 404, page},
		{"GET", "/openapi.json", "*/*", 404, told},
		{"GET", "/api", "*/*", 404, told},
		{"GET", "/api", "text/html", 404, told},
		{"PUT", "/", "application/json", 405, told},
		{"PUT", "/", "text/html", 405, page},
		{"GET", "//api/v1/jobs", "*/*", 404, told},
		{"GET", "//api/v1/jobs", "text/html", 404, told},
		{"GET", "/api/../v1", "*/*", 404, told},
	} {
		request := httptest.NewRequestWithContext(t.Context(), c.method, "http://yard.example/", nil)
		request.URL.Path = c.path
		if c.accept != "" {
			request.Header.Set("Accept", c.accept)
		}
		recorder := httptest.NewRecorder()
		front.ServeHTTP(recorder, request)
		a := answer{t, recorder.Code, recorder.Result().Header, recorder.Body.Bytes()}
		if got := a.header.Get("Content-Type"); a.status != c.status || got != c.kind {
			t.Errorf("%s %s for %q: %d %s, want %d %s", c.method, c.path, c.accept, a.status, got, c.status, c.kind)
			continue
		}
		if c.kind != told || c.method == "HEAD" {
			continue
		}
		var p problem
		a.into(&p)
		if p.Status != c.status || p.Detail == "" || p.RequestID == "" || p.RequestID != a.header.Get("X-Request-Id") || strings.Contains(string(a.body), "<p>") {
			t.Errorf("%s %s for %q: %s", c.method, c.path, c.accept, a.body)
		}
		if c.status == 405 && (a.header.Get("Allow") != "GET, HEAD" || !strings.Contains(p.Detail, "GET, HEAD")) {
			t.Errorf("%s %s: Allow is %q, and %s", c.method, c.path, a.header.Get("Allow"), p.Detail)
		}
	}
}
