package mould_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"ribband/seed"
	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/mould"
	"ribband/takeoff/notation"
	"ribband/takeoff/pattern"

	"github.com/shopspring/decimal"
)

// basis is the invented boat with a pattern of one frame: what moulds are made of.
func basis(t testing.TB) takeoff.Basis {
	t.Helper()
	d, err := seed.Load()
	if err != nil {
		t.Fatal(err)
	}
	h := hulltest.Hull(t, &d.Hull)
	frames, wrong := frame.Read(d.Frames)
	if len(wrong) > 0 {
		t.Fatal(wrong)
	}
	return takeoff.Basis{Hull: h, Frames: frames}
}

func member(no int, side boat.Side) boat.Member {
	return boat.Member{Kind: boat.Frame, No: no, Side: side}
}

var levels = []string{"1-0-0", "2-0-0", "3-0-0", "4-0-0", "9-0-0"}

// The waterlines of a table are found once each, from the lowest.
func TestWaterlines(t *testing.T) {
	d, err := seed.Load()
	if err != nil {
		t.Fatal(err)
	}
	o, _ := offsets.Read(&d.Hull)
	all := mould.Waterlines(o)
	for i, w := range all {
		if i > 0 && all[i-1].Compare(w) >= 0 {
			t.Errorf("%v follows %v", w, all[i-1])
		}
	}
	if len(all) != 17 {
		t.Errorf("%d waterlines, offsets.csv has 17", len(all))
	}
}

func waterlines(t testing.TB) (out []notation.Length) {
	for _, s := range levels {
		l, err := notation.FeetInchesEighths.Parse(s)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, l)
	}
	return out
}

func laidDown(t testing.TB, b takeoff.Basis, m boat.Member) (mould.Mould, *hull.Section) {
	t.Helper()
	f, s, err := b.Shaped(m)
	if err != nil {
		t.Fatal(err)
	}
	out, err := mould.Of(mould.Given{Frame: f, Section: s, Notation: notation.FeetInchesEighths, Waterlines: waterlines(t), Slack: 3})
	if err != nil {
		t.Fatal(err)
	}
	return out, s
}

// onSection, mm, is how far a written point may lie off the section: files hold a millionth, sheets a three-hundredth.
const onSection = 0.01

// farthest is how far the places of a curve lie off a line of straight pieces, and the line's points off the curve.
func farthest(line []hull.Point, at func(float64) hull.Point) (sagitta, points float64) {
	const steps = 20_000
	curve := make([]hull.Point, steps+1)
	for i := range curve {
		curve[i] = at(float64(i) / steps)
		sagitta = max(sagitta, offLine(line, curve[i]))
	}
	for _, p := range line {
		points = max(points, offLine(curve, p))
	}
	return sagitta, points
}

func offLine(line []hull.Point, p hull.Point) float64 {
	least := math.Inf(1)
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		dy, dz := b.Y-a.Y, b.Z-a.Z
		w := 0.0
		if l := dy*dy + dz*dz; l > 0 {
			w = min(1, max(0, ((p.Y-a.Y)*dy+(p.Z-a.Z)*dz)/l))
		}
		least = min(least, math.Hypot(p.Y-a.Y-w*dy, p.Z-a.Z-w*dz))
	}
	return least
}

func face(s *hull.Section, depth float64) func(float64) hull.Point {
	return func(u float64) hull.Point { return s.At(u).Inboard(depth) }
}

// Faying and inner face keep to the section by the stated sagitta, and their points, read back from the file, lie on it.
func TestMouldKeepsToItsSection(t *testing.T) {
	b := basis(t)
	for _, m := range []boat.Member{member(2, boat.Port), member(17, boat.Starboard), member(33, boat.Port)} {
		laid, s := laidDown(t, b, m)
		sign := 1.0
		if (m.Side == boat.Port) != (laid.Frame.MouldingFace == frame.Forward) {
			sign = -1
		}
		found := map[string]int{}
		for _, x := range read(t, laid.File()) {
			depth := 0.0
			switch x.layer {
			case "FAYING_FACE":
			case "INNER_FACE":
				depth = laid.Moulded
			default:
				continue
			}
			found[x.layer]++
			var line []hull.Point
			for _, p := range x.points {
				line = append(line, hull.Point{Y: sign * p.X, Z: p.Y})
			}
			sagitta, points := farthest(line, face(s, depth))
			if sagitta > mould.Sagitta || points > onSection {
				t.Errorf("%s, %s: the curve stands %.4f mm off the pieces, points %.4f mm off the curve", m, x.layer, sagitta, points)
			}
			t.Logf("%s, %s: %d points, sagitta %.4f mm, points %.6f mm", m, x.layer, len(line), sagitta, points)
		}
		if found["FAYING_FACE"] != 1 || found["INNER_FACE"] != 1 {
			t.Errorf("%s: %v", m, found)
		}
	}
}

