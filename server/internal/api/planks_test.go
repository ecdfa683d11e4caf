package api_test

import (
	"net/http"
	"slices"
	"strings"
	"testing"

	"ribband/server/internal/auth"
)

// carvelled is both sides in so many strakes, 1 1/4 in thick.
func carvelled(strakes int) map[string]any {
	return map[string]any{"notation": "feet_inches_eighths", "sides": []any{map[string]any{"side": "both", "strakes": map[string]any{"count": strakes}, "plank_thickness": "0-1-2",
		"butts": []any{map[string]any{"strake": 3, "x": []any{}}}}}}
}

// plankRow is a piece of a strake from a frame to a frame.
func plankRow(strake int, side string, from, to int) map[string]any {
	return map[string]any{"strake": strake, "side": side, "from_frame": from, "to_frame": to, "species": "white_oak", "grade": "FAS"}
}

func planksOf(rows ...map[string]any) map[string]any {
	return map[string]any{"notation": "feet_inches_eighths", "planks": append([]map[string]any{}, rows...)}
}

// putPlanks has a plank of the demo's first option renewed, in the wood that her sheet has boards for planks of.
func (d *desk) putPlanks() {
	d.t.Helper()
	d = d.role(auth.Lead)
	if d.get(d.option(0, "planks")).status == http.StatusNotFound {
		row := plankRow(5, "port", 14, 16)
		row["species"], row["grade"] = "longleaf_pine", "clear"
		d.send(http.MethodPut, d.option(0, "planks"), planksOf(row), firstPut).want(201)
	}
}

// unplanked is another job on the demo's boat, of which nobody said how she is planked, with an option that does as the demo's first.
func (d *desk) unplanked() (job, option string) {
	d.t.Helper()
	job = d.newJob()
	for _, doc := range []string{"hull", "frames"} {
		d.send(http.MethodPut, job+"/"+doc, d.document(d.job(doc)), firstPut).want(201)
	}
	option = d.send(http.MethodPost, job+"/options", map[string]any{"name": "Planks"}, d.key()).want(201).header.Get("Location")
	d.send(http.MethodPut, option+"/remedies", d.document(d.option(0, "remedies")), firstPut).want(201)
	return job, option
}

type plankLine struct {
	ID, Part, Driver, Item string
	Member                 struct {
		Kind, Side string
		No         int
	}
	Net    struct{ Value string }
	Pieces *struct {
		Thickness string `json:"thickness_mm"`
		Scarf     struct{ Counted int }
	}
}

// boards are the lines of what planks are got out of.
func (p plankTakeoff) boards() []plankLine {
	return slices.DeleteFunc(slices.Clone(p.Lines), func(l plankLine) bool { return l.Driver != "planks" && l.Member.Kind == "strake" })
}

type plankTakeoff struct {
	Lines  []plankLine
	Planks []struct {
		Part   string
		Ends   int `json:"ends_on_blocks"`
		Hoods  int `json:"hood_ends"`
		Blocks []struct {
			End, Where string
			Length     string `json:"length_mm"`
		} `json:"butt_blocks"`
		Length struct {
			High float64 `json:"high_mm"`
		}
	}
	Fastened *struct {
		Screws struct{ Value string }
	}
	Faults, Warnings []struct{ Code, Detail, Fix string }
	Basis            []struct{ Kind string }
}

