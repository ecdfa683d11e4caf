package api_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"ribband/seed"
)

// newJob is the address of a job without documents.
func (d *desk) newJob() string {
	d.t.Helper()
	return d.send(http.MethodPost, "/api/v1/jobs", jobFields(), d.key()).want(201).header.Get("Location")
}

const asWritten = "?notation=feet_inches_eighths&grain=0-0-1&surface=inside"

// Where nobody says what offsets were written to, the assumption is written down and told: in the answer, in the table
// as it is kept, and beside what rests on it.
func TestAnAssumedGrainIsTold(t *testing.T) {
	d := open(t, file(t))
	type grained struct {
		Grain   string
		Assumed bool `json:"grain_assumed"`
	}
	for _, c := range []struct {
		query string
		want  grained
	}{{asWritten, grained{"0-0-1", false}}, {"?notation=feet_inches_eighths&surface=inside", grained{"0-0-1", true}}, {"?notation=feet_inches_eighths&surface=inside&grain=0-0-4", grained{"0-0-4", false}}} {
		job := d.newJob()
		put := d.send(http.MethodPut, job+"/hull"+c.query, seed.OffsetsCSV(), asCSV, firstPut).want(201)
		read := d.get(job + "/hull").want(200)
		again := d.send(http.MethodPut, job+"/hull", read.body, seen(read.etag())).want(200)
		for what, a := range map[string]answer{"the answer": put, "the table": read, "the table put again": again, "the measures": d.get(job + "/hull/measures").want(200)} {
			var got grained
			if a.into(&got); got != c.want {
				t.Errorf("%s: %s says %+v, want %+v", c.query, what, got, c.want)
			}
		}
		twin := map[string]any{"hull": read.object()}
		var got grained
		if d.send(http.MethodPost, "/api/v1/hull/measure", twin).want(200).into(&got); got != c.want {
			t.Errorf("%s: the twin says %+v", c.query, got)
		}
	}
}

// A table put as CSV and the same as JSON are one document, and come back as they were put.
func TestOffsetsAsTableAndAsJSON(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		job := d.newJob()
		d.get(job+"/hull").refused(404, "not-found")
		d.get(job+"/hull/measures").refused(409, "documents-missing")
		first := d.send(http.MethodPut, job+"/hull"+asWritten, seed.OffsetsCSV(), asCSV, firstPut).want(201)
		d.send(http.MethodPut, job+"/hull"+asWritten, seed.OffsetsCSV(), asCSV, firstPut).refused(412, "version-stale")
		second := d.send(http.MethodPut, job+"/hull", first.body, seen(first.etag())).want(200)
		if !bytes.Equal(first.body, second.body) || second.etag() != `"2"` {
			t.Errorf("the JSON of the table put again is version %s and differs", second.etag())
		}
		table := d.get(job+"/hull", wantCSV).want(200)
		third := d.send(http.MethodPut, job+"/hull"+asWritten, table.body, asCSV, seen(second.etag())).want(200)
		if !bytes.Equal(third.body, first.body) {
			t.Error("the table that was read is not the one that was put")
		}
		if a, b := d.get(job+"/hull/measures").want(200), d.get(d.job("hull", "measures")).want(200); a.status != b.status {
			t.Error("the measures differ")
		}
		d.send(http.MethodPut, job+"/hull?notation=mm", first.body, seen(third.etag())).refused(400, "malformed-request")
	})
}

// table is a small hull in millimetres that is taken: three stations of six points, both sides alike.
func table() []string {
	rows := []string{"station_no,x,side,line,value"}
	for no := range 3 {
		for _, cell := range []string{"rabbet_height,100", "rabbet_half_breadth,30", "wl:300,250", "wl:500,420", "wl:700,520", "wl:900,570",
			"sheer_height,1200", "sheer_half_breadth,600"} {
			rows = append(rows, fmt.Sprintf("%d,%d,both,%s", no, no*1000, cell))
		}
	}
	return rows
}

