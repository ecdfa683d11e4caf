package web_test

import (
	"context"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/server/internal/web"
)

// cookie that an answer sets.
func (a answered) cookie(t *testing.T) *http.Cookie {
	t.Helper()
	c, err := http.ParseSetCookie(a.header.Get("Set-Cookie"))
	if err != nil {
		t.Fatalf("%v in %v", err, a.header)
	}
	return c
}

// Only pressing the button signs in; what comes after is a clean address, and every sign-in has a cookie of its own.
func TestSigningInByLink(t *testing.T) {
	d := newDesk(t, "")
	v := d.visitor(t)
	token := d.token(auth.Lead)
	for range 3 { // a program that looks at links
		if got := v.get("/enter/" + token); got.status != 200 || got.header.Get("Set-Cookie") != "" || strings.Count(got.body, token) != 1 {
			t.Fatalf("opening the link is answered %d, %v", got.status, got.header)
		}
	}
	if body := v.get("/").body; strings.Contains(body, "Sign out") {
		t.Fatal("opening the link signed somebody in")
	}
	form := url.Values{"token": {token}}
	first, second := v.post("/enter", form).cookie(t), v.post("/enter", form).cookie(t)
	if first.Value == second.Value || len(first.Value) < 43 {
		t.Errorf("cookies %q and %q", first.Value, second.Value)
	}
	got := v.get("/")
	if !strings.Contains(got.body, "Signed in as lead") || strings.Contains(got.body, token) {
		t.Errorf("the first page after signing in is\n%s", got.body)
	}
	old := http.Header{"Cookie": {first.Name + "=" + first.Value}}
	if body := d.visitor(t).do("GET", "/", nil, old).body; strings.Contains(body, "Sign out") {
		t.Error("the session before still holds")
	}
	now := http.Header{"Cookie": {second.Name + "=" + second.Value}}
	if got := v.post("/leave", nil); got.status != http.StatusSeeOther {
		t.Errorf("signing out is answered %d", got.status)
	}
	if body := d.visitor(t).do("GET", "/", nil, now).body; strings.Contains(body, "Sign out") {
		t.Error("after signing out the session still holds at the server")
	}
}

// The cookie is as strict as the way to the service allows.
func TestCookies(t *testing.T) {
	for _, c := range []struct {
		public, name string
		secure       bool
	}{{"", web.LocalCookie, false}, {"https://yard.example", web.SecureCookie, true}} {
		d := newDesk(t, c.public)
		got := d.visitor(t).post("/enter", url.Values{"token": {d.token(auth.Lead)}})
		k := got.cookie(t)
		if k.Name != c.name || k.Secure != c.secure || !k.HttpOnly || k.SameSite != http.SameSiteLaxMode || k.Path != "/" || k.Domain != "" {
			t.Errorf("reached at %q the cookie is %v", c.public, k)
		}
		if hsts := got.header.Get("Strict-Transport-Security"); (hsts != "") != c.secure {
			t.Errorf("reached at %q Strict-Transport-Security is %q", c.public, hsts)
		}
	}
}

func TestAddresses(t *testing.T) {
	for _, c := range []struct {
		public, listening, base string
		signIn, secure          bool
	}{
		{"", "127.0.0.1:8080", "http://127.0.0.1:8080", true, false},
		{"", "[::1]:8080", "http://[::1]:8080", true, false},
		{"", "0.0.0.0:8080", "http://0.0.0.0:8080", false, false},
		{"", "[::]:8080", "http://[::]:8080", false, false},
		{"", "192.168.1.5:80", "http://192.168.1.5:80", false, false},
		{"https://yard.example/", "0.0.0.0:8080", "https://yard.example", true, true},
		{"http://localhost:9000", "0.0.0.0:9000", "http://localhost:9000", true, false},
	} {
		a, err := web.AddressOf(c.public, c.listening)
		if err != nil || a.Base != c.base || a.SignIn() != c.signIn || a.Secure != c.secure {
			t.Errorf("%q on %q: %+v, %v", c.public, c.listening, a, err)
		}
	}
	for _, bad := range []string{"http://yard.example", "yard.example", "https://", "https://a:b@yard.example", "https://yard.example/boats", "ftp://yard.example", "https://yard.example?x=1"} {
		if a, err := web.AddressOf(bad, "127.0.0.1:1"); err == nil {
			t.Errorf("%q is taken as %+v", bad, a)
		}
	}
}

