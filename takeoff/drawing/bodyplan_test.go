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
	"ribband/takeoff/hull/offsets"
)

// pathsOf is the paths that show something.
func pathsOf(l *draw.List, of string) []draw.Path {
	var out []draw.Path
	for _, p := range l.Paths() {
		if p.Of == of {
			out = append(out, p)
		}
	}
	return out
}

// centres is the X of every centreline, from the left.
func centres(t *testing.T, l *draw.List) []float64 {
	t.Helper()
	var out []float64
	for _, i := range l.Layer("centreline").Items {
		out = append(out, i.(draw.Path).Points[0].X)
	}
	slices.Sort(out)
	return out
}

// Every section of the demo boat is drawn on its side, fore body right and after body left, and stands in the table
// with every value that was measured.
func TestEverySectionIsThere(t *testing.T) {
	d := loadDemo(t)
	drawn := d.bodyPlan(drawing.Wide).Draw()
	centre := centres(t, drawn.List)
	if len(centre) != 2 {
		t.Fatalf("%d plans, want one a side", len(centre))
	}
	for i, side := range boat.Sides {
		widest, middle := 0.0, 0
		for _, m := range d.hull.Measures() {
			for _, q := range m.Section.Line(145) {
				if m.Section.Side == side && q.Y > widest {
					widest, middle = q.Y, m.Station
				}
			}
		}
		for _, st := range d.offsets.Stations {
			paths := pathsOf(drawn.List, "section/"+strconv.Itoa(st.No)+"/"+string(side))
			want := 1
			if st.No == middle {
				want = 2
			}
			if len(paths) != want {
				t.Fatalf("station %d %s is drawn %d times, want %d", st.No, side, len(paths), want)
			}
			for _, q := range paths[0].Points {
				if right := q.X > centre[i]; right != (st.No <= middle) {
					t.Errorf("station %d %s goes through %v, the centreline being at %v", st.No, side, q, centre[i])
				}
			}
		}
	}
	cells := 0
	for _, row := range drawn.Table.Rows {
		for _, c := range row[2:] {
			if c != "–" {
				cells++
			}
		}
	}
	want := 0
	for i := range d.offsets.Stations {
		for _, side := range boat.Sides {
			want += len(d.offsets.Stations[i].Marks(side)) + 2 // rabbet and sheer have two measures each
		}
	}
	if cells != want {
		t.Errorf("%d values in the table, %d measured", cells, want)
	}
}

// A line of the table against the demo's own table of offsets: station 6 in the shape of the whole.
func TestTableOfOffsets(t *testing.T) {
	d := loadDemo(t)
	drawn := d.bodyPlan(drawing.Narrow).Draw()
	for _, row := range drawn.Table.Rows {
		if row[0] == "port" && row[1] == "WL 3-0-0, half-breadth" {
			if row[2] != "0-3-0" || row[3] != "0-10-1" {
				t.Errorf("waterline 3-0-0 port begins %q, %q; offsets.csv has 0-3-0 and 0-10-1", row[2], row[3])
			}
			return
		}
	}
	t.Error("waterline 3-0-0 port is not in the table")
}

// The drawing is true to scale: each section runs through the points that the boat was computed from.
func TestBodyPlanIsTrue(t *testing.T) {
	o := parabolic(t, upTo(11), true, nil)
	drawn := drawing.BodyPlan{Offsets: o, Hull: fitted(t, o)}.Draw()
	centre := centres(t, drawn.List)[0]
	base := math.Inf(-1)
	for _, p := range drawn.List.Paths() {
		if strings.HasPrefix(p.Of, "section/") {
			base = max(base, p.Points[0].Y)
		}
	}
	for _, st := range o.Stations {
		p := pathsOf(drawn.List, "section/"+strconv.Itoa(st.No)+"/both")[0]
		for _, m := range st.Port {
			want := draw.Point{X: m.Y.MM() / drawn.List.ScaleMM, Y: base - m.Z.MM()/drawn.List.ScaleMM}
			// The fair curve keeps to exact points; pieces stand up to 0.02 off it, and the steep start of the
			// parabola is cut by the first piece of girth.
			const off = 0.15
			if d := fromLine(p.Points, centre, want); d > off {
				t.Errorf("station %d, %s: the line passes %.3f units away", st.No, m.Cell, d)
			}
		}
	}
	if got := len(drawn.List.Layer("waterlines").Items); got != 9 {
		t.Errorf("%d waterlines, the table has 9", got)
	}
}

