package drawing_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"maps"
	"math"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/drawing"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/notation"
)

// gallery is drawings of every kind at a width.
func gallery(t testing.TB, width float64) map[string]drawing.Drawing {
	d := loadDemo(t)
	none := d.mixedPlan(width)
	none.Work = nil
	bare := d.mixedPlan(width)
	bare.Hull = nil
	unfair := d.bodyPlan(width)
	unfair.Hull = nil
	many := parabolic(t, upTo(11), true, nil)
	crowd := drawing.FramePlan{Sheet: d.on(width), Frames: run(t, 400, "10", "25"), Hull: fitted(t, many), Work: none.Work, Notation: many.Notation}
	every := map[boat.Member]drawing.Work{}
	for _, f := range crowd.Frames {
		if f.No%3 == 0 {
			every[f.Member()] = drawing.Work{Remedy: boat.ReplaceLaminated}
		}
	}
	alternating := crowd
	alternating.Work = every
	long := d.bodyPlan(width)
	long.Sheet.Boat = strings.Repeat("Wendelineofthelongestname", 12)
	long.Sheet.Note = strings.Repeat("word ", 400)
	long.Sheet.Date, long.Sheet.Revision = strings.Repeat("9", 90), strings.Repeat("r ", 90)
	chined, lopsided := hardChined(t, 0), hardChined(t, 30)
	extra := map[string]drawing.Drawing{}
	for name, c := range map[string]*offsets.Table{"chined": chined, "chined, sides apart": lopsided} {
		for view, drawn := range views(d.on(width), c, fitted(t, c)) {
			extra[view+", "+name] = drawn
		}
		for view, drawn := range views(d.on(width), c, nil) {
			extra[view+" of points, "+name] = drawn
		}
	}
	out := map[string]drawing.Drawing{
		"body plan":               d.bodyPlan(width).Draw(),
		"body plan of points":     unfair.Draw(),
		"body plan, mirrored":     drawing.BodyPlan{Sheet: d.on(width), Offsets: many, Hull: fitted(t, many)}.Draw(),
		"body plan, long words":   long.Draw(),
		"body plan, patterns":     d.withPatterns(t, width, 20).Draw(),
		"body plan, nothing":      drawing.BodyPlan{Sheet: d.on(width)}.Draw(),
		"profile":                 d.profile(width).Draw(),
		"profile of points":       drawing.Profile{Sheet: d.on(width), Offsets: d.offsets}.Draw(),
		"profile, mirrored":       drawing.Profile{Sheet: d.on(width), Offsets: many, Hull: fitted(t, many)}.Draw(),
		"profile, nothing":        drawing.Profile{Sheet: d.on(width)}.Draw(),
		"half-breadths":           d.halfBreadths(width).Draw(),
		"half-breadths of points": drawing.HalfBreadths{Sheet: d.on(width), Offsets: d.offsets}.Draw(),
		"half-breadths, mirrored": drawing.HalfBreadths{Sheet: d.on(width), Offsets: many, Hull: fitted(t, many)}.Draw(),
		"half-breadths, nothing":  drawing.HalfBreadths{Sheet: d.on(width)}.Draw(),
		"planks":                  d.plankExpansion(t, width, nil).Draw(),
		"planks, no butts":        d.plankExpansion(t, width, func(p *planking.Document) { p.StockLengths, p.Side = nil, boat.Starboard }).Draw(),
		"planks, breaches": d.plankExpansion(t, width, func(p *planking.Document) {
			p.Butts = []planking.Given{{Strake: 1, X: []string{"8-0-0", "9-6-0", "16-0-0"}}, {Strake: 2, X: []string{"8-1-0", "20-0-0"}}}
		}).Draw(),
		"planks, short stock": d.plankExpansion(t, width, func(p *planking.Document) { p.StockLengths, p.Strakes.Count = []string{"8-0-0"}, 30 }).Draw(),
		"planks, one strake":  d.plankExpansion(t, width, func(p *planking.Document) { p.Strakes.Count = 1 }).Draw(),
		"planks, 400 frames": drawing.PlankExpansion{Sheet: d.on(width), Notation: many.Notation, Planking: laid(t, crowd.Hull, run(t, 390, "10", "25"),
			planking.Document{Side: boat.Port, Strakes: planking.Division{Count: 9}, StockLengths: []string{"4000"}}, many.Notation)}.Draw(),
		"planks, renewed":           d.renewed(t, width).Draw(),
		"planks, nothing":           drawing.PlankExpansion{Sheet: d.on(width)}.Draw(),
		"one frame, port":           d.oneFrame(t, width, 10).Draw(),
		"one frame, starboard":      d.oneFrame(t, width, 33).Draw(),
		"one frame, none":           drawing.OneFrame{Sheet: d.on(width)}.Draw(),
		"frames, ten":               d.framePlan(t, width, 0).Draw(),
		"frames, all":               d.framePlan(t, width, 1).Draw(),
		"frames, mixed":             d.mixedPlan(width).Draw(),
		"frames, no remedy":         none.Draw(),
		"frames, no lines":          bare.Draw(),
		"frames, none":              drawing.FramePlan{Sheet: d.on(width)}.Draw(),
		"frames, 400 a side":        crowd.Draw(),
		"frames, 400 a side, mixed": alternating.Draw(),
	}
	worded := d.sawn(width)
	worded.Boards[0].Name, worded.Boards[1].Size = strings.Repeat("Board", 60), strings.Repeat("wide ", 80)
	worded.Boards[0].Strips[0].Pieces[0].Label = strings.Repeat("frame", 40)
	out["ripping list"], out["ripping list, long words"] = d.sawn(width).Draw(), worded.Draw()
	out["ripping list, one board"], out["ripping list, nothing"] = d.sawn(width).Board(1), drawing.RippingList{Sheet: d.on(width)}.Draw()
	longest := d.joints(width, "butt")
	longest.Name, longest.MadeUp.Why = strings.Repeat("frame", 60), strings.Repeat("why ", 300)
	out["joints, scarfed"], out["joints, butted"] = d.joints(width, "feather").Draw(), longest.Draw()
	out["joints, bare"], out["joints, none"] = d.joints(width, "feather").Bare(), drawing.JointSheet{Sheet: d.on(width)}.Draw()
	out["floors"], out["floors, none"] = d.floors(t, width).Draw(), drawing.Floors{Sheet: d.on(width)}.Draw()
	out["form"], out["form of a taper"], out["form, none"] = d.form(t, width, false).Draw(), d.form(t, width, true).Draw(), drawing.FormSheet{Sheet: d.on(width)}.Draw()
	maps.Copy(out, extra)
	return out
}

