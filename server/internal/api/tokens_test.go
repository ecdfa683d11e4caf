package api_test

import (
	"net/http"
	"strings"
	"testing"
	"time"
)

func TestTokensAreShownOnce(t *testing.T) {
	d := open(t, file(t))
	key, fields := d.key(), map[string]any{"name": "a new estimator", "role": "estimator"}
	first := d.send(http.MethodPost, "/api/v1/tokens", fields, key).want(201)
	var made token
	first.into(&made)
	d.with(made.Text).get("/api/v1/jobs").want(200)

	// The repeat finds the token, and nobody can show its text again.
	again := d.send(http.MethodPost, "/api/v1/tokens", fields, key).want(201)
	if m := again.object(); m["id"] != made.ID || m["text"] != nil {
		t.Errorf("the repeat answers %v", m)
	}
	list := d.get("/api/v1/tokens").want(200)
	if strings.Contains(string(list.body), made.Text) {
		t.Error("the list shows the text of a token")
	}
	var stored int
	if err := d.raw.QueryRow("SELECT COUNT(*) FROM idempotency_keys WHERE CAST(body AS TEXT) LIKE '%rbd_%'").Scan(&stored); err != nil || stored > 0 {
		t.Errorf("the text of a token is stored %d times (%v)", stored, err)
	}
}

func TestTokensAreRefusedWithEveryFault(t *testing.T) {
	d := open(t, file(t))
	for _, c := range []struct {
		name   string
		fields map[string]any
		want   []string
	}{
		{"no name, no such role", map[string]any{"name": " ", "role": "admiral"}, []string{"/name", "/role"}},
		{"owner without a job", map[string]any{"name": "x", "role": "owner"}, []string{"/job"}},
		{"owner of no job", map[string]any{"name": "x", "role": "owner", "job": nobody}, []string{"/job"}},
		{"lead with a job", map[string]any{"name": "x", "role": "lead", "job": d.demo.Job}, []string{"/job"}},
		{"expired", map[string]any{"name": "x", "role": "lead", "expires_at": "2020-01-01T00:00:00Z"}, []string{"/expires_at"}},
		{"no instant", map[string]any{"name": "x", "role": "lead", "expires_at": "tomorrow"}, []string{"/expires_at"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := d.on(t).send(http.MethodPost, "/api/v1/tokens", c.fields, d.key()).refused(422, "document-faults")
			if got := strings.Join(p.pointers(), " "); got != strings.Join(c.want, " ") {
				t.Errorf("faults at %q, want %q", got, c.want)
			}
		})
	}
}

func TestTokensExpire(t *testing.T) {
	d := open(t, file(t))
	made := d.token(map[string]any{"name": "for a day", "role": "estimator", "expires_at": "2026-11-24T08:00:00Z"})
	d.with(made.Text).get("/api/v1/jobs").want(200)
	d.clock.set(time.Date(2026, 11, 24, 8, 0, 0, 0, time.UTC))
	d.with(made.Text).get("/api/v1/jobs").refused(401, "token-missing")
}
