package pattern_test

import (
	"fmt"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
	"ribband/takeoff/pattern"

	"github.com/google/go-cmp/cmp"
)

// columnsTurned is a sound table whose columns do not stand in their usual order.
const columnsTurned = "z,n,y,frame_no,side\n0,1,0,1,port\n20,2,200,1,port\n80,3,400,1,port\n180,4,600,1,port\n400,5,780,1,port\n" +
	"0,1,0,2,both\n20,2,200,2,both\n80,3,400,2,both\n180,4,600,2,both\n400,5,780,2,both\n"

// Good cells are kept by frame, side and number, and each bad one is named with its row, its column and what was written.
func TestATableOfPatternsToBeCorrected(t *testing.T) {
	type bad struct {
		pointer, frame, side, n, cell, text string
		row, column                         int
	}
	for name, c := range map[string]struct {
		was, is string
		bad     []bad
		loose   []pattern.LooseRow
		faults  []string
		points  int // of the first pattern
	}{
		"a length": {"80,3,400,1", "80,3,4-0-0,1", []bad{{"/patterns/0/points/2/y", "1", "port", "3", "y", "4-0-0", 4, 3}}, nil,
			[]string{`Frame 1 port, point 3: "4-0-0" is not a length in millimetres`}, 5},
		"an empty cell": {"80,3,400,1", ",3,400,1", []bad{{"/patterns/0/points/2/z", "1", "port", "3", "z", "", 4, 1}}, nil,
			[]string{"Frame 1 port, point 3: z is missing"}, 5},
		"two of a point": {"80,3,400,1", "a,3,b,1", []bad{{"/patterns/0/points/2/y", "1", "port", "3", "y", "b", 4, 3}, {"/patterns/0/points/2/z", "1", "port", "3", "z", "a", 4, 1}}, nil,
			[]string{`Frame 1 port, point 3: "b"`, `Frame 1 port, point 3: "a"`}, 5},
		"a number": {"80,3,400,1", "80,3rd,400,1", []bad{{"", "1", "port", "3rd", "n", "3rd", 4, 2}}, []pattern.LooseRow{{Row: 4, Cells: []string{"80", "3rd", "400", "1", "port"}}},
			[]string{`"3rd" is not a point's number`}, 4},
		"a side": {"80,3,400,1,port", "80,3,400,1,left", []bad{{"", "1", "left", "3", "side", "left", 4, 5}}, []pattern.LooseRow{{Row: 4, Cells: []string{"80", "3", "400", "1", "left"}}},
			[]string{`"left" is not a side`}, 4},
		"a point twice": {"80,3,400,1", "80,2,400,1", []bad{{"", "1", "port", "2", "n", "2", 4, 2}}, []pattern.LooseRow{{Row: 4, Cells: []string{"80", "2", "400", "1", "port"}}},
			[]string{"Frame 1 port: point 2 is given twice, first in row 3"}, 4},
		"a short row": {"80,3,400,1,port", "80,3,400", nil, []pattern.LooseRow{{Row: 4, Cells: []string{"80", "3", "400"}}},
			[]string{"the row has 3 cells and the header 5"}, 4},
		"either way": {"80,3,400,1", "80,3,\"1,400\",1", []bad{{"/patterns/0/points/2/y", "1", "port", "3", "y", "1,400", 4, 3}}, nil,
			[]string{`Frame 1 port, point 3: "1,400" is not a length in millimetres: it can be read as 1.400 mm or as 1400 mm`}, 5},
	} {
		t.Run(name, func(t *testing.T) {
			r := pattern.TryCSV([]byte(strings.Replace(columnsTurned, c.was, c.is, 1)), inMM)
			if r.Set != nil || r.Document == nil || len(r.Document.Patterns) != 2 || len(r.Document.Patterns[0].Points) != c.points {
				t.Fatalf("%+v", r)
			}
			var got []bad
			for _, b := range r.Bad {
				got = append(got, bad{b.Pointer, b.Frame, b.Side, b.N, b.Cell, b.Text, b.Row, b.Column})
			}
			if d := cmp.Diff(fmt.Sprint(c.bad), fmt.Sprint(got)); d != "" {
				t.Error(d)
			}
			if d := cmp.Diff(c.loose, r.Loose); d != "" {
				t.Error(d)
			}
			for i, want := range c.faults {
				if len(r.Faults) != len(c.faults) || !strings.HasPrefix(r.Faults[i].Detail, want) || r.Faults[i].Fix == "" || r.Faults[i].Row != 4 {
					t.Errorf("%v, %q wanted", r.Faults, want)
				}
			}
			whole := pattern.TryCSV([]byte(columnsTurned), inMM)
			for i, p := range r.Document.Patterns[0].Points { // what is left stands as it does in the sound table
				if q := whole.Document.Patterns[0].Points[p.N-1]; p.Y != "" && p.Y != q.Y || p.Z != "" && p.Z != q.Z || i+1 < p.N && c.points == 5 {
					t.Errorf("point %d is %+v, and %+v in the sound table", i+1, p, q)
				}
			}
			if d := cmp.Diff(whole.Document.Patterns[1], r.Document.Patterns[1]); d != "" {
				t.Error(d)
			}
		})
	}
}

