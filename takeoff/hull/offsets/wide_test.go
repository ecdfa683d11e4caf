package offsets_test

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// furnished is the sound boat with everything that a table can hold, its sides apart at one station.
func furnished() *offsets.Document {
	doc := sound()
	doc.Surface, doc.PlankThickness = offsets.Outside, "0-0-7"
	doc.Diagonals = []offsets.DiagonalPlane{{Name: "A", Height: "4-0-0", AngleDeg: "45"}}
	doc.Stem = []offsets.ProfileOffsets{{Height: "1-0-0", X: "0-0-0"}, {Height: "4-0-0", X: "-0-6-0"}}
	doc.Transom = []offsets.ProfileOffsets{{Height: "2-0-0", X: "8-0-0"}, {Height: "4-0-0", X: "8-3-0"}}
	doc.Stations[1].PlankThickness = "0-1-0"
	for i := range doc.Stations {
		doc.Stations[i].Sides[0].Diagonals = []offsets.DiagonalOffsets{{Name: "A", Distance: "3-11-4"}}
	}
	port, starboard := doc.Stations[1].Sides[0], doc.Stations[1].Sides[0]
	port.Side, starboard.Side = boat.Port, boat.Starboard
	starboard.Waterlines = starboard.Waterlines[1:]
	doc.Stations[1].Sides = []offsets.SideOffsets{port, starboard}
	return doc
}

var outsideEighths = offsets.Written{Notation: notation.FeetInchesEighths, Grain: "0-0-1", Surface: offsets.Outside}

