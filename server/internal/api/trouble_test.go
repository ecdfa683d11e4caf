package api_test

import (
	"context"
	"errors"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"ribband/server/internal/api"
	"ribband/server/internal/app"
	"ribband/server/internal/heard"
	"ribband/server/internal/store"
)

// troubled is a store that does not work.
type troubled struct {
	app.Store
	err error // panics where it is nil
}

func (s troubled) fail() error {
	if s.err == nil {
		panic("a secret of the inside: /var/lib/ribband.db")
	}
	return s.err
}

func (s troubled) Ping(context.Context) error { return s.fail() }

func (s troubled) TokenByHash(context.Context, string) (store.Token, error) {
	return store.Token{}, s.fail()
}

// trouble is a desk whose store does not work.
func trouble(t *testing.T, err error) *desk {
	t.Helper()
	d := &desk{t: t, log: &heard.Text{}, clock: &clock{at: opening}, as: "rbd_" + strings.Repeat("A", 43)}
	d.app = app.New(troubled{err: err}, d.clock.now, "test")
	var made error
	if d.handler, made = api.New(d.app, slog.New(slog.NewTextHandler(d.log, nil))); made != nil {
		t.Fatal(made)
	}
	return d
}

// When the inside fails the answer is a problem that tells nothing of it; the log tells all, under the same id.
func TestTroubleInsideStaysInside(t *testing.T) {
	secret := errors.New("a secret of the inside: /var/lib/ribband.db")
	for _, c := range []struct {
		name   string
		err    error
		status int
		kind   string
		after  string
	}{
		{"panic", nil, 500, "internal", ""},
		{"unknown error", secret, 500, "internal", ""},
		{"damaged row", &store.CorruptError{Table: "tokens", ID: "x", Reason: secret.Error()}, 500, "internal", ""},
		{"no database", &store.UnavailableError{RetryAfter: 5 * time.Second, Cause: secret}, 503, "unavailable", "5"},
		{"busy database", &store.BusyError{RetryAfter: time.Second, Tries: 5, Cause: secret}, 503, "unavailable", "1"},
		{"out of time", context.DeadlineExceeded, 503, "unavailable", "5"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := trouble(t, c.err)
			for _, path := range []string{"/readyz", "/api/v1/jobs"} {
				a := d.get(path)
				p := a.refused(c.status, c.kind)
				if strings.Contains(string(a.body), "secret") || strings.Contains(string(a.body), "goroutine") {
					t.Errorf("the answer tells of the inside: %s", a.body)
				}
				if got := a.header.Get("Retry-After"); got != c.after {
					t.Errorf("Retry-After is %q, want %q", got, c.after)
				}
				if !strings.Contains(d.log.String(), p.RequestID) {
					t.Error("the log does not hold the request's id")
				}
			}
			if c.status == 500 && !strings.Contains(d.log.String(), "secret") {
				t.Errorf("the log does not tell what happened:\n%s", d.log)
			}
			d.get("/healthz").want(200)
		})
	}
}

// A body that breaks off is the sender's trouble, not the server's.
func TestABodyThatBreaksOff(t *testing.T) {
	d := open(t, file(t))
	broken := io.MultiReader(strings.NewReader(`{"owner":`), iotest.ErrReader(io.ErrUnexpectedEOF))
	request := httptest.NewRequestWithContext(t.Context(), http.MethodPost, "/api/v1/jobs", broken)
	request.Header.Set("Content-Type", "application/json")
	request.Header.Set("Authorization", "Bearer "+d.as)
	recorder := httptest.NewRecorder()
	d.handler.ServeHTTP(recorder, request)
	answer{t, recorder.Code, recorder.Result().Header, recorder.Body.Bytes()}.refused(400, "malformed-request")
}

// Who the request came from is the connection's word alone.
func TestForwardedAddressesAreNotBelieved(t *testing.T) {
	d := open(t, file(t))
	request := httptest.NewRequestWithContext(t.Context(), http.MethodGet, "/healthz", nil)
	request.Header.Set("X-Forwarded-For", "203.0.113.9")
	d.handler.ServeHTTP(httptest.NewRecorder(), request)
	if strings.Contains(d.log.String(), "203.0.113.9") {
		t.Error("the log believes X-Forwarded-For")
	}
}

// Sixteen hands change one job, each on the version it read last: none of their changes is lost.
func TestNoChangeIsLost(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		const hands, changes = 16, 4
		path := d.newJob()
		done := make(chan bool, hands)
		for range hands {
			go func() {
				defer func() { done <- true }()
				for range changes {
					for {
						read := d.get(path)
						if a := d.send(http.MethodPut, path, jobFields(), seen(read.etag())); a.status == 200 {
							break
						} else if a.status != 412 {
							t.Errorf("status %d: %s", a.status, a.body)
							return
						}
					}
				}
			}()
		}
		for range hands {
			<-done
		}
		if got, want := d.get(path).want(200).etag(), `"65"`; got != want {
			t.Errorf("after %d changes the job is version %s, want %s", hands*changes, got, want)
		}
	})
}
