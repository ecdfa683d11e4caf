package pattern_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
	"ribband/takeoff/pattern"

	"github.com/google/go-cmp/cmp"
)

// arc is a pattern of n points on a circle about (20, radius), written to the tenth of a millimetre.
func arc(no int, side boat.Side, radius float64, n int) pattern.Rows {
	out := pattern.Rows{FrameNo: no, Side: side}
	for i := range n {
		s, c := math.Sincos(1.5 * float64(i) / float64(n-1))
		out.Points = append(out.Points, pattern.Row{N: i + 1, Y: fmt.Sprintf("%.1f", 20+radius*s), Z: fmt.Sprintf("%.1f", radius*(1-c))})
	}
	return out
}

func doc(rows ...pattern.Rows) pattern.Document {
	return pattern.Document{Notation: notation.Millimetres, Grain: "0.1", Surface: offsets.Inside, Patterns: rows}
}

func fitted(t *testing.T, d pattern.Document) *pattern.Fitted {
	t.Helper()
	set, faults := pattern.Read(d)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	f, faults := set.Fit()
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return f
}

func member(no int, side boat.Side) boat.Member {
	return boat.Member{Kind: boat.Frame, No: no, Side: side}
}

// A quarter circle is known exactly: its girth and its radius must be found, and lie in their ranges.
func TestAPatternOfACircleHasItsGirthAndRadius(t *testing.T) {
	f := fitted(t, doc(arc(7, boat.Both, 900, 12)))
	port, ok := f.Section(member(7, boat.Port), 2500)
	if !ok || port.RestsOn != boat.OnPattern || port.Points != 12 || port.X != 2500 || port.Side != boat.Port {
		t.Fatalf("%+v", port)
	}
	if g := port.Girth; math.Abs(g.MM-1350) > 0.3 || g.Low > 1350 || g.High < 1350 {
		t.Errorf("girth %+v, 1350 wanted", g)
	}
	if r := port.Bilge.Radius(); math.Abs(r.MM-900) > 9 || r.Low > 900 || r.High < 900 {
		t.Errorf("radius %+v, 900 wanted", r)
	}
	starboard, ok := f.Section(member(7, boat.Starboard), 2500)
	if !ok || starboard.Girth != port.Girth || starboard.Side != boat.Starboard {
		t.Errorf("written alike, the sides differ: %+v, %+v", port.Girth, starboard.Girth)
	}
	if _, ok := f.Section(member(8, boat.Port), 0); ok {
		t.Error("a frame without a pattern has one")
	}
	if l, w, err := port.EnclosingRectangle(60); err != nil || l < w || l*w < 900*900*math.Pi/8 {
		t.Errorf("rectangle %v x %v: %v", l, w, err)
	}
}

func TestAHullsOwnSectionTakenAsAPatternMeasuresTheSame(t *testing.T) {
	table := offsets.Document{Notation: notation.Millimetres, Grain: "1", Surface: offsets.Inside}
	for no := range 5 {
		radius := 800 + 60*float64(no)
		side := offsets.SideOffsets{Side: boat.Both, Rabbet: &offsets.EndOffsets{Height: "0", HalfBreadth: "20"},
			Sheer: &offsets.EndOffsets{Height: fmt.Sprintf("%.0f", radius*(1-math.Cos(1.5))), HalfBreadth: fmt.Sprintf("%.0f", 20+radius*math.Sin(1.5))}}
		for i := 1; i < 12; i++ {
			s, c := math.Sincos(1.5 * float64(i) / 12)
			side.Waterlines = append(side.Waterlines, offsets.WaterlineOffsets{Height: fmt.Sprintf("%.0f", radius*(1-c)), HalfBreadth: fmt.Sprintf("%.0f", 20+radius*s)})
		}
		table.Stations = append(table.Stations, offsets.StationOffsets{No: no, X: fmt.Sprint(no * 900), Sides: []offsets.SideOffsets{side}})
	}
	h := hulltest.Hull(t, &table)
	s, err := h.Section(1300, boat.Port)
	if err != nil {
		t.Fatal(err)
	}
	rows := pattern.Rows{FrameNo: 3, Side: boat.Port}
	for i, p := range s.Line(15) {
		rows.Points = append(rows.Points, pattern.Row{N: i + 1, Y: fmt.Sprintf("%.3f", p.Y), Z: fmt.Sprintf("%.3f", p.Z)})
	}
	d := doc(rows)
	d.Grain = "0.001"
	got, _ := fitted(t, d).Section(member(3, boat.Port), 1300)
	if a, b := got.Girth.MM, s.Girth.MM; math.Abs(a/b-1) > 5e-4 {
		t.Errorf("girth %v, of the hull's section %v", a, b)
	}
	if a, b := got.Bilge.Radius().MM, s.Bilge.Radius().MM; math.Abs(a/b-1) > 0.03 {
		t.Errorf("radius %v, of the hull's section %v", a, b)
	}
}