// A session ends after half an hour without a page, after eight hours in any case, and with its token.
func TestSessionsEnd(t *testing.T) {
	d := newDesk(t, "")
	in := func(v *visitor) bool { return strings.Contains(v.get("/").body, "Sign out") }
	idle := d.in(t, auth.Lead)
	d.clock.moveOn(29 * time.Minute)
	if !in(idle) {
		t.Error("29 minutes without a page end the session")
	}
	d.clock.moveOn(29 * time.Minute)
	if !in(idle) {
		t.Error("a page did not keep the session")
	}
	d.clock.moveOn(30 * time.Minute)
	if in(idle) {
		t.Error("half an hour without a page does not end the session")
	}
	busy := d.in(t, auth.Lead)
	for range 23 {
		d.clock.moveOn(20 * time.Minute)
		if !in(busy) {
			t.Fatal("a busy session ends before its time")
		}
	}
	d.clock.moveOn(20 * time.Minute)
	if in(busy) {
		t.Error("eight hours do not end a session")
	}
	accountant, lead := d.in(t, auth.Accountant), d.in(t, auth.Lead)
	who, err := d.Who(t.Context(), d.token(auth.Accountant))
	if err != nil {
		t.Fatal(err)
	}
	if err := d.RevokeToken(t.Context(), who, who.TokenID); err != nil {
		t.Fatal(err)
	}
	if in(accountant) || !in(lead) {
		t.Error("a revoked token's session holds, or another's ended with it")
	}
}

// otherJob opens a second job and makes a token for its owner, and one that has expired.
func (d *desk) otherJob(t *testing.T) (job, owner, expired string) {
	t.Helper()
	lead, err := d.Who(t.Context(), d.token(auth.Lead))
	if err != nil {
		t.Fatal(err)
	}
	fields := d.demo.Job
	_, err = d.OpenJob(t.Context(), lead, app.Key{}, fields, func(j app.Job) (store.Answer, error) { job = j.ID; return store.Answer{}, nil })
	if err != nil {
		t.Fatal(err)
	}
	mint := func(until time.Time) string {
		made, _, _, err := d.MakeToken(t.Context(), lead, app.Key{}, app.TokenFields{Name: "other", Role: auth.Owner, Job: job, ExpiresAt: &until},
			func(app.Token) (store.Answer, error) { return store.Answer{}, nil })
		if err != nil {
			t.Fatal(err)
		}
		return made.Text
	}
	now := d.clock.now()
	return job, mint(now.Add(1000 * time.Hour)), mint(now.Add(time.Minute))
}

