package api_test

import (
	"bytes"
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"ribband/server/internal/auth"
)

type decision struct {
	Revision   int
	Option     string
	OptionName string `json:"option_name"`
	Name       string
	Reason     string
	Date       string
	EnteredBy  string `json:"entered_by"`
}

type decidedQuote struct {
	Revisions []struct {
		N      int
		Status string
	}
	Acceptance *decision
}

// estimate is the address of a revision of the demo's quote.
func (d *desk) estimate(n int, rest ...string) string {
	path := fmt.Sprintf("/api/v1/quotes/%s/revisions/%d", d.demo.Quote, n)
	return strings.Join(append([]string{path}, rest...), "/")
}

// acceptance is what accepts an option.
func acceptance(option string) map[string]any {
	return map[string]any{"option": option, "name": "E. Quillfeather"}
}

// revise issues the next revision of the demo's quote.
func (d *desk) revise() {
	d.t.Helper()
	path := d.send(http.MethodPost, "/api/v1/quotes/"+d.demo.Quote+"/revisions", map[string]any{}, d.key()).want(201).header.Get("Location")
	d.send(http.MethodPost, path+"/issue", nil, d.key()).want(200)
}

// events counts what was decided on the yard's quotes.
func (d *desk) events(kind string) (n int) {
	d.t.Helper()
	if err := d.raw.QueryRow("SELECT COUNT(*) FROM quote_events WHERE kind = '" + kind + "'").Scan(&n); err != nil {
		d.t.Fatal(err)
	}
	return n
}

func TestAnOwnerAcceptsOnce(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		owner := d.role(auth.Owner)
		d.clock.set(time.Date(2026, 12, 20, 23, 30, 0, 0, time.FixedZone("behind", -5*3600))) // the 21st in UTC
		key := d.key()
		first := owner.send(http.MethodPost, d.estimate(1, "accept"), acceptance(d.demo.Options[0]), key).want(200)
		var got decidedQuote
		first.into(&got)
		want := decision{Revision: 1, Option: d.demo.Options[0], OptionName: "The ten worst pairs", Name: "E. Quillfeather", Date: "2026-12-21", EnteredBy: "owner"}
		if got.Acceptance == nil || *got.Acceptance != want || got.Revisions[0].Status != "accepted" {
			t.Errorf("accepted as %+v %+v", got, got.Acceptance)
		}
		if again := owner.send(http.MethodPost, d.estimate(1, "accept"), acceptance(d.demo.Options[0]), key).want(200); !bytes.Equal(first.body, again.body) {
			t.Error("the repeat is answered with other bytes")
		}
		// What was accepted stays, for both sides, also when its last day is long past.
		d.clock.set(time.Date(2027, 2, 20, 12, 0, 0, 0, time.UTC))
		for _, as := range []*desk{d, owner} {
			var r struct {
				Status   string
				Decision decision
			}
			as.get(d.estimate(1)).want(200).into(&r)
			var q decidedQuote
			as.get("/api/v1/quotes/" + d.demo.Quote).want(200).into(&q)
			if r.Status != "accepted" || r.Decision != want || q.Acceptance == nil || *q.Acceptance != want {
				t.Errorf("it reads as %+v and %+v", r, q)
			}
		}

		before := d.rows()
		for _, as := range []*desk{d, owner, d.role(auth.Estimator)} {
			for _, option := range d.demo.Options {
				as.send(http.MethodPost, d.estimate(1, "accept"), acceptance(option), d.key()).refused(409, "already-accepted")
			}
			as.send(http.MethodPost, d.estimate(1, "decline"), map[string]any{"name": "E. Quillfeather"}, d.key()).refused(409, "already-accepted")
		}
		if after := d.rows(); !equal(before, after) {
			t.Errorf("a refusal stored something: %v, then %v", before, after)
		}
		// No further revision of it is issued, so none can be accepted in its place.
		path := d.send(http.MethodPost, "/api/v1/quotes/"+d.demo.Quote+"/revisions", map[string]any{}, d.key()).want(201).header.Get("Location")
		d.send(http.MethodPost, path+"/issue", nil, d.key()).refused(409, "already-accepted")
		d.send(http.MethodPost, path+"/accept", acceptance(d.demo.Options[1]), d.key()).refused(409, "not-open")
		if n := d.events("accepted"); n != 1 {
			t.Errorf("%d acceptances are kept", n)
		}
	})
}

