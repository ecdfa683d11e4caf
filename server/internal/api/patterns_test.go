package api_test

import (
	"encoding/json"
	"math"
	"net/http"
	"strings"
	"testing"

	"ribband/server/internal/auth"
)

// onePattern is the pattern of one frame of the demo's boat, a fair section of six points.
func onePattern(frame int) map[string]any {
	points := []any{}
	for i, p := range [][2]string{{"0-2-3", "1-3-6"}, {"0-11-4", "1-7-5"}, {"1-6-1", "2-3-4"}, {"2-0-5", "3-3-3"}, {"2-5-5", "4-3-1"}, {"2-9-7", "5-3-0"}} {
		points = append(points, map[string]any{"n": i + 1, "y": p[0], "z": p[1]})
	}
	return map[string]any{
		"notation": "feet_inches_eighths", "grain": "0-0-1", "surface": "inside",
		"patterns": []any{map[string]any{"frame_no": frame, "side": "port", "points": points}},
	}
}

// putPattern gives the demo's job a first pattern where it has none.
func (d *desk) putPattern() {
	d.t.Helper()
	d = d.role(auth.Lead)
	if d.get(d.job("patterns")).status == http.StatusNotFound {
		d.send(http.MethodPut, d.job("patterns"), onePattern(12), firstPut).want(201)
	}
}

// A pattern goes before the lines, and is named in what the takeoff rests on.
func TestAPatternGoesBeforeTheLines(t *testing.T) {
	engines(t, func(t *testing.T, at place) {
		d := open(t, at)
		before := takeoffOf(d)
		d.send(http.MethodPut, d.job("patterns"), onePattern(12), firstPut).want(201)
		after := takeoffOf(d)
		if len(after.Basis) != len(before.Basis)+1 || after.BasisHash == before.BasisHash {
			t.Errorf("the basis was %+v and is %+v", before.Basis, after.Basis)
		}
		for i, f := range after.Frames {
			want := "stations"
			if f.Member.No == 12 && f.Member.Side == "port" {
				want = "pattern"
				if f.Points != 6 {
					t.Errorf("it rests on %d points", f.Points)
				}
			} else if math.Abs(f.GirthMM-before.Frames[i].GirthMM) > 0 {
				t.Errorf("frame %d %s measures another girth", f.Member.No, f.Member.Side)
			}
			if f.RestsOn != want {
				t.Errorf("frame %d %s rests on %s", f.Member.No, f.Member.Side, f.RestsOn)
			}
		}
		// The same points as a table, and back.
		table := d.get(d.job("patterns"), wantCSV).want(200)
		d.send(http.MethodPut, d.job("patterns")+"?notation=feet_inches_eighths&grain=0-0-1&surface=inside", table.body, asCSV, seen(table.etag())).want(200)
		if again := takeoffOf(d); again.Frames[22].GirthMM != after.Frames[22].GirthMM {
			t.Errorf("the table gives %v, the document %v", again.Frames[22], after.Frames[22])
		}
		d.send(http.MethodPut, d.job("patterns")+"?notation=mm", onePattern(12), seen(`"2"`)).refused(400, "malformed-request")
		// A grain that nobody declared is written down as assumed, and stays so when the document is put again.
		undeclared := onePattern(12)
		delete(undeclared, "grain")
		put := d.send(http.MethodPut, d.job("patterns"), undeclared, seen(`"2"`)).want(200)
		for range 2 {
			if got := put.object(); got["grain"] != "0-0-1" || got["grain_assumed"] != true {
				t.Errorf("the grain is %v, assumed %v", got["grain"], got["grain_assumed"])
			}
			put = d.send(http.MethodPut, d.job("patterns"), put.body, seen(put.etag())).want(200)
		}
	})
}

