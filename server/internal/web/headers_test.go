package web_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"ribband/server/internal/auth"
	"ribband/server/internal/web"
)

// The headers of every answer, and the one policy that pages have.
var everyAnswer = map[string]string{
	"Content-Security-Policy": "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; " +
		"font-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
	"X-Content-Type-Options": "nosniff", "X-Frame-Options": "DENY",
}

func (a answered) carries(t *testing.T, what string) {
	t.Helper()
	for name, want := range everyAnswer {
		if got := a.header.Get(name); got != want {
			t.Errorf("%s: %s is %q, want %q", what, name, got, want)
		}
	}
	if policy := a.header.Get("Referrer-Policy"); policy != "same-origin" && policy != "strict-origin" {
		t.Errorf("%s: Referrer-Policy is %q", what, policy)
	}
	if a.header.Get("X-Request-Id") == "" {
		t.Errorf("%s has no X-Request-Id", what)
	}
	if store := a.header.Get("Cache-Control"); !strings.Contains(store, "no-store") && !strings.Contains(store, "immutable") {
		t.Errorf("%s: Cache-Control is %q", what, store)
	}
	if strings.Contains(a.body, " style=") || strings.Contains(a.body, "<style") || strings.Contains(a.body, "<script") || strings.Contains(a.body, " onclick=") {
		t.Errorf("%s has a style or a script of its own", what)
	}
	for _, outside := range []string{`src="http`, `href="http`, `url(http`, `src="//`, `href="//`} {
		if strings.Contains(a.body, outside) {
			t.Errorf("%s loads from elsewhere: %s", what, outside)
		}
	}
}

// at fills a route's path with what the demo has.
func (d *desk) at(path string) string {
	option := d.yard.Options[0]
	if strings.HasSuffix(path, "/renewed.svg") {
		option = d.yard.Planked[0] // only what renews planks has them drawn
	}
	return strings.NewReplacer("{job}", d.yard.Job, "{option}", option, "{quote}", d.yard.Quote, "{n}", "1", "{sheet}", d.yard.Sheet,
		"{figure...}", "frame/12/port/laminates", "{frame}", "12", "{side}", "port", "{import}", "none", "{token}", "rbd_none", "{link}", "none").Replace(path)
}

// with adds the query that a page asks for.
func (d *desk) with(path string) string {
	switch {
	case strings.HasPrefix(path, "/price-sheets") && strings.HasSuffix(path, "/compare"):
		return path + "?from=1&to=2"
	case strings.HasSuffix(path, "/compare"):
		return path + "?first=" + d.yard.Options[1] + "&second=" + d.yard.Options[0]
	case strings.HasSuffix(path, "/repriced"):
		return path + "?version=1&sheet=" + d.yard.Sheet
	case strings.HasSuffix(path, "/reconciliation.csv"):
		return path + "?revision=1&quote=" + d.yard.Quote + "&option=" + d.yard.Options[0]
	}
	return path
}

// Every page, form and fault carries the headers, whoever asks; who may not gets what is answered where nothing is.
func TestEveryAnswerAndEveryRole(t *testing.T) {
	oneByOne(t)
	d := newDesk(t, "")
	visitors := map[auth.Role]*visitor{"": d.visitor(t)}
	for _, role := range auth.Roles() {
		visitors[role] = d.in(t, role)
	}
	nothing := visitors[""].get("/no/such/page")
	if nothing.status != http.StatusNotFound {
		t.Fatalf("nothing is answered %d", nothing.status)
	}
	for _, r := range web.Routes() {
		for role, v := range visitors {
			what := string(role) + " " + r.Method + " " + r.Path
			if r.Path == "/leave" {
				continue // tested where somebody leaves
			}
			path := d.with(d.at(r.Path))
			got := v.do(r.Method, path, strings.NewReader(""), http.Header{"Content-Type": {"application/x-www-form-urlencoded"}})
			got.carries(t, what)
			may := len(r.Roles) == 0
			for _, x := range r.Roles {
				may = may || x == role
			}
			switch {
			case !may && role == "" && r.Method == http.MethodPost:
				if got.status != http.StatusForbidden || !strings.Contains(got.body, "You are signed out, and nothing was kept") {
					t.Errorf("%s is answered %d, and not that nobody is signed in", what, got.status)
				}
			case !may && (got.status != http.StatusNotFound || got.body != nothing.body):
				t.Errorf("%s is answered %d, not as if nothing were there", what, got.status)
			case may && got.status >= 500:
				t.Errorf("%s is answered %d; the log says %s", what, got.status, d.faults())
			case may && r.Method == http.MethodGet && got.status >= 400 && !strings.Contains(r.Path, "{token}") && !strings.Contains(r.Path, "{import}"):
				t.Errorf("%s is answered %d", what, got.status)
			}
		}
	}
}

