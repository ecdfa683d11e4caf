package drawing_test

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/drawing"
	"ribband/takeoff/hull/planking"
)

// Every strake is drawn as long and as wide as it is, at every width of the sheet, garboard lowest, the bow to the right.
func TestPlankExpansionIsTrue(t *testing.T) {
	d := loadDemo(t)
	for _, width := range []float64{drawing.Narrow, drawing.Wide} {
		p := d.plankExpansion(t, width, nil)
		drawn := p.Draw()
		below := math.Inf(1)
		for _, s := range p.Planking.Strakes {
			of := "strake/" + strconv.Itoa(s.No) + "/port"
			var outline []draw.Point
			var butts, frames int
			for _, x := range pathsOf(drawn.List, of) {
				switch {
				case x.Closed:
					outline = x.Points
				case x.Pen.Width > 2:
					butts++
				default:
					frames++
				}
			}
			if butts != len(s.Butts) || frames != len(p.Planking.Frames) {
				t.Errorf("strake %d: %d butts and %d frames drawn", s.No, butts, frames)
			}
			left, right, top, bottom := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
			for _, q := range outline {
				left, right, top, bottom = min(left, q.X), max(right, q.X), min(top, q.Y), max(bottom, q.Y)
			}
			const off = 0.05 // of a unit: points within a fiftieth of one are left out
			scale := drawn.List.ScaleMM
			if math.Abs(right-left-s.Board.Length/scale) > off || math.Abs(bottom-top-s.Board.Width/scale) > off {
				t.Errorf("strake %d at %v: %v by %v mm drawn, %v by %v", s.No, width, (right-left)*scale, (bottom-top)*scale, s.Board.Length, s.Board.Width)
			}
			if bottom >= below {
				t.Errorf("strake %d does not stand above the one below it", s.No)
			}
			below = top
			// The first frame stands to the right of the last.
			first := numbersAt(drawn.List, "1")
			if last := numbersAt(drawn.List, "33"); !(first > last) {
				t.Errorf("frame 1 at %v, frame 33 at %v", first, last)
			}
		}
	}
}

func numbersAt(l *draw.List, no string) float64 {
	for _, i := range l.Layer("numbers").Items {
		if x, is := i.(draw.Text); is && x.String == no {
			return x.At.X
		}
	}
	return math.NaN()
}

// Hood ends are drawn where the planks end, with the end stations before them, and named; the table gives their widths.
func TestPlankExpansionShowsHoodEnds(t *testing.T) {
	d := loadDemo(t)
	p := d.hooded(t, drawing.Wide)
	drawn := p.Draw()
	items := drawn.List.Layer("hoods").Items
	if len(items) != 4*len(p.Planking.Strakes) {
		t.Errorf("%d lines of hood ends for %d strakes", len(items), len(p.Planking.Strakes))
	}
	for _, s := range p.Planking.Strakes {
		first, last := s.Square()
		if len(s.Hoods) != 2 || first == 0 || last == len(s.X)-1 || s.X[0] >= s.X[first] || s.X[len(s.X)-1] <= s.X[last] {
			t.Errorf("strake %d: %+v", s.No, s.Hoods)
		}
	}
	for _, words := range []string{"stem", "transom", "line of the stem", "half-siding", "line of the transom", "hood end, on the line", "end station, where"} {
		if !says(drawn.List, words) {
			t.Errorf("the drawing does not say %q", words)
		}
	}
	at := slices.Index(drawn.Table.Head, "Hood ends")
	if at < 0 || drawn.Table.Rows[0][at] == "" || !strings.Contains(drawn.Table.Rows[0][1], "on the stem") {
		t.Errorf("%v, %v", drawn.Table.Head, drawn.Table.Rows[0])
	}
	plain := d.plankExpansion(t, drawing.Wide, nil).Draw()
	if !says(plain.List, "stem was not measured") || says(plain.List, "hood end, on the line") {
		t.Error("without lines the drawing does not say that planks end at the stations")
	}
}

