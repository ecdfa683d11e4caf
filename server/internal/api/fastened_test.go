package api_test

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"
)

// With planking beside the frames and a rule among the yard's, screws and plugs of new frames are on the bill, with the published
// screw beside; without, what is missing is said.
func TestPlanksAreFastenedToNewFrames(t *testing.T) {
	d := open(t, file(t))
	papers := d.papers(0)
	plain := d.send(http.MethodPost, "/api/v1/takeoff", papers).want(200)
	if !strings.Contains(string(plain.body), "not_fastened") {
		t.Error("nothing says that fastenings are not counted")
	}
	change := func(paper string, by func(map[string]any)) {
		var doc map[string]any
		if err := json.Unmarshal(papers[paper].(json.RawMessage), &doc); err != nil {
			t.Fatal(err)
		}
		by(doc)
		papers[paper] = doc
	}
	change("frames", func(doc map[string]any) { doc["planking"] = map[string]any{"thickness": "0-1-2", "width": "0-5-4"} })
	change("rules", func(doc map[string]any) {
		doc["plank_fastenings"] = map[string]any{"screw": "screw_bronze_20x2_1_2", "plug": "plug_oak_11_16", "per_crossing": "two_or_three", "source": "invented"}
	})
	change("steps", func(doc map[string]any) {
		first := doc["steps"].([]any)[0].(map[string]any)
		fasten := map[string]any{}
		for name, v := range first {
			fasten[name] = v
		}
		fasten["code"], fasten["name"], fasten["driver"] = "fasten_planks", "Fasten planks to new frames", "plank_fastenings"
		fasten["where"] = map[string]any{}
		doc["steps"] = append(doc["steps"].([]any), fasten)
	})
	var a struct {
		Lines []struct {
			Material, Item string
			Net            struct{ Value string }
		}
		Faults, Warnings []struct{ Code string }
		Fastened         struct {
			Screws    struct{ Value string }
			Published struct{ Gauge float64 }
		}
	}
	d.send(http.MethodPost, "/api/v1/takeoff", papers).want(200).into(&a)
	screws, plugs := 0.0, 0.0
	for _, l := range a.Lines {
		switch l.Material {
		case "fastenings":
			screws += plainNumber(t, l.Net.Value)
		case "plugs":
			plugs += plainNumber(t, l.Net.Value)
		}
	}
	if screws == 0 || screws != plugs || screws != plainNumber(t, a.Fastened.Screws.Value) || a.Fastened.Published.Gauge != 20 {
		t.Errorf("%v screws, %v plugs, %+v", screws, plugs, a.Fastened)
	}
	for _, x := range append(a.Faults, a.Warnings...) {
		if x.Code == "no_step" || x.Code == "fastenings_not_counted" {
			t.Errorf("told of %s", x.Code)
		}
	}
}
