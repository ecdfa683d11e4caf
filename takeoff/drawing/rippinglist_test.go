package drawing_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"ribband/takeoff/draw"
	"ribband/takeoff/drawing"
	"ribband/takeoff/notation"
)

// sawn is a ripping list of three kinds of board, one with what is kept, one with what is not and a strip not cut into, and one crosscut first.
func (d demo) sawn(width float64) drawing.RippingList {
	yes, no := true, false
	return drawing.RippingList{
		Sheet: d.on(width), Notation: notation.Millimetres, Timber: "White oak, FAS", Kerf: 3,
		Boards: []drawing.SawnBoard{
			{Name: "Boards 1 to 5", Size: "8/4, 153 mm wide, 4800 mm long", Length: 4800, EndTrim: 50, Strips: []drawing.SawnStrip{
				{Count: 8, Pieces: []drawing.SawnPiece{{Label: "frame 12 port", Count: 1, Length: 2205}, {Label: "frame 13 port", Count: 1, Length: 1700}}, Over: 789, Keep: &yes},
				{Count: 4, Pieces: []drawing.SawnPiece{{Label: "frame 12 starboard", Count: 2, Length: 2205}}, Over: 284, Keep: &no},
			}},
			{Name: "Board 6", Size: "8/4, 153 mm wide, 3000 mm long", Length: 3000, EndTrim: 50, Strips: []drawing.SawnStrip{
				{Count: 1, Pieces: []drawing.SawnPiece{{Label: "frame 14 port", Count: 30, Length: 90}}, Over: 107},
				{Count: 11, Over: 3000, Keep: &yes},
			}},
			{Name: "Board 7", Size: "40 mm, 260 mm wide, 5000 mm long", Length: 5000, EndTrim: 20, Lengths: []drawing.SawnLength{{Count: 1, Length: 2400}, {Count: 2, Length: 1100}}, Strips: []drawing.SawnStrip{
				{Count: 1, OfLength: 1, Width: 152, Pieces: []drawing.SawnPiece{{Label: "strake 5 port", Count: 1, Length: 2400}}},
				{Count: 1, OfLength: 1, Width: 92, Pieces: []drawing.SawnPiece{{Label: "strake 9 port", Count: 1, Length: 2050}}, Over: 347, Keep: &no},
				{Count: 6, OfLength: 2, Width: 82, Pieces: []drawing.SawnPiece{{Label: "strake 7 port", Count: 1, Length: 1100}}},
			}, Rest: []drawing.SawnRest{{Count: 1, Thickness: 40, Width: 260, Length: 351, Keep: &no}}},
		},
	}
}

// Every piece stands on the drawing as a box of its true length, in order, apart by a kerf, between the trimmed ends.
func TestRippingListIsToScale(t *testing.T) {
	r := loadDemo(t).sawn(drawing.Wide)
	list := r.Board(0).List
	var boxes []draw.Path
	for _, p := range list.Paths() {
		if p.Closed && p.Pen.Width > 1 && len(p.Pen.Dash) == 0 {
			boxes = append(boxes, p)
		}
	}
	want := []float64{2205, 1700, 2205, 2205}
	if len(boxes) != len(want) {
		t.Fatalf("%d pieces drawn of %d", len(boxes), len(want))
	}
	for i, b := range boxes {
		if mm := (b.Points[2].X - b.Points[0].X) * list.ScaleMM; math.Abs(mm-want[i]) > 1e-6 {
			t.Errorf("piece %d is drawn %v mm long, want %v", i, mm, want[i])
		}
	}
	if gap := (boxes[1].Points[0].X - boxes[0].Points[2].X) * list.ScaleMM; math.Abs(gap-r.Kerf) > 1e-6 {
		t.Errorf("%v mm between two pieces", gap)
	}
}