// The table has every plank; what is wrong, proposed, stuck and to be heeded is said on the drawing.
func TestPlankExpansionSays(t *testing.T) {
	d := loadDemo(t)
	p := d.plankExpansion(t, drawing.Wide, nil)
	drawn := p.Draw()
	planks := 0
	for _, s := range p.Planking.Strakes {
		planks += len(s.Planks)
	}
	if len(drawn.Table.Rows) != planks || drawn.Table.Rows[0][0] != "1" || !strings.Contains(drawn.Table.Caption, "feet-inches-eighths") {
		t.Errorf("%d rows for %d planks: %v, %q", len(drawn.Table.Rows), planks, drawn.Table.Rows[0], drawn.Table.Caption)
	}
	for _, words := range []string{"With planks off", "proposed by the rules in US Army", "Seen from inboard", "1 garboard", "12 sheer strake", "Area of the side"} {
		if !says(drawn.List, words) {
			t.Errorf("the drawing does not say %q", words)
		}
	}
	for _, c := range []struct {
		name   string
		change func(*planking.Document)
		want   []string
	}{
		{"starboard", func(p *planking.Document) { p.Side = boat.Starboard }, []string{"Seen from outboard", "starboard side"}},
		{"breach", func(p *planking.Document) {
			p.StockLengths, p.Butts = nil, []planking.Given{{Strake: 1, X: []string{"16-0-0"}}, {Strake: 2, X: []string{"16-6-0"}}}
		}, []string{"not kept, the first in strake", "right would be", " *"}},
		{"stuck", func(p *planking.Document) { p.StockLengths = []string{"3-0-0"} }, []string{"12 strakes have no butts that keep to the rules"}},
	} {
		drawn := d.plankExpansion(t, drawing.Wide, c.change).Draw()
		for _, words := range c.want {
			if !says(drawn.List, words) {
				t.Errorf("%s: it does not say %q", c.name, words)
			}
		}
	}
}

// Planks that are renewed are shaded where they lie and named by marks that the table has too; butts that they take out are gone,
// those that they make are told apart from those that stay, and butts that nobody wrote down are not drawn.
func TestPlanksRenewed(t *testing.T) {
	d := loadDemo(t)
	for _, width := range []float64{drawing.Narrow, drawing.Wide} {
		p := d.renewed(t, width)
		made := p.Renewed
		drawn := p.Draw()
		if shaded := drawn.List.Layer("renewed").Items; len(made) != 2 || len(shaded) != 2 {
			t.Fatalf("%d planks are shaded, %d made", len(shaded), len(made))
		}
		if first := drawn.List.Layers[0].Name; first != "renewed" {
			t.Errorf("%s lies below what is shaded", first)
		}
		for i, item := range drawn.List.Layer("renewed").Items {
			path, of := item.(draw.Path), made[len(made)-1-i] // from the sheer down
			left, right := math.Inf(1), math.Inf(-1)
			for _, q := range path.Points {
				left, right = min(left, q.X), max(right, q.X)
			}
			if long := (right - left) * drawn.List.ScaleMM; math.Abs(long/of.Board.Length-1) > 0.01 || path.Fill == "" {
				t.Errorf("%s is drawn %v mm long, %v wanted", path.Of, long, of.Board.Length)
			}
		}
		if rows := drawn.Table.Rows; len(rows) != 2 || rows[0][0] != "R1" || rows[1][1] != "9" || !strings.Contains(drawn.List.Desc, "R2 strake 9") || !strings.Contains(drawn.List.Title, "Planks renewed on") {
			t.Errorf("%v; %s; %s", drawn.Table.Rows, drawn.List.Title, drawn.List.Desc)
		}
		fresh, marks := 0, 0
		for _, x := range drawn.List.Texts() {
			if strings.HasSuffix(x.String, " new") {
				fresh++
			}
			if x.String == "R1" || x.String == "R2" {
				marks++
			}
		}
		want := 0
		for _, m := range made {
			for _, e := range m.Ends {
				if e.New {
					want++
				}
			}
		}
		if want == 0 || fresh > want || width == drawing.Wide && fresh != want || marks != 2 {
			t.Errorf("%d butts are called new, %d wanted; %d marks", fresh, want, marks)
		}
		p.Renewed = []planking.Renewed{}
		if none := p.Draw(); len(none.Table.Rows) != 0 || !strings.Contains(none.List.Desc, "No plank of this side is renewed") {
			t.Error(none.List.Desc)
		}
	}
}
