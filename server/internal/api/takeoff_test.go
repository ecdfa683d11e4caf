package api_test

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"
)

type takeoffAnswer struct {
	Basis []struct {
		Kind string
		N    int
	}
	BasisHash string `json:"basis_hash"`
	Lines     []struct{ ID string }
	Faults    []struct{ Code, Figure, Fix string }
	Figures   []struct{ ID string }
}

// The twin's takeoff is the stored one without ids, and nothing of it is kept.
func TestTakeoffOfDocumentsThatComeAlong(t *testing.T) {
	d := open(t, file(t))
	papers := d.papers(0)
	stored := d.get(d.option(0, "takeoff") + "?figures=true").want(200).object()
	before := d.rows()
	twin := d.send(http.MethodPost, "/api/v1/takeoff?figures=true", papers).want(200).object()
	delete(stored, "basis")
	delete(stored, "basis_hash")
	a, _ := json.Marshal(stored)
	b, _ := json.Marshal(twin)
	if string(a) != string(b) {
		t.Error("the twin's takeoff is not the stored one")
	}
	if after := d.rows(); !equal(before, after) {
		t.Errorf("something was stored: %v, then %v", before, after)
	}
	var short takeoffAnswer
	d.get(d.option(0, "takeoff")).want(200).into(&short)
	if len(short.Figures) > 0 || len(short.Basis) != 7 || len(short.Lines) != 60 {
		t.Errorf("%d figures unasked, %d documents, %d lines", len(short.Figures), len(short.Basis), len(short.Lines))
	}
}

// The one further measurement comes along where it is asked for, the same from the stored documents and from the twin.
func TestTheMeasurementThatWouldTellMost(t *testing.T) {
	d := open(t, file(t))
	type answer struct {
		Narrowing *struct {
			Kind, Detail string
			Now          struct{ Low, High float64 } `json:"timber_now_m3"`
			Faults       []any
			NotWeighed   []any `json:"not_weighed"`
		}
	}
	var unasked, stored, twin answer
	d.get(d.option(0, "takeoff")).want(200).into(&unasked)
	d.get(d.option(0, "takeoff") + "?narrowing=true").want(200).into(&stored)
	d.send(http.MethodPost, "/api/v1/takeoff?narrowing=true", d.papers(0)).want(200).into(&twin)
	if unasked.Narrowing != nil || stored.Narrowing == nil || twin.Narrowing == nil {
		t.Fatalf("%+v, %+v, %+v", unasked, stored, twin)
	}
	n := *stored.Narrowing
	if n.Kind != twin.Narrowing.Kind || n.Detail != twin.Narrowing.Detail || n.Now != twin.Narrowing.Now {
		t.Errorf("%+v and %+v", n, *twin.Narrowing)
	}
	// The boat's papers are in feet, and so is what is asked for.
	if strings.Contains(n.Detail, " mm") || n.NotWeighed == nil || len(n.NotWeighed) > 0 {
		t.Errorf("%+v", n)
	}
	if n.Detail == "" || !(0 < n.Now.Low && n.Now.Low < n.Now.High) || n.Faults == nil {
		t.Errorf("%+v", n)
	}
}

// thick is the demo's rules with one thickness, far too thick for any bend.
func (d *desk) thick() map[string]any {
	d.t.Helper()
	rules := d.get("/api/v1/rules").want(200).object()
	rules["rips"] = []string{"1 1/2"}
	return rules
}

// A laminate too thick for its bend refuses the twin: each fault with its place in the body, with what would do, and
// no bill.
func TestLaminatesTooThickRefuseTheTwin(t *testing.T) {
	d := open(t, file(t))
	papers := d.papers(0)
	papers["rules"] = d.thick()
	p := d.send(http.MethodPost, "/api/v1/takeoff", papers).refused(422, "takeoff-faults")
	if len(p.Errors) == 0 {
		t.Fatal("no fault is told")
	}
	for _, e := range p.Errors {
		if e.Code != "laminate_too_thick" || e.Pointer != "/remedies/remedies/0" || e.Figure == "" || e.Fix == "" {
			t.Errorf("fault %+v", e)
		}
	}
}

func TestEveryPaperOfATakeoffIsRead(t *testing.T) {
	d := open(t, file(t))
	papers := d.papers(0)
	for _, edit := range []struct{ paper, from, to string }{
		{"hull", `"notation":"feet_inches_eighths"`, `"notation":"cubits"`},
		{"steps", `"driver":"patterns"`, `"driver":"parsecs"`},
		{"rules", `"fraction":"0.08"`, `"fraction":"1.08"`},
		{"remedies", `"species":"white_oak"`, `"species":"balsa"`},
	} {
		text := string(bytesOf(t, papers[edit.paper]))
		if !strings.Contains(text, edit.from) {
			t.Fatalf("%s is not in the %s", edit.from, edit.paper)
		}
		papers[edit.paper] = json.RawMessage(strings.Replace(text, edit.from, edit.to, 1))
	}
	p := d.send(http.MethodPost, "/api/v1/takeoff", papers).refused(422, "document-faults")
	all := strings.Join(p.pointers(), " ")
	for _, want := range []string{"/hull/notation", "/steps/steps/0/driver", "/rules/losses/0/fraction", "/remedies/remedies/0/species"} {
		if !strings.Contains(all, want) {
			t.Errorf("no fault at %s: %s", want, all)
		}
	}
	papers = d.papers(0)
	for name, to := range map[string]string{"an exponent": `"1e5"`, "a number": `0.5`, "digits": `"` + strings.Repeat("1", 100_000) + `"`, "not a number": `"NaN"`} {
		bad := strings.Replace(string(bytesOf(t, papers)), `"per_unit_h":"1.25"`, `"per_unit_h":`+to, 1)
		p := d.send(http.MethodPost, "/api/v1/takeoff", bad).refused(422, "document-faults")
		if len(p.Errors) != 1 || p.Errors[0].Pointer != "/steps/steps/0/per_unit_h" {
			t.Errorf("%s: %+v", name, p.Errors)
		}
	}
}

// Frames beyond the measured stations are measured by nobody: the stored documents do not go together, the twin's are
// at fault.
func TestFramesBeyondTheStations(t *testing.T) {
	d := open(t, file(t))
	beyond := frames(60)
	beyond["spacing"].(map[string]any)["spacing"] = "24"
	d.send(http.MethodPut, d.job("frames"), beyond, seen(`"1"`)).want(200)
	p := d.get(d.option(0, "takeoff")).refused(409, "cannot-be-computed")
	if len(p.Errors) == 0 || p.Errors[0].Pointer != "/frames/spacing" {
		t.Errorf("faults %+v", p.Errors)
	}
	// One that has a row of its own is pointed at there.
	beyond["frames"] = []any{map[string]any{"no": 61, "side": "port", "x": "2000", "siding": "1 3/4", "moulded": "2 7/8"}}
	d.send(http.MethodPut, d.job("frames"), beyond, seen(`"2"`)).want(200)
	rows := 0
	for _, p := range d.get(d.job("hull", "measures")).refused(409, "cannot-be-computed").Errors {
		if p.Pointer == "/frames/frames/0" {
			rows++
		}
	}
	if rows != 1 {
		t.Errorf("%d faults at the row", rows)
	}
	d.get(d.job("hull", "measures")).refused(409, "cannot-be-computed")
	d.send(http.MethodPost, "/api/v1/takeoff", d.papers(0)).refused(422, "document-faults")
}
