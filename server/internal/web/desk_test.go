package web_test

import (
	"context"
	"io"
	"log/slog"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"ribband/server/internal/api"
	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/server/internal/heard"
	"ribband/server/internal/store"
	"ribband/server/internal/storetest"
	"ribband/server/internal/web"
)

// desk is the whole service with the invented yard, as people reach it.
type desk struct {
	*app.App
	yard    app.DemoYard
	demo    app.Demo
	store   *store.Store
	log     *heard.Text
	clock   *clock
	address string
	handler http.Handler
}

// clock is the system's, moved on by hand.
type clock struct{ on atomic.Int64 }

func (c *clock) now() time.Time          { return time.Now().Add(time.Duration(c.on.Load())) }
func (c *clock) moveOn(by time.Duration) { c.on.Add(int64(by)) }

// demos are databases with the demo's yard in them. Its first quote takes most of the time of a test.
var demos storetest.Copies

// newDesk opens the service on a database of its own, reached at public or, where that is empty, at its own port.
func newDesk(t testing.TB, public string) *desk {
	t.Helper()
	d := &desk{log: &heard.Text{}, clock: &clock{}}
	place := storetest.SQLite(t)
	demos.Into(t, place, func(p storetest.Place) { d.openAt(t, p) })
	d.openAt(t, place)
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	address, err := web.AddressOf(public, listener.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	log := slog.New(slog.NewTextHandler(d.log, &slog.HandlerOptions{Level: slog.LevelDebug}))
	operations, err := api.New(d.App, log, api.Links(address.EnterLink))
	if err != nil {
		t.Fatal(err)
	}
	pages, err := web.New(d.App, d.store, address, d.clock.now, log)
	if err != nil {
		t.Fatal(err)
	}
	d.handler = pages.Beside(operations)
	server := &httptest.Server{Listener: listener, Config: &http.Server{Handler: d.handler, ReadHeaderTimeout: time.Minute}}
	server.Start()
	t.Cleanup(server.Close)
	d.address = server.URL
	return d
}

// openAt opens the database there, with the demo's yard made or found in it.
func (d *desk) openAt(t testing.TB, p storetest.Place) {
	t.Helper()
	d.store = p.Open(t, store.WithClock(d.clock.now))
	d.App = app.New(d.store, d.clock.now, "test")
	var err error
	if d.demo, err = app.LoadDemo(); err != nil {
		t.Fatal(err)
	}
	if d.yard, err = d.SetUpDemo(t.Context(), d.demo); err != nil {
		t.Fatal(err)
	}
}

// faults are the lines of the log that say what went wrong.
func (d *desk) faults() string {
	var out []string
	for line := range strings.Lines(d.log.String()) {
		if strings.Contains(line, "level=ERROR") {
			out = append(out, line)
		}
	}
	return strings.Join(out, "")
}

// token of a role in full.
func (d *desk) token(role auth.Role) string { return d.yard.Tokens[role].Reveal() }

// visitor is a browser without a screen: it keeps cookies, and follows nothing.
type visitor struct {
	t    testing.TB
	desk *desk
	http.Client
}

func (d *desk) visitor(t testing.TB) *visitor {
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	return &visitor{t, d, http.Client{Jar: jar, CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}}
}

// in is a visitor who has signed in with the link of a role.
func (d *desk) in(t testing.TB, role auth.Role) *visitor {
	t.Helper()
	v := d.visitor(t)
	v.enter(d.token(role))
	return v
}

func (v *visitor) enter(token string) {
	v.t.Helper()
	got := v.post("/enter", url.Values{"token": {token}})
	if got.status != http.StatusSeeOther || got.header.Get("Location") != "/" {
		v.t.Fatalf("signing in: %d to %q", got.status, got.header.Get("Location"))
	}
}

// answered is an answer, read.
type answered struct {
	status int
	header http.Header
	body   string
}

func (v *visitor) get(path string) answered { return v.do(http.MethodGet, path, nil, nil) }

func (v *visitor) post(path string, form url.Values) answered {
	return v.do(http.MethodPost, path, strings.NewReader(form.Encode()), http.Header{"Content-Type": {"application/x-www-form-urlencoded"}})
}

// sends is a form with its key.
func sends(key string, fields ...string) url.Values {
	out := url.Values{"key": {strings.Repeat(key, 32)}}
	for i := 0; i < len(fields); i += 2 {
		out.Set(fields[i], fields[i+1])
	}
	return out
}

func (v *visitor) do(method, path string, body io.Reader, header http.Header) answered {
	v.t.Helper()
	r, err := http.NewRequestWithContext(context.Background(), method, v.desk.address+path, body)
	if err != nil {
		v.t.Fatal(err)
	}
	for name, values := range header {
		r.Header[name] = values
	}
	response, err := v.Do(r)
	if err != nil {
		v.t.Fatal(err)
	}
	defer response.Body.Close()
	b, err := io.ReadAll(response.Body)
	if err != nil {
		v.t.Fatal(err)
	}
	return answered{response.StatusCode, response.Header, string(b)}
}

// accept accepts an option of the demo's estimate in the owner's name, by its place.
func (d *desk) accept(t testing.TB, option int) {
	t.Helper()
	who, err := d.Who(t.Context(), d.token(auth.Owner))
	if err != nil {
		t.Fatal(err)
	}
	_, err = d.Accept(t.Context(), who, d.yard.Quote, 1, app.Key{}, app.AcceptFields{Option: d.yard.Options[option], Name: "E. Quillfeather"},
		func(app.Quote) (store.Answer, error) { return store.Answer{}, nil })
	if err != nil {
		t.Fatal(err)
	}
}

// total is the price of an option of the demo's estimate as pages write it, by its place.
func (d *desk) total(t testing.TB, option int) string {
	t.Helper()
	who, err := d.Who(t.Context(), d.token(auth.Owner))
	if err != nil {
		t.Fatal(err)
	}
	r, err := d.OwnerRevision(t.Context(), who, d.yard.Quote, 1)
	if err != nil {
		t.Fatal(err)
	}
	return grouped(r.Estimate.Options[option].Total.String())
}

// thirdOption adds an option that leaves every frame, and issues a second revision over all three.
func (d *desk) thirdOption(t testing.TB) (option string) {
	t.Helper()
	lead, err := d.Who(t.Context(), d.token(auth.Lead))
	if err != nil {
		t.Fatal(err)
	}
	fields := app.OptionFields{Name: "One pair", Scope: []string{"One pair of frames is replaced."}, Undone: []string{"All others stay."}}
	_, err = d.MakeOption(t.Context(), lead, d.yard.Job, app.Key{}, fields, func(o app.Option) (store.Answer, error) { option = o.ID; return store.Answer{}, nil })
	if err != nil {
		t.Fatal(err)
	}
	remedies := d.demo.Options[0].Remedies
	remedies.Remedies = slices.Clone(remedies.Remedies)
	remedies.Remedies[0].ThroughNo = 0
	if _, err := d.PutRemedies(t.Context(), lead, d.yard.Job, option, remedies, store.Absent); err != nil {
		t.Fatal(err)
	}
	all := app.RevisionFields{Options: append(slices.Clone(d.yard.Options), option)}
	_, err = d.Revise(t.Context(), lead, d.yard.Quote, app.Key{}, all, func(app.Revision, bool) (store.Answer, error) { return store.Answer{}, nil })
	if err != nil {
		t.Fatal(err)
	}
	_, err = d.Issue(t.Context(), lead, d.yard.Quote, 2, app.Key{}, func(app.Revision) (store.Answer, error) { return store.Answer{}, nil })
	if err != nil {
		t.Fatal(err)
	}
	return option
}

// today is a day on which something may have been spent.
func today() string { return time.Now().UTC().Format(time.DateOnly) }

// spendTable writes a table of spend with a good row of each kind and rows with faults, and tells where.
func spendTable(t testing.TB) string {
	t.Helper()
	rows := []string{
		"date,kind,supplier,document,line,item,description,quantity,unit,amount,currency,tax,step,author",
		today() + ",hours,A. Plover (invented),week 41,1,shipwright,,31,HUR,1503.50,USD,,take_pattern,",
		today() + ",hours,B. Dunlin (invented),week 41,1,yard_hand,,70,HUR,2310.00,USD,,old_frame_out,",
		today() + ",invoice,Gluemakers (invented),G-77,1,epoxy_structural,,10,LTR,512.00,USD,30.72,laminate,",
		today() + ",invoice,Sundries (invented),S-9,1,brushes,for the glue,,,18.40,USD,1.10,,",
		today() + ",invoice,Sundries (invented),S-10,1,brushes,,,,18.40,EUR,1.10,,",
		"1999-01-01,invoice,Sundries (invented),S-11,1,brushes,,,,1.00,USD,,,",
	}
	path := filepath.Join(t.TempDir(), "spend.csv")
	if err := os.WriteFile(path, []byte(strings.Join(rows, "\n")+"\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}
