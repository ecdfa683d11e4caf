package drawing_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/drawing"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// A boat with a chine, two diagonals, a stem and a transom: straight panels from rabbet by chine to sheer, whose breadth
// swells to the middle of nine stations 1 m apart.
var panel = []hull.Point{{Y: 40, Z: 200}, {Y: 900, Z: 450}, {Y: 1150, Z: 1200}}

func swell(x float64) float64 { return 1 - 0.75*math.Pow((x-4500)/5000, 2) }

func panelAt(x float64) []hull.Point {
	out := slices.Clone(panel)
	for i := 1; i < len(out); i++ {
		out[i].Y *= swell(x)
		out[i].Z += 300 * math.Pow((x-4500)/5000, 2)
	}
	return out
}

// planes of the diagonals: name, height and degrees from the middle line.
var slants = []struct {
	name   string
	z, deg float64
}{{"A", 900, 60}, {"B", 700, 35}}

// onDiagonal is how far out along a diagonal a line of straight pieces passes it last; NaN where it does not.
func onDiagonal(line []hull.Point, z, deg float64) float64 {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	off := func(p hull.Point) float64 { return p.Y*cos + (p.Z-z)*sin }
	out := math.NaN()
	for i := 1; i < len(line); i++ {
		a, b := off(line[i-1]), off(line[i])
		if (a < 0) != (b < 0) {
			w := a / (a - b)
			out = (line[i-1].Y + w*(line[i].Y-line[i-1].Y)) / sin
		}
	}
	return out
}

// hardChined is her table of offsets; fuller makes her port side so much wider, so that the sides differ.
func hardChined(t testing.TB, fuller float64) *offsets.Table {
	t.Helper()
	text := func(v float64) string { return fmt.Sprintf("%.6f", v) }
	doc := offsets.Document{Notation: notation.Millimetres, Grain: "0", Surface: offsets.Inside,
		Stem:    []offsets.ProfileOffsets{{Height: "300", X: "-100"}, {Height: "700", X: "-420"}, {Height: "1600", X: "-700"}},
		Transom: []offsets.ProfileOffsets{{Height: "500", X: "8200"}, {Height: "1400", X: "8500"}}}
	for _, d := range slants {
		doc.Diagonals = append(doc.Diagonals, offsets.DiagonalPlane{Name: d.name, Height: text(d.z), AngleDeg: fmt.Sprint(d.deg)})
	}
	for no := range 9 {
		x := 1000 * float64(no)
		st := offsets.StationOffsets{No: no, X: text(x)}
		sides := []boat.Side{boat.Both}
		if fuller != 0 {
			sides = boat.Sides[:]
		}
		for _, side := range sides {
			p := panelAt(x)
			if side == boat.Port {
				p[1].Y, p[2].Y = p[1].Y+fuller, p[2].Y+fuller
			}
			s := offsets.SideOffsets{Side: side,
				Rabbet:   &offsets.EndOffsets{Height: text(p[0].Z), HalfBreadth: text(p[0].Y)},
				Sheer:    &offsets.EndOffsets{Height: text(p[2].Z), HalfBreadth: text(p[2].Y)},
				Knuckles: []offsets.KnuckleOffsets{{Name: "chine", Height: text(p[1].Z), HalfBreadth: text(p[1].Y)}}}
			for _, z := range []float64{300, 400, 800, 1000, 1150} {
				i := 1
				if z < p[1].Z {
					i = 0
				}
				s.Waterlines = append(s.Waterlines, offsets.WaterlineOffsets{Height: text(z), HalfBreadth: text(p[i].Y + (z-p[i].Z)/(p[i+1].Z-p[i].Z)*(p[i+1].Y-p[i].Y))})
			}
			for _, d := range slants {
				if far := onDiagonal(p, d.z, d.deg); far > 0 {
					s.Diagonals = append(s.Diagonals, offsets.DiagonalOffsets{Name: d.name, Distance: text(far)})
				}
			}
			st.Sides = append(st.Sides, s)
		}
		doc.Stations = append(doc.Stations, st)
	}
	return hulltest.Read(t, &doc)
}

