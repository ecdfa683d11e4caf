package api_test

import (
	"math"
	"net/http"
	"strings"
	"testing"
)

// readingAnswer is a figure with its range.
type readingAnswer struct{ Value, Low, High float64 }

type strakesAnswer struct {
	Area struct{ Value, Low, High float64 } `json:"area_m2"`
	// Strakes as far as they are looked at.
	Ends []struct {
		End     string
		RunToIt bool           `json:"run_to_it"`
		Siding  *float64       `json:"half_siding_mm"`
		Area    *readingAnswer `json:"area_m2"`
		Fix     string
	}
	Strakes []struct {
		No    int
		Hoods []struct {
			End     string
			LowerX  float64       `json:"lower_x_mm"`
			UpperX  float64       `json:"upper_x_mm"`
			LowerZ  float64       `json:"lower_height_mm"`
			UpperZ  float64       `json:"upper_height_mm"`
			Width   readingAnswer `json:"width_mm"`
			Written string
		} `json:"hood_ends"`
		Board    readingAnswer `json:"board_length_mm"`
		Wide     readingAnswer `json:"board_width_mm"`
		Loss     readingAnswer `json:"spiling_loss"`
		Thick    float64       `json:"board_thickness_mm"`
		Backing  float64       `json:"backing_out_mm"`
		Widths   []struct{ Written string }
		Butts    []struct{ Where string }
		Proposed bool `json:"butts_proposed"`
		NoButts  *struct {
			Fix   string
			Stock float64 `json:"stock_mm"`
		} `json:"no_butts"`
		Planks []struct {
			Along float64 `json:"along_mm"`
			Stock float64 `json:"stock_mm"`
			Left  float64 `json:"offcut_mm"`
		}
	}
	Breaches []struct {
		Rule   string
		Strake int
		Fix    string
	}
	Replacements []struct {
		Plank       *struct{ From, To string }
		FrameSpaces float64 `json:"frame_spaces"`
	}
	Rules    []struct{ Name, Source string }
	Cautions []string
}

// The demo's planking: butts that keep to the rules, boards for every plank, and what planks off ask for.
func TestStrakes(t *testing.T) {
	d := open(t, file(t))
	at := d.job("hull", "strakes")
	var s, bare strakesAnswer
	d.get(at + "?side=starboard&strakes=12").want(200).into(&bare)
	d.get(at + "?side=starboard&strakes=12&plank_thickness_mm=25&stock_lengths_mm=3600,4800,6000").want(200).into(&s)
	if len(s.Strakes) != 12 || len(s.Breaches) != 0 || len(s.Rules) < 5 || len(s.Cautions) != 3 || !strings.Contains(s.Cautions[0], "planks off") || !strings.Contains(s.Cautions[1], "stem was not measured") || !strings.Contains(s.Cautions[2], "transom was not measured") {
		t.Fatalf("%+v", s)
	}
	if !(s.Area.Low < s.Area.Value && s.Area.Value < s.Area.High) || s.Area != bare.Area {
		t.Errorf("area %+v, without butts %+v", s.Area, bare.Area)
	}
	for i, k := range s.Strakes {
		if k.No != i+1 || !k.Proposed || k.NoButts != nil || len(k.Planks) != len(k.Butts)+1 || len(k.Widths) < 5 || k.Widths[0].Written == "" {
			t.Errorf("%+v", k)
		}
		for _, r := range []readingAnswer{k.Board, k.Wide, k.Loss} {
			if !(r.Low <= r.Value && r.Value <= r.High && r.Low < r.High) {
				t.Errorf("strake %d: board or loss of %+v", k.No, r)
			}
		}
		if k.Thick < 25 || k.Thick > 25+k.Backing+.002 {
			t.Errorf("strake %d: board of %v, backing out %v", k.No, k.Thick, k.Backing)
		}
		for _, q := range k.Planks {
			if q.Stock < q.Along || math.Abs(q.Stock-q.Along-q.Left) > .002 {
				t.Errorf("strake %d: %v out of %v", k.No, q.Along, q.Stock)
			}
		}
		if b := bare.Strakes[i]; len(b.Butts) != 0 || b.Proposed || len(b.Planks) != 1 || b.Thick != 0 {
			t.Errorf("without stock: %+v", b)
		}
	}
	d.get(at + "?side=port&strakes=9&stock_lengths_mm=800").want(200).into(&s)
	if s.Strakes[0].NoButts == nil || s.Strakes[0].NoButts.Stock <= 800 {
		t.Errorf("stock of 800 mm gives %+v", s.Strakes[0])
	}
	for _, query := range []string{
		"?side=port", "?strakes=12", "?side=both&strakes=12", "?side=port&strakes=61", "?side=port&strakes=0", "?side=port&strakes=x",
		"?side=port&strakes=12&plank_thickness_mm=0", "?side=port&strakes=12&stock_lengths_mm=1,-1", "?side=port&strakes=12&stock_lengths_mm=a",
	} {
		if p := d.get(at+query).refused(400, "malformed-request"); len(p.Errors) == 0 || p.Errors[0].Fix == "" {
			t.Errorf("%s: %+v", query, p)
		}
	}
	d.get(d.newJob()+"/hull/strakes?side=port&strakes=9").refused(409, "documents-missing")
	job := d.newJob()
	d.send(http.MethodPut, job+"/hull"+asWritten, d.get(d.job("hull"), wantCSV).want(200).body, asCSV, firstPut).want(201)
	d.get(job+"/hull/strakes?side=port&strakes=9&stock_lengths_mm=4000").refused(409, "documents-missing")
	d.get(job + "/hull/strakes?side=port&strakes=9").want(200)
}