func TestFaultyPatternsAreNamedByFrameSideAndPoint(t *testing.T) {
	cut := func(change func(*pattern.Rows)) pattern.Document {
		r := arc(12, boat.Port, 900, 9)
		change(&r)
		return doc(r)
	}
	for name, c := range map[string]struct {
		doc     pattern.Document
		pointer string
		says    string
	}{
		"nothing":       {doc(), "/patterns", "no patterns"},
		"no notation":   {pattern.Document{Surface: offsets.Inside, Patterns: []pattern.Rows{arc(1, boat.Port, 9, 9)}}, "/notation", "not known"},
		"outer face":    {pattern.Document{Notation: "mm", Surface: "outside", Patterns: []pattern.Rows{arc(1, boat.Port, 900, 9)}}, "/surface", "faying face"},
		"grain":         {pattern.Document{Notation: "mm", Grain: "2-0-0", Surface: offsets.Inside, Patterns: []pattern.Rows{arc(1, boat.Port, 900, 9)}}, "/grain", "grain"},
		"coarse":        {pattern.Document{Notation: "m", Grain: "1", Surface: offsets.Inside, Patterns: []pattern.Rows{arc(1, boat.Port, 900, 9)}}, "/grain", "1000 mm"},
		"no side":       {cut(func(r *pattern.Rows) { r.Side = "aft" }), "/patterns/0/side", "frame 12"},
		"no such frame": {cut(func(r *pattern.Rows) { r.FrameNo = -3 }), "/patterns/0/frame_no", "-3"},
		"few":           {cut(func(r *pattern.Rows) { r.Points = r.Points[:4] }), "/patterns/0/points", "Frame 12 port: 4 points"},
		"none":          {cut(func(r *pattern.Rows) { r.Points = nil }), "/patterns/0/points", "Frame 12 port: 0 points"},
		"all one": {cut(func(r *pattern.Rows) {
			for i := range r.Points {
				r.Points[i].Y, r.Points[i].Z = "5", "5"
			}
		}), "/patterns/0/points", "1 of them differ"},
		"not a number": {cut(func(r *pattern.Rows) { r.Points[2].Y = "NaN" }), "/patterns/0/points/2/y", "Frame 12 port, point 3"},
		"missing":      {cut(func(r *pattern.Rows) { r.Points[2].Z = "" }), "/patterns/0/points/2/z", "point 3: z is missing"},
		"across":       {cut(func(r *pattern.Rows) { r.Points[0].Y = "-5" }), "/patterns/0/points/0/y", "y is -5 mm"},
		"numbers":      {cut(func(r *pattern.Rows) { r.Points[4].N = 4 }), "/patterns/0/points/4/n", "point 4 stands where point 5"},
		"folds back":   {cut(func(r *pattern.Rows) { r.Points[4].Z = "900" }), "/patterns/0/points/4", "folds back"},
		"head to heel": {cut(func(r *pattern.Rows) {
			for i, j := 0, len(r.Points)-1; i < j; i, j = i+1, j-1 {
				r.Points[i].Y, r.Points[j].Y = r.Points[j].Y, r.Points[i].Y
				r.Points[i].Z, r.Points[j].Z = r.Points[j].Z, r.Points[i].Z
			}
		}), "/patterns/0/points", "not above the first"},
		"twice": {doc(arc(12, boat.Port, 900, 9), arc(12, boat.Both, 900, 9)), "/patterns/1", "already given in /patterns/0"},
	} {
		t.Run(name, func(t *testing.T) {
			set, faults := pattern.Read(c.doc)
			if set != nil || len(faults) == 0 {
				t.Fatalf("taken: %+v", set)
			}
			if f := faults[0]; f.Pointer != c.pointer || !strings.Contains(f.Detail, c.says) || f.Fix == "" {
				t.Errorf("%+v, %q at %s wanted", f, c.says, c.pointer)
			}
		})
	}
}