var widths = []float64{320, drawing.Narrow, 500, 640, 800, drawing.Wide, 2000}

// No two texts of a drawing lie one on the other, and none leaves the sheet.
func TestTextsStandApart(t *testing.T) {
	for _, width := range widths {
		for name, d := range gallery(t, width) {
			texts := d.List.Texts()
			for i, a := range texts {
				e := a.Extent()
				if e.Left < 0 || e.Top < 0 || e.Right > d.List.Width || e.Bottom > d.List.Height {
					t.Errorf("%s at %v: %q leaves the sheet: %+v of %v x %v", name, width, a.String, e, d.List.Width, d.List.Height)
				}
				for _, b := range texts[i+1:] {
					if e.Overlaps(b.Extent()) {
						t.Errorf("%s at %v: %q and %q overlap: %+v %+v", name, width, a.String, b.String, e, b.Extent())
					}
				}
			}
		}
	}
}

// No line leaves the sheet either, and no type is smaller than a reader on a phone can read.
func TestPathsStayOnTheSheet(t *testing.T) {
	// Assumption: 10 CSS pixels is the least that figures are read at from a phone.
	const least = 10
	for _, width := range widths {
		for name, d := range gallery(t, width) {
			if d.List.Width != width {
				t.Errorf("%s: laid out for %v, not %v", name, d.List.Width, width)
			}
			for _, p := range d.List.Paths() {
				for _, q := range p.Points {
					if !(q.X >= 0 && q.Y >= 0 && q.X <= d.List.Width && q.Y <= d.List.Height) {
						t.Errorf("%s at %v: %s goes through %v", name, width, p.Of, q)
					}
				}
			}
			for _, x := range d.List.Texts() {
				if x.Size < least {
					t.Errorf("%s at %v: %q is of size %v", name, width, x.String, x.Size)
				}
			}
		}
	}
}