// A pattern may say its own grain: it is kept in JSON and in the table, and makes the ranges of its frame alone narrower.
func TestAPatternSaysItsOwnGrain(t *testing.T) {
	d := open(t, file(t))
	both := onePattern(12)
	both["patterns"] = append(both["patterns"].([]any), onePattern(13)["patterns"].([]any)...)
	d.send(http.MethodPut, d.job("patterns"), both, firstPut).want(201)
	before := takeoffOf(d)
	both["patterns"].([]any)[0].(map[string]any)["grain"] = "0-0-0"
	d.send(http.MethodPut, d.job("patterns"), both, seen(`"1"`)).want(200)
	after := takeoffOf(d)
	for i, f := range after.Frames {
		was := before.Frames[i]
		finer := f.Member.No == 12 && f.Member.Side == "port"
		if now, then := f.GirthHighMM-f.GirthLowMM, was.GirthHighMM-was.GirthLowMM; finer != (now < then) || !finer && now != then {
			t.Errorf("frame %d %s: its girth was known to %v and is to %v", f.Member.No, f.Member.Side, then, now)
		}
	}
	table := d.get(d.job("patterns"), wantCSV).want(200)
	if text := string(table.body); !strings.HasPrefix(text, "frame_no,side,n,y,z,grain\n12,port,1,0-2-3,1-3-6,0-0-0\n") || !strings.Contains(text, "\n13,port,1,0-2-3,1-3-6,\n") {
		t.Errorf("%q", text)
	}
	put := d.send(http.MethodPut, d.job("patterns")+"?notation=feet_inches_eighths&grain=0-0-1&surface=inside", table.body, asCSV, seen(table.etag())).want(200).object()
	if of := put["patterns"].([]any); of[0].(map[string]any)["grain"] != "0-0-0" || of[1].(map[string]any)["grain"] != nil {
		t.Errorf("%v", of)
	}
}

// What is wrong with patterns is told by frame, side and point, and nothing of them is kept.
func TestBadPatterns(t *testing.T) {
	d := open(t, file(t))
	job := d.newJob()
	rows := d.rows()
	query := job + "/patterns?notation=mm&grain=1&surface=inside"
	table := "frame_no,side,n,y,z\n3,port,1,60,400\n3,port,2,2i0,500\n3,mid,3,410,700\n"
	p := d.send(http.MethodPut, query, table, asCSV, firstPut).refused(422, "document-faults")
	var found []string
	for _, e := range p.Errors {
		if e.Row == 3 && e.Column == 4 || e.Row == 4 && e.Column == 2 {
			found = append(found, e.Fix)
		}
	}
	if len(found) != 2 {
		t.Errorf("faults %+v", p.Errors)
	}
	few := onePattern(3)
	of := few["patterns"].([]any)[0].(map[string]any)
	of["points"] = of["points"].([]any)[:3]
	if p := d.send(http.MethodPut, job+"/patterns", few, firstPut).refused(422, "document-faults"); !strings.Contains(p.Errors[0].Detail, "rame 3 port") {
		t.Errorf("faults %+v", p.Errors)
	}
	d.send(http.MethodPut, job+"/patterns", "frame_no", firstPut, header{"Content-Type", "text/plain"}).refused(415, "unsupported-media-type")
	if after := d.rows(); !equal(rows, after) {
		t.Errorf("something was stored: %v, then %v", rows, after)
	}
}