// views are the three drawings of her lines.
func views(sheet drawing.Sheet, o *offsets.Table, h *hull.Hull) map[string]drawing.Drawing {
	return map[string]drawing.Drawing{
		"body plan":     drawing.BodyPlan{Sheet: sheet, Offsets: o, Hull: h}.Draw(),
		"profile":       drawing.Profile{Sheet: sheet, Offsets: o, Hull: h}.Draw(),
		"half-breadths": drawing.HalfBreadths{Sheet: sheet, Offsets: o, Hull: h}.Draw(),
	}
}

// sheetOf is where a drawing along the boat stands: the X of station 0 and the Y of the first centreline.
func sheetOf(l *draw.List) (zero, axis float64) {
	if y := l.Layer("centreline").Items; len(y) > 0 {
		axis = y[0].(draw.Path).Points[0].Y
	}
	return slices.Max(uprightsOf(l)), axis
}

// asDrawn, in units, is how far a drawn line may pass from where it belongs: pieces stand 0.02 off the curve, and both curves are looked at in steps.
const asDrawn = 0.03

// A diagonal's curve runs through the distances at which sections taken by themselves, at stations and between them, pass
// its plane.
func TestDiagonalsAreTrue(t *testing.T) {
	for name, fuller := range map[string]float64{"alike": 0, "port fuller": 30} {
		o := hardChined(t, fuller)
		h := fitted(t, o)
		l := drawing.HalfBreadths{Offsets: o, Hull: h}.Draw().List
		zero, axis := sheetOf(l)
		sides, ways := []boat.Side{boat.Both}, []float64{1}
		if fuller != 0 {
			sides, ways = boat.Sides[:], []float64{-1, 1}
			axes := l.Layer("centreline").Items
			if len(axes) != 2 {
				t.Fatalf("%s: %d centrelines", name, len(axes))
			}
			axis = axes[1].(draw.Path).Points[0].Y
		}
		looked := 0
		for i, side := range sides {
			of := side
			if side == boat.Both {
				of = boat.Starboard
			}
			for _, d := range slants {
				paths := pathsOf(l, "diagonal/"+d.name+"/"+string(side))
				for x := 0.0; x <= 8000; x += 250 {
					s, err := h.Section(x, of)
					if err != nil {
						t.Fatal(err)
					}
					far := onDiagonal(s.Line(2001), d.z, d.deg)
					if math.IsNaN(far) {
						continue
					}
					looked++
					at := draw.Point{X: zero - x/l.ScaleMM, Y: axis + ways[i]*far/l.ScaleMM}
					if off := through(paths, at); off > asDrawn {
						t.Errorf("%s: diagonal %s %s at %v passes %.3f units away from %.2f mm", name, d.name, side, x, off, far)
					}
				}
			}
		}
		if looked < 40*len(sides) {
			t.Errorf("%s: only %d places were looked at", name, looked)
		}
	}
}

// In the body plan a diagonal is the straight line from its height on the centreline at its angle, in both halves.
func TestDiagonalsAcrossTheBodyPlan(t *testing.T) {
	o := hardChined(t, 0)
	l := drawing.BodyPlan{Offsets: o, Hull: fitted(t, o)}.Draw().List
	centre := centres(t, l)[0]
	base := l.Layer("baseline").Items[0].(draw.Path).Points[0].Y
	for _, d := range slants {
		paths := pathsOf(l, "diagonal/"+d.name+"/both")
		if len(paths) != 2 {
			t.Fatalf("diagonal %s is drawn %d times", d.name, len(paths))
		}
		for _, p := range paths {
			for _, q := range p.Points {
				out, up := math.Abs(q.X-centre)*l.ScaleMM, (base-q.Y)*l.ScaleMM
				if want := d.z - out/math.Tan(d.deg*math.Pi/180); math.Abs(up-want) > 1e-6 {
					t.Errorf("diagonal %s passes %v high at %v out, want %v", d.name, up, out, want)
				}
			}
		}
	}
}