// What a piece too short for its name leaves unsaid, and what becomes of what is left, stands in the table.
func TestRippingListSaysAllInItsTable(t *testing.T) {
	d := loadDemo(t).sawn(drawing.Narrow).Draw()
	all := ""
	for _, row := range d.Table.Rows {
		all += strings.Join(row, "|") + "\n"
	}
	for _, want := range []string{
		"Boards 1 to 5|8/4, 153 mm wide, 4800 mm long|8|1|2205 mm|frame 12 port|789 mm|kept",
		"|4|2|2205 mm|frame 12 starboard|284 mm|too short to keep",
		"|1|30|90 mm|frame 14 port|107 mm|not said",
		"|11|||not cut into|3000 mm|kept",
	} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not in\n%s", want, all)
		}
	}
	if says(d.List, "frame 14 port") || !says(d.List, "keep 789 mm") {
		t.Error("a name wider than its piece is drawn, or a kept left-over has no word")
	}
	if !slices.ContainsFunc(d.List.Paths(), func(p draw.Path) bool { return p.Fill == draw.Rule }) {
		t.Error("the ends cut off first are not marked")
	}
}

// A half of a piece made of two is drawn with its taper, the first at its far end and the second at its near one, and says where its
// other half lies.
func TestRippingListDrawsTheTaper(t *testing.T) {
	r := loadDemo(t).sawn(drawing.Wide)
	r.Boards = r.Boards[:1]
	r.Boards[0].Strips = []drawing.SawnStrip{{Count: 1, Pieces: []drawing.SawnPiece{
		{Label: "strake 5 port", Count: 1, Length: 2400, Scarf: &drawing.SawnScarf{Taper: 385, First: true, Boards: []int64{4}}},
		{Label: "strake 6 port", Count: 1, Length: 1700, Scarf: &drawing.SawnScarf{Taper: 300, Boards: []int64{2, 3, 5}}},
	}}}
	d := r.Draw()
	var boxes, cut []draw.Path
	for _, p := range d.List.Paths() {
		switch {
		case p.Closed && p.Pen.Width > 1 && len(p.Pen.Dash) == 0 && len(p.Points) == 4:
			boxes = append(boxes, p)
		case p.Closed && len(p.Points) == 3:
			cut = append(cut, p)
		}
	}
	if len(boxes) != 2 || len(cut) != 2 {
		t.Fatalf("%d pieces and %d tapers drawn", len(boxes), len(cut))
	}
	for i, want := range []struct{ corner, long float64 }{{boxes[0].Points[2].X, -385}, {boxes[1].Points[0].X, 300}} {
		root, corner := cut[i].Points[0], cut[i].Points[1]
		if corner.X != want.corner || math.Abs((root.X-corner.X)*d.List.ScaleMM-want.long) > 1e-6 {
			t.Errorf("taper %d runs from %v to %v", i, root, corner)
		}
	}
	if !says(d.List, "other half on board 4") || !strings.Contains(d.Table.Rows[1][5], "strake 6 port, other half on board 2, 3 or 5") {
		t.Error(d.Table.Rows)
	}
	if step := r.Steps(0)[1]; !strings.Contains(step, "(a half, the last 385 mm of it tapered to nothing, other half on board 4)") {
		t.Error(step)
	}
}

