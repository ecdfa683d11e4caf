package api_test

import (
	"bytes"
	"net/http"
	"strings"
	"testing"

	"ribband/seed"
	"ribband/server/internal/app"
)

// found is a desk at a yard of its own, as a first start leaves it: without a name, with the program's steps and rules.
func found(t testing.TB, p place) *desk {
	t.Helper()
	d := bare(t, p)
	knowledge, err := seed.LoadKnowledge()
	if err != nil {
		t.Fatal(err)
	}
	token, fresh, err := d.app.FirstToken(t.Context(), "Your yard", app.Knowledge(knowledge))
	if err != nil || !fresh {
		t.Fatalf("fresh %v, %v", fresh, err)
	}
	d.as = token.Reveal()
	return d
}

// drafted enters the demo's boat as a job and quotes its first option; it is the address of the job and of the draft.
func (d *desk) drafted() (job, revision string) {
	d.t.Helper()
	demo, err := app.LoadDemo()
	if err != nil {
		d.t.Fatal(err)
	}
	job = d.newJob()
	d.send(http.MethodPut, job+"/hull"+asWritten, seed.OffsetsCSV(), asCSV, firstPut).want(201)
	d.send(http.MethodPut, job+"/frames", demo.Frames, firstPut).want(201)
	d.send(http.MethodPut, job+"/findings", demo.Findings, firstPut).want(201)
	option := d.send(http.MethodPost, job+"/options", map[string]any{"name": "Ten pairs"}, d.key()).want(201).header.Get("Location")
	d.send(http.MethodPut, option+"/remedies", demo.Options[0].Remedies, firstPut).want(201)
	fields := map[string]any{"options": []string{id(option)}, "sheet": id(d.sheetOf(seed.PricesCSV(2))), "version": 1, "terms": terms()}
	return job, d.send(http.MethodPost, job+"/quotes", fields, d.key()).want(201).header.Get("Location") + "/revisions/1"
}

// warned is the codes of a revision's warnings that are not of a takeoff.
func (a answer) warned() string {
	a.t.Helper()
	var r struct {
		Warnings []struct {
			Code, Detail, Fix string
			Member            any
		}
	}
	a.want(200).into(&r)
	var out []string
	for _, w := range r.Warnings {
		// a wood's, whichever frames are of it, and many frames'
		if w.Member == nil && w.Code != "doubtful_glue_pair" && w.Code != "damage_left" {
			out = append(out, w.Code)
		}
		if w.Detail == "" || w.Fix == "" {
			a.t.Errorf("the warning %s says too little", w.Code)
		}
	}
	return strings.Join(out, " ")
}

// A yard issues nothing before it has said who it is. Then its name is on the estimate, beside the word that hours and
// shop figures are not its own.
func TestAYardSaysWhoItIsBeforeItIssues(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := found(t, p)
		_, revision := d.drafted()
		if got := d.get(revision).warned(); got != "yard_not_named invented_figures freight_not_priced fastenings_not_counted" {
			t.Errorf("the draft warns of %q", got)
		}
		d.get("/api/v1/yard").refused(404, "not-found")
		rows := d.rows()
		refused := d.send(http.MethodPost, revision+"/issue", nil, d.key()).refused(409, "documents-missing")
		if !strings.Contains(refused.Detail, "The yard has not said who it is") || !strings.Contains(refused.Detail, "PUT /api/v1/yard") {
			t.Errorf("the refusal says %q", refused.Detail)
		}
		if after := d.rows(); !equal(rows, after) {
			t.Errorf("something was stored: %v, then %v", rows, after)
		}

		yard := map[string]any{"name": "Slipway Four (invented)", "address": []string{"4 Slip Road", "Nowhere"}, "contact": "+00 0000 0000"}
		put := d.send(http.MethodPut, "/api/v1/yard", yard, firstPut).want(201)
		if read := d.get("/api/v1/yard").want(200); !bytes.Equal(read.body, put.body) || read.etag() != `"1"` {
			t.Errorf("put %s, read %s %s", put.body, read.etag(), read.body)
		}
		if got := d.get(revision).warned(); got != "invented_figures freight_not_priced fastenings_not_counted" {
			t.Errorf("the draft warns of %q", got)
		}
		d.send(http.MethodPost, revision+"/issue", nil, d.key()).want(200)
		if got := d.get(revision).warned(); got != "invented_figures freight_not_priced fastenings_not_counted" {
			t.Errorf("the issued revision warns of %q", got)
		}
		var frozen struct{ Yard app.Letterhead }
		d.get(revision + "/snapshot").want(200).into(&frozen)
		if frozen.Yard.Name != yard["name"] || len(frozen.Yard.Address) != 2 || !strings.Contains(frozen.Yard.Note, "invented ones that the program came with") {
			t.Errorf("the snapshot has the yard %+v", frozen.Yard)
		}
		onPaper(t, d.get(revision+"/estimate.pdf").want(200).body, func(t *testing.T, text string) {
			for _, want := range []string{"Slipway Four (invented)", "4 Slip Road", "+00 0000 0000", "invented ones that the program came with"} {
				if !strings.Contains(strings.Join(strings.Fields(text), " "), want) {
					t.Errorf("the estimate does not say %q", want)
				}
			}
		})
	})
}

// The demo goes on saying that it is invented, whatever it is called.
func TestTheDemoStaysInvented(t *testing.T) {
	d := open(t, file(t))
	d.send(http.MethodPut, "/api/v1/yard", map[string]any{"name": "A Real Yard"}, seen(`"1"`)).want(200)
	_, revision := d.draft(d.demo.Options[0])
	if got := d.get(revision).warned(); got != "freight_not_priced fastenings_not_counted" {
		t.Errorf("the demo's draft warns of %q", got)
	}
	d.send(http.MethodPost, revision+"/issue", nil, d.key()).want(200)
	var frozen struct{ Yard app.Letterhead }
	d.get(revision + "/snapshot").want(200).into(&frozen)
	demo, err := app.LoadDemo()
	if err != nil {
		t.Fatal(err)
	}
	if frozen.Yard.Name != "A Real Yard" || frozen.Yard.Note != demo.Letterhead.Note {
		t.Errorf("the snapshot has the yard %+v", frozen.Yard)
	}
}

func TestEveryFaultOfAYardIsTold(t *testing.T) {
	d := open(t, file(t))
	p := d.send(http.MethodPut, "/api/v1/yard", map[string]any{"name": " ", "address": []string{strings.Repeat("x", 201)}, "contact": strings.Repeat("x", 2001)}, seen(`"1"`)).refused(422, "document-faults")
	if got := strings.Join(p.pointers(), " "); got != "/name /address/0 /contact" {
		t.Errorf("faults at %s", got)
	}
}