// Of a grain that differs within its pattern the cell that differs is named, and the first row's is kept.
func TestAGrainThatDiffersIsABadCell(t *testing.T) {
	table := "grain,frame_no,side,n,y,z\n1,1,port,1,0,0\n1,1,port,2,200,20\n2,1,port,3,400,80\n1,1,port,4,600,180\n1,1,port,5,780,400\n"
	r := pattern.TryCSV([]byte(table), inMM)
	if len(r.Bad) != 1 || r.Bad[0] != (pattern.BadCell{Row: 4, Column: 1, Frame: "1", Side: "port", N: "3", Cell: "grain", Text: "2"}) || r.Document.Patterns[0].Grain != "1" {
		t.Errorf("%+v", r)
	}
}

// A table of blank rows has no patterns; of a row far too long the beginning is kept.
func TestRowsThatHoldNothingAndFarTooMuch(t *testing.T) {
	r := pattern.TryCSV([]byte("frame_no,side,n,y,z\n,,,,\n,,,,\n"), inMM)
	if r.Set != nil || len(r.Faults) != 1 || r.Faults[0].Pointer != "/patterns" || len(r.Bad)+len(r.Loose) != 0 {
		t.Errorf("%+v", r)
	}
	r = pattern.TryCSV([]byte(columnsTurned+"9,9"+strings.Repeat(",9", 200)+"\n"), inMM)
	if len(r.Loose) != 1 || len(r.Loose[0].Cells) != 14 || len(r.Document.Patterns) != 2 {
		t.Errorf("%+v", r)
	}
}

// A draft with its bad cell written anew is the document of the sound table.
func TestACorrectedDraftIsTheSoundTable(t *testing.T) {
	r := pattern.TryCSV([]byte(strings.Replace(columnsTurned, "80,3,400,1", "80,3,4o0,1", 1)), inMM)
	if len(r.Bad) != 1 || r.Bad[0].Text != "4o0" {
		t.Fatalf("%+v", r.Bad)
	}
	r.Document.Patterns[0].Points[2].Y = "400"
	if _, faults := pattern.Read(*r.Document); len(faults) > 0 {
		t.Fatal(faults)
	}
	sound := pattern.TryCSV([]byte(columnsTurned), inMM)
	if sound.Set == nil || len(sound.Bad)+len(sound.Loose)+len(sound.Faults) > 0 {
		t.Fatalf("%+v", sound)
	}
	if d := cmp.Diff(sound.Document, r.Document); d != "" {
		t.Error(d)
	}
}

// What is wrong with one pattern as a whole is told beside a row lost from another, and not of the one that lacks the row.
func TestALostRowHidesOnlyWhatItMayHaveCaused(t *testing.T) {
	lost := strings.Replace(columnsTurned, "80,3,400,1", "80,three,400,1", 1)
	folded := strings.Replace(lost, "180,4,600,2", "180,4,60,2", 1)
	details := func(faults document.Faults) (out []string) {
		for _, f := range faults {
			out = append(out, f.Detail)
		}
		return out
	}
	if got := details(pattern.TryCSV([]byte(lost), inMM).Faults); len(got) != 1 {
		t.Errorf("%q", got)
	}
	if got := details(pattern.TryCSV([]byte(folded), inMM).Faults); len(got) != 3 || got[2] != "Frame 2 both, point 4: the line folds back here" {
		t.Errorf("%q", got)
	}
	nowhere := strings.Replace(folded, "80,three,400,1", "80,3,400,one", 1) // it may belong to any
	if got := details(pattern.TryCSV([]byte(nowhere), inMM).Faults); len(got) != 1 {
		t.Errorf("%q", got)
	}
}