// A yard says how a boat is planked and which planks an option renews, and reads what they take; strakes and frames that are
// named stay.
func TestPlanks(t *testing.T) {
	engines(t, func(t *testing.T, at place) {
		d := open(t, at)
		job, option := d.unplanked()
		planking, planks := job+"/planking", option+"/planks"
		d.get(planking).refused(404, "not-found")
		d.get(planks).refused(404, "not-found")
		first := planksOf(plankRow(5, "port", 14, 16))
		if p := d.send(http.MethodPut, planks, first, firstPut).refused(422, "document-faults"); !strings.Contains(p.Errors[0].Fix, "by_hand") {
			t.Errorf("%+v", p)
		}
		bad := carvelled(12)
		bad["sides"].([]any)[0].(map[string]any)["butts"] = []any{map[string]any{"strake": 14, "x": []any{"100-0-0"}}}
		if got := d.send(http.MethodPut, planking, bad, firstPut).refused(422, "document-faults").pointers(); !slices.Equal(got, []string{"/sides/0/butts/0/strake"}) {
			t.Errorf("%v", got)
		}
		d.send(http.MethodPut, planking, carvelled(12), firstPut).want(201)
		for _, c := range []struct {
			rows []map[string]any
			at   string
		}{
			{[]map[string]any{plankRow(13, "port", 14, 16)}, "/planks/0/strake"},
			{[]map[string]any{plankRow(5, "port", 14, 99)}, "/planks/0/to_frame"},
			{[]map[string]any{plankRow(5, "both", 14, 16), plankRow(5, "port", 15, 20)}, "/planks/1"},
			{[]map[string]any{plankRow(5, "port", 16, 14)}, "/planks/0/to_frame"},
			{[]map[string]any{{"strake": 5, "side": "port", "whole": true, "species": "pitch pine", "grade": ""}}, "/planks/0/species"},
			{[]map[string]any{{"strake": 5, "side": "port", "species": "white_oak", "grade": "FAS"}}, "/planks/0"},
			{[]map[string]any{{"strake": 5, "side": "port", "species": "white_oak", "grade": "FAS", "by_hand": map[string]any{"length": "0-7-0", "width": "1-0-0"}}}, "/planks/0/by_hand"},
		} {
			if got := d.send(http.MethodPut, planks, planksOf(c.rows...), firstPut).refused(422, "document-faults").pointers(); got[0] != c.at {
				t.Errorf("%v, %s wanted", got, c.at)
			}
		}
		d.send(http.MethodPut, planks, first, firstPut).want(201)
		d.get(planks).want(200)
		var got plankTakeoff
		d.get(option + "/takeoff").want(200).into(&got)
		i := slices.IndexFunc(got.Basis, func(s struct{ Kind string }) bool { return s.Kind == "planks" })
		last := got.boards()[len(got.boards())-1]
		if len(got.Faults) > 0 || i < 0 || last.ID != "strake/5/port/plank_1/timber" || last.Part != "frames 14 to 19" || last.Pieces == nil || len(got.Planks) != 1 || got.Planks[0].Length.High < 1500 {
			t.Errorf("%+v %+v %+v", got.Faults, last, got.Planks)
		}
		if p := d.send(http.MethodPut, planking, carvelled(4), seen(d.get(planking).etag())).refused(409, "member-in-use"); !strings.Contains(p.Errors[0].Detail, "strake 5 port") {
			t.Errorf("%+v", p)
		}
		d.send(http.MethodPut, planking, carvelled(11), seen(d.get(planking).etag())).want(200)
		d.send(http.MethodPut, planks, planksOf(), seen(d.get(planks).etag())).want(200)
		d.send(http.MethodPut, planking, carvelled(4), seen(d.get(planking).etag())).want(200)
	})
}

// An option of planks alone wants no remedies; one without either says what is missing.
func TestAnOptionOfPlanksAlone(t *testing.T) {
	d := open(t, file(t))
	d.putPlanks()
	var made struct{ ID string }
	d.send(http.MethodPost, d.job("options"), map[string]any{"name": "Planks only"}, d.key()).want(201).into(&made)
	option := d.job("options", made.ID)
	d.get(option+"/takeoff").refused(409, "documents-missing")
	d.send(http.MethodPut, option+"/planks", planksOf(plankRow(3, "both", 20, 21)), firstPut).want(201)
	var got plankTakeoff
	d.get(option + "/takeoff").want(200).into(&got)
	if boards := got.boards(); len(boards) != 2 || boards[1].Member.Side != "starboard" || len(got.Faults) > 0 {
		t.Errorf("%+v", got)
	}
}

// A boat without lines has planks renewed that were taped, as thick as her planking; one that was not says what to tape. Planking
// and planks that come after a draft are told before it is issued.
func TestPlanksOfABoatWithoutLines(t *testing.T) {
	d := open(t, file(t))
	papers := d.papers(0)
	delete(papers, "hull")
	papers["findings"] = map[string]any{"notation": "mm", "findings": []any{}}
	papers["frames"] = map[string]any{"notation": "mm", "moulding_face": "aft", "frames": []any{
		map[string]any{"no": 1, "x": "300", "side": "both", "siding": "40", "moulded": "50", "tape": map[string]any{"girth": "1500", "chord": "600", "rise": "80", "grain": "1"}},
		map[string]any{"no": 2, "x": "700", "side": "both", "siding": "40", "moulded": "50", "tape": map[string]any{"girth": "1500", "chord": "600", "rise": "80", "grain": "1"}}}}
	papers["remedies"] = map[string]any{"remedies": []any{}}
	papers["planking"] = carvelled(16)
	taped := map[string]any{"strake": 4, "side": "port", "from_frame": 1, "to_frame": 2, "species": "white_oak", "grade": "FAS", "by_hand": map[string]any{"length": "6-0-0", "width": "0-5-0"}}
	papers["planks"] = planksOf(taped)
	var got plankTakeoff
	d.send(http.MethodPost, "/api/v1/takeoff", papers).want(200).into(&got)
	if len(got.Lines) != 2 || len(got.boards()) != 1 || got.Lines[0].Part != "frames 1 to 2" || plainNumber(t, got.Lines[1].Net.Value) != 2*2 || len(got.Planks) != 1 || got.Planks[0].Length.High != 1828.8 {
		t.Errorf("%+v", got)
	}
	papers["planks"] = planksOf(taped, plankRow(5, "port", 1, 2))
	p := d.send(http.MethodPost, "/api/v1/takeoff", papers).refused(422, "takeoff-faults")
	if len(p.Errors) != 1 || p.Errors[0].Code != "plank_shape_unknown" || p.Errors[0].Pointer != "/planks/planks/1" || !strings.Contains(p.Errors[0].Fix, "tape the plank") {
		t.Errorf("%+v", p.Errors)
	}
}