func TestTheYardAcceptsOnBehalf(t *testing.T) {
	d := open(t, file(t))
	var got decidedQuote
	d.role(auth.Estimator).send(http.MethodPost, d.estimate(1, "accept"), acceptance(d.demo.Options[1]), d.key()).want(200).into(&got)
	if got.Acceptance.EnteredBy != "estimator" || got.Acceptance.Name != "E. Quillfeather" {
		t.Errorf("accepted as %+v", got.Acceptance)
	}
	var token, name string
	if err := d.raw.QueryRow("SELECT token_id, name FROM quote_events WHERE kind = 'accepted'").Scan(&token, &name); err != nil || token == "" || name != "E. Quillfeather" {
		t.Errorf("kept with token %q and name %q (%v)", token, name, err)
	}
}

func TestEveryFaultOfADecisionIsTold(t *testing.T) {
	d := open(t, file(t))
	p := d.send(http.MethodPost, d.estimate(1, "accept"), map[string]any{"option": nobody, "name": " "}, d.key()).refused(422, "document-faults")
	if got := strings.Join(p.pointers(), " "); got != "/name /option" {
		t.Errorf("faults at %s", got)
	}
	p = d.send(http.MethodPost, d.estimate(1, "decline"), map[string]any{"name": strings.Repeat("n", 201), "reason": strings.Repeat("r", 2001)}, d.key()).refused(422, "document-faults")
	if got := strings.Join(p.pointers(), " "); got != "/name /reason" {
		t.Errorf("faults at %s", got)
	}
	if n := d.events("accepted") + d.events("declined"); n != 0 {
		t.Errorf("%d decisions were kept", n)
	}
}

// Only the newest issued revision is open, until its last day and until something was decided on it.
func TestOnlyAnOpenRevisionIsDecidedOn(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		_, draft := d.draft(d.demo.Options[0])
		said := func(path, what string) {
			t.Helper()
			p := d.send(http.MethodPost, path+"/accept", acceptance(d.demo.Options[0]), d.key()).refused(409, "not-open")
			if !strings.Contains(p.Detail, what) {
				t.Errorf("the answer is %q, want something of %q", p.Detail, what)
			}
		}
		said(draft, "draft")
		d.role(auth.Owner).send(http.MethodPost, draft+"/accept", acceptance(d.demo.Options[0]), d.key()).refused(404, "not-found")

		d.clock.set(time.Date(2026, 12, 24, 0, 0, 1, 0, time.UTC))
		said(d.estimate(1), "held until 2026-12-23")
		d.revise()
		said(d.estimate(1), "Revision 2")
		d.send(http.MethodPost, d.estimate(2, "decline"), map[string]any{"name": "E. Quillfeather", "reason": "Not this year."}, d.key()).want(200)
		said(d.estimate(2), "declined")
		d.send(http.MethodPost, d.estimate(2, "decline"), map[string]any{"name": "E. Quillfeather"}, d.key()).refused(409, "not-open")
		d.revise()
		d.clock.set(time.Date(2027, 1, 23, 23, 59, 0, 0, time.UTC)) // the last day
		var got decidedQuote
		d.send(http.MethodPost, d.estimate(3, "accept"), acceptance(d.demo.Options[0]), d.key()).want(200).into(&got)
		var statuses []string
		for _, r := range got.Revisions {
			statuses = append(statuses, r.Status)
		}
		if s := strings.Join(statuses, " "); s != "superseded declined accepted" {
			t.Errorf("the revisions are %s", s)
		}
	})
}

// Sixteen hands accept at once, half of them the one option and half the other: one wins.
func TestManyHandsAcceptOnce(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		owner := d.role(auth.Owner)
		const hands = 16
		results := make(chan answer, hands)
		for i := range hands {
			go func() {
				results <- owner.send(http.MethodPost, d.estimate(1, "accept"), acceptance(d.demo.Options[i%2]), header{"Idempotency-Key", fmt.Sprintf("hand %d", i)})
			}()
		}
		accepted := 0
		for range hands {
			if a := <-results; a.status == 200 {
				accepted++
			} else {
				a.refused(409, "already-accepted")
			}
		}
		if n := d.events("accepted"); accepted != 1 || n != 1 {
			t.Errorf("%d hands accepted it, %d acceptances are kept", accepted, n)
		}
	})
}
