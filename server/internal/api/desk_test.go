package api_test

import (
	"bytes"
	"database/sql"
	"encoding/json"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"ribband/server/internal/api"
	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/server/internal/heard"
	"ribband/server/internal/store"
	"ribband/server/internal/storetest"
)

// desk is the demo's service on a database of its own, and somebody at it who sends requests. Every request and
// every answer goes through the contract.
type desk struct {
	t       testing.TB
	handler http.Handler
	app     *app.App
	store   *store.Store
	raw     *sql.DB
	log     *heard.Text
	clock   *clock
	demo    app.DemoYard
	as      string // text of the token that is sent
}

// clock stands where it is put. Reads of it push it on by a microsecond, so that what comes later is later.
type clock struct {
	mu sync.Mutex
	at time.Time
}

func (c *clock) now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.at = c.at.Add(time.Microsecond)
	return c.at
}

func (c *clock) set(at time.Time) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.at = at
}

// opening is the day on which the tests' yard opens: after the last entry of the demo's spend.
var opening = time.Date(2026, 11, 23, 8, 0, 0, 0, time.UTC)

// demos are databases with the demo's yard in them. Its first quote takes most of the time of a test.
var demos storetest.Copies

// open is a desk on the demo's yard at a place.
func open(t testing.TB, p place) *desk {
	t.Helper()
	demos.Into(t, p, func(p place) { bare(t, p).setUp() })
	d := bare(t, p)
	d.clock.set(opening.Add(time.Second / 2)) // after everything that stands there
	d.setUp()
	return d
}

// setUp makes the demo, or finds it again, and goes on as its lead.
func (d *desk) setUp() {
	d.t.Helper()
	demo, err := app.LoadDemo()
	if err != nil {
		d.t.Fatal(err)
	}
	if d.demo, err = d.app.SetUpDemo(d.t.Context(), demo); err != nil {
		d.t.Fatal(err)
	}
	d.as = d.demo.Tokens[auth.Lead].Reveal()
}

// bare is a desk on an empty database.
func bare(t testing.TB, p place) *desk {
	t.Helper()
	d := &desk{t: t, log: &heard.Text{}, clock: &clock{at: opening}}
	d.store, d.raw = p.Open(t, store.WithClock(d.clock.now)), p.Raw(t)
	d.app = app.New(d.store, d.clock.now, "test")
	var err error
	if d.handler, err = api.New(d.app, slog.New(slog.NewTextHandler(d.log, nil))); err != nil {
		t.Fatal(err)
	}
	return d
}

// on is the same desk for another test of the same yard.
func (d *desk) on(t testing.TB) *desk {
	other := *d
	other.t = t
	return &other
}

// with is the same desk under another token.
func (d *desk) with(token string) *desk {
	other := *d
	other.as = token
	return &other
}

// role is the same desk as another of the demo's roles.
func (d *desk) role(r auth.Role) *desk { return d.with(d.demo.Tokens[r].Reveal()) }

// header is a header of a request.
type header struct{ name, value string }

// keysGiven counts the keys of all desks: one that is copied goes on with fresh ones.
var keysGiven atomic.Int64

// key is an Idempotency-Key that was not used before.
func (d *desk) key() header {
	return header{"Idempotency-Key", fmt.Sprintf("key %d of %s", keysGiven.Add(1), d.t.Name())}
}

var (
	firstPut = header{"If-None-Match", "*"}
	asCSV    = header{"Content-Type", "text/csv"}
	wantCSV  = header{"Accept", "text/csv"}
)

func seen(etag string) header { return header{"If-Match", etag} }

// answer is what came back.
type answer struct {
	t      testing.TB
	status int
	header http.Header
	body   []byte
}

// send sends one request and holds it and its answer to the contract. body is sent as it is when it is text or
// bytes, as JSON when it is anything else; nil sends none.
func (d *desk) send(method, path string, body any, headers ...header) answer {
	d.t.Helper()
	raw := bytesOf(d.t, body)
	request := httptest.NewRequestWithContext(d.t.Context(), method, path, bytes.NewReader(raw))
	if body != nil {
		request.Header.Set("Content-Type", "application/json")
	}
	if d.as != "" {
		request.Header.Set("Authorization", "Bearer "+d.as)
	}
	for _, h := range headers {
		if h.value == "" {
			request.Header.Del(h.name)
		} else {
			request.Header.Set(h.name, h.value)
		}
	}
	recorder := httptest.NewRecorder()
	d.handler.ServeHTTP(recorder, request)
	a := answer{d.t, recorder.Code, recorder.Result().Header, recorder.Body.Bytes()}
	hold(d.t, request, raw, a)
	return a
}

func bytesOf(t testing.TB, body any) []byte {
	t.Helper()
	switch b := body.(type) {
	case nil:
		return nil
	case string:
		return []byte(b)
	case []byte:
		return b
	case io.Reader:
		raw, err := io.ReadAll(b)
		if err != nil {
			t.Fatal(err)
		}
		return raw
	}
	raw, err := json.Marshal(body)
	if err != nil {
		t.Fatal(err)
	}
	return raw
}

func (d *desk) get(path string, headers ...header) answer {
	d.t.Helper()
	return d.send(http.MethodGet, path, nil, headers...)
}

// want ends the test when the status is another.
func (a answer) want(status int) answer {
	a.t.Helper()
	if a.status != status {
		a.t.Fatalf("status %d, want %d: %.2000s", a.status, status, a.body)
	}
	return a
}

// into reads the body.
func (a answer) into(v any) {
	a.t.Helper()
	if err := json.Unmarshal(a.body, v); err != nil {
		a.t.Fatalf("%v: %.500s", err, a.body)
	}
}

// object is the body as it comes.
func (a answer) object() map[string]any {
	a.t.Helper()
	var out map[string]any
	a.into(&out)
	return out
}

func (a answer) etag() string { return a.header.Get("ETag") }

// problem is an error as it is told.
type problem struct {
	Type           string `json:"type"`
	Status         int    `json:"status"`
	Detail         string `json:"detail"`
	RequestID      string `json:"request_id"`
	CurrentVersion *int64 `json:"current_version"`
	Errors         []struct {
		Pointer, Parameter, Detail, Fix, Code, Figure string
		Row, Column                                   int
	} `json:"errors"`
	Moved []struct {
		Kind    string
		Was, Is int64
	} `json:"moved"`
}

// refused checks the status and the kind of a problem and returns it.
func (a answer) refused(status int, kind string) problem {
	a.t.Helper()
	a.want(status)
	var p problem
	a.into(&p)
	if p.Type != "urn:ribband:problem:"+kind || p.Status != status {
		a.t.Fatalf("problem %s (%d), want %s (%d): %s", p.Type, p.Status, kind, status, p.Detail)
	}
	return p
}

// pointers lists where the problem's errors are.
func (p problem) pointers() []string {
	var out []string
	for _, e := range p.Errors {
		out = append(out, e.Pointer)
	}
	return out
}

// job, option and the rest are addresses in the demo's yard.
func (d *desk) job(rest ...string) string {
	return "/api/v1/jobs/" + strings.Join(append([]string{d.demo.Job}, rest...), "/")
}

func (d *desk) option(i int, rest ...string) string {
	return d.job(append([]string{"options", d.demo.Options[i]}, rest...)...)
}

func (d *desk) sheet(rest ...string) string {
	return "/api/v1/price-sheets/" + strings.Join(append([]string{d.demo.Sheet}, rest...), "/")
}
