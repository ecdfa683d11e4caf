package api_test

import (
	"net/http"
	"strings"
	"testing"
	"time"
)

// A link of the owner's that is guessed, expired or revoked is answered alike, and so is what belongs to another job
// and what does not exist. No link is ever logged.
func TestTheOwnersPrivateLink(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		link := d.token(map[string]any{"name": "the owner", "role": "owner", "job": d.demo.Job, "expires_at": "2026-12-11T08:00:00Z"})
		revoked := d.token(map[string]any{"name": "the owner", "role": "owner", "job": d.demo.Job})
		stranger := d.ownerOfAnother()
		for _, path := range []string{d.estimate(1), d.estimate(1, "compare"), d.estimate(1, "estimate.pdf"), d.job("quotes")} {
			d.with(link.Text).get(path).want(200)
			d.with(revoked.Text).get(path).want(200)
		}
		d.send(http.MethodDelete, "/api/v1/tokens/"+revoked.ID, nil).want(204)
		d.clock.set(time.Date(2026, 12, 11, 8, 0, 0, 0, time.UTC))
		guessed := link.Text[:len(link.Text)-4] + "AAAA"
		for _, path := range []string{d.estimate(1), d.estimate(1, "compare"), d.estimate(1, "estimate.pdf"), "/api/v1/quotes/" + d.demo.Quote, d.job("quotes")} {
			want := told(d.with(guessed).get(path).want(401))
			for _, text := range []string{link.Text, revoked.Text, "rbd_", "x"} {
				if got := told(d.with(text).get(path).want(401)); got != want {
					t.Errorf("%s: a dead link is told\n%s\na guessed one\n%s", path, got, want)
				}
			}
			other := strings.ReplaceAll(strings.ReplaceAll(path, d.demo.Quote, nobody), d.demo.Job, nobody)
			if a, b := told(d.with(stranger).get(path).want(404)), told(d.with(stranger).get(other).want(404)); a != b {
				t.Errorf("%s of another job is told\n%s\none of none\n%s", path, a, b)
			}
		}
		for _, text := range []string{link.Text, revoked.Text, stranger} {
			if strings.Contains(d.log.String(), text) {
				t.Error("the log holds a link")
			}
		}
	})
}

// A link that says nothing of its end has one all the same.
func TestAnOwnersLinkExpires(t *testing.T) {
	d := open(t, file(t))
	made := d.send(http.MethodPost, "/api/v1/tokens", map[string]any{"name": "the owner", "role": "owner", "job": d.demo.Job}, d.key()).want(201)
	var got struct {
		Text      string
		ExpiresAt time.Time `json:"expires_at"`
	}
	made.into(&got)
	if want := opening.AddDate(0, 0, 90); got.ExpiresAt.Sub(want).Abs() > time.Second {
		t.Errorf("it expires at %s, want %s", got.ExpiresAt, want)
	}
	d.clock.set(got.ExpiresAt)
	d.with(got.Text).get(d.job("quotes")).refused(401, "token-missing")
}
