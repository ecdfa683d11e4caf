package api_test

import (
	"net/http"
	"slices"
	"strings"
	"testing"
)

func finding(no int, side, state, from, to string) map[string]any {
	f := map[string]any{"member": map[string]any{"kind": "frame", "no": no, "side": side}, "state": state}
	if from != "" {
		f["from"] = from
	}
	if to != "" {
		f["to"] = to
	}
	return f
}

func findings(rows ...any) map[string]any {
	return map[string]any{"notation": "feet_inches_eighths", "findings": rows}
}

// What was found comes into the takeoff, is named in what it rests on, and moves a draft that was made before it.
func TestFindingsComeIntoTheTakeoff(t *testing.T) {
	engines(t, func(t *testing.T, at place) {
		d := open(t, at)
		type answer struct {
			Basis []struct {
				Kind string
				N    int
			}
			Warnings []struct{ Code, Detail string }
		}
		var before, after answer
		d.get(d.option(0, "takeoff")).want(200).into(&before)
		_, revision := d.draft(d.demo.Options[0])
		worse := findings(finding(9, "port", "decayed", "", "0-6-0"))
		d.send(http.MethodPut, d.job("findings"), worse, seen(d.get(d.job("findings")).etag())).want(200)
		d.get(d.option(0, "takeoff")).want(200).into(&after)
		codes := func(a answer) (out []string) {
			for _, w := range a.Warnings {
				out = append(out, w.Code)
			}
			return out
		}
		if slices.Contains(codes(before), "damage_left") || !slices.Contains(codes(after), "damage_left") || !slices.Contains(codes(after), "frames_not_sounded") {
			t.Errorf("before %+v, after %+v", before.Warnings, after.Warnings)
		}
		if !slices.ContainsFunc(after.Basis, func(b struct {
			Kind string
			N    int
		}) bool {
			return b.Kind == "findings" && b.N == 2
		}) {
			t.Errorf("%+v", after.Basis)
		}
		moved := d.send(http.MethodPost, revision+"/issue", nil, d.key()).refused(412, "basis-moved").Moved
		if len(moved) != 1 || moved[0].Kind != "findings" || moved[0].Was != 1 || moved[0].Is != 2 {
			t.Errorf("%+v", moved)
		}
	})
}

func TestBadFindings(t *testing.T) {
	d := open(t, file(t))
	tag := seen(d.get(d.job("findings")).etag())
	before := d.rows()
	p := d.send(http.MethodPut, d.job("findings"), findings(finding(3, "port", "rotten", "", ""), finding(4, "port", "broken", "2-0-0", "1-0-0")), tag).want(422)
	for _, word := range []string{"rotten", "/findings/0/state", "from 2-0-0 to 1-0-0"} {
		if !strings.Contains(string(p.body), word) {
			t.Errorf("%q is not in %s", word, p.body)
		}
	}
	if after := d.rows(); !equal(before, after) {
		t.Errorf("something was stored: %v, then %v", before, after)
	}
	papers := d.papers(0)
	papers["findings"] = findings(finding(3, "port", "sound", "", ""), finding(4, "port", "broken", "0-0-0", "40-0-0"))
	if got := d.send(http.MethodPost, "/api/v1/takeoff", papers).refused(422, "document-faults").pointers(); !slices.Equal(got, []string{"/findings/findings/1"}) {
		t.Errorf("%v", got)
	}
}

// A part let in and a sister are quoted from the findings; what they do not allow is a fault of the takeoff.
func TestPartsAndSistersComeFromTheFindings(t *testing.T) {
	d := open(t, file(t))
	type answer struct {
		Lines  []struct{ ID, Material string }
		Faults []struct{ Code string }
		Scarfs []struct {
			Piece, End string
			Taper      float64 `json:"taper_mm"`
			Straight   *struct {
				Shortfall float64 `json:"shortfall_mm"`
			} `json:"straight_edge"`
		}
	}
	remedies := func(rows ...any) answer {
		d.send(http.MethodPut, d.option(0, "remedies"), map[string]any{"remedies": rows}, seen(d.get(d.option(0, "remedies")).etag())).want(200)
		var got answer
		d.get(d.option(0, "takeoff")).want(200).into(&got)
		return got
	}
	row := func(no int, side, remedy string) map[string]any {
		return map[string]any{"member": map[string]any{"kind": "frame", "no": no, "side": side}, "remedy": remedy, "species": "white_oak", "grade": "FAS"}
	}
	got := remedies(row(12, "both", "scarf_in"), row(15, "port", "scarf_in"), row(18, "both", "sister"))
	if len(got.Faults) != 0 || len(got.Scarfs) != 3 || got.Scarfs[0].Taper < 700 || got.Scarfs[0].Straight == nil {
		t.Errorf("%+v, %+v", got.Faults, got.Scarfs)
	}
	glue := 0
	for _, l := range got.Lines {
		if strings.HasSuffix(l.ID, "/scarf_glue") {
			glue++
		}
	}
	if glue != 3 {
		t.Errorf("glue of %d joints", glue)
	}
	d.draft(d.demo.Options[0])
	if got := remedies(row(15, "port", "sister")); len(got.Faults) != 1 || got.Faults[0].Code != "sister_over_decay" {
		t.Errorf("%+v", got.Faults)
	}
	if got := remedies(row(3, "port", "scarf_in")); len(got.Faults) != 1 || got.Faults[0].Code != "nothing_to_take_out" {
		t.Errorf("%+v", got.Faults)
	}
}