func TestATableIsReadByAnyDelimiterAndWrittenBack(t *testing.T) {
	d := doc(arc(3, boat.Port, 900, 7), arc(3, boat.Starboard, 905, 8), arc(4, boat.Both, 910, 9))
	var b bytes.Buffer
	if err := pattern.WriteCSV(&b, d); err != nil {
		t.Fatal(err)
	}
	as := pattern.Written{Notation: d.Notation, Grain: d.Grain, Surface: d.Surface}
	for _, delimiter := range []string{",", ";", "\t"} {
		got, set, faults := pattern.ReadCSV([]byte(strings.ReplaceAll(b.String(), ",", delimiter)), as)
		if len(faults) > 0 || len(set.Patterns) != 4 {
			t.Fatalf("delimiter %q: %v", delimiter, faults)
		}
		if diff := cmp.Diff(d, *got); diff != "" {
			t.Errorf("delimiter %q: %s", delimiter, diff)
		}
	}
}

func TestFaultsOfATableAreNamedByRowAndColumn(t *testing.T) {
	as := pattern.Written{Notation: notation.Millimetres, Surface: offsets.Inside}
	good := "frame_no,side,n,y,z\n1,port,1,0,0\n1,port,2,200,20\n1,port,3,400,80\n1,port,4,600,180\n1,port,5,780,400\n"
	if _, _, faults := pattern.ReadCSV([]byte(good), as); len(faults) > 0 {
		t.Fatal(faults)
	}
	type place struct{ row, column int }
	for name, c := range map[string]struct {
		table  string
		places []place
	}{
		"empty":      {"", []place{{1, 0}}},
		"no rows":    {"frame_no,side,n,y,z\n", []place{{1, 0}}},
		"header":     {"frame_no,side,n,y\n1,port,1,2\n", []place{{1, 0}}},
		"stranger":   {"frame_no,side,n,y,z,x\n", []place{{1, 6}}},
		"two faults": {strings.Replace(strings.Replace(good, "port,2,200", "left,2,200", 1), "1,port,4", "one,port,4", 1), []place{{3, 2}, {5, 1}}},
		"a cell":     {strings.Replace(good, "600,180", "1-0-0,180", 1), []place{{5, 4}}},
		"twice":      {strings.Replace(good, "port,4", "port,3", 1), []place{{5, 3}}},
		"few":        {strings.TrimSuffix(good, "1,port,5,780,400\n"), []place{{2, 1}}},
		"short row":  {strings.Replace(good, ",600,180", ",600", 1), []place{{5, 5}}},
		"quote":      {strings.Replace(good, "600", `6"00`, 1), []place{{5, 0}}},
		"NUL":        {strings.Replace(good, "600", "6\x0000", 1), []place{{5, 0}}},
	} {
		t.Run(name, func(t *testing.T) {
			d, set, faults := pattern.ReadCSV([]byte(c.table), as)
			if d != nil || set != nil {
				t.Fatal("taken")
			}
			var got []place
			for _, f := range faults {
				got = append(got, place{f.Row, f.Column})
				if f.Detail == "" || f.Fix == "" {
					t.Errorf("%+v", f)
				}
			}
			if fmt.Sprint(got) != fmt.Sprint(c.places) {
				t.Errorf("faults %v, at %v wanted", faults, c.places)
			}
		})
	}
}