// What comes along may say its edges, its butts and its damage; what is wrong is told at its place.
func TestStrakesThatComeAlong(t *testing.T) {
	d := open(t, file(t))
	body := func(change map[string]any) map[string]any {
		out := map[string]any{"hull": d.document(d.job("hull")), "frames": d.document(d.job("frames")), "side": "port", "strakes": map[string]any{"count": 12}}
		for k, v := range change {
			out[k] = v
		}
		return out
	}
	var s strakesAnswer
	const at = "/api/v1/hull/strakes"
	d.send(http.MethodPost, at, body(map[string]any{
		"butts":   []any{map[string]any{"strake": 3, "x": []string{"15-0-0"}}, map[string]any{"strake": 4, "x": []string{"15-6-0"}}},
		"replace": []any{map[string]any{"strake": 8, "from": "12-0-0", "to": "13-0-0"}},
	})).want(200).into(&s)
	found := false
	for _, b := range s.Breaches {
		found = found || b.Rule == "adjacent_strakes" && b.Strake == 4 && strings.HasPrefix(b.Fix, "right would be")
	}
	if !found || len(s.Replacements) != 1 || s.Replacements[0].Plank == nil || s.Replacements[0].FrameSpaces < 6 {
		t.Errorf("%+v, %+v", s.Breaches, s.Replacements)
	}
	for pointer, change := range map[string]map[string]any{
		"/strakes/count":        {"strakes": map[string]any{"count": 0}},
		"/strakes":              {"strakes": map[string]any{}},
		"/stock_lengths/0":      {"stock_lengths": []string{"long"}},
		"/butts/0/x/0":          {"butts": []any{map[string]any{"strake": 1, "x": []string{"99-0-0"}}}},
		"/frames":               {"frames": nil, "stock_lengths": []string{"16-0-0"}},
		"/frames/moulding_face": {"frames": map[string]any{"notation": "mm", "moulding_face": "up"}},
		"/replace/0/strake":     {"replace": []any{map[string]any{"strake": 99, "from": "12-0-0", "to": "13-0-0"}}},
	} {
		b := body(change)
		if b["frames"] == nil {
			delete(b, "frames")
		}
		if pointer == "/strakes/count" {
			b["strakes"] = map[string]any{"count": 61}
		}
		p := d.send(http.MethodPost, at, b).refused(422, "document-faults")
		found := false
		for _, e := range p.Errors {
			found = found || e.Pointer == pointer
		}
		if !found {
			t.Errorf("no fault at %s: %+v", pointer, p.Errors)
		}
	}
}

// With the line of the stem the strakes run on to it: each has its hood end there, longer boards and more area, and says
// what it closes on. A line that is no stem's is refused.
func TestStrakesToTheStem(t *testing.T) {
	d := open(t, file(t))
	lay := func(stem ...any) answer {
		var hull map[string]any
		d.get(d.job("hull")).want(200).into(&hull)
		if len(stem) > 0 {
			hull["stem"] = stem
		}
		return d.send(http.MethodPost, "/api/v1/hull/strakes", map[string]any{"hull": hull, "side": "port", "strakes": map[string]any{"count": 12}})
	}
	place := func(height, x string) any { return map[string]any{"height": height, "x": x} }
	var bare, to strakesAnswer
	lay().want(200).into(&bare)
	lay(place("2-6-0", "-0-2-0"), place("4-0-0", "-0-6-0"), place("5-0-0", "-0-8-4"), place("6-4-0", "-0-11-0")).want(200).into(&to)
	stem := to.Ends[0]
	if stem.End != "stem" || !stem.RunToIt || stem.Siding == nil || math.Abs(*stem.Siding-38.1) > 1 || stem.Area == nil || !(stem.Area.Low < stem.Area.Value && stem.Area.Value < stem.Area.High) {
		t.Errorf("%+v, %v, %+v", stem, *stem.Siding, *stem.Area)
	}
	if to.Ends[1].RunToIt || to.Ends[1].Fix == "" || !(to.Area.Value > bare.Area.Value) {
		t.Errorf("%+v; %v after %v", to.Ends[1], to.Area, bare.Area)
	}
	for i, k := range to.Strakes {
		if len(k.Hoods) != 1 || k.Hoods[0].End != "stem" || !(k.Hoods[0].LowerX < 0 && k.Hoods[0].UpperX < 0 && k.Hoods[0].LowerZ < k.Hoods[0].UpperZ) || k.Hoods[0].Written == "" {
			t.Errorf("strake %d: %+v", k.No, k.Hoods)
		}
		if !(k.Board.Value > bare.Strakes[i].Board.Value) {
			t.Errorf("strake %d: a board of %v, %v without the stem", k.No, k.Board.Value, bare.Strakes[i].Board.Value)
		}
	}
	if p := lay(place("2-6-0", "here"), place("4-0-0", "-0-6-0")).refused(422, "document-faults"); len(p.Errors) != 1 || !strings.Contains(p.Errors[0].Pointer, "/stem/0") {
		t.Errorf("%+v", p.Errors)
	}
}
