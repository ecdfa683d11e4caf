package api_test

import (
	"net/http"
	"strings"
	"testing"
)

// A yard whose boards are short says how it joins laminates; its options then have the lengths, in takeoff, gluing and buy
// list, and a rule that nothing keeps to is a fault with what would do.
func TestLaminatesLongerThanTheStock(t *testing.T) {
	d := open(t, file(t))
	rule := func(longest string) string {
		var doc map[string]any
		got := d.get("/api/v1/rules").want(200)
		got.into(&doc)
		doc["laminate_joints"] = map[string]any{"joint": "feather", "slope": map[string]any{"value": "12", "source": "of a test"}, "longest": longest,
			"apart_thicknesses": "24", "from_bend": "6", "from_heel": "4", "from_head": "4", "source": "of a test"}
		d.send(http.MethodPut, "/api/v1/rules", doc, seen(got.etag())).want(200)
		option := d.send(http.MethodPost, d.job("options"), map[string]any{"name": "Short boards " + longest}, d.key()).want(201).header.Get("Location")
		row := map[string]any{"member": map[string]any{"kind": "frame", "no": 12, "side": "both"}, "remedy": "replace_laminated", "species": "white_oak", "grade": "FAS"}
		d.send(http.MethodPut, option+"/remedies", map[string]any{"remedies": []any{row}}, firstPut).want(201)
		return option
	}
	type answer struct {
		Lines  []struct{ ID string }
		Faults []struct{ Code, Fix string }
		MadeUp []struct {
			Joints    int
			Laminates []struct {
				Lengths []float64 `json:"lengths_mm"`
			}
		} `json:"made_up"`
	}
	option := rule("60")
	var got answer
	d.get(option + "/takeoff").want(200).into(&got)
	if len(got.Faults) != 0 || len(got.MadeUp) != 2 || got.MadeUp[0].Joints == 0 {
		t.Fatalf("%+v", got)
	}
	for _, l := range got.MadeUp[0].Laminates {
		for _, x := range l.Lengths {
			if x > 1524 {
				t.Errorf("a length of %v mm", x)
			}
		}
	}
	glue := 0
	for _, l := range got.Lines {
		if strings.HasSuffix(l.ID, "/laminate_scarf_glue") {
			glue++
		}
		if strings.HasSuffix(l.ID, "/laminates_timber") {
			t.Errorf("%s is in one length", l.ID)
		}
	}
	if glue != 2 {
		t.Errorf("glue for the scarfs of %d blanks", glue)
	}
	var g struct {
		Records []struct {
			Blank  string
			MadeUp *struct{ Joints int } `json:"made_up"`
		}
	}
	d.get(option + "/gluing").want(200).into(&g)
	blanks, scarfs := 0, 0
	for _, r := range g.Records {
		switch {
		case strings.HasSuffix(r.Blank, "/laminate_scarfs"):
			scarfs++
		case r.MadeUp != nil && r.MadeUp.Joints == got.MadeUp[0].Joints:
			blanks++
		}
	}
	if len(g.Records) != 4 || blanks != 2 || scarfs != 2 {
		t.Errorf("%d records, of %d blanks made up and the scarfs of %d: %+v", len(g.Records), blanks, scarfs, g.Records)
	}
	got = answer{}
	d.get(rule("20") + "/takeoff").want(200).into(&got)
	if len(got.Faults) != 2 || got.Faults[0].Code != "joints_not_staggered" || !strings.Contains(got.Faults[0].Fix, "would do") {
		t.Errorf("%+v", got.Faults)
	}
}