// Knuckles run through the measured corners in all three views, with a lozenge at every station.
func TestKnucklesAreTrue(t *testing.T) {
	for _, faired := range []bool{true, false} {
		o := hardChined(t, 0)
		var h *hull.Hull
		if faired {
			h = fitted(t, o)
		}
		for name, d := range views(drawing.Sheet{}, o, h) {
			l := d.List
			zero, axis := 0.0, 0.0
			var base, centre float64
			switch name {
			case "body plan":
				centre, base = centres(t, l)[0], l.Layer("baseline").Items[0].(draw.Path).Points[0].Y
			case "profile":
				zero, base = slices.Max(uprightsOf(l)), l.Layer("baseline").Items[0].(draw.Path).Points[0].Y
			default:
				zero, axis = sheetOf(l)
			}
			lozenges := 0
			for _, i := range l.Layer("knuckles").Items {
				if p := i.(draw.Path); p.Closed {
					lozenges++
				}
			}
			want := 9
			if name == "body plan" {
				want = 10 // the greatest section stands in both halves
			}
			if lozenges != want {
				t.Errorf("%s, fair %v: %d lozenges, want %d", name, faired, lozenges, want)
			}
			for no := range 9 {
				x := 1000 * float64(no)
				q := panelAt(x)[1]
				off := math.Inf(1)
				switch name {
				case "body plan":
					for _, p := range append(pathsOf(l, "knuckle/chine/both/fore"), pathsOf(l, "knuckle/chine/both/after")...) {
						off = min(off, fromLine(p.Points, centre, draw.Point{X: q.Y / l.ScaleMM, Y: base - q.Z/l.ScaleMM}))
					}
				case "profile":
					off = through(pathsOf(l, "knuckle/chine/both"), draw.Point{X: zero - x/l.ScaleMM, Y: base - q.Z/l.ScaleMM})
				default:
					off = through(pathsOf(l, "knuckle/chine/both"), draw.Point{X: zero - x/l.ScaleMM, Y: axis - q.Y/l.ScaleMM})
				}
				if off > asDrawn {
					t.Errorf("%s, fair %v: the chine passes %.3f units from station %d", name, faired, off, no)
				}
			}
		}
	}
}

// Stem and transom stand in profile where they were measured, and waterlines run to the stem line at their height.
func TestEndsAreTrue(t *testing.T) {
	o := hardChined(t, 0)
	v := views(drawing.Sheet{}, o, fitted(t, o))
	l := v["profile"].List
	zero := slices.Max(uprightsOf(l))
	base := l.Layer("baseline").Items[0].(draw.Path).Points[0].Y
	for of, line := range map[string][]offsets.Profile{"stem/both": o.Stem, "transom/both": o.Transom} {
		for _, q := range line {
			if off := through(pathsOf(l, of), draw.Point{X: zero - q.X.MM()/l.ScaleMM, Y: base - q.Z.MM()/l.ScaleMM}); off > 1e-6 {
				t.Errorf("%s passes %v from its place at %v", of, off, q.Z)
			}
		}
	}
	l = v["half-breadths"].List
	zero, axis := sheetOf(l)
	reach := map[string]float64{"800": -420 - 280.0/9, "1000": -420 - 280.0/3, "300": -100}
	for wl, x := range reach {
		paths := pathsOf(l, "to-stem/"+wl+"/both")
		if len(paths) != 1 {
			t.Errorf("waterline %s runs to the stem %d times", wl, len(paths))
			continue
		}
		end := paths[0].Points[len(paths[0].Points)-1]
		if math.Abs(end.X-(zero-x/l.ScaleMM)) > 1e-6 || math.Abs(end.Y-(axis-40/l.ScaleMM)) > 0.01 {
			t.Errorf("waterline %s ends at %v", wl, end)
		}
		if len(paths[0].Pen.Dash) == 0 {
			t.Errorf("waterline %s is drawn full where nothing was measured", wl)
		}
	}
}