// A boat of taped frames alone, without any lines, is measured and taken off.
func TestABoatOfTapedFrames(t *testing.T) {
	d := open(t, file(t))
	tape := map[string]any{"girth": "1900", "chord": "600", "rise": "20"}
	frames := map[string]any{
		"notation": "mm", "moulding_face": "aft", "grain": "3",
		"spacing": map[string]any{"first_no": 1, "count": 2, "first_x": "300", "spacing": "300", "siding": "44", "moulded": "73"},
		"frames":  []any{map[string]any{"no": 1, "side": "both", "tape": tape}, map[string]any{"no": 2, "side": "both", "tape": tape}},
	}
	var m struct {
		Stations []json.RawMessage
		Frames   []struct {
			RestsOn       string  `json:"rests_on"`
			GirthMM       float64 `json:"girth_mm"`
			LeastRadiusMM float64 `json:"least_radius_mm"`
		}
	}
	d.send(http.MethodPost, "/api/v1/hull/measure", map[string]any{"frames": frames}).want(200).into(&m)
	if len(m.Stations) != 0 || len(m.Frames) != 4 || m.Frames[0].RestsOn != "tape" || m.Frames[0].GirthMM != 1900 || m.Frames[0].LeastRadiusMM != 600*600/160.+10 {
		t.Errorf("measures %+v", m)
	}
	papers := d.papers(0)
	delete(papers, "hull")
	papers["frames"] = frames
	papers["remedies"] = map[string]any{"remedies": []any{map[string]any{
		"member": map[string]any{"kind": "frame", "no": 1, "side": "both"}, "remedy": "replace_laminated", "species": "white_oak", "grade": "FAS"}}}
	got := d.send(http.MethodPost, "/api/v1/takeoff", papers).want(200)
	if !strings.Contains(string(got.body), "bevel") {
		t.Error("it is not told that bevels cannot be known")
	}
	// As documents of a job: no hull is asked for.
	job := d.newJob()
	d.get(job+"/hull/measures").refused(409, "documents-missing")
	d.send(http.MethodPut, job+"/frames", frames, firstPut).want(201)
	d.get(job + "/hull/measures").want(200).into(&m)
	if len(m.Frames) != 4 {
		t.Errorf("measures %+v", m)
	}
	// A frame with neither lines, pattern nor tape is named with what would do.
	delete(frames, "frames")
	p := d.send(http.MethodPost, "/api/v1/hull/measure", map[string]any{"frames": frames}).refused(422, "document-faults")
	if len(p.Errors) != 4 || !strings.Contains(p.Errors[0].Fix, "tape") {
		t.Errorf("faults %+v", p.Errors)
	}
	// A girth shorter than its chord.
	tape["girth"] = "500"
	frames["frames"] = []any{map[string]any{"no": 1, "side": "port", "tape": tape}}
	p = d.send(http.MethodPost, "/api/v1/hull/measure", map[string]any{"frames": frames}).refused(422, "document-faults")
	if !strings.HasPrefix(p.Errors[0].Pointer, "/frames/frames/0/tape") {
		t.Errorf("faults %+v", p.Errors)
	}
}

// A pattern that misses the lines is told of where the hull is measured, with the point that lies farthest off them.
func TestAPatternOffTheLinesIsToldOfInTheMeasures(t *testing.T) {
	d := open(t, file(t))
	d.send(http.MethodPut, d.job("patterns"), onePattern(12), firstPut).want(201) // a foot inside of the demo's lines
	var m struct {
		Warnings []struct {
			Code, Detail string
			Member       *struct{ No int }
		}
	}
	d.get(d.job("hull", "measures")).want(200).into(&m)
	told := 0
	for _, w := range m.Warnings {
		if w.Code == "pattern_off_lines" && w.Member.No == 12 && strings.Contains(w.Detail, "number 5 from the heel") {
			told++
		}
	}
	if told != 1 {
		t.Errorf("warnings %+v", m.Warnings)
	}
}

// A draft that was made before a pattern came in is not issued on what it no longer rests on.
func TestAPatternThatComesInMovesADraft(t *testing.T) {
	d := open(t, file(t))
	_, revision := d.draft(d.demo.Options[0])
	d.putPattern()
	p := d.send(http.MethodPost, revision+"/issue", nil, d.key()).refused(412, "basis-moved")
	if len(p.Moved) != 1 || p.Moved[0].Kind != "patterns" || p.Moved[0].Was != 0 || p.Moved[0].Is != 1 {
		t.Errorf("moved %+v", p.Moved)
	}
}

