package drawing_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/drawing"
	"ribband/takeoff/frame"
	"ribband/takeoff/notation"
)

// Every frame of the demo boat is drawn, lettered and in the table, at both widths; the bow is to the right, port
// above.
func TestEveryFrameIsThere(t *testing.T) {
	d := loadDemo(t)
	for _, width := range []float64{drawing.Narrow, drawing.Wide} {
		drawn := d.framePlan(t, width, 0).Draw()
		axis := drawn.List.Layer("centreline").Items[0].(draw.Path).Points[0].Y
		if got, want := len(drawn.Table.Rows), 68; got != want {
			t.Fatalf("%d rows in the table, want %d", got, want)
		}
		for i, f := range d.frames {
			of := f.Member().Path()
			paths := pathsOf(drawn.List, of)
			want, letter := 0.9, "L"
			if f.No >= 12 && f.No <= 21 {
				want, letter = 3, "R"
			}
			if len(paths) != 1 || paths[0].Pen.Width < want {
				t.Fatalf("%s at %v: %d strokes %+v", f.Member(), width, len(paths), paths)
			}
			if above := paths[0].Points[1].Y < axis; above != (f.Side == boat.Port) {
				t.Errorf("%s at %v lies on the other side", f.Member(), width)
			}
			if i > 1 && d.frames[i-2].No < f.No {
				before := pathsOf(drawn.List, d.frames[i-2].Member().Path())[0]
				if before.Points[0].X <= paths[0].Points[0].X {
					t.Errorf("%s at %v does not stand left of the frame forward of it", f.Member(), width)
				}
			}
			if got := lettersAndNumbers(drawn.List, of); !cmp.Equal(got, []string{letter, strconv.Itoa(f.No)}) {
				t.Errorf("%s at %v is marked %q", f.Member(), width, got)
			}
			row := drawn.Table.Rows[i]
			if row[0] != strconv.Itoa(f.No) || row[1] != string(f.Side) || row[3] != letter {
				t.Errorf("row %d is %q, want %s", i, row, f.Member())
			}
		}
	}
}

func lettersAndNumbers(l *draw.List, of string) []string {
	var out []string
	for _, layer := range []string{"letters", "numbers"} {
		for _, i := range l.Layer(layer).Items {
			if t := i.(draw.Text); t.Of == of {
				out = append(out, t.String)
			}
		}
	}
	return out
}

// Remedies are told apart without colour: by width, dash or number of strokes, and by a letter.
func TestRemediesAreToldApart(t *testing.T) {
	frames := run(t, 8, "2000", "500")
	o := parabolic(t, upTo(11), true, nil)
	remedies := map[int]drawing.Work{
		1: {Remedy: boat.Leave}, 2: {Remedy: boat.ReplaceLaminated}, 3: {Remedy: boat.ScarfIn, Pieces: []drawing.Piece{{From: 200, Low: 300, High: 500, To: 600}}},
		4: {Remedy: boat.Sister}, 5: {Remedy: "not_yet_heard_of"}, 6: {Remedy: boat.ScarfIn},
		7: {Remedy: boat.Sister, Pieces: []drawing.Piece{{From: 300, Low: 300, High: 700, To: 700}}},
		8: {Remedy: boat.ScarfIn, Pieces: []drawing.Piece{{From: 0, Low: 0, High: 200, To: 300}, {From: 600, Low: 700, High: 900, To: 900}}},
	}
	work := map[boat.Member]drawing.Work{}
	for _, f := range frames {
		work[f.Member()] = remedies[f.No]
	}
	drawn := drawing.FramePlan{Notation: notation.Millimetres, Frames: frames, Hull: fitted(t, o), Work: work}.Draw()
	for _, c := range []struct {
		no      int
		letter  string
		strokes int
		thick   int // how many of them are thick
		dashed  bool
		word    string
	}{
		{1, "L", 1, 0, false, "leave"},
		{2, "R", 1, 1, false, "replace"},
		{3, "S", 4, 1, false, "scarf in a part, from 200 to 600 (tapered to 300 and from 500) along the girth from the rabbet"},
		{4, "D", 2, 0, false, "sister"},
		{5, "U", 1, 0, true, "unknown"},
		{6, "S", 1, 0, false, "scarf in a part"},
		{7, "D", 4, 0, false, "sister, from 300 to 700 along the girth from the rabbet"},
		{8, "S", 5, 2, false, "scarf in a part, from 0 to 300 (tapered from 200) and from 600 to 900 (tapered to 700) along the girth from the rabbet"},
	} {
		of := "frame/" + strconv.Itoa(c.no) + "/port"
		paths := pathsOf(drawn.List, of)
		thick := 0
		for _, p := range paths {
			if p.Pen.Width >= 3 {
				thick++
			}
			if (len(p.Pen.Dash) > 0) != c.dashed {
				t.Errorf("frame %d: dashes %v", c.no, p.Pen.Dash)
			}
		}
		if len(paths) != c.strokes || thick != c.thick {
			t.Errorf("frame %d: %d strokes, %d of them thick", c.no, len(paths), thick)
		}
		if got := lettersAndNumbers(drawn.List, of); len(got) == 0 || got[0] != c.letter {
			t.Errorf("frame %d is lettered %q", c.no, got)
		}
		if row := drawn.Table.Rows[2*(c.no-1)]; row[4] != c.word {
			t.Errorf("frame %d: the table says %q", c.no, row[4])
		}
	}
	for _, words := range []string{"leave: thin line (2 frames)", "replace: thick line", "scarf in a part: thick, tapers pointed (6 frames)",
		"sister: doubled over its length (4 frames)", "unknown: dashed line", "On 2 frames the length to scarf in is not known yet", "On 2 frames the length of the sister is not known yet"} {
		if !says(drawn.List, words) {
			t.Errorf("the drawing does not say %q", words)
		}
	}
}