// The measures say which face of the plank was measured, and name the marks that its thickness lays across the
// centreline; there is none where the inside was measured.
func TestTheMeasuredFaceIsTold(t *testing.T) {
	d := open(t, file(t))
	for face, marks := range map[string]int{"inside": 0, "outside": 3} {
		job := d.newJob()
		rows := append(table(), ",,,plank_thickness,60")
		d.send(http.MethodPut, job+"/hull?notation=mm&grain=0&surface="+face, strings.Join(rows, "\n"), asCSV, firstPut).want(201)
		var got struct {
			Measured string `json:"measured_surface"`
			Warnings []struct{ Code, Detail string }
		}
		d.get(job + "/hull/measures").want(200).into(&got)
		if got.Measured != face || len(got.Warnings) != marks {
			t.Errorf("%s: %+v", face, got)
		}
		for no, w := range got.Warnings {
			if w.Code != "mark_across_centreline" || !strings.HasPrefix(w.Detail, fmt.Sprintf("Station %d both sides, rabbet: ", no)) {
				t.Errorf("%+v", w)
			}
		}
	}
}

// The measures say where a table was read worse than it was written, and how well each station's bend is shown.
func TestATableReadWorseIsToldWithItsMeasures(t *testing.T) {
	d := open(t, file(t))
	for grain, worse := range map[string]int{"0-0-1": 0, "0-0-0+": 1} { // in eighths, so a sixteenth is too fine a claim
		job := d.newJob()
		d.send(http.MethodPut, job+"/hull?notation=feet_inches_eighths&grain="+url.QueryEscape(grain)+"&surface=inside", seed.OffsetsCSV(), asCSV, firstPut).want(201)
		var got struct {
			Warnings []struct{ Code string }
			Stations []struct {
				Sharp        *bool
				OneMorePoint *struct {
					AtMM float64 `json:"at_mm"`
				} `json:"one_more_point"`
			}
		}
		d.get(job + "/hull/measures").want(200).into(&got)
		if len(got.Warnings) != worse || worse == 1 && got.Warnings[0].Code != "table_read_worse" {
			t.Errorf("grain %s: %+v", grain, got.Warnings)
		}
		asked := 0
		for _, s := range got.Stations {
			if s.Sharp == nil {
				t.Error("a station does not say whether it is sharp")
			}
			if s.OneMorePoint != nil && s.OneMorePoint.AtMM > 0 {
				asked++
			}
		}
		if asked == 0 {
			t.Error("no station says where one more point would help")
		}
	}
}

// Frames tell of themselves what stations do, and between what the greatest bevel and the moulding it asks for lie.
func TestFramesTellHowWellTheyAreKnown(t *testing.T) {
	d := open(t, file(t))
	var got struct {
		Frames []struct {
			RestsOn  string `json:"rests_on"`
			Straight bool
			Sharp    *bool
			Tightest *float64 `json:"tightest_radius_low_mm"`
			Least    *float64 `json:"least_radius_low_mm"`
			Bend     string   `json:"tightest_bend"`
			More     *struct {
				StationNo *int `json:"station_no"`
				Side      string
			} `json:"one_more_point"`
			Bevel     *float64 `json:"greatest_bevel_deg"`
			BevelLow  *float64 `json:"greatest_bevel_low_deg"`
			BevelHigh *float64 `json:"greatest_bevel_high_deg"`
			Extra     *float64 `json:"extra_moulding_mm"`
			ExtraLow  *float64 `json:"extra_moulding_low_mm"`
			ExtraHigh *float64 `json:"extra_moulding_high_mm"`
		}
	}
	d.get(d.job("hull", "measures")).want(200).into(&got)
	asked := 0
	for i, f := range got.Frames {
		if f.RestsOn != "stations" || f.Sharp == nil || f.Bevel == nil {
			t.Fatalf("frame %d: %+v", i, f)
		}
		if f.BevelLow == nil || f.BevelHigh == nil || *f.BevelLow > *f.Bevel || *f.BevelHigh < *f.Bevel {
			t.Errorf("frame %d: the bevel's range: %+v", i, f)
		}
		if f.ExtraLow == nil || f.ExtraHigh == nil || *f.ExtraLow > *f.Extra || *f.ExtraHigh < *f.Extra {
			t.Errorf("frame %d: the moulding's range: %+v", i, f)
		}
		if !f.Straight && (f.Tightest == nil || f.Bend == "bilge" && *f.Tightest >= *f.Least) {
			t.Errorf("frame %d: the tightest laminate: %+v", i, f)
		}
		if f.More != nil {
			asked++
			if f.More.StationNo == nil || f.More.Side == "" {
				t.Errorf("frame %d: %+v", i, f.More)
			}
		}
	}
	if len(got.Frames) == 0 || asked == 0 {
		t.Errorf("%d frames, of which %d say where one more point would help", len(got.Frames), asked)
	}
}