// fromLine is how far a point, given from the centreline outboard, lies from a line on either side of it.
func fromLine(line []draw.Point, centre float64, p draw.Point) float64 {
	least := math.Inf(1)
	for i := 1; i < len(line); i++ {
		ax, bx := math.Abs(line[i-1].X-centre), math.Abs(line[i].X-centre)
		dx, dy := bx-ax, line[i].Y-line[i-1].Y
		u := 0.0
		if l := dx*dx + dy*dy; l > 0 {
			u = min(1, max(0, ((p.X-ax)*dx+(p.Y-line[i-1].Y)*dy)/l))
		}
		least = min(least, math.Hypot(ax+u*dx-p.X, line[i-1].Y+u*dy-p.Y))
	}
	return least
}

// Sides alike in every point, whether written as one or twice, make one plan; one point apart makes two.
func TestSidesAlike(t *testing.T) {
	apart := func(no int, side boat.Side, y float64) float64 {
		if no == 3 && side == boat.Port {
			return y + 1
		}
		return y
	}
	for _, c := range []struct {
		name   string
		o      *offsets.Table
		plans  int
		remark string
	}{
		{"written as one", parabolic(t, upTo(7), true, nil), 1, "Port and starboard are alike in every point"},
		{"written twice", parabolic(t, upTo(7), false, nil), 1, "Port and starboard are alike in every point"},
		{"station 3 port 1 mm fuller", parabolic(t, upTo(7), false, apart), 2, "Port and starboard differ by at most 1 mm (station 3"},
	} {
		drawn := drawing.BodyPlan{Offsets: c.o, Hull: fitted(t, c.o)}.Draw()
		if n := len(centres(t, drawn.List)); n != c.plans {
			t.Errorf("%s: %d plans, want %d", c.name, n, c.plans)
		}
		if !says(drawn.List, c.remark) {
			t.Errorf("%s: it does not say %q", c.name, c.remark)
		}
		if lines := len(drawn.Table.Rows); lines != c.plans*13 { // 9 waterlines, rabbet and sheer twice
			t.Errorf("%s: %d rows in the table", c.name, lines)
		}
	}
}

// What is missing is said on the drawing.
func TestBodyPlanSaysWhatIsMissing(t *testing.T) {
	gap := parabolic(t, []int{0, 1, 2, 4, 5, 6}, true, nil)
	sparse := parabolic(t, []int{0, 5, 10}, true, nil)
	points := parabolic(t, upTo(4), true, nil)
	for _, c := range []struct {
		name string
		plan drawing.BodyPlan
		want string
		not  string
	}{
		{"no offsets", drawing.BodyPlan{}, "No table of offsets has been entered yet", ""},
		{"empty offsets", drawing.BodyPlan{Offsets: &offsets.Table{}}, "No table of offsets has been entered yet", ""},
		{"station 3 missing", drawing.BodyPlan{Offsets: gap, Hull: fitted(t, gap)}, "Station 3 is not in the table of offsets", ""},
		{"numbered by fives", drawing.BodyPlan{Offsets: sparse, Hull: fitted(t, sparse)}, "Body plan", "not in the table of offsets"},
		{"not fair", drawing.BodyPlan{Offsets: points}, "The points do not make fair curves yet", ""},
		{"lines of another boat", drawing.BodyPlan{Offsets: gap, Hull: fitted(t, points)}, "Station 5 port has no section and is not drawn", ""},
		{"no name, date, revision", drawing.BodyPlan{Offsets: gap, Hull: fitted(t, gap)}, "Date not given, revision not given", ""},
	} {
		l := c.plan.Draw().List
		if !says(l, c.want) {
			t.Errorf("%s: it does not say %q", c.name, c.want)
		}
		if c.not != "" && says(l, c.not) {
			t.Errorf("%s: it says %q", c.name, c.not)
		}
	}
}

// The scale bar measures what it says.
func TestScaleBar(t *testing.T) {
	d := loadDemo(t)
	metric := parabolic(t, upTo(11), true, nil)
	for _, c := range []struct {
		name string
		l    *draw.List
		unit string
		mm   float64
	}{
		{"feet", d.bodyPlan(drawing.Wide).Draw().List, "ft", 304.8},
		{"feet, narrow", d.mixedPlan(drawing.Narrow).Draw().List, "ft", 304.8},
		{"metres", drawing.BodyPlan{Offsets: metric, Hull: fitted(t, metric)}.Draw().List, "m", 1000},
	} {
		left, right, said := math.Inf(1), math.Inf(-1), 0.0
		for _, i := range c.l.Layer("scale bar").Items {
			switch x := i.(type) {
			case draw.Path:
				for _, q := range x.Points {
					left, right = min(left, q.X), max(right, q.X)
				}
			case draw.Text:
				if figure, is := strings.CutSuffix(x.String, " "+c.unit); is {
					said, _ = strconv.ParseFloat(figure, 64)
				}
			}
		}
		if got := (right - left) * c.l.ScaleMM / c.mm; math.Abs(got-said) > 1e-6 || said == 0 {
			t.Errorf("%s: the bar is %v %s long and says %v", c.name, got, c.unit, said)
		}
	}
}