// The new part of a scarf is as long as it is, seen from above, with its tapers out to their tips; a sister is as long as
// it is; and frames reach from rabbet to sheer.
func TestFramePlanIsTrue(t *testing.T) {
	o := parabolic(t, upTo(11), true, nil)
	h := fitted(t, o)
	f := run(t, 1, "5000", "500")
	work := map[boat.Member]drawing.Work{
		f[0].Member(): {Remedy: boat.ScarfIn, Pieces: []drawing.Piece{{From: 300, Low: 400, High: 900, To: 1000}}},
		f[1].Member(): {Remedy: boat.Sister, Pieces: []drawing.Piece{{From: 400, Low: 400, High: 900, To: 900}}},
	}
	drawn := drawing.FramePlan{Notation: notation.Millimetres, Frames: f, Hull: h, Work: work}.Draw()
	s, err := h.Section(5000, boat.Port)
	if err != nil {
		t.Fatal(err)
	}
	axis := drawn.List.Layer("centreline").Items[0].(draw.Path).Points[0].Y
	paths := pathsOf(drawn.List, f[0].Member().Path())
	for i, want := range [][2]float64{
		{half(5000, 0), half(5000, 1000)},
		{s.At(400 / s.Girth.MM).Y, s.At(900 / s.Girth.MM).Y},
	} {
		for j := range 2 {
			got := math.Abs(paths[i].Points[j].Y-axis) * drawn.List.ScaleMM
			const off = 0.01 // mm: exact offsets and a station's own curve
			if math.Abs(got-want[j]) > off {
				t.Errorf("stroke %d, end %d: half-breadth %.3f mm, want %.3f", i, j, got, want[j])
			}
		}
	}
	breadth := func(p draw.Point) float64 { return math.Abs(p.Y-axis) * drawn.List.ScaleMM }
	for i, want := range map[int]float64{2: 300, 3: 1000} {
		if tip := paths[i].Points[1]; !paths[i].Closed || paths[i].Fill == "" || math.Abs(breadth(tip)-s.At(want/s.Girth.MM).Y) > 0.01 {
			t.Errorf("a taper at %.0f mm ends %.3f mm out: %+v", want, breadth(tip), paths[i])
		}
	}
	o2, err := h.Section(5000, f[1].Side)
	if err != nil {
		t.Fatal(err)
	}
	sister := pathsOf(drawn.List, f[1].Member().Path())
	for _, line := range sister[1:3] {
		for j, want := range []float64{400, 900} {
			if got := breadth(line.Points[j]); math.Abs(got-o2.At(want/o2.Girth.MM).Y) > 0.01 {
				t.Errorf("the sister's end %d lies %.3f mm out", j, got)
			}
		}
	}
}

// A cant frame is drawn canted: its head stands as far aft as its half-breadth and the angle have it.
func TestACantFrameIsDrawnCanted(t *testing.T) {
	f := run(t, 1, "5000", "500")
	for i := range f {
		f[i].Cant = decimal.NewFromInt(20)
	}
	drawn := drawing.FramePlan{Notation: notation.Millimetres, Frames: f, Hull: fitted(t, parabolic(t, upTo(11), true, nil))}.Draw()
	for _, fr := range f {
		ends := pathsOf(drawn.List, fr.Member().Path())[0].Points
		aft, out := ends[0].X-ends[1].X, math.Abs(ends[1].Y-ends[0].Y)
		const off = 1e-3 // of the tangent; seen: far less
		if out <= 0 || math.Abs(aft/out-math.Tan(math.Pi/9)) > off {
			t.Errorf("%s runs %v aft to %v outboard", fr.Member(), aft, out)
		}
	}
}