// What no hull is made of: each is refused at its row, with a fix, and nothing of it is stored.
func TestBadTablesOfOffsets(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		job := d.newJob()
		query := "?notation=mm&grain=0&surface=inside"
		change := func(row int, text string) func([]string) []string {
			return func(rows []string) []string { rows[row-1] = text; return rows }
		}
		cases := []struct {
			name string
			edit func([]string) []string
			row  int // a fault has to be at this row; 0 for any place
		}{
			{"not a number", change(5, "0,0,both,wl:500,NaN"), 5},
			{"an exponent", change(5, "0,0,both,wl:500,1e1000000"), 5},
			{"a hundred thousand digits", change(5, "0,0,both,wl:500,"+strings.Repeat("9", 100_000)), 5},
			{"NUL", change(5, "0,0,both,wl:500,4\x0020"), 5},
			{"below the centreline", change(5, "0,0,both,wl:500,-420"), 5},
			{"a cell twice", change(6, "0,0,both,wl:500,420"), 6},
			{"an unknown line", change(5, "0,0,both,keel:500,420"), 5},
			{"a diagonal", change(5, "0,0,both,diagonal:A,420"), 5},
			{"an unknown side", change(5, "0,0,left,wl:500,420"), 5},
			{"another notation", change(5, "0,0,both,wl:500,1-4-4"), 5},
			{"crossing points", change(5, "0,0,both,wl:1500,420"), 0},
			{"two stations", func(rows []string) []string { return rows[:17] }, 0},
			{"a station in two places", change(5, "0,50,both,wl:500,420"), 5},
			{"stations out of order", func(rows []string) []string {
				for i := 9; i < 17; i++ {
					rows[i] = strings.Replace(rows[i], "1,1000,", "1,5000,", 1)
				}
				return rows
			}, 0},
			{"the wide layout", func([]string) []string { return []string{"line,0,1,2", "x,0,1000,2000", "wl:500,1,2,3"} }, 1},
			{"another header", change(1, "a,b,c"), 1},
			{"empty", func([]string) []string { return nil }, 0},
		}
		d.send(http.MethodPut, job+"/hull"+query, strings.Join(table(), "\n"), asCSV, firstPut).want(201)
		before := d.rows()
		for _, c := range cases {
			t.Run(c.name, func(t *testing.T) {
				body := strings.Join(c.edit(table()), "\n")
				p := d.on(t).send(http.MethodPut, job+"/hull"+query, body, asCSV, seen(`"1"`)).refused(422, "document-faults")
				if len(p.Errors) == 0 {
					t.Fatal("no fault is told")
				}
				found := c.row == 0
				for _, e := range p.Errors {
					found = found || e.Row == c.row
					if e.Detail == "" || e.Fix == "" {
						t.Errorf("a fault without detail or fix: %+v", e)
					}
					if len(e.Detail) > 400 {
						t.Errorf("a detail of %d characters: %.80s…", len(e.Detail), e.Detail)
					}
				}
				if !found {
					t.Errorf("no fault at row %d: %+v", c.row, p.Errors)
				}
			})
		}
		if after := d.rows(); !equal(before, after) {
			t.Errorf("something was stored: %v, then %v", before, after)
		}
	})
}