// Whatever a table holds it is taken or refused with faults that say what to do, and what is taken comes back as
// written.
func FuzzReadCSV(f *testing.F) {
	f.Add([]byte("frame_no,side,n,y,z\n1,port,1,0,0\n1,port,2,200,20\n1,port,3,400,80\n1,port,4,600,180\n1,port,5,780,400\n"))
	f.Add([]byte("frame_no;side;n;y;z\n1;both;1;0,5;-3\n"))
	f.Add([]byte("frame_no,side,n,y,z,grain\n1,port,1,0,0,2\n1,port,2,200,20,2\n1,port,3,400,80,2\n1,port,4,600,180,2\n1,port,5,780,400,2\n"))
	f.Add([]byte("z\ty\tn\tside\tframe_no\n\"a\n"))
	as := pattern.Written{Notation: notation.Millimetres, Surface: offsets.Inside}
	f.Fuzz(func(t *testing.T, table []byte) {
		d, set, faults := pattern.ReadCSV(table, as)
		if (d == nil) != (len(faults) > 0) || (set == nil) != (d == nil) {
			t.Fatalf("document %v, set %v, faults %v", d, set, faults)
		}
		for _, x := range faults {
			if x.Detail == "" || x.Fix == "" {
				t.Fatalf("%+v", x)
			}
		}
		if d == nil {
			return
		}
		var b bytes.Buffer
		if err := pattern.WriteCSV(&b, *d); err != nil {
			t.Fatal(err)
		}
		again, _, faults := pattern.ReadCSV(b.Bytes(), as)
		if len(faults) > 0 {
			t.Fatalf("written back it is refused: %v", faults)
		}
		if diff := cmp.Diff(d, again); diff != "" {
			t.Fatal(diff)
		}
		if fit, bad := set.Fit(); (fit == nil) == (len(bad) == 0) {
			t.Fatalf("fit %v, faults %v", fit, bad)
		}
	})
}

func TestAPatternThatIsNoFairCurveIsRefusedByName(t *testing.T) {
	r := arc(5, boat.Starboard, 900, 9)
	r.Points[4].Y = "1500" // not far enough to fold back, too far to be fair
	set, faults := pattern.Read(doc(r))
	if len(faults) == 0 {
		_, faults = set.Fit()
	}
	want := document.Faults{}
	for _, f := range faults {
		if strings.HasPrefix(f.Detail, "Frame 5 starboard") && strings.HasPrefix(f.Pointer, "/patterns/0/points") {
			want = append(want, f)
		}
	}
	if len(faults) == 0 || len(want) != len(faults) {
		t.Errorf("%v", faults)
	}
}

// Whatever a document holds, it is taken or refused with faults that say what to do, and what is taken fits or is
// refused by name.
func FuzzRead(f *testing.F) {
	f.Add([]byte(`{"notation":"mm","grain":"1","surface":"inside","patterns":[{"frame_no":1,"side":"both","points":[{"n":1,"y":"0","z":"0"},{"n":2,"y":"200","z":"20"},{"n":3,"y":"400","z":"80"},{"n":4,"y":"600","z":"180"},{"n":5,"y":"780","z":"400"}]}]}`))
	f.Add([]byte(`{"notation":"inches","surface":"outside","patterns":[{"frame_no":-1,"side":"","points":[{}]}]}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		var d pattern.Document
		if json.Unmarshal(text, &d) != nil {
			return
		}
		set, faults := pattern.Read(d)
		if (set == nil) != (len(faults) > 0) {
			t.Fatalf("%v, %v", set, faults)
		}
		if set != nil {
			_, faults = set.Fit()
		}
		for _, x := range faults {
			if x.Detail == "" || x.Fix == "" {
				t.Fatalf("%+v", x)
			}
		}
	})
}