// In millimetres 1,234 is asked about, unless other cells or the delimiter show that the comma is the decimal mark.
func TestACommaInATableOfPatterns(t *testing.T) {
	table := "frame_no\tside\tn\ty\tz\n1\tboth\t1\t0\t0\n1\tboth\t2\t200\t20\n1\tboth\t3\t400\t80\n1\tboth\t4\t600\t180\n1\tboth\t5\t780,125\t400\n"
	if r := pattern.TryCSV([]byte(table), inMM); len(r.Bad) != 1 || r.Bad[0].Text != "780,125" || r.Faults[0].Fix != "write it like 780125 or 780.125" {
		t.Errorf("%+v", r)
	}
	for name, plain := range map[string]string{
		"another cell": strings.Replace(table, "600", "600,5", 1),
		"semicolons":   strings.ReplaceAll(table, "\t", ";"),
	} {
		r := pattern.TryCSV([]byte(plain), inMM)
		if r.Set == nil || r.Set.Patterns[0].Points[4].Y.MM() != 780.125 {
			t.Errorf("%s: %+v", name, r)
		}
	}
	grain := inMM
	grain.Grain = "0,5"
	if r := pattern.TryCSV([]byte(table), grain); r.Set == nil {
		t.Errorf("%+v", r.Faults)
	}
	d := doc(arc(1, boat.Port, 900, 9))
	d.Patterns[0].Points[8].Y = "1,234"
	if _, faults := pattern.Read(d); len(faults) != 1 || faults[0].Pointer != "/patterns/0/points/8/y" {
		t.Errorf("%v", faults)
	}
}

// tried holds what must be so of any table: what TryCSV and ReadCSV say of its faults is the same, each bad cell and loose
// row is named by a fault of its row, and what is bad is not in the draft.
func tried(t *testing.T, table []byte, faults document.Faults) {
	t.Helper()
	r := pattern.TryCSV(table, pattern.Written{Notation: notation.Millimetres, Surface: offsets.Inside})
	if d := cmp.Diff(faults, r.Faults); d != "" || r.Document == nil || (r.Set == nil) != (len(faults) > 0) {
		t.Fatalf("%+v: %s", r, d)
	}
	rows := map[int]bool{}
	for _, f := range r.Faults {
		rows[f.Row] = true
	}
	full := len(r.Faults) >= pattern.MaxFaults // what is over is not told
	for _, b := range r.Bad {
		if b.Row < 1 || b.Cell == "" || !full && !rows[b.Row] {
			t.Fatalf("%+v", b)
		}
	}
	for _, l := range r.Loose {
		if l.Row < 1 || len(l.Cells) == 0 || !full && !rows[l.Row] {
			t.Fatalf("%+v", l)
		}
	}
	seen := map[string]bool{}
	for _, p := range r.Document.Patterns {
		for _, q := range p.Points {
			if key := fmt.Sprint(p.FrameNo, p.Side, q.N); seen[key] {
				t.Fatalf("%s twice", key)
			} else {
				seen[key] = true
			}
		}
	}
}

func FuzzTryCSV(f *testing.F) {
	f.Add([]byte(columnsTurned))
	f.Add([]byte(strings.ReplaceAll(strings.Replace(columnsTurned, "80,3", "80,2", 1), "both", "bath")))
	f.Add([]byte(strings.ReplaceAll(strings.Replace(columnsTurned, "400", "1,234", 1), "port", "p,ort")))
	f.Add([]byte("frame_no;side;n;y;z;knuckle;grain\n1;both;1;0,5;-3;a;1\n1;both;1;;;;2\n"))
	f.Fuzz(func(t *testing.T, table []byte) {
		_, _, faults := pattern.ReadCSV(table, pattern.Written{Notation: notation.Millimetres, Surface: offsets.Inside})
		tried(t, table, faults)
	})
}