// takenOff is what these tests read of a takeoff.
type takenOff struct {
	Basis     []map[string]any `json:"basis"`
	BasisHash string           `json:"basis_hash"`
	Frames    []struct {
		Member struct {
			No   int
			Side string
		}
		RestsOn     string  `json:"rests_on"`
		Points      int     `json:"points"`
		GirthMM     float64 `json:"girth_mm"`
		GirthLowMM  float64 `json:"girth_low_mm"`
		GirthHighMM float64 `json:"girth_high_mm"`
	} `json:"frames"`
}

func takeoffOf(d *desk) (out takenOff) {
	d.t.Helper()
	d.get(d.option(0, "takeoff")).want(200).into(&out)
	return out
}

const patternTable = "frame_no,side,n,y,z\n12,port,1,0-2-3,1-3-6\n12,port,2,0-11-4,1-7-5\n12,port,3,1-6-1,2-3-4\n12,port,4,2-0-5,3-3-3\n12,port,5,2-5-5,4-3-1\n12,port,6,2-9-7,5-3-0\n"

// A table of points with faults is answered with its good cells and, apart, the bad ones; with those written anew it can be
// put, and until then nothing is kept.
func TestATableOfPatternsToBeCorrected(t *testing.T) {
	const query = "?notation=feet_inches_eighths&surface=inside"
	d := open(t, file(t))
	rows := d.rows()
	var got struct {
		Document map[string]any
		Bad      []struct{ Pointer, Frame, Side, N, Cell, Text string } `json:"bad_cells"`
		Loose    []struct {
			Row   int
			Cells []string
		} `json:"loose_rows"`
		Faults []struct {
			Row, Column int
			Fix         string
		}
	}
	bad := strings.NewReplacer("1-6-1", "161", "12,port,6", "12,,6").Replace(patternTable)
	d.send(http.MethodPost, "/api/v1/patterns/read"+query, []byte(bad), asCSV).want(200).into(&got)
	if len(got.Bad) != 2 || got.Bad[0].Cell != "side" || got.Bad[1].Pointer != "/patterns/0/points/2/y" || got.Bad[1].Text != "161" ||
		len(got.Loose) != 1 || got.Loose[0].Row != 7 || strings.Join(got.Loose[0].Cells, " ") != "12  6 2-9-7 5-3-0" ||
		len(got.Faults) != 2 || got.Faults[0].Row != 7 || got.Faults[0].Column != 2 || got.Faults[1].Row != 4 || got.Faults[1].Column != 4 || got.Faults[1].Fix == "" {
		t.Fatalf("%+v", got)
	}
	if after := d.rows(); !equal(rows, after) {
		t.Errorf("something was stored: %v, then %v", rows, after)
	}
	points := got.Document["patterns"].([]any)[0].(map[string]any)["points"].([]any)
	points[2].(map[string]any)["y"] = "1-6-1"
	d.send(http.MethodPut, d.newJob()+"/patterns", got.Document, firstPut).want(201)
	// A sound one says the grain that is assumed, and nothing is wrong.
	sound := d.send(http.MethodPost, "/api/v1/patterns/read"+query, []byte(patternTable), asCSV).want(200).object()
	if doc := sound["document"].(map[string]any); doc["grain"] != "0-0-1" || doc["grain_assumed"] != true || len(sound["faults"].([]any)) != 0 {
		t.Errorf("%v", sound)
	}
	d.send(http.MethodPost, "/api/v1/patterns/read"+query, []byte("frame,girth\n"), asCSV).want(200).into(&got)
	if len(got.Faults) == 0 || len(got.Document["patterns"].([]any)) != 0 {
		t.Errorf("%+v", got)
	}
	d.send(http.MethodPost, "/api/v1/patterns/read", map[string]any{}).refused(415, "unsupported-media-type")
	d.send(http.MethodPost, "/api/v1/patterns/read?layout=wide", []byte(bad), asCSV).refused(400, "malformed-request")
}
