package mould

import (
	"fmt"
	"math"

	"ribband/takeoff/boat"
	"ribband/takeoff/dxf"
	"ribband/takeoff/hull"
)

// Heights of letters in files, mm: on a section in space, and on one mould.
const (
	lettersOfSections = 40
	lettersOfMould    = 8
)

// unitNotes say what a file of this format cannot.
var unitNotes = []string{"Lengths are millimetres, full size: one unit is one millimetre."}

// File is the mould as a drawing in its own plane: half-breadth across, outboard to the side that Seen says, height up,
// the centreline at 0 and the baseline at 0; of a frame that is not square, what Axis and Base tell of its own plane.
func (m Mould) File() dxf.Drawing {
	flat := func(line []hull.Point) []dxf.Line {
		if len(line) < 2 {
			return nil
		}
		out := make([]dxf.Point, len(line))
		for i, p := range line {
			out[i] = dxf.Point{X: m.Across(p.Y), Y: p.Z}
		}
		return []dxf.Line{{Points: out}}
	}
	low, high, across := m.reach()
	straight := func(y1, z1, y2, z2 float64) dxf.Line {
		return dxf.Line{Points: []dxf.Point{{X: m.Across(y1), Y: z1}, {X: m.Across(y2), Y: z2}}}
	}
	marks := dxf.Layer{Name: "MARKS", Colour: 1}
	words := dxf.Layer{Name: "WORDS", Colour: 7}
	for _, k := range m.Marks {
		marks.Lines = append(marks.Lines, straight(k.At.Y, k.At.Z, k.Across.Y, k.Across.Z))
		words.Texts = append(words.Texts, dxf.Text{At: dxf.Point{X: m.Across(k.Across.Y), Y: k.Across.Z}, Height: lettersOfMould, String: k.words()})
	}
	levels, uprights := dxf.Layer{Name: "LEVELS", Colour: 8}, dxf.Layer{Name: "UPRIGHTS", Colour: 8}
	for _, l := range m.Levels {
		levels.Lines = append(levels.Lines, straight(0, l.MM, across, l.MM))
		levels.Texts = append(levels.Texts, dxf.Text{At: dxf.Point{Y: l.MM}, Height: lettersOfMould, String: l.Name})
	}
	for _, l := range m.Uprights {
		uprights.Lines = append(uprights.Lines, straight(l.MM, low, l.MM, high))
		uprights.Texts = append(uprights.Texts, dxf.Text{At: dxf.Point{X: m.Across(l.MM), Y: low}, Height: lettersOfMould, String: l.Name})
	}
	name := m.Frame.Member().String()
	if m.Bare {
		name = m.Name()
	}
	notes := append(append([]string{name + ", " + m.Seen()}, unitNotes...), m.Cautions...)
	faces := []dxf.Layer{{Name: "FAYING_FACE", Colour: 7, Lines: flat(m.Faying)}, {Name: "INNER_FACE", Colour: 5, Lines: flat(m.Inner)}}
	if m.Bare {
		faces = []dxf.Layer{{Name: "SECTION", Colour: 7, Lines: flat(m.Faying)}}
	}
	return dxf.Drawing{Notes: notes, Layers: append(faces, []dxf.Layer{
		{Name: "CENTRELINE", Colour: 8, Lines: []dxf.Line{straight(0, low, 0, high)}, Texts: m.named(m.Axis, dxf.Point{Y: high})},
		{Name: "BASELINE", Colour: 8, Lines: []dxf.Line{straight(0, m.Base.MM, across, m.Base.MM)}, Texts: m.named(m.Base, dxf.Point{Y: m.Base.MM})},
		levels, uprights, marks, words,
	}...)}
}

// named is the name of a line of a frame that is not square, whose lines nobody could take for the boat's own; a square one
// has its layers' names.
func (m Mould) named(l Line, at dxf.Point) []dxf.Text {
	if m.Frame.Square() {
		return nil
	}
	return []dxf.Text{{At: at, Height: lettersOfMould, String: l.Name}}
}

// words of a mark: its name and, where it is known, its bevel.
func (k Mark) words() string {
	if !k.Known {
		return k.Name
	}
	return k.Name + ", bevel " + Degrees(k.Bevel)
}

// Degrees is a bevel as it is written: signed, to a tenth of a degree, which is nearer than a bevel is set.
func Degrees(radians float64) string {
	d := math.Round(radians*1800/math.Pi) / 10
	if d == 0 {
		return "0.0 deg, square"
	}
	return fmt.Sprintf("%+.1f deg", d)
}

// reach of the faces: heights and the greatest half-breadth.
func (m Mould) reach() (low, high, across float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, line := range [][]hull.Point{m.Faying, m.Inner} {
		for _, p := range line {
			low, high, across = min(low, p.Z), max(high, p.Z), max(across, p.Y)
		}
	}
	return low, high, across
}

// Placed is a section with what it is called.
type Placed struct {
	Name    string // "station 3 port"
	Section *hull.Section
}

// Sections are sections in space, each at its place along the boat: x aft of station 0, y to starboard and so negative to
// port, z up.
func Sections(all []Placed) dxf.Drawing {
	port := dxf.Layer{Name: "SECTIONS_PORT", Colour: 1}
	starboard := dxf.Layer{Name: "SECTIONS_STARBOARD", Colour: 3}
	words := dxf.Layer{Name: "WORDS", Colour: 7}
	for _, p := range all {
		s := p.Section
		layer, sign := &starboard, 1.0
		if s.Side == boat.Port {
			layer, sign = &port, -1
		}
		line := dxf.Line{Space: true}
		for _, q := range pieces(func(u float64) hull.Point { q := s.At(u); return hull.Point{Y: q.Y, Z: q.Z} }) {
			line.Points = append(line.Points, dxf.Point{X: s.X, Y: sign * q.Y, Z: q.Z})
		}
		layer.Lines = append(layer.Lines, line)
		words.Texts = append(words.Texts, dxf.Text{At: line.Points[len(line.Points)-1], Height: lettersOfSections, String: p.Name, Across: true})
	}
	notes := append([]string{"Sections to the inside of plank. X runs aft from station 0, Y to starboard, Z up from the baseline."}, unitNotes...)
	return dxf.Drawing{Notes: notes, Layers: []dxf.Layer{port, starboard, words}}
}