// How she is planked is no part of an option that renews no plank: a draft of one is not moved by it, and is by its planks.
func TestADraftIsMovedByItsPlanks(t *testing.T) {
	d := open(t, file(t))
	var q struct{ Quote string }
	job, option := d.unplanked()
	d.send(http.MethodPost, job+"/quotes", d.quoteFields(id(option)), d.key()).want(201).into(&q)
	issue := func() answer {
		path := "/api/v1/quotes/" + q.Quote + "/revisions/1"
		return d.send(http.MethodPost, path+"/issue", nil, d.key(), seen(d.get(path).etag()))
	}
	d.send(http.MethodPut, job+"/planking", carvelled(16), firstPut).want(201)
	d.send(http.MethodPut, option+"/planks", planksOf(plankRow(5, "port", 14, 16)), firstPut).want(201)
	if p := issue(); p.status != 409 && p.status != 412 || !strings.Contains(string(p.body), `"planks"`) || strings.Contains(string(p.body), `"kind":"planking"`) {
		t.Errorf("%d %s", p.status, p.body)
	}
}

// A job without frames has no planks renewed yet.
func TestPlanksWantFrames(t *testing.T) {
	d := open(t, file(t))
	var job, option struct{ ID string }
	d.send(http.MethodPost, "/api/v1/jobs", jobFields(), d.key()).want(201).into(&job)
	options := "/api/v1/jobs/" + job.ID + "/options"
	d.send(http.MethodPost, options, map[string]any{"name": "Planks"}, d.key()).want(201).into(&option)
	d.send(http.MethodPut, options+"/"+option.ID+"/planks", planksOf(plankRow(5, "port", 14, 16)), firstPut).refused(409, "documents-missing")
}

// Planks may come along with the documents of a takeoff; what cannot be done is told at their row.
func TestPlanksThatComeAlong(t *testing.T) {
	d := open(t, file(t))
	papers := d.papers(0)
	papers["planking"], papers["planks"] = carvelled(12), planksOf(plankRow(5, "port", 14, 16))
	papers["remedies"] = map[string]any{"remedies": []any{}}
	var got plankTakeoff
	d.send(http.MethodPost, "/api/v1/takeoff", papers).want(200).into(&got)
	if len(got.boards()) != 1 || len(got.Planks) != 1 || len(got.Planks[0].Blocks) != 2 {
		t.Errorf("%+v", got)
	}
	papers["planks"] = planksOf(plankRow(4, "port", 14, 16), plankRow(5, "port", 12, 13), plankRow(5, "port", 15, 15))
	p := d.send(http.MethodPost, "/api/v1/takeoff", papers).refused(422, "takeoff-faults")
	if len(p.Errors) != 1 || p.Errors[0].Code != "plank_not_found" || p.Errors[0].Pointer != "/planks/planks/1" {
		t.Errorf("%+v", p.Errors)
	}
	papers["planks"] = planksOf(plankRow(40, "port", 14, 16))
	if got := d.send(http.MethodPost, "/api/v1/takeoff", papers).refused(422, "document-faults").pointers(); !slices.Equal(got, []string{"/planks/planks/0/strake"}) {
		t.Errorf("%v", got)
	}
}