// Faults planted in five places are told in five places.
func TestEveryFaultOfATableIsTold(t *testing.T) {
	d := open(t, file(t))
	rows := table()
	rows[4], rows[6], rows[12], rows[14], rows[20] = "0,0,both,wl:500,NaN", "0,0,both,wl:900,x", "1,1000,left,wl:500,420", "1,1000,both,wl:900,-1", "2,2000,both,wl:,420"
	p := d.send(http.MethodPut, d.newJob()+"/hull?notation=mm&surface=inside", strings.Join(rows, "\n"), asCSV, firstPut).refused(422, "document-faults")
	at := map[int]bool{}
	for _, e := range p.Errors {
		at[e.Row] = true
	}
	for _, row := range []int{5, 7, 13, 15, 21} {
		if !at[row] {
			t.Errorf("the fault of row %d is not told: %+v", row, p.Errors)
		}
	}
}

func TestBadOffsetsInJSON(t *testing.T) {
	d := open(t, file(t))
	job := d.newJob()
	good := d.document(d.job("hull"))
	before := d.rows()
	for _, c := range []struct{ name, from, to string }{
		{"a number where a text stands", `"x":"0-0-0"`, `"x":0`},
		{"a huge station number", `"no":0`, `"no":1e1000000`},
		{"a station number of a hundred thousand digits", `"no":0`, `"no":1` + strings.Repeat("0", 100_000)},
		{"a fraction of a station", `"no":0`, `"no":0.5`},
		{"a duplicate station", `"no":1,`, `"no":0,`},
		{"no surface", `"surface":"inside",`, ``},
		{"outside of plank", `"surface":"inside"`, `"surface":"outside"`},
		{"no such notation", `"notation":"feet_inches_eighths"`, `"notation":"cubits"`},
		{"no such side", `"side":"port"`, `"side":"larboard"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			bad := strings.Replace(string(good), c.from, c.to, 1)
			if bad == string(good) {
				t.Fatalf("%s is not in the document", c.from)
			}
			p := d.on(t).send(http.MethodPut, job+"/hull", bad, firstPut).refused(422, "document-faults")
			for _, e := range p.Errors {
				if e.Pointer == "" || e.Fix == "" || len(e.Detail) > 400 {
					t.Errorf("fault %+v", e)
				}
			}
		})
	}
	if after := d.rows(); !equal(before, after) {
		t.Errorf("something was stored: %v, then %v", before, after)
	}
}

// The twin answers as the stored route does, and keeps nothing.
func TestMeasuresOfAHullThatComesAlong(t *testing.T) {
	d := open(t, file(t))
	body := map[string]json.RawMessage{"hull": d.document(d.job("hull")), "frames": d.document(d.job("frames"))}
	before := d.rows()
	got := d.send(http.MethodPost, "/api/v1/hull/measure", body).want(200)
	if want := d.get(d.job("hull", "measures")).want(200); !bytes.Equal(got.body, want.body) {
		t.Error("the twin's measures are not the stored route's")
	}
	var m struct {
		Stations []json.RawMessage
		Frames   []struct {
			Member struct{ Side string }
		}
	}
	got.into(&m)
	if len(m.Stations) != 2*13 || len(m.Frames) != 2*34 {
		t.Errorf("%d stations and %d frames, want 26 and 68", len(m.Stations), len(m.Frames))
	}
	bad := map[string]any{"hull": map[string]any{"notation": "cubits", "surface": "inside", "stations": []any{}}, "frames": map[string]any{"notation": "mm", "moulding_face": "up"}}
	p := d.send(http.MethodPost, "/api/v1/hull/measure", bad).refused(422, "document-faults")
	if got := strings.Join(p.pointers(), " "); !strings.Contains(got, "/hull/notation") || !strings.Contains(got, "/frames") {
		t.Errorf("faults at %s", got)
	}
	if after := d.rows(); !equal(before, after) {
		t.Errorf("something was stored: %v, then %v", before, after)
	}
}
