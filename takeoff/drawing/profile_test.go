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
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// uprightsOf is the X of every station drawn, from the left.
func uprightsOf(l *draw.List) []float64 {
	var out []float64
	for _, i := range l.Layer("stations").Items {
		out = append(out, i.(draw.Path).Points[0].X)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// through is how far a place on the sheet lies from the nearest of some paths.
func through(paths []draw.Path, p draw.Point) float64 {
	least := math.Inf(1)
	for _, path := range paths {
		least = min(least, fromLine(path.Points, 0, p))
	}
	return least
}

// Half-breadths stand below the profile on the same stations, to the same scale, the bow to the right.
func TestHalfBreadthsStandBelowTheProfile(t *testing.T) {
	d := loadDemo(t)
	for _, width := range widths {
		side, above := d.profile(width).Draw().List, d.halfBreadths(width).Draw().List
		a, b := uprightsOf(side), uprightsOf(above)
		if !slices.Equal(a, b) || len(a) != len(d.offsets.Stations) || side.ScaleMM != above.ScaleMM {
			t.Errorf("at %v: stations at %v to a scale of %v, and at %v to %v", width, a, side.ScaleMM, b, above.ScaleMM)
		}
		for i, st := range d.offsets.Stations {
			want := a[len(a)-1] - (st.X.MM()-d.offsets.Stations[0].X.MM())/side.ScaleMM
			if got := a[len(a)-1-i]; math.Abs(got-want) > 1e-6 {
				t.Errorf("station %d stands at %v, want %v", st.No, got, want)
			}
		}
	}
}

// Lines run through what was measured: on a boat of exact points each waterline and buttock passes its marks.
func TestLinesAreTrue(t *testing.T) {
	o := parabolic(t, upTo(11), true, nil)
	h := fitted(t, o)
	above := drawing.HalfBreadths{Offsets: o, Hull: h}.Draw().List
	right := slices.Max(uprightsOf(above))
	axis := above.Layer("centreline").Items[0].(draw.Path).Points[0].Y
	marks := 0
	for i := range o.Stations {
		for _, m := range o.Stations[i].Port {
			wl, is := strings.CutPrefix(m.Cell, "wl:")
			if !is {
				continue
			}
			l, err := notation.Millimetres.Parse(wl)
			if err != nil {
				t.Fatal(err)
			}
			marks++
			at := draw.Point{X: right - o.Stations[i].X.MM()/above.ScaleMM, Y: axis - m.Y.MM()/above.ScaleMM}
			// Pieces stand up to 0.02 units off the curve, and the curve keeps to exact points.
			if off := through(pathsOf(above, "wl/"+notation.Millimetres.Format(l)+"/both"), at); off > 0.03 {
				t.Errorf("station %d: waterline %s passes its mark %.3f units away", o.Stations[i].No, wl, off)
			}
		}
	}
	if marks != 11*9 {
		t.Errorf("%d marks", marks)
	}
}

// A line ends where the boat does: every end of a drawn waterline or buttock lies on the rabbet, on the sheer or at an end
// station, and nowhere does one run beyond.
func TestLinesEndHonestly(t *testing.T) {
	d := loadDemo(t)
	side, above := d.profile(drawing.Wide).Draw().List, d.halfBreadths(drawing.Wide).Draw().List
	for _, c := range []struct {
		l    *draw.List
		what string
	}{{side, "buttock/"}, {above, "wl/"}} {
		ups := uprightsOf(c.l)
		inner := 0
		for _, p := range c.l.Paths() {
			if !strings.HasPrefix(p.Of, c.what) {
				continue
			}
			of := p.Of[strings.LastIndex(p.Of, "/"):]
			edges := append(pathsOf(c.l, "rabbet"+of), pathsOf(c.l, "sheer"+of)...)
			for _, q := range []draw.Point{p.Points[0], p.Points[len(p.Points)-1]} {
				if math.Abs(q.X-ups[0]) < 1e-6 || math.Abs(q.X-ups[len(ups)-1]) < 1e-6 {
					continue
				}
				inner++
				// Both lines are drawn to 0.02 units.
				if off := through(edges, q); off > 0.041 {
					t.Errorf("%s ends at %v, %.3f units off rabbet and sheer", p.Of, q, off)
				}
			}
			for _, q := range p.Points {
				if q.X < ups[0]-1e-6 || q.X > ups[len(ups)-1]+1e-6 {
					t.Errorf("%s runs to %v, beyond the end stations", p.Of, q)
				}
			}
		}
		if inner == 0 {
			t.Errorf("no %s ends between the end stations, so nothing was looked at", c.what)
		}
	}
}

// The tables tell what the sections have: heights of buttocks and half-breadths of waterlines at every station.
func TestTablesOfLines(t *testing.T) {
	d := loadDemo(t)
	tables := map[string]drawing.Table{"B ": d.profile(drawing.Wide).Draw().Table, "WL ": d.halfBreadths(drawing.Wide).Draw().Table}
	cells := map[string]int{}
	for head, table := range tables {
		for _, row := range table.Rows {
			level, is := strings.CutPrefix(row[1], head)
			if !is {
				continue
			}
			at, err := notation.FeetInchesEighths.Parse(level)
			if err != nil {
				t.Fatal(err)
			}
			for i, st := range d.offsets.Stations {
				s, err := d.hull.Section(st.X.MM(), boat.Side(row[0]))
				if err != nil {
					t.Fatal(err)
				}
				want := nearestTo(s, head == "WL ", at.MM())
				if row[2+i] == "–" {
					if !math.IsNaN(want) {
						t.Errorf("%s station %d: nothing, the section has %v", row[1], st.No, want)
					}
					continue
				}
				got, err := notation.FeetInchesEighths.Parse(row[2+i])
				if err != nil {
					t.Fatal(err)
				}
				cells[head]++
				// Told to a sixteenth of an inch, so half of it off; the section is looked at in steps.
				if !(math.Abs(got.MM()-want) < 25.4/32+0.05) {
					t.Errorf("%s station %d %s: %v, the section has %v", row[1], st.No, row[0], got.MM(), want)
				}
			}
		}
	}
	if cells["B "] < 50 || cells["WL "] < 200 {
		t.Errorf("only %v cells were looked at", cells)
	}
}

// nearestTo is the half-breadth of a section at a height, or its height at a half-breadth; NaN where it has none.
func nearestTo(s *hull.Section, height bool, at float64) float64 {
	line := s.Line(4001)
	for i := 1; i < len(line); i++ {
		from, to := line[i-1], line[i]
		if !height {
			from, to = hull.Point{Y: from.Z, Z: from.Y}, hull.Point{Y: to.Z, Z: to.Y}
		}
		if (from.Z < at) != (to.Z < at) {
			return from.Y + (to.Y-from.Y)*(at-from.Z)/(to.Z-from.Z)
		}
	}
	return math.NaN()
}

// Sides alike make one profile and one half, a point apart makes two; what is missing is said.
func TestLengthwiseSides(t *testing.T) {
	apart := parabolic(t, upTo(7), false, func(no int, side boat.Side, y float64) float64 {
		if no == 3 && side == boat.Port {
			return y + 1
		}
		return y
	})
	alike := parabolic(t, []int{0, 1, 2, 4, 5, 6}, true, nil)
	for _, c := range []struct {
		name  string
		o     *offsets.Table
		h     *hull.Hull
		sides int
		says  string
	}{
		{"apart", apart, fitted(t, apart), 2, "A line ends where it meets the rabbet"},
		{"alike", alike, fitted(t, alike), 1, "Port and starboard are alike in every point"},
		{"a station missing", alike, fitted(t, alike), 1, "Station 3 is not in the table of offsets"},
		{"not fair", alike, nil, 1, "The points do not make fair curves yet"},
	} {
		for what, d := range map[string]drawing.Drawing{
			"profile":       drawing.Profile{Offsets: c.o, Hull: c.h}.Draw(),
			"half-breadths": drawing.HalfBreadths{Offsets: c.o, Hull: c.h}.Draw(),
		} {
			sheers := 0
			for _, p := range d.List.Paths() {
				if strings.HasPrefix(p.Of, "sheer/") {
					sheers++
					if dashed := len(p.Pen.Dash) > 0; dashed != (c.h == nil) {
						t.Errorf("%s, %s: the sheer is dashed: %v", c.name, what, dashed)
					}
				}
			}
			if sheers != c.sides {
				t.Errorf("%s, %s: %d sheers, want %d", c.name, what, sheers, c.sides)
			}
			if !says(d.List, c.says) {
				t.Errorf("%s, %s: it does not say %q", c.name, what, c.says)
			}
			rows := 2
			if what == "half-breadths" {
				rows += 9
			}
			if len(d.Table.Rows) != rows*c.sides {
				t.Errorf("%s, %s: %d rows", c.name, what, len(d.Table.Rows))
			}
		}
	}
	if d := (drawing.Profile{}).Draw(); !says(d.List, "No table of offsets has been entered yet") {
		t.Error("an empty profile does not say why")
	}
	if d := (drawing.HalfBreadths{Offsets: &offsets.Table{}}).Draw(); !says(d.List, "No table of offsets has been entered yet") {
		t.Error("empty half-breadths do not say why")
	}
}

// The names of lines stand on them.
func TestNamesStandOnTheirLines(t *testing.T) {
	d := loadDemo(t)
	l := d.halfBreadths(drawing.Wide).Draw().List
	names := 0
	for _, i := range l.Layer("line names").Items {
		x, is := i.(draw.Text)
		if !is {
			continue
		}
		names++
		wl := strings.TrimPrefix(x.String, "WL ")
		var paths []draw.Path
		for _, side := range boat.Sides {
			paths = append(paths, pathsOf(l, "wl/"+wl+"/"+string(side))...)
		}
		if off := through(paths, draw.Point{X: x.At.X, Y: x.At.Y - 0.36*x.Size}); off > 0.1 {
			t.Errorf("%s stands %v off its line", x.String, off)
		}
	}
	if names < 8 {
		t.Errorf("only %s lines have their name", strconv.Itoa(names))
	}
}