// Links expired, revoked, guessed, cut off, and pages of another job: the same 404, byte for byte.
func TestWhatIsNotForYouIsNotThere(t *testing.T) {
	d := newDesk(t, "")
	_, other, expired := d.otherJob(t)
	d.clock.moveOn(time.Hour)
	guessed, err := auth.NewSecret()
	if err != nil {
		t.Fatal(err)
	}
	revoked := d.token(auth.Estimator)
	who, err := d.Who(t.Context(), revoked)
	if err != nil {
		t.Fatal(err)
	}
	if err := d.RevokeToken(t.Context(), who, who.TokenID); err != nil {
		t.Fatal(err)
	}
	nobody, stranger := d.visitor(t), d.visitor(t)
	stranger.enter(other)
	answers := map[string]answered{
		"no such page":              nobody.get("/nothing"),
		"an expired link":           nobody.get("/enter/" + expired),
		"a revoked link":            nobody.get("/enter/" + revoked),
		"a guessed link":            nobody.get("/enter/" + guessed.Reveal()),
		"a link cut off":            nobody.get("/enter/" + d.token(auth.Lead)[:20]),
		"an expired button":         nobody.post("/enter", url.Values{"token": {expired}}),
		"a revoked button":          nobody.post("/enter", url.Values{"token": {revoked}}),
		"a guessed button":          nobody.post("/enter", url.Values{"token": {guessed.Reveal()}}),
		"an empty button":           nobody.post("/enter", nil),
		"the estimate, signed out":  nobody.get("/quotes/" + d.yard.Quote + "/1"),
		"another job's estimate":    stranger.get("/quotes/" + d.yard.Quote + "/1"),
		"another job's PDF":         stranger.get("/quotes/" + d.yard.Quote + "/1/estimate.pdf"),
		"another job's frames":      stranger.get("/quotes/" + d.yard.Quote + "/1/frames/" + d.yard.Options[0]),
		"another job's acceptance":  stranger.get("/quotes/" + d.yard.Quote + "/1/accept"),
		"another job's page":        stranger.get("/jobs/" + d.yard.Job),
		"accepting for another job": stranger.post("/quotes/"+d.yard.Quote+"/1/accept", url.Values{"key": {strings.Repeat("a", 32)}, "option": {d.yard.Options[0]}, "name": {"X"}}),
		"a quote that is none":      stranger.get("/quotes/none/1"),
	}
	want := answers["no such page"].body
	for what, got := range answers {
		if got.status != http.StatusNotFound || got.body != want {
			t.Errorf("%s is answered %d with\n%s", what, got.status, got.body)
		}
	}
}

// Nowhere in the log stands a token, whole or in part, or what a browser brings for one.
func TestTheLogHoldsNoToken(t *testing.T) {
	d := newDesk(t, "")
	v := d.visitor(t)
	var secrets []string
	for _, role := range auth.Roles() {
		token := d.token(role)
		secrets = append(secrets, strings.TrimPrefix(token, auth.Prefix)[:12], strings.TrimPrefix(token, auth.Prefix)[20:])
		v.get("/enter/" + token)
		v.get("/enter/" + token + "/more")
		v.get("/enter//" + token)
		v.get("/" + token)
		v.get("/jobs/" + token)
		v.get("/jobs/%72bd_" + strings.TrimPrefix(token, auth.Prefix))
		v.get("/?token=" + token)
		v.do("DELETE", "/enter/"+token, nil, nil)
		bearer := http.Header{"Authorization": {"Bearer " + d.token(auth.Lead)}}
		for _, path := range []string{"/api/v1/" + token, "/api/v1/jobs/" + token, "/api/v1/%72bd_" + strings.TrimPrefix(token, auth.Prefix),
			"/api/v1/%2572bd_" + strings.TrimPrefix(token, auth.Prefix), "/api/v1/jobs?after=" + token} {
			v.do("GET", path, nil, bearer)
		}
		v.do("DELETE", "/api/v1/tokens/"+token, nil, bearer)
		v.do("POST", "/api/v1/quotes/"+token+"/revisions", strings.NewReader("{}"), bearer)
		got := v.post("/enter", url.Values{"token": {token}})
		secrets = append(secrets, got.cookie(t).Value)
		v.get("/jobs/" + token)
		v.post("/leave", nil)
	}
	// A page that panics is logged without the token that led to it.
	d.handler.ServeHTTP(panicky{}, httpRequest(t, "/enter/"+d.token(auth.Lead)))
	log := d.log.String()
	if !strings.Contains(log, "/enter/(hidden)") || !strings.Contains(log, "signed in") || !strings.Contains(log, "/api/v1/tokens/rbd_(hidden)") {
		t.Errorf("the log tells too little:\n%s", log)
	}
	for _, s := range secrets {
		if strings.Contains(log, s) {
			t.Errorf("the log holds %s", s)
		}
	}
}

// panicky is a connection that breaks the program when it is written to.
type panicky struct{}

func (panicky) Header() http.Header       { return http.Header{} }
func (panicky) Write([]byte) (int, error) { panic("broken: rbd_" + strings.Repeat("q", 43)) }
func (panicky) WriteHeader(int)           {}

func httpRequest(t *testing.T, path string) *http.Request {
	t.Helper()
	r, err := http.NewRequestWithContext(context.Background(), http.MethodGet, path, nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}
