package offsets_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

var eighths = offsets.Written{Notation: notation.FeetInchesEighths, Grain: "0-0-1", Surface: offsets.Inside}

// written is the sound boat as a table.
func written(t testing.TB) string {
	t.Helper()
	var b bytes.Buffer
	if err := offsets.WriteCSV(&b, sound()); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// What is written as CSV reads back as the same document, with any delimiter, mark and order of columns and rows.
func TestCSVRoundTrip(t *testing.T) {
	doc := sound()
	port, starboard := doc.Stations[1].Sides[0], doc.Stations[1].Sides[0]
	port.Side, starboard.Side = boat.Port, boat.Starboard
	starboard.Waterlines = starboard.Waterlines[1:]
	doc.Stations[1].Sides = []offsets.SideOffsets{port, starboard}
	var b bytes.Buffer
	if err := offsets.WriteCSV(&b, doc); err != nil {
		t.Fatal(err)
	}
	table := b.String()
	if first, _, _ := strings.Cut(table, "\n"); first != "station_no,x,side,line,value" {
		t.Errorf("header %q", first)
	}
	for name, text := range map[string]string{
		"as written":               table,
		"byte order mark":          "\uFEFF" + table,
		"CRLF":                     strings.ReplaceAll(table, "\n", "\r\n"),
		"semicolons":               strings.ReplaceAll(table, ",", ";"),
		"tabs":                     strings.ReplaceAll(table, ",", "\t"),
		"quoted":                   quoted(table),
		"spaces, capitals":         strings.ReplaceAll(strings.ReplaceAll(table, ",", " , "), "port", "Port"),
		"empty rows":               strings.ReplaceAll(table, "\n", "\n,,,,\n\n"),
		"columns in another order": turned(t, table),
		"a cell not measured":      table + "1,4-0-0,port,wl:2-6-0,\n1,,starboard,wl:2-6-0,3-2-0\n",
	} {
		got, o, faults := offsets.ReadCSV([]byte(text), eighths)
		if len(faults) > 0 {
			t.Errorf("%s: %v", name, faults)
			continue
		}
		if o == nil {
			t.Errorf("%s: no offsets", name)
		}
		if name == "a cell not measured" {
			p := got.Stations[1].Sides
			if p[0].Waterlines[4].HalfBreadth != "" || p[1].Waterlines[3].HalfBreadth != "3-2-0" || len(o.Stations[1].Port) != 7 {
				t.Errorf("%s: %+v", name, p)
			}
			continue
		}
		if d := cmp.Diff(doc, got); d != "" {
			t.Errorf("%s: %s", name, d)
		}
	}
}

func quoted(table string) string {
	lines := strings.Split(strings.TrimSuffix(table, "\n"), "\n")
	for i, l := range lines {
		lines[i] = `"` + strings.ReplaceAll(l, ",", `","`) + `"`
	}
	return strings.Join(lines, "\n")
}

// turned puts the columns in reverse and the rows of station 2 before all others.
func turned(t *testing.T, table string) string {
	rows, err := csv.NewReader(strings.NewReader(table)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var head, last, rest []string
	for i, r := range rows {
		line := strings.Join([]string{r[4], r[3], r[2], r[1], r[0]}, ",")
		switch {
		case i == 0:
			head = append(head, line)
		case r[0] == "2":
			last = append(last, line)
		default:
			rest = append(rest, line)
		}
	}
	return strings.Join(append(append(head, last...), rest...), "\n")
}

// A decimal comma goes with semicolons, or between quotation marks.
func TestCSVDecimalComma(t *testing.T) {
	doc := sound()
	doc.Notation, doc.Grain = notation.Millimetres, "1"
	comma := func(s string) string {
		if s == "" {
			return s
		}
		l, err := notation.FeetInchesEighths.Parse(s)
		if err != nil {
			t.Fatal(err)
		}
		return strings.ReplaceAll(notation.Millimetres.Format(l), ".", ",")
	}
	for i := range doc.Stations {
		doc.Stations[i].X = comma(doc.Stations[i].X)
		s := &doc.Stations[i].Sides[0]
		s.Rabbet.Height, s.Rabbet.HalfBreadth = comma(s.Rabbet.Height), comma(s.Rabbet.HalfBreadth)
		s.Sheer.Height, s.Sheer.HalfBreadth = comma(s.Sheer.Height), comma(s.Sheer.HalfBreadth)
		for j := range s.Waterlines {
			s.Waterlines[j] = offsets.WaterlineOffsets{Height: comma(s.Waterlines[j].Height), HalfBreadth: comma(s.Waterlines[j].HalfBreadth)}
		}
		s.Buttocks[0] = offsets.ButtockOffsets{HalfBreadth: comma(s.Buttocks[0].HalfBreadth), Height: comma(s.Buttocks[0].Height)}
	}
	var b bytes.Buffer
	if err := offsets.WriteCSV(&b, doc); err != nil {
		t.Fatal(err)
	}
	as := offsets.Written{Notation: notation.Millimetres, Grain: "1", Surface: offsets.Inside}
	for _, text := range []string{b.String(), semicolons(t, b.String())} {
		got, _, faults := offsets.ReadCSV([]byte(text), as)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		if d := cmp.Diff(doc, got); d != "" {
			t.Error(d)
		}
	}
	if !strings.Contains(b.String(), `"63,5"`) {
		t.Errorf("no quoted decimal comma in %s", b.String()[:200])
	}
}

func semicolons(t *testing.T, table string) string {
	rows, err := csv.NewReader(strings.NewReader(table)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	w := csv.NewWriter(&b)
	w.Comma = ';'
	if err := w.WriteAll(rows); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// Every mistake in a table is told by row and column; row 1 is the header.
func TestCSVFaults(t *testing.T) {
	base := written(t)
	lines := strings.Split(strings.TrimSuffix(base, "\n"), "\n")
	// in gives the table with one line replaced; rows count from 1.
	in := func(row int, text string) string {
		out := append([]string{}, lines...)
		out[row-1] = text
		return strings.Join(out, "\n") + "\n"
	}
	more := func(text string) string { return base + text + "\n" }
	end := len(lines) + 1
	for _, c := range []struct {
		name, table string
		row, column int
		detail, fix string
	}{
		{"nothing", "", 1, 0, "empty", "station_no,x,side,line,value"},
		{"header only", lines[0] + "\n", 1, 0, "no row", "one row for every"},
		{"nothing below the wide header", "line;0;1;2\n", 1, 0, "no row", "one row for every"},
		{"stations without cells", "line,side,0,1,2\nx,,0-0-0,4-0-0,8-0-0\n", 0, 0, "no station gives this side", "measure it"},
		{"a station across that is none", "line,0,one,2\nx,0-0-0,4-0-0,8-0-0\n", 1, 3, `"one" is not a station number`, "whole numbers"},
		{"a station across twice", "line,0,1,1\nx,0-0-0,4-0-0,8-0-0\n", 1, 4, "station 1 is given twice", "one column"},
		{"a line down that is none", "line,side,0,1,2\nrail,both,0-0-0,4-0-0,8-0-0\n", 2, 1, `"rail" is not a line`, "rabbet_height"},
		{"a side down that is none", "line,side,0,1,2\nrabbet_height,left,0-0-0,4-0-0,8-0-0\n", 2, 2, `"left" is not a side`, "port, starboard or both"},
		{"a line down twice", "line,0,1,2\nrabbet_height,0-0-0,,\nrabbet_height,1-0-0,,\n", 3, 2, "Station 0 both sides rabbet_height: it is given twice, first in row 2", "leave one"},
		{"a line across that is none", "station_no,x,rail\n0,0-0-0,1-0-0\n", 1, 3, `"rail" is not a line`, "rabbet_height"},
		{"a station down that is none", "station_no,x,rabbet_height\none,0-0-0,1-0-0\n", 2, 1, `"one" is not a station number`, "whole numbers"},
		{"a column across twice", "station_no,x,x,rabbet_height\n0,0-0-0,1-0-0,1-0-0\n", 1, 3, "the column x is given twice", "take one out"},
		{"a cell beyond the header", "line,0,1,2\nrabbet_height,1-0-0,1-0-0,1-0-0,1-0-0\n", 2, 5, "beyond the last column", "its head"},
		{"millimetres declared as eighths", "Offsets of a boat\nunits: mm\nline,0,1,2\nx,0,1,2\n", 2, 1, "the table says here that it is in millimetres, and it was declared in feet-inches-eighths", "nothing is converted"},
		{"a unit in a head", "line,0,1,2\nx (mm),0,1,2\n", 2, 1, "in millimetres", "nothing is converted"},
		{"a unit that is none", "units: cubits\nline,0,1,2\nx,0,1,2\n", 1, 1, `"cubits" is no unit`, "ft-in-8ths"},
		{"a wide cell that is none", "line,0,1,2\nx,0-0-0,4-0-0,8-0-0\nrabbet_height,1-0-0,110,1-0-0\n", 3, 3, `Station 1 both sides rabbet_height: "110" is not a length`, "2-3-4"},
		{"another header", "frame,girth\n", 1, 0, "of no layout that is known", "station_no,x,side,line,value"},
		{"a pattern's header", "frame_no,side,n,y,z\n", 1, 0, "of no layout that is known", "station_no,x,side,line,value"},
		{"no delimiter", "station_no x side line value\n", 1, 0, "of no layout that is known", "station_no,x,side,line,value"},
		{"a column missing", "station_no,side,line,value\n", 1, 0, "the column x is missing", "station_no,x,side,line,value"},
		{"a column twice", "station_no,x,side,line,value,x\n", 1, 6, "x is given twice", "take one out"},
		{"a column too many", "station_no,x,side,line,value,remark\n", 1, 6, `"remark" is not one`, "take it out"},
		{"a million columns", "station_no,x,side,line,value" + strings.Repeat(",", 1_000_000) + "\n", 1, 0, "the row has 1000029 bytes", "long layout"},
		{"a row of a million columns", more(strings.Repeat(",", 1_000_000)), end, 0, "bytes", "long layout"},
		{"too large", strings.Repeat("x", offsets.MaxTableBytes+1), 0, 0, "bytes", "leave out"},
		{"too many rows", base + strings.Repeat(",,,,\n", offsets.MaxRows), 0, 0, "more than 20000 rows", "leave out"},
		{"NUL", in(4, "0,0-0-0,both,sheer\x00_height,4-0-0"), 4, 0, "NUL", "UTF-8"},
		{"not UTF-8", in(4, "0,0-0-0,both,sheer\xff_height,4-0-0"), 4, 0, "not UTF-8", "UTF-8"},
		{"UTF-16", "\xff\xfes\x00t\x00", 1, 0, "UTF-16", "UTF-8"},
		{"a quotation mark inside", in(4, `0,0-0-0,both,sheer"height,4-0-0`), 4, 0, "quotation mark", "quotation marks"},
		{"a quotation not closed", more(`0,0-0-0,both,"wl:2-6-0,3-0-0`), end, 0, "not closed", "close it"},
		{"a cell too few", in(4, "0,0-0-0,both,sheer_height"), 4, 0, "4 cells; the header has 5 columns", "one cell a column"},
		{"a cell too many", in(4, "0,0-0-0,both,sheer_height,4-0-0,remark"), 4, 0, "6 cells", "one cell a column"},
		{"no station", in(4, ",0-0-0,both,sheer_height,4-0-0"), 4, 1, `"" is not a station number`, "whole numbers"},
		{"a half station", in(4, "1/2,0-0-0,both,sheer_height,4-0-0"), 4, 1, `"1/2" is not a station number`, "whole numbers"},
		{"no side", in(4, "0,0-0-0,,sheer_height,4-0-0"), 4, 3, `"" is not a side`, "port, starboard or both"},
		{"unknown side", in(4, "0,0-0-0,left,sheer_height,4-0-0"), 4, 3, `"left" is not a side`, "port, starboard or both"},
		{"unknown line", in(4, "0,0-0-0,both,rail,4-0-0"), 4, 4, `"rail" is not a line`, "rabbet_height"},
		{"a waterline of no height", more("0,0-0-0,both,wl:,4-0-0"), end, 4, "does not say which", "wl:2-3-4"},
		{"a waterline of no colon", more("0,0-0-0,both,wl,4-0-0"), end, 4, "not a line", "wl:<height>"},
		{"a sheer with a colon", more("0,0-0-0,both,sheer_height:4-0-0,4-0-0"), end, 4, "not a line", "sheer_height"},
		{"a diagonal", more("0,0-0-0,both,diagonal:A,3-0-0"), end, 4, "diagonal:A: this diagonal is not declared", "declare each diagonal once"},
		{"a diagonal's angle alone", more(",,,diagonal_angle:A,45"), end, 4, "the height where it leaves the middle line is missing", "declare each diagonal once"},
		{"the stem within the boat", more(",,,stem_x:4-0-0,0-3-0"), end, 5, "aft of this station", "leading minus"},
		{"the stem of a station", more("0,0-0-0,,stem_x:4-0-0,-0-3-0"), end, 1, "stem_x is of the whole table", "leave station_no"},
		{"a cell twice", more("0,0-0-0,both,wl:1-0-0,1-9-0"), end, 4, "Station 0 both sides wl:1-0-0: it is given twice, first in row 6", "leave one"},
		{"a cell twice, written otherwise", more("0,0-0-0,both,wl:1-00-0,1-9-0"), end, 5, "wl:1-00-0: it is given twice", "leave one"},
		{"one side and both", more("0,0-0-0,port,wl:1-0-0,1-9-0"), end, 5, "Station 0 port wl:1-0-0: it is given twice", "leave one"},
		{"two x", more("0,0-1-0,both,wl:2-6-0,3-2-0"), end, 2, "Station 0 x: it is 0-1-0 here and 0-0-0 in row 2", "one x"},
		{"a length that is none", in(6, "0,0-0-0,both,wl:1-0-0,110"), 6, 5, `Station 0 both sides wl:1-0-0: "110" is not a length`, "2-3-4"},
		{"a height that is none", in(6, "0,0-0-0,both,wl:1',1-10-0"), 6, 4, `wl:1': "1'" is not a length`, "1-0-0"},
		{"x that is none", in(20, "2,96 in,both,rabbet_height,0-6-0"), 20, 2, `Station 2 x: "96 in" is not a length`, "8-0-0"},
		{"a spike", in(8, "0,0-0-0,both,wl:2-0-0,0-1-0"), 8, 5, "Station 0 both sides wl:2-0-0: the line doubles back here", "check this figure"},
		{"x goes forward", strings.ReplaceAll(base, "2,8-0-0", "2,3-0-0"), 20, 2, "Station 2 x: it lies at 3-0-0, forward of station 1", "check x"},
		{"two stations", strings.Join(lines[:19], "\n"), 0, 0, "at least 3 stations; 2 are given", "more stations"},
		{"a long cell", in(6, "0,0-0-0,both,wl:1-0-0,"+strings.Repeat("9", 1000)), 6, 5, "longer than any length", "2-3-4"},
		{"a long line", in(6, "0,0-0-0,both,wl:"+strings.Repeat("9", 1000)+",1-0-0"), 6, 4, "longer than any length", "2-3-4"},
	} {
		t.Run(c.name, func(t *testing.T) {
			doc, o, faults := offsets.ReadCSV([]byte(c.table), eighths)
			if doc != nil || o != nil {
				t.Error("there is a document or there are offsets beside the faults")
			}
			for _, f := range faults {
				if f.Row == c.row && f.Column == c.column && strings.Contains(f.Detail, c.detail) && strings.Contains(f.Fix, c.fix) {
					plainWords(t, f)
					return
				}
			}
			t.Errorf("not among the %d faults: %v", len(faults), faults[:min(3, len(faults))])
		})
	}
}

// Faults of rows and of what they make come together, and what a bad row took away is not told a second time.
func TestCSVAllFaultsAtOnce(t *testing.T) {
	table := written(t)
	table = strings.Replace(table, "0,0-0-0,both,sheer_height", "0,0-0-0,both,shear_height", 1) // the sheer is then missing
	table = strings.Replace(table, "1,4-0-0,both,wl:1-0-0,1-10-0", "1,4-0-0,both,wl:1-0-0,1-12-0", 1)
	table = strings.Replace(table, "2,8-0-0,both,wl:3-0-0,3-4-6", "2,8-0-0,both,wl:9-0-0,3-4-6", 1)
	_, _, faults := offsets.ReadCSV([]byte(table), offsets.Written{Notation: notation.FeetInchesEighths, Surface: "skin"})
	var got []string
	for _, f := range faults {
		got = append(got, fmt.Sprintf("%d,%d", f.Row, f.Column))
	}
	if s := strings.Join(got, " "); s != "4,4 0,0 15,5 27,5" {
		t.Errorf("faults at %s: %v", s, faults)
	}
}
