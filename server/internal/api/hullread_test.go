package api_test

import (
	"net/http"
	"strings"
	"testing"
)

const wideTable = `Offsets as they were taken off
units: ft-in-8ths
line,0,1,2
x,0-0-0,4-0-0,8-0-0
rabbet_height,0-6-0,0-6-0,0-6-0
rabbet_half_breadth,0-2-4,0-2-4,0-2-4
wl:1-0-0,1-10-0,1-10-0,1-10-0
wl:1-6-0,2-8-4,2-8-4,2-8-4
wl:2-0-0,3-1-0,,3-1-0
wl:3-0-0,3-4-6,3-4-6,3-4-6
sheer_height,4-0-0,4-0-0,4-0-0
sheer_half_breadth,3-6-0,3-6-0,3-6-0
`

// A wide table is put, read back wide and long, and both put again are the same document.
func TestOffsetsInWideLayout(t *testing.T) {
	d := open(t, file(t))
	job := d.newJob()
	put := d.send(http.MethodPut, job+"/hull"+asWritten, []byte(wideTable), asCSV, firstPut).want(201)
	for _, layout := range []string{"", "?layout=long", "?layout=wide"} {
		table := d.send(http.MethodGet, job+"/hull"+layout, nil, wantCSV).want(200)
		head, want := strings.SplitN(string(table.body), "\n", 2)[0], "station_no,x,side,line,value"
		if layout == "?layout=wide" {
			want = "line,side,0,1,2"
		}
		if head != want {
			t.Errorf("%s: header %q", layout, head)
		}
		again := d.send(http.MethodPut, d.newJob()+"/hull"+asWritten, table.body, asCSV, firstPut).want(201)
		if string(again.body) != string(put.body) {
			t.Errorf("%s: %s", layout, again.body)
		}
	}
	d.get(job+"/hull?layout=tall").refused(400, "malformed-request")
}

// A table with faults is answered with its good cells and, apart, the bad ones; with those written anew it can be put.
func TestATableToBeCorrected(t *testing.T) {
	d := open(t, file(t))
	var got struct {
		Document map[string]any
		Bad      []struct{ Pointer, Text, Cell string } `json:"bad_cells"`
		Faults   []struct{ Row, Column int }
	}
	bad := strings.Replace(wideTable, "wl:1-0-0,1-10-0,1-10-0", "wl:1-0-0,1-10-0,110", 1)
	d.send(http.MethodPost, "/api/v1/hull/read"+asWritten, []byte(bad), asCSV).want(200).into(&got)
	if len(got.Bad) != 1 || got.Bad[0].Text != "110" || got.Bad[0].Pointer != "/stations/1/sides/0/waterlines/0/half_breadth" || len(got.Faults) != 1 || got.Faults[0].Row != 7 || got.Faults[0].Column != 3 {
		t.Fatalf("%+v", got)
	}
	sides := got.Document["stations"].([]any)[1].(map[string]any)["sides"].([]any)[0].(map[string]any)
	sides["waterlines"].([]any)[0].(map[string]any)["half_breadth"] = "1-10-0"
	d.send(http.MethodPut, d.newJob()+"/hull", got.Document, firstPut).want(201)
	d.send(http.MethodPost, "/api/v1/hull/read"+asWritten, []byte("frame,girth\n"), asCSV).want(200).into(&got)
	if len(got.Faults) != 1 || len(got.Document["stations"].([]any)) != 0 {
		t.Errorf("%+v", got)
	}
	d.send(http.MethodPost, "/api/v1/hull/read"+asWritten, map[string]any{}).refused(415, "unsupported-media-type")
	d.send(http.MethodPost, "/api/v1/hull/read?layout=wide", []byte(bad), asCSV).refused(400, "malformed-request")
}
