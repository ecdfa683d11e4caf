package drawing_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/drawing"
	"ribband/takeoff/notation"
	"ribband/takeoff/pattern"
)

// withPatterns is the demo's body plan with the patterns of two frames, points taken off her own sections and so far in.
func (d demo) withPatterns(t testing.TB, width, in float64) drawing.BodyPlan {
	t.Helper()
	p := d.bodyPlan(width)
	doc := pattern.Document{Notation: notation.Millimetres, Grain: "1", Surface: "inside"}
	members := []boat.Member{d.frames[8].Member(), d.frames[51].Member()}
	x := map[boat.Member]float64{}
	for _, f := range d.frames {
		x[f.Member()] = f.X.InexactFloat64()
	}
	for _, m := range members {
		s, err := d.hull.Section(x[m], m.Side)
		if err != nil {
			t.Fatal(err)
		}
		rows := pattern.Rows{FrameNo: m.No, Side: m.Side}
		for i, q := range s.Line(12) {
			text := func(v float64) string {
				l, err := notation.FromMM(math.Round(v))
				if err != nil {
					t.Fatal(err)
				}
				return notation.Millimetres.Format(l)
			}
			rows.Points = append(rows.Points, pattern.Row{N: i + 1, Y: text(max(0, q.Y-in)), Z: text(q.Z)})
		}
		doc.Patterns = append(doc.Patterns, rows)
	}
	set, faults := pattern.Read(doc)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	fitted, faults := set.Fit()
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	for _, m := range fitted.Members() {
		s, _ := fitted.Section(m, x[m])
		p.Patterns = append(p.Patterns, drawing.FramePattern{Member: m, Section: s, Placed: true})
	}
	return p
}

// Patterns stand among the sections of their side, in the half that their frame is in, told apart by dash and number.
func TestPatternsInTheBodyPlan(t *testing.T) {
	d := loadDemo(t)
	p := d.withPatterns(t, drawing.Wide, 20)
	l := p.Draw().List
	centre := centres(t, l)
	sides := map[boat.Side]string{boat.Port: "Port side", boat.Starboard: "Starboard side"}
	for _, q := range p.Patterns {
		paths := pathsOf(l, "pattern/"+strings.TrimPrefix(q.Member.Path(), "frame/"))
		if len(paths) != 1 || len(paths[0].Pen.Dash) != 4 {
			t.Fatalf("%s is drawn %d times: %+v", q.Member, len(paths), paths)
		}
		plan := 0
		if q.Member.Side == boat.Starboard {
			plan = 1
		}
		end, from := q.Section.At(1), paths[0].Points[len(paths[0].Points)-1]
		if off := math.Abs(math.Abs(from.X-centre[plan])*l.ScaleMM - end.Y); off > 0.01 {
			t.Errorf("%s ends %v mm off", q.Member, off)
		}
		// The midship section stands at station 7 or so, 21 ft aft.
		if fore := q.Section.X < 6000; (from.X > centre[plan]) != fore {
			t.Errorf("%s at %v stands in the other half", q.Member, q.Section.X)
		}
		// Its number stands on the line, or below the drawing where there is no room.
		number := "F " + strconv.Itoa(q.Member.No)
		named := says(l, sides[q.Member.Side]+": "+number+".")
		for _, i := range l.Layer("line names").Items {
			x, is := i.(draw.Text)
			named = named || is && x.String == number
		}
		if !named {
			t.Errorf("%s has no number", q.Member)
		}
	}
	if !says(l, "F pattern of the frame") || says(d.bodyPlan(drawing.Wide).Draw().List, "F pattern of the frame") {
		t.Error("the key has patterns where there are none, or has not")
	}
	p.Patterns[0].Placed = false
	p.Notes = []string{"A note of the yard."}
	if l := p.Draw().List; !says(l, "is not drawn: where its frame stands") || !says(l, "A note of the yard.") {
		t.Error("it does not say what is not drawn")
	}
}