// What is drawn stands in the table and in the words; where nothing of it was measured neither has it.
func TestExtraLinesAreTold(t *testing.T) {
	o := hardChined(t, 0)
	for name, d := range views(drawing.Sheet{}, o, fitted(t, o)) {
		var rows []string
		for _, r := range d.Table.Rows {
			rows = append(rows, r[1])
			if strings.HasPrefix(r[1], "diagonal A") {
				// station 4 in millimetres, by hand from the panels
				want := onDiagonal(panelAt(4000), 900, 60)
				got, err := notation.Millimetres.Parse(r[6])
				if err != nil || math.Abs(got.MM()-want) > 0.051 {
					t.Errorf("%s: diagonal A at station 4 is told as %q, want %.1f", name, r[6], want)
				}
			}
		}
		all := strings.Join(rows, "; ")
		wants := map[string][]string{
			"body plan":     {"diagonal A, distance along it", "diagonal B, distance along it", "knuckle chine, height", "knuckle chine, half-breadth"},
			"profile":       {"knuckle chine", "stem line at height 700", "transom line at height 1400"},
			"half-breadths": {"diagonal A, distance along it", "knuckle chine", "stem line at height 1600"},
		}[name]
		for _, w := range wants {
			if !strings.Contains(all, w) {
				t.Errorf("%s: no row %q in %s", name, w, all)
			}
		}
		words := map[string][]string{"body plan": {"2 diagonals", "1 knuckle"}, "profile": {"1 knuckle", "stem line", "transom line"}, "half-breadths": {"2 diagonals laid flat", "1 knuckle", "stem line"}}[name]
		for _, w := range words {
			if !strings.Contains(d.List.Desc, w) {
				t.Errorf("%s: %q does not tell of %q", name, d.List.Desc, w)
			}
		}
	}
	plain := parabolic(t, upTo(7), true, nil)
	for name, d := range views(drawing.Sheet{}, plain, fitted(t, plain)) {
		for _, w := range []string{"diagonal", "knuckle", "stem", "transom"} {
			if strings.Contains(d.List.Desc, w) || says(d.List, w) {
				t.Errorf("%s of a boat without any tells of a %s", name, w)
			}
		}
	}
}

// Names stand above the lines that they clear the paper of.
func TestNamesStandAboveTheLines(t *testing.T) {
	for _, fuller := range []float64{0, 30} {
		o := hardChined(t, fuller)
		for view, d := range views(drawing.Sheet{}, o, fitted(t, o)) {
			at := func(name string) int {
				return slices.IndexFunc(d.List.Layers, func(l *draw.Layer) bool { return l.Name == name })
			}
			for _, under := range []string{"diagonals", "knuckles", "ends", "waterlines", "sheer"} {
				if at("line names") < at(under) {
					t.Errorf("%s: the names lie under the %s", view, under)
				}
			}
		}
	}
}

// Tables that nobody measured make no drawing fall over.
func TestExtraLinesOfNothing(t *testing.T) {
	o := hardChined(t, 0)
	for name, change := range map[string]func(*offsets.Table){
		"one place of stem":     func(o *offsets.Table) { o.Stem = o.Stem[:1] },
		"diagonal without mark": func(o *offsets.Table) { o.Diagonals = append(o.Diagonals, offsets.Diagonal{Name: "far", Angle: 0.1}) },
		"no angle":              func(o *offsets.Table) { o.Diagonals = []offsets.Diagonal{{Name: "flat"}} },
		"not a number":          func(o *offsets.Table) { o.Diagonals = []offsets.Diagonal{{Name: "none", Angle: math.NaN()}} },
		"level":                 func(o *offsets.Table) { o.Diagonals[0].Angle = math.Pi / 2 },
		"long names":            func(o *offsets.Table) { o.Diagonals[0].Name = strings.Repeat("Wé", 200) },
		"one station":           func(o *offsets.Table) { o.Stations = o.Stations[:1] },
		"stem turned round":     func(o *offsets.Table) { slices.Reverse(o.Stem) },
	} {
		for _, faired := range []bool{true, false} {
			c := *o
			c.Stem, c.Diagonals = slices.Clone(o.Stem), slices.Clone(o.Diagonals)
			change(&c)
			var h *hull.Hull
			if faired {
				h = fitted(t, o)
			}
			for view, d := range views(drawing.Sheet{Width: 320}, &c, h) {
				for _, p := range d.List.Paths() {
					for _, q := range p.Points {
						if !(q.X >= 0 && q.X <= d.List.Width && q.Y >= 0 && q.Y <= d.List.Height) {
							t.Errorf("%s, %s: %s goes through %v", name, view, p.Of, q)
						}
					}
				}
			}
		}
	}
}