// The demo's option of planks has no faults and prices for all of it, in boards that are for planks alone: one plank is scarfed, being longer than
// the stock, and the demo's quote is not over it.
func TestTheDemosPlanks(t *testing.T) {
	d := open(t, file(t))
	if len(d.demo.Planked) != 1 || len(d.demo.Options) != 2 {
		t.Fatalf("%v and %v", d.demo.Options, d.demo.Planked)
	}
	var got plankTakeoff
	d.get(d.job("options", d.demo.Planked[0], "takeoff")).want(200).into(&got)
	scarfed := false
	for _, l := range got.Lines {
		scarfed = scarfed || l.Pieces != nil && l.Pieces.Scarf.Counted == 1
	}
	if len(got.Faults) > 0 || len(got.Planks) != 3 || !scarfed {
		t.Errorf("%+v", got)
	}
	blocks, ends, hoods := 0, 0, 0
	for _, p := range got.Planks {
		blocks, ends, hoods = blocks+len(p.Blocks), ends+p.Ends, hoods+p.Hoods
	}
	screws := map[string]float64{}
	for _, l := range got.Lines {
		if l.Item == "screw_bronze_20x2_1_2" {
			screws[l.ID[strings.LastIndex(l.ID, "/")+1:]] += plainNumber(t, l.Net.Value)
		}
	}
	if blocks == 0 || hoods != 2 || ends < 2*blocks || screws["block_screws"] != float64(6*ends) || screws["hood_screws"] != float64(4*hoods) {
		t.Errorf("%d blocks, %d ends, %d hood ends, %v screws", blocks, ends, hoods, screws)
	}
	// Frames 12 to 18, 1 to 6 or so and 11 to 27: two screws at least on each of them.
	if screws["plank_screws"] < 2*20 || got.Fastened == nil || plainNumber(t, got.Fastened.Screws.Value) < screws["plank_screws"]+screws["hood_screws"] {
		t.Errorf("%v screws, %+v told", screws, got.Fastened)
	}
	for _, w := range got.Warnings {
		if strings.Contains(w.Code, "not_counted") {
			t.Errorf("told of %s", w.Code)
		}
	}
	for _, version := range []string{"1", "2"} {
		d.get(d.job("options", d.demo.Planked[0], "buy-list") + "?sheet=" + d.demo.Sheet + "&version=" + version).want(200)
	}
	_, revision := d.draft(d.demo.Planked...)
	d.send(http.MethodPost, revision+"/issue", nil, d.key(), seen(d.get(revision).etag())).want(200)
}

// The drawing of an option's planks marks those of a side that are renewed, says so in its description, and of the other side that none
// is; without a side, of an option that renews none or of a boat that nobody said how she is planked it is refused with what would do.
func TestTheDrawingOfPlanks(t *testing.T) {
	d := open(t, file(t))
	planked := d.job("options", d.demo.Planked[0])
	svg := d.get(planked + "/planks.svg?side=port").want(200)
	if got := svg.header.Get("Content-Disposition"); got != `inline; filename="planks-renewed-port.svg"` {
		t.Error(got)
	}
	for _, want := range []string{"Planks renewed on Wendeline, port side", "2 planks of them renewed: R1 strake 5, between frames", "R2 strake 10, forward hood end to", "renewed plank, marked as in the table", "Option “Three planks”."} {
		if !strings.Contains(string(svg.body), want) {
			t.Errorf("the drawing does not say %q", want)
		}
	}
	d.send(http.MethodPut, planked+"/planks", planksOf(plankRow(5, "port", 14, 16)), seen(d.get(planked+"/planks").etag())).want(200)
	if other := d.get(planked + "/planks.svg?side=starboard").want(200); !strings.Contains(string(other.body), "No plank of this side is renewed") {
		t.Errorf("%.600s", other.body)
	}
	job, option := d.unplanked()
	d.send(http.MethodPut, option+"/planks", planksOf(map[string]any{"strake": 4, "side": "port", "species": "white_oak", "grade": "FAS", "thickness": "0-1-2", "by_hand": map[string]any{"length": "6-0-0", "width": "0-5-0"}}), firstPut).want(201)
	for _, address := range []string{planked + "/planks.svg", planked + "/planks.svg?side=both", d.option(0, "planks.svg") + "?side=port", option + "/planks.svg?side=port"} {
		if p := d.get(address).refused(400, "malformed-request"); len(p.Errors) == 0 || p.Errors[0].Parameter != "side" || p.Errors[0].Fix == "" {
			t.Errorf("%s: %+v", address, p)
		}
	}
	d.send(http.MethodPut, job+"/planking", carvelled(12), firstPut).want(201)
	if beside := d.get(option + "/planks.svg?side=port").want(200); !strings.Contains(string(beside.body), "is renewed by tape and is not drawn") {
		t.Errorf("%.600s", beside.body)
	}
	bare := d.send(http.MethodPost, d.job("options"), map[string]any{"name": "Nothing yet"}, d.key()).want(201).header.Get("Location")
	d.get(bare+"/planks.svg?side=port").refused(409, "documents-missing")
}