// Marks stand at their heights with the bevel that the section has there, rabbet first and sheer last.
func TestMarksAndBevels(t *testing.T) {
	b := basis(t)
	m, s := laidDown(t, b, member(5, boat.Port))
	if m.Marks[0].Name != "rabbet" || m.Marks[len(m.Marks)-1].Name != "sheer" || len(m.Marks) != 2+len(m.Levels) || len(m.Levels) < 3 {
		t.Fatalf("%+v, levels %v", m.Marks, m.Levels)
	}
	body := hull.Abaft
	if m.Frame.MouldingFace == frame.Aft {
		body = hull.Before
	}
	for i, l := range m.Levels {
		k := m.Marks[i+1]
		us, err := s.AtHeight(l.MM, 0)
		if err != nil {
			t.Fatal(err)
		}
		want, err := s.BevelAt(us[0], body)
		if err != nil {
			t.Fatal(err)
		}
		if k.Name != l.Name || math.Abs(k.At.Z-l.MM) > 1e-6 || !k.Known || k.Bevel != want.Angle {
			t.Errorf("%+v at %v, bevel %v", k, l, want.Angle)
		}
		if d := math.Hypot(k.At.Y-k.Across.Y, k.At.Z-k.Across.Z); math.Abs(d-m.Moulded) > 1e-9 {
			t.Errorf("%s is %v across, moulded %v", k.Name, d, m.Moulded)
		}
	}
	words := 0
	for _, x := range read(t, m.File()) {
		if x.kind == "TEXT" && strings.Contains(x.text, "bevel ") {
			words++
		}
	}
	if words != len(m.Marks) {
		t.Errorf("%d bevels are written, %d marks", words, len(m.Marks))
	}
}

// Whoever looks at a forward moulding face looks aft, and has port on the right; at an after one on the left.
func TestHowItIsSeen(t *testing.T) {
	b := basis(t)
	for _, c := range []struct {
		side boat.Side
		face frame.Face
		want bool
	}{{boat.Port, frame.Forward, true}, {boat.Starboard, frame.Forward, false}, {boat.Port, frame.Aft, false}, {boat.Starboard, frame.Aft, true}} {
		f, s, err := b.Shaped(member(9, c.side))
		if err != nil {
			t.Fatal(err)
		}
		f.MouldingFace = c.face
		m, err := mould.Of(mould.Given{Frame: f, Section: s, Notation: notation.Millimetres})
		if err != nil {
			t.Fatal(err)
		}
		if m.Right != c.want || (m.Across(1) > 0) != c.want || strings.Contains(m.Seen(), "to the right") != c.want {
			t.Errorf("%s, moulding face %s: %v, %s", c.side, c.face, m.Right, m.Seen())
		}
		if len(m.Levels) < 3 || !strings.HasPrefix(m.Levels[0].Name, "height ") {
			t.Errorf("without waterlines levels are %v", m.Levels)
		}
	}
}

// A pattern's frame gives its pattern's line, without bevels, and says so.
func TestMouldOfAPattern(t *testing.T) {
	b := basis(t)
	doc := pattern.Document{Notation: notation.Millimetres, Grain: "0", Surface: "inside", Patterns: []pattern.Rows{{FrameNo: 12, Side: boat.Port}}}
	for i := range 12 { // a quarter of a circle of 1000 mm about (100, 1200)
		sn, cs := math.Sincos(float64(i) * math.Pi / 22)
		text := func(v float64) string { return notation.Millimetres.Format(length(t, v)) }
		doc.Patterns[0].Points = append(doc.Patterns[0].Points, pattern.Row{N: i + 1, Y: text(100 + 1000*sn), Z: text(1200 - 1000*cs)})
	}
	set, faults := pattern.Read(doc)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if b.Patterns, faults = set.Fit(); len(faults) > 0 {
		t.Fatal(faults)
	}
	m, _ := laidDown(t, b, member(12, boat.Port))
	for _, p := range m.Faying {
		if off := math.Abs(math.Hypot(p.Y-100, p.Z-1200) - 1000); off > onSection {
			t.Errorf("%v lies %v off the pattern's circle", p, off)
		}
	}
	for _, p := range m.Inner {
		if off := math.Abs(math.Hypot(p.Y-100, p.Z-1200) - (1000 - m.Moulded)); off > onSection {
			t.Errorf("%v lies %v off the inner circle", p, off)
		}
	}
	if m.Marks[0].Known || len(m.Cautions) == 0 || !strings.Contains(m.Cautions[0], "no bevels") {
		t.Errorf("%+v, %q", m.Marks[0], m.Cautions)
	}
	// Deeper than it bends, its inner face would cross itself.
	f, section, err := b.Shaped(member(12, boat.Port))
	if err != nil {
		t.Fatal(err)
	}
	f.Moulded = length(t, 1100).Decimal()
	if m, err := mould.Of(mould.Given{Frame: f, Section: section, Notation: notation.Millimetres}); err != nil || len(m.Inner) != 0 || !strings.Contains(m.Cautions[0], "more sharply than it is deep") {
		t.Errorf("moulded 1100 mm: %v, %d points of the inner face, %q", err, len(m.Inner), m.Cautions)
	}
	// The other side has no pattern, and keeps its lines.
	if m, _ := laidDown(t, b, member(12, boat.Starboard)); !m.Marks[0].Known || m.RestsOn != boat.OnStations {
		t.Errorf("starboard rests on %s", m.RestsOn)
	}
}

