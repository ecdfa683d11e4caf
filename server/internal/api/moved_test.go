package api_test

import (
	"net/http"
	"strings"
	"testing"
)

// Owner and boat stand on the estimate, so a draft rests on its job too.
func TestADraftRestsOnItsJob(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		quote, revision := d.draft(d.demo.Options[0])
		var job map[string]any
		d.get(d.job()).want(200).into(&job)
		for _, own := range []string{"id", "created_at", "changed_at"} {
			delete(job, own)
		}
		job["owner"] = map[string]any{"name": "Another Owner (invented)"}
		d.send(http.MethodPut, d.job(), job, seen(`"1"`)).want(200)
		rows := d.rows()
		refused := d.send(http.MethodPost, revision+"/issue", nil, d.key()).refused(412, "basis-moved")
		if len(refused.Moved) != 1 || refused.Moved[0].Kind != "job" || refused.Moved[0].Was != 1 || refused.Moved[0].Is != 2 || !strings.Contains(refused.Detail, ": job.") {
			t.Errorf("moved %+v: %s", refused.Moved, refused.Detail)
		}
		if after := d.rows(); !equal(rows, after) {
			t.Errorf("something was stored: %v, then %v", rows, after)
		}
		d.send(http.MethodPost, quote+"/revisions", map[string]any{}, d.key()).want(200)
		d.send(http.MethodPost, revision+"/issue", nil, d.key()).want(200)
		var got struct {
			Version int `json:"job_version"`
			Job     struct{ Owner struct{ Name string } }
		}
		d.get(revision + "/snapshot").want(200).into(&got)
		if got.Version != 2 || got.Job.Owner.Name != "Another Owner (invented)" {
			t.Errorf("issued on %+v", got)
		}
	})
}

// A job changes its currency while nothing is written in it, and no longer.
func TestTheCurrencyOfAJobStays(t *testing.T) {
	d := open(t, file(t))
	euro := jobFields()
	euro["currency"] = "EUR"
	empty, spent := d.newJob(), d.newJob()
	d.send(http.MethodPut, empty, euro, seen(`"1"`)).want(200)
	d.accountant().send(http.MethodPost, spent+"/spend", invoice("1"), d.key()).want(201)
	for _, job := range []string{d.job(), spent} {
		d.send(http.MethodPut, job, euro, seen(`"1"`)).refused(409, "currency-stays")
	}
	d.send(http.MethodPut, spent, jobFields(), seen(`"1"`)).want(200)
}
