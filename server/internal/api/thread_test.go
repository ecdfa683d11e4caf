package api_test

import (
	"bytes"
	"net/http"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"ribband/seed"
	"ribband/server/internal/auth"
	"ribband/server/internal/storetest"
)

// The whole thread over HTTP: a table of offsets goes in, a priced estimate comes out, and its total is the same to
// the cent in JSON, in the database and on paper.
func TestFromOffsetsToTheEstimate(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		fields := jobFields()
		fields["notation"] = "feet_inches_eighths"
		job := d.send(http.MethodPost, "/api/v1/jobs", fields, d.key()).want(201).header.Get("Location")
		d.send(http.MethodPut, job+"/hull"+asWritten, seed.OffsetsCSV(), asCSV, firstPut).want(201)
		d.send(http.MethodPut, job+"/frames", d.document(d.job("frames")), firstPut).want(201)
		var options []string
		for i, name := range []string{"The ten worst pairs", "All frames"} {
			option := d.send(http.MethodPost, job+"/options", map[string]any{"name": name, "scope": []string{name + " are replaced."}}, d.key()).want(201).header.Get("Location")
			d.send(http.MethodPut, option+"/remedies", d.document(d.option(i, "remedies")), firstPut).want(201)
			var got takeoffAnswer
			d.get(option + "/takeoff?figures=true").want(200).into(&got)
			if len(got.Lines) == 0 || len(got.Faults) > 0 {
				t.Fatalf("%s: %d lines, faults %+v", name, len(got.Lines), got.Faults)
			}
			options = append(options, id(option))
		}
		sheet := d.sheetOf(seed.PricesCSV(2))
		quote := d.quoteFields(options...)
		quote["sheet"], quote["version"] = id(sheet), 1
		made := d.send(http.MethodPost, job+"/quotes", quote, d.key()).want(201)
		revision := made.header.Get("Location") + "/revisions/1"

		onPaper(t, d.get(revision+"/estimate.pdf").want(200).body, func(t *testing.T, draft string) {
			if pages := strings.Count(draft, "\f"); pages == 0 || strings.Count(draft, "Draft, not an offer") < pages {
				t.Errorf("a page of %d does not say that it is a draft", pages)
			}
		})
		var issued revisionAnswer
		d.send(http.MethodPost, revision+"/issue", nil, d.key()).want(200).into(&issued)

		owner := d.token(map[string]any{"name": "the owner", "role": "owner", "job": id(job)}).Text
		var seen struct {
			Estimate struct {
				Options []struct {
					ID    string
					Total struct{ Amount string }
				}
			}
		}
		d.with(owner).get(revision).want(200).into(&seen)
		file := d.with(owner).get(revision + "/estimate.pdf").want(200)
		if again := d.get(revision + "/estimate.pdf").want(200); !bytes.Equal(file.body, again.body) {
			t.Error("the estimate has other bytes the second time")
		}
		onPaper(t, file.body, func(t *testing.T, text string) {
			if !strings.Contains(text, issued.SnapshotHash[:16]) {
				t.Error("the fingerprint of the snapshot is not on paper")
			}
			for _, o := range issued.Priced.Options {
				if !strings.Contains(text, "USD "+grouped(o.Total.Amount)) {
					t.Errorf("%s: %s is not on paper", o.ID, grouped(o.Total.Amount))
				}
			}
		})
		for i, o := range issued.Priced.Options {
			var minor int64
			if err := d.raw.QueryRow("SELECT total_minor FROM quote_totals WHERE quote_id = '" + issued.Quote + "' AND option_id = '" + o.ID + "'").Scan(&minor); err != nil {
				t.Fatal(err)
			}
			if stored := decimal.New(minor, -2).StringFixed(2); stored != o.Total.Amount {
				t.Errorf("%s: %s in JSON, %s in the database", o.ID, o.Total.Amount, stored)
			}
			if told := seen.Estimate.Options[i].Total.Amount; told != o.Total.Amount {
				t.Errorf("%s: the yard sees %s, the owner %s", o.ID, o.Total.Amount, told)
			}
		}
		d.role(auth.Owner).get(revision).refused(404, "not-found")
	})
}

// What the demo comes to is the same to the cent on both engines.
func TestTheDemoCostsTheSameOnBothEngines(t *testing.T) {
	totals := func(t *testing.T, p place) (out []string) {
		var got revisionAnswer
		d := open(t, p)
		d.get("/api/v1/quotes/" + d.demo.Quote + "/revisions/1").want(200).into(&got)
		for _, o := range got.Priced.Options {
			out = append(out, o.Total.Amount)
		}
		return out
	}
	second := storetest.PostgreSQL(t)
	if a, b := totals(t, file(t)), totals(t, second); len(a) != 2 || !slices.Equal(a, b) {
		t.Errorf("%v in a file, %v on PostgreSQL", a, b)
	}
}