func wide(t testing.TB, doc *offsets.Document) string {
	t.Helper()
	var b bytes.Buffer
	if err := offsets.WriteWide(&b, doc); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// transposed turns a table that is written with lines down to one with stations down: a row for each side, where the
// side is a column of its own.
func transposed(t testing.TB, table string) string {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(table)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	seen := map[string]bool{}
	cell := map[[3]string]string{}
	xs := map[string]string{}
	for _, r := range rows[1:] {
		if r[0] != "x" && !seen[r[0]] {
			seen[r[0]] = true
			lines = append(lines, r[0])
		}
		for i, no := range rows[0][2:] {
			if r[0] == "x" {
				xs[no] = r[2+i]
			} else {
				cell[[3]string{r[0], r[1], no}] = r[2+i]
			}
		}
	}
	out := [][]string{append([]string{"station_no", "x", "side"}, lines...)}
	for _, no := range rows[0][2:] {
		for _, side := range []string{"both", "port", "starboard"} {
			row, any := []string{no, xs[no], side}, false
			for _, l := range lines {
				text := cell[[3]string{l, side, no}]
				if side == "both" && text == "" {
					text = cell[[3]string{l, "", no}]
				}
				row, any = append(row, text), any || text != ""
			}
			if any {
				out = append(out, row)
			}
		}
	}
	var b strings.Builder
	if err := csv.NewWriter(&b).WriteAll(out); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// Everything that a table can hold goes into each layout and comes back the same.
func TestLayoutsHoldTheSame(t *testing.T) {
	doc := furnished()
	var b bytes.Buffer
	if err := offsets.WriteCSV(&b, doc); err != nil {
		t.Fatal(err)
	}
	table := wide(t, doc)
	paste := strings.ReplaceAll(table, ",", "\t")
	for name, text := range map[string]string{
		"long":                       b.String(),
		"lines down":                 table,
		"stations down":              transposed(t, table),
		"turned over":                sidesInARow(t, transposed(t, table)),
		"turned over, headed line":   strings.Replace(sidesInARow(t, transposed(t, table)), "station_no", "line", 1),
		"tabs":                       paste,
		"tabs and empty cells":       strings.ReplaceAll(paste, "\n", "\t\t\t\r\n\t\t\t\r\n"),
		"quoted":                     quoted(table),
		"a title, units, blank rows": "Offsets as taken off\n\nUnits: ft-in-8ths\n\n" + table,
		"units in heads":             strings.ReplaceAll(table, "rabbet_height,", "rabbet_height (ft-in-8ths),"),
		"semicolons":                 strings.ReplaceAll(table, ",", ";"),
		"capitals":                   strings.ReplaceAll(strings.ReplaceAll(table, "sheer_", "Sheer_"), "line,side", "Line,Side"),
	} {
		got, o, faults := offsets.ReadCSV([]byte(text), outsideEighths)
		if len(faults) > 0 {
			t.Errorf("%s: %v\n%s", name, faults, text)
			continue
		}
		if d := cmp.Diff(doc, got); d != "" {
			t.Errorf("%s: %s", name, d)
		}
		if o.Stations[1].Thickness.MM() != 25.4 || o.Stations[0].Thickness.MM() != 22.225 || len(o.Stem) != 2 {
			t.Errorf("%s: %+v", name, o)
		}
	}
	if first, _, _ := strings.Cut(table, "\n"); first != "line,side,0,1,2" {
		t.Errorf("header %q", first)
	}
}

// Without a column of sides a wide table is of both sides; an empty cell was not measured.
func TestWideWithoutSides(t *testing.T) {
	table := "line,0,1,2\nx,0-0-0,4-0-0,8-0-0\nrabbet_height,0-6-0,0-6-0,0-6-0\nrabbet_half_breadth,0-2-4,0-2-4,0-2-4\n" +
		"wl:1-0-0,1-10-0,,1-10-0\nwl:1-6-0,2-8-4,2-8-4,2-8-4\nwl:2-0-0,3-1-0,3-1-0,3-1-0\nwl:3-0-0,3-4-6,3-4-6,3-4-6\n" +
		"sheer_height,4-0-0,4-0-0,4-0-0\nsheer_half_breadth,3-6-0,3-6-0,3-6-0"
	doc, o, faults := offsets.ReadCSV([]byte(table), eighths)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if n := len(doc.Stations[1].Sides[0].Waterlines); n != 3 || len(o.Stations[1].Port) != 5 || len(o.Stations[0].Port) != 6 || !o.Stations[1].Mirrored {
		t.Errorf("%d waterlines, %d points", n, len(o.Stations[1].Port))
	}
}

// A table with faults gives the document of the good cells, and each bad one with its text and place; with those filled
// in again it is whole.
func TestBadCellsAreKeptApart(t *testing.T) {
	doc := sound()
	table := wide(t, doc)
	bad := strings.Replace(table, "wl:1-6-0,both,2-8-4,2-8-4,2-8-4", "wl:1-6-0,both,2-8-4,284,2-8-4", 1)
	bad = strings.Replace(bad, "sheer_half_breadth,both", "rail,both", 1)
	bad = strings.Replace(bad, "x,,0-0-0,4-0-0,8-0-0", "x,,0-0-0,4 ft,8-0-0", 1)
	r := offsets.TryCSV([]byte(bad), eighths)
	if r.Table != nil || len(r.Faults) != 3 {
		t.Fatalf("%v", r.Faults)
	}
	want := []offsets.BadCell{
		{Row: 11, Column: 3, Station: "0", Cell: "rail", Text: "3-6-0"},
		{Row: 11, Column: 4, Station: "1", Cell: "rail", Text: "3-6-0"},
		{Row: 11, Column: 5, Station: "2", Cell: "rail", Text: "3-6-0"},
		{Pointer: "/stations/1/x", Row: 2, Column: 4, Station: "1", Cell: "x", Text: "4 ft"},
		{Pointer: "/stations/1/sides/0/waterlines/1/half_breadth", Row: 6, Column: 4, Station: "1", Side: boat.Both, Cell: "wl:1-6-0", Text: "284"},
	}
	if d := cmp.Diff(want, r.Bad); d != "" {
		t.Error(d)
	}
	r.Document.Stations[1].X = "4-0-0"
	r.Document.Stations[1].Sides[0].Waterlines[1].HalfBreadth = "2-8-4"
	for i := range r.Document.Stations {
		r.Document.Stations[i].Sides[0].Sheer.HalfBreadth = "3-6-0"
	}
	if d := cmp.Diff(doc, r.Document); d != "" {
		t.Error(d)
	}
	if r = offsets.TryCSV([]byte("frame,girth\n1,2\n"), eighths); len(r.Faults) != 1 || r.Document == nil || len(r.Document.Stations) != 0 {
		t.Errorf("%+v", r)
	}
	if r = offsets.TryCSV([]byte(table), eighths); len(r.Faults) != 0 || len(r.Bad) != 0 || r.Table == nil {
		t.Errorf("%+v", r)
	}
}

// sidesInARow makes rows of a table's columns.
func sidesInARow(t testing.TB, table string) string {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(table)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := make([][]string, len(rows[0]))
	for _, r := range rows {
		for i, cell := range r {
			out[i] = append(out[i], cell)
		}
	}
	var b strings.Builder
	if err := csv.NewWriter(&b).WriteAll(out); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// What is wrong with a row of sides is told at its cell, or at the head of the column that it leaves without one.
func TestARowOfSidesAtFault(t *testing.T) {
	whole := sidesInARow(t, transposed(t, wide(t, furnished())))
	lines := strings.SplitAfter(whole, "\n")
	for what, c := range map[string]struct {
		table       string
		row, column int
		says        string
	}{
		"none":         {lines[0] + lines[1] + strings.Join(lines[3:], ""), 1, 4, "station 1 is given twice"},
		"no such side": {strings.Replace(whole, "port", "left", 1), 3, 4, "left"},
		"one twice":    {strings.Replace(whole, "starboard", "port", 1), 3, 5, "first in column 4"},
		"two rows":     {lines[0] + lines[1] + lines[2] + strings.Join(lines[2:], ""), 4, 1, "the side is given twice"},
		"too low":      {strings.Join(lines[:2], "") + strings.Join(lines[3:5], "") + lines[2], 5, 1, "below lines"},
		"two places":   {strings.Replace(whole, "4-0-0,4-0-0", "4-0-0,4-0-1", 1), 2, 4, "4-0-1 here"},
	} {
		r := offsets.TryCSV([]byte(c.table), outsideEighths)
		told := false
		for _, f := range r.Faults {
			told = told || f.Row == c.row && f.Column == c.column && strings.Contains(f.Detail, c.says)
		}
		if !told || r.Table != nil {
			t.Errorf("%s: %v", what, r.Faults)
		}
	}
}