// What goes wrong is told on a page, with what to do, and with the same headers.
func TestFaultsArePages(t *testing.T) {
	d := newDesk(t, "")
	lead, accountant := d.in(t, auth.Lead), d.in(t, auth.Accountant)
	long := strings.Repeat("x", 70_000)
	for _, c := range []struct {
		what   string
		got    answered
		status int
		says   string
	}{
		{"nothing", lead.get("/jobs/none"), 404, "There is nothing here"},
		{"a strange number", lead.get("/quotes/" + d.yard.Quote + "/01"), 404, "There is nothing here"},
		{"another method", lead.post("/jobs/"+d.yard.Job, nil), 405, "GET, HEAD"},
		{"a style sheet that is none", lead.get("/static/none.css"), 404, "There is nothing here"},
		{"too much", accountant.post("/jobs/"+d.yard.Job+"/spend", url.Values{"key": {long}}), 413, "64 kB"},
		{"a form without its key", accountant.post("/jobs/"+d.yard.Job+"/spend", url.Values{"key": {"1"}}), 400, "The form cannot be read"},
		{"another site", lead.do("POST", "/leave", nil, http.Header{"Sec-Fetch-Site": {"cross-site"}}), 403, "another site"},
	} {
		c.got.carries(t, c.what)
		if c.got.status != c.status || !strings.Contains(c.got.body, c.says) {
			t.Errorf("%s is answered %d and not with %q:\n%s", c.what, c.got.status, c.says, c.got.body)
		}
		if !strings.Contains(c.got.body, "<h1>") || !strings.HasPrefix(c.got.header.Get("Content-Type"), "text/html") {
			t.Errorf("%s is answered with no page", c.what)
		}
	}
	if err := d.store.Close(); err != nil {
		t.Fatal(err)
	}
	got := lead.get("/")
	got.carries(t, "a database that is gone")
	if got.status < 500 || !strings.Contains(got.body, "<h1>") || strings.Contains(got.body, "sql") {
		t.Errorf("with the database gone the answer is %d\n%s", got.status, got.body)
	}
}

// No form is taken that another site sent, by whichever mark the browser tells so.
func TestFormsOfOtherSitesAreRefused(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Lead)
	for _, r := range web.Routes() {
		if r.Method != http.MethodPost {
			continue
		}
		for _, mark := range []http.Header{{"Sec-Fetch-Site": {"cross-site"}}, {"Sec-Fetch-Site": {"same-site"}}, {"Origin": {"https://elsewhere.example"}}, {"Origin": {"null"}}} {
			got := v.do(http.MethodPost, d.at(r.Path), nil, mark)
			if got.status != http.StatusForbidden {
				t.Errorf("%s with %v is answered %d", r.Path, mark, got.status)
			}
			got.carries(t, r.Path)
		}
	}
	if v.get("/").status != http.StatusOK || !strings.Contains(v.get("/").body, "Sign out") {
		t.Error("a refused form signed the lead out")
	}
}

// originSent is the header Origin of a form that a browser which knows no Sec-Fetch-Site sends from a page of the
// service to the service, under the page's policy. Source: WHATWG, Fetch Standard, "append a request Origin header".
func (d *desk) originSent(page answered) http.Header {
	if page.header.Get("Referrer-Policy") == "no-referrer" {
		return http.Header{"Origin": {"null"}}
	}
	return http.Header{"Origin": {d.address}}
}

// Older browsers, which tell only the origin, sign in, send every form and sign out; a link's address is told to
// nobody.
func TestOlderBrowsersSendForms(t *testing.T) {
	d := newDesk(t, "")
	v := d.visitor(t)
	send := func(from, to string, form url.Values) answered {
		t.Helper()
		header := d.originSent(v.get(from))
		header.Set("Content-Type", "application/x-www-form-urlencoded")
		return v.do(http.MethodPost, to, strings.NewReader(form.Encode()), header)
	}
	link := "/enter/" + d.token(auth.Lead)
	if policy := v.get(link).header.Get("Referrer-Policy"); policy != "strict-origin" {
		t.Errorf("the page of a link has the policy %q, under which its address may be told", policy)
	}
	if got := send(link, "/enter", url.Values{"token": {d.token(auth.Lead)}}); got.status != http.StatusSeeOther {
		t.Fatalf("signing in is answered %d", got.status)
	}
	there := "/quotes/" + d.yard.Quote + "/1"
	if got := send(there+"/accept", there+"/accept/check", sends("a", "option", d.yard.Options[0], "name", "E. Quillfeather")); got.status != http.StatusOK {
		t.Errorf("a form is answered %d", got.status)
	}
	links := "/jobs/" + d.yard.Job + "/links"
	if got := send(links, links, sends("b", "name", "x", "until", "2999-01-01")); got.status != http.StatusOK {
		t.Errorf("a form that makes something is answered %d", got.status)
	}
	if got := send("/", "/leave", nil); got.status != http.StatusSeeOther {
		t.Errorf("signing out is answered %d", got.status)
	}
}
