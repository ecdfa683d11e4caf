package api_test

import (
	"net/http"
	"strings"
	"testing"

	"ribband/seed"
)

// A figure misread by an inch heads the list of the measures, at both addresses;
// the figure itself stays as written.
func TestAnOffsetOutOfLineIsTold(t *testing.T) {
	type judged struct {
		Fairness *struct {
			Judged    int
			OutOfLine int `json:"out_of_line"`
			Worst     []struct {
				StationNo int `json:"station_no"`
				Side, Cell, Where, Written, Fair, Way,
				Pointer string
				OutOfLine bool `json:"out_of_line"`
			}
		}
	}
	d := open(t, file(t))
	// The invented boat is fair, also beside the rabbet at the station next to her last, where her waterlines run out.
	var clean judged
	d.get(d.job("hull", "measures")).want(200).into(&clean)
	if f := clean.Fairness; f == nil || f.Judged < 100 || f.OutOfLine > 0 || len(f.Worst) != 20 {
		t.Fatalf("the boat as she is: %+v", f)
	}
	rows := strings.Split(string(seed.OffsetsCSV()), "\n")
	changed := -1
	for i, row := range rows {
		if strings.HasPrefix(row, "3,") && strings.Contains(row, "port,wl:4-0-0") {
			changed = i
		}
	}
	if changed < 0 {
		t.Fatal("the boat has no waterline at station 3 port")
	}
	cells := strings.Split(strings.TrimSpace(rows[changed]), ",")
	was := cells[len(cells)-1]
	parts := strings.Split(was, "-")
	inch := map[string]string{"0": "1", "1": "2", "2": "3", "3": "4", "4": "5", "5": "6", "6": "7", "7": "8", "8": "9", "9": "10", "10": "11", "11": "10"}
	parts[1] = inch[parts[1]]
	cells[len(cells)-1] = strings.Join(parts, "-")
	rows[changed] = strings.Join(cells, ",")
	job := d.newJob()
	put := d.send(http.MethodPut, job+"/hull"+asWritten, strings.Join(rows, "\n"), asCSV, firstPut).want(201)
	for what, a := range map[string]answer{"the job": d.get(job + "/hull/measures").want(200),
		"the twin": d.send(http.MethodPost, "/api/v1/hull/measure", map[string]any{"hull": put.object()}).want(200)} {
		var got judged
		a.into(&got)
		if got.Fairness == nil || got.Fairness.OutOfLine < 1 {
			t.Fatalf("%s: %s", what, a.body)
		}
		w := got.Fairness.Worst[0]
		if w.StationNo != 3 || w.Side != "port" || w.Cell != cells[3] || w.Written != cells[len(cells)-1] || !w.OutOfLine ||
			!strings.HasPrefix(w.Where, "station 3 port, waterline ") || !strings.HasPrefix(w.Pointer, "/hull/stations/") || (w.Way != "out" && w.Way != "in") {
			t.Errorf("%s: %+v, written as %s", what, w, rows[changed])
		}
	}
	// The takeoff warns of it, and so does a draft; the boat as she was has neither.
	_, revision := d.draft(d.demo.Options...)
	takeoff := d.option(0, "takeoff")
	for _, at := range []string{takeoff, revision} {
		if got := d.get(at).want(200).body; strings.Contains(string(got), "offset_out_of_line") {
			t.Errorf("%s warns of a fair boat", at)
		}
	}
	d.send(http.MethodPut, d.job("hull")+asWritten, strings.Join(rows, "\n"), asCSV, seen(`"1"`)).want(200)
	_, revision = d.draft(d.demo.Options...)
	for _, at := range []string{takeoff, revision} {
		var got struct {
			Warnings []struct{ Code, Detail, Fix string }
		}
		d.get(at).want(200).into(&got)
		n := 0
		for _, w := range got.Warnings {
			if w.Code == "offset_out_of_line" {
				n++
				if want := "Station 3 port, waterline 4-0-0: written " + cells[len(cells)-1] + "; "; !strings.HasPrefix(w.Detail, want) || !strings.HasSuffix(w.Detail, " would be fair.") || w.Fix == "" {
					t.Errorf("%s: %+v", at, w)
				}
			}
		}
		if n != 1 {
			t.Errorf("%s warns of %d offsets: %+v", at, n, got.Warnings)
		}
	}
}