// Strips of several widths say how wide they are, on the drawing, in the steps and in the table.
func TestRippingListOfSeveralWidths(t *testing.T) {
	r := loadDemo(t).sawn(drawing.Wide)
	r.Boards = r.Boards[:1]
	r.Boards[0].Strips = []drawing.SawnStrip{
		{Count: 1, Width: 152, Pieces: []drawing.SawnPiece{{Label: "strake 5 port", Count: 1, Length: 2400}, {Label: "strake 7 port", Count: 1, Length: 1700, Width: 140}}},
		{Count: 2, Width: 92, Pieces: []drawing.SawnPiece{{Label: "strake 9 port", Count: 1, Length: 3400}}},
	}
	steps := r.Steps(0)
	for i, want := range []string{"Rip along the length 1 strip 152 mm wide, 2 strips 92 mm wide.", "Take 50 mm off each end of 1 of 152 mm wide, then cut 1 of 2400 mm for strake 5 port, 1 of 1700 mm for strake 7 port, ripped to 140 mm wide.",
		"Take 50 mm off each end of 2 of 92 mm wide, then cut 1 of 3400 mm for strake 9 port."} {
		if steps[i] != want {
			t.Errorf("%q, %q wanted", steps[i], want)
		}
	}
	d := r.Draw()
	if !says(d.List, "152 mm wide") || !says(d.List, "1700 mm, ripped to 140 mm") || d.Table.Rows[1][2] != "1, 152 mm wide" {
		t.Error(d.Table.Rows)
	}
}

// Lengths alike that are ripped differently are told apart by how many there are of each.
func TestRippingListOfLengthsAlike(t *testing.T) {
	r := loadDemo(t).sawn(drawing.Wide)
	b := &r.Boards[2]
	b.Lengths = append(b.Lengths, drawing.SawnLength{Count: 1, Length: 1100})
	b.Strips = append(b.Strips, drawing.SawnStrip{Count: 2, OfLength: 3, Width: 122, Pieces: []drawing.SawnPiece{{Label: "strake 8 port", Count: 1, Length: 1100}}})
	steps := r.Steps(2)
	for _, want := range []string{"Of each of 2 lengths of 1100 mm rip 3 strips 82 mm wide.", "Of one length of 1100 mm rip 2 strips 122 mm wide."} {
		if !slices.Contains(steps, want) {
			t.Errorf("%q is not among %q", want, steps)
		}
	}
}

// A board that is crosscut first says so before its lengths are ripped; each strip is drawn where its length lies.
func TestRippingListOfBoardsCrosscutFirst(t *testing.T) {
	r := loadDemo(t).sawn(drawing.Wide)
	for i, want := range []string{
		"Take 20 mm off each end, then crosscut into lengths: 1 of 2400 mm, 2 of 1100 mm.",
		"Of the length of 2400 mm rip 1 strip 152 mm wide, 1 strip 92 mm wide.", "Of 1 of 152 mm wide cut 1 of 2400 mm for strake 5 port.",
		"Of 1 of 92 mm wide cut 1 of 2050 mm for strake 9 port. The 347 mm left of each is too short to keep.",
		"Of each length of 1100 mm rip 3 strips 82 mm wide.", "Of 6 of 82 mm wide cut 1 of 1100 mm for strake 7 port.",
		"The rest stays uncut, 40 mm thick, 260 mm wide, 351 mm long, too short to keep.",
	} {
		if steps := r.Steps(2); steps[i] != want {
			t.Errorf("%q, %q wanted", steps[i], want)
		}
	}
	d := r.Board(2)
	if d.Table.Rows[2][2] != "6, 82 mm wide, out of 1100 mm" {
		t.Error(d.Table.Rows)
	}
	var boxes []draw.Path
	for _, p := range d.List.Paths() {
		if p.Closed && p.Pen.Width > 1 && len(p.Pen.Dash) == 0 {
			boxes = append(boxes, p)
		}
	}
	if len(boxes) != 6 { // three lengths and a piece of each strip
		t.Fatalf("%d boxes", len(boxes))
	}
	for i, length := range []int{0, 0, 1} { // the pieces begin where their lengths do
		if at, want := boxes[3+i].Points[0].X, boxes[length].Points[0].X; math.Abs(at-want) > 1e-6 {
			t.Errorf("strip %d begins at %v, its length at %v", i, at, want)
		}
	}
	if gap := (boxes[1].Points[0].X - boxes[0].Points[0].X) * d.List.ScaleMM; math.Abs(gap-2403) > 1e-6 {
		t.Errorf("the second length begins %v mm after the first", gap)
	}
}