// What is missing is said on the drawing, and frames that cannot be drawn stand in the table.
func TestFramePlanSaysWhatIsMissing(t *testing.T) {
	d := loadDemo(t)
	none, bare := d.mixedPlan(drawing.Narrow), d.mixedPlan(drawing.Narrow)
	none.Work, bare.Hull = nil, nil
	outside := drawing.FramePlan{Notation: notation.Millimetres, Frames: run(t, 25, "500", "500"), Hull: fitted(t, parabolic(t, upTo(11), true, nil))}
	past := drawing.FramePlan{Frames: run(t, 2, "20000", "500"), Hull: outside.Hull, Notation: notation.Millimetres}
	for _, c := range []struct {
		name string
		plan drawing.FramePlan
		want string
	}{
		{"no frames", drawing.FramePlan{}, "No frames have been entered yet"},
		{"a frame of no side", drawing.FramePlan{Frames: []frame.Frame{{No: 1, Side: boat.Both}}}, "No frames have been entered yet"},
		{"no remedy", none, "No remedy has been chosen yet"},
		{"no lines", bare, "The boat has no lines yet"},
		{"outside", outside, "10 frames stand outside the measured stations and are not drawn, the first of them frame 21 port"},
		{"all outside", past, "4 frames stand outside the measured stations"},
	} {
		drawn := c.plan.Draw()
		if !says(drawn.List, c.want) {
			t.Errorf("%s: it does not say %q", c.name, c.want)
		}
		svg(t, drawn.List)
	}
	if rows := outside.Draw().Table.Rows; len(rows) != 50 || !strings.Contains(rows[49][4], "not drawn") {
		t.Errorf("%d rows, the last %q", len(rows), rows[len(rows)-1])
	}
	if l := bare.Draw().List; l.ScaleMM != 0 || len(l.Layer("scale bar").Items) > 0 {
		t.Error("a plan without lines carries a scale bar")
	}
}

// A frame that an option does not name is left, as when a takeoff is made.
func TestUnnamedFramesAreLeft(t *testing.T) {
	got := drawing.WorkOf(map[boat.Member]frame.Choice{{Kind: boat.Frame, No: 2, Side: boat.Port}: {Remedy: boat.ReplaceLaminated, Species: "white_oak", Grade: "FAS"}}, nil)
	drawn := drawing.FramePlan{Notation: notation.Millimetres, Frames: run(t, 2, "1000", "500"), Work: got}.Draw()
	var letters []string
	for _, row := range drawn.Table.Rows {
		letters = append(letters, row[3])
	}
	if diff := cmp.Diff([]string{"L", "L", "R", "L"}, letters); diff != "" {
		t.Error(diff)
	}
}

// The owner's plan has the key of what occurs, the measures and words of the trade left out, and every frame in its
// table; at both widths its texts keep apart.
func TestPlanForTheOwner(t *testing.T) {
	d := loadDemo(t)
	for _, width := range []float64{drawing.Narrow, drawing.Wide} {
		p := d.framePlan(t, width, 0)
		p.Plain = true
		drawn := p.Draw()
		var texts []string
		for _, l := range drawn.List.Layers {
			for _, i := range l.Items {
				if x, ok := i.(draw.Text); ok {
					texts = append(texts, x.String)
				}
			}
		}
		all := strings.Join(append(texts, drawn.List.Desc, drawn.Table.Caption, strings.Join(drawn.Table.Head, " ")), "\n")
		for _, word := range []string{"station", "half-breadth", "sheer", "rabbet", "girth", "scarf", "sister", "unknown", "feet-inches-eighths", "Outline"} {
			if strings.Contains(all, word) {
				t.Errorf("at %v the owner reads %q in\n%s", width, word, all)
			}
		}
		for _, says := range []string{"stays as it is: thin line (48 frames)", "is replaced: thick line (20 frames)", "starboard her right"} {
			if !strings.Contains(strings.Join(strings.Fields(all), " "), says) {
				t.Errorf("at %v the owner does not read %q in\n%s", width, says, all)
			}
		}
		if len(drawn.Table.Rows) != 68 || !cmp.Equal(drawn.Table.Rows[22], []string{"12", "port", "R", "is replaced"}) {
			t.Errorf("at %v the table has %d rows, one of them %q", width, len(drawn.Table.Rows), drawn.Table.Rows[22])
		}
	}
}