func length(t testing.TB, mm float64) notation.Length {
	t.Helper()
	l, err := notation.FromMM(mm)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// What cannot be laid down is told: no frame, no shape.
func TestWhatCannotBeLaidDown(t *testing.T) {
	b := basis(t)
	var none *takeoff.UnshapedError
	if _, _, err := b.Shaped(member(99, boat.Port)); !errors.As(err, &none) || none.Fix == "" {
		t.Errorf("frame 99: %v", err)
	}
	bare := b
	bare.Hull = nil
	if _, _, err := bare.Shaped(member(3, boat.Port)); !errors.As(err, &none) {
		t.Errorf("a boat without lines: %v", err)
	}
	var without *mould.NoSectionError
	if _, err := mould.Of(mould.Given{}); !errors.As(err, &without) {
		t.Errorf("no section: %v", err)
	}
}

// Sections stand in space at their stations, port at negative Y, and keep to their curves.
func TestSectionsInSpace(t *testing.T) {
	b := basis(t)
	var all []mould.Placed
	for _, m := range b.Hull.Measures() {
		all = append(all, mould.Placed{Name: "station", Section: m.Section})
	}
	i, words := 0, 0
	file := read(t, mould.Sections(all))
	for _, side := range boat.Sides { // the file has port first
		for _, p := range all {
			if p.Section.Side != side {
				continue
			}
			x := file[i]
			i++
			if x.kind != "POLYLINE" || !strings.HasSuffix(x.layer, strings.ToUpper(string(side))) {
				t.Fatalf("%+v is not a section of %s", x.kind, x.layer)
			}
			var line []hull.Point
			for _, q := range x.points {
				if math.Abs(q.X-p.Section.X) > 1e-6 || side == boat.Port && q.Y > 0 || side == boat.Starboard && q.Y < 0 {
					t.Fatalf("%v of a section at %v, %s", q, p.Section.X, side)
				}
				line = append(line, hull.Point{Y: math.Abs(q.Y), Z: q.Z})
			}
			if sagitta, points := farthest(line, face(p.Section, 0)); sagitta > mould.Sagitta || points > onSection {
				t.Errorf("x %v %s: sagitta %v, points %v", p.Section.X, side, sagitta, points)
			}
		}
	}
	for _, x := range file {
		if x.kind == "TEXT" {
			words++
		}
	}
	if i != len(all) || words != len(all) || i < 26 {
		t.Errorf("%d sections, %d names, want %d", i, words, len(all))
	}
}

// The mould of a section alone is the line of the section, with ticks of one length inboard of it at the marks that a frame there
// would have, and no inner face.
func TestMouldOfASection(t *testing.T) {
	s, err := basis(t).Hull.Section(2500, boat.Starboard)
	if err != nil {
		t.Fatal(err)
	}
	place := frame.Frame{No: 7, Side: boat.Starboard, X: decimal.NewFromInt(2500), Siding: decimal.NewFromInt(40), Moulded: decimal.NewFromInt(60), MouldingFace: frame.Aft}
	bare, err := mould.OfSection(mould.Given{Frame: place, Section: s, Notation: notation.Millimetres})
	if err != nil {
		t.Fatal(err)
	}
	place.MouldingFace = frame.Forward
	framed, err := mould.Of(mould.Given{Frame: place, Section: s, Notation: notation.Millimetres})
	if err != nil {
		t.Fatal(err)
	}
	if !bare.Bare || len(bare.Inner) > 0 || len(bare.Marks) != len(framed.Marks) || len(bare.Faying) != len(framed.Faying) {
		t.Fatalf("%d marks and %d pieces, of a frame %d and %d", len(bare.Marks), len(bare.Faying), len(framed.Marks), len(framed.Faying))
	}
	for i, k := range bare.Marks {
		f := framed.Marks[i]
		if k.Name != f.Name || k.At != f.At || k.Bevel != f.Bevel || k.Known != f.Known {
			t.Errorf("mark %+v, of a frame %+v", k, f)
		}
		if long := math.Hypot(k.Across.Y-k.At.Y, k.Across.Z-k.At.Z); math.Abs(long-20) > 1e-6 {
			t.Errorf("%s: a tick of %v mm", k.Name, long)
		}
	}
	if name := bare.Name(); name != "Section starboard, 2500 mm aft of station 0" {
		t.Error(name)
	}
}