// Every drawing is well-formed, has a title and a description, and carries nothing that a strict page forbids.
func TestFilesAreSound(t *testing.T) {
	allowed := map[string]bool{"svg": true, "title": true, "desc": true, "g": true, "path": true, "text": true}
	for name, d := range gallery(t, drawing.Narrow) {
		file := svg(t, d.List)
		seen := map[string]int{}
		dec := xml.NewDecoder(bytes.NewReader(file))
		for {
			token, err := dec.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			e, is := token.(xml.StartElement)
			if !is {
				continue
			}
			seen[e.Name.Local]++
			if !allowed[e.Name.Local] {
				t.Errorf("%s: element %s", name, e.Name.Local)
			}
			for _, a := range e.Attr {
				if a.Name.Local == "style" || a.Name.Local == "class" || a.Name.Local == "id" && !strings.HasPrefix(a.Value, "plan") {
					t.Errorf("%s: %s=%q", name, a.Name.Local, a.Value)
				}
			}
		}
		if seen["svg"] != 1 || seen["title"] != 1 || seen["desc"] != 1 || d.List.Title == "" || d.List.Desc == "" {
			t.Errorf("%s: %v", name, seen)
		}
		if !bytes.Equal(file, svg(t, d.List)) {
			t.Errorf("%s: written twice, it differs", name)
		}
		for i, row := range d.Table.Rows {
			if len(row) != len(d.Table.Head) {
				t.Errorf("%s: row %d has %d cells below %d heads", name, i, len(row), len(d.Table.Head))
			}
		}
		if d.Table.Caption == "" {
			t.Errorf("%s: the table has no caption", name)
		}
	}
}

// A width that is none is brought to one.
func TestWidths(t *testing.T) {
	for _, c := range []struct{ asked, want float64 }{
		{0, drawing.Wide}, {1, 320}, {-5, 320}, {1e12, 4000}, {math.Inf(1), 4000}, {math.NaN(), drawing.Wide},
	} {
		if got := (drawing.BodyPlan{Sheet: drawing.Sheet{Width: c.asked}}).Draw().List.Width; got != c.want {
			t.Errorf("%v: %v, want %v", c.asked, got, c.want)
		}
	}
}

// Whatever stands in the title block: the file is sound and the texts stay on the sheet.
func FuzzSheet(f *testing.F) {
	f.Add("Wendeline", "2026-10-05", "1", "<b>&\x00\xff", "The ten worst pairs", 360.0)
	f.Add(strings.Repeat("W", 300), "", "", "\u202e\ufffe", "</svg>", -1.0)
	frames := run(f, 12, "500", "400") // without lines, which the title block does not depend on
	f.Fuzz(func(t *testing.T, name, date, revision, note, option string, width float64) {
		p := drawing.FramePlan{Notation: notation.Millimetres, Frames: frames}
		p.Sheet.Width = width
		p.Sheet.Boat, p.Sheet.Date, p.Sheet.Revision, p.Sheet.Note, p.Option = name, date, revision, note, option
		drawn := p.Draw()
		dec := xml.NewDecoder(bytes.NewReader(svg(t, drawn.List)))
		for {
			if _, err := dec.Token(); err == io.EOF {
				break
			} else if err != nil {
				t.Fatal(err)
			}
		}
		for _, x := range drawn.List.Texts() {
			if e := x.Extent(); e.Right > drawn.List.Width || e.Bottom > drawn.List.Height {
				t.Errorf("%q leaves the sheet", x.String)
			}
		}
	})
}

func ExampleBodyPlan() {
	d := drawing.BodyPlan{Sheet: drawing.Sheet{Boat: "Wendeline"}}.Draw()
	fmt.Println(d.List.Title)
	fmt.Println(d.List.Desc)
	// Output:
	// Body plan of Wendeline
	// No table of offsets has been entered yet; there is nothing to draw.
}

// texts of a drawing in one, and whether they say something.
func says(l *draw.List, what string) bool {
	var all []string
	for _, x := range l.Texts() {
		all = append(all, x.String)
	}
	return strings.Contains(strings.Join(all, " "), what)
}
