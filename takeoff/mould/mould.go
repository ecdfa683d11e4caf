package mould

import (
	"errors"
	"fmt"
	"math"

	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/notation"
)

// Mould is one frame on one side, full size; or a section of the boat alone, see OfSection.
type Mould struct {
	// Bare of a section alone: it has no frame but a side and a place, no depth and no inner face.
	Bare    bool
	Frame   frame.Frame
	X       float64 // of the moulding face, aft of station 0
	Sided   float64
	Moulded float64
	// MouldedHead of a frame that tapers, 0 of one that does not; Moulded is then at the heel.
	MouldedHead float64
	RestsOn     boat.RestsOn
	// Right: outboard is to the right for whoever looks at the moulding face.
	Right bool
	// Faying and Inner face from rabbet to sheer, in straight pieces that stand no farther than Sagitta off the curves.
	// Inner is empty where the frame bends more sharply than it is deep.
	Faying, Inner []hull.Point
	// Marks from the rabbet to the sheer, those two among them.
	Marks []Mark
	// Levels are the heights at which the marks stand, Uprights half-breadths beside the frame, by which it is set up.
	Levels, Uprights []Line
	// Axis is the upright from which distances out are taken, at 0, and Base the level at which the boat's baseline meets the
	// frame's plane: the centreline and 0 for a frame square across the boat, see turned.
	Axis, Base Line
	Notation   notation.Notation
	// Cautions are what has to be known before the mould is used.
	Cautions []string
}

// Mark is a place on the faying face.
type Mark struct {
	// Name as the yard says it: "rabbet", "sheer", "WL 3-0-0".
	Name string
	// At is the place on the faying face, Across where the same mark meets the inner face, square to the faying face.
	At, Across hull.Point
	// Bevel of the faying face, radians from square; Known where the boat's shape fore and aft of the frame is known.
	Bevel float64
	Known bool

	u float64 // its fraction of the girth
}

// Line is a level or an upright: how far from the baseline or the centreline.
type Line struct {
	Name string
	MM   float64
}

// Sagitta, mm, is the most that a straight piece stands off its curve: half the width of a scribed line.
const Sagitta = 0.05

// Given is what a mould is made of.
type Given struct {
	Frame frame.Frame
	// Section is the shape that the frame is to have, at its own place.
	Section *hull.Section
	// Notation in which levels and uprights are named.
	Notation notation.Notation
	// Waterlines at which marks are wanted; without any, marks stand at even steps of the notation.
	Waterlines []notation.Length
	// Slack, mm: a waterline no farther beyond an end counts as that end; the grain of the table.
	Slack float64
}

// OfSection is the mould of a section alone, square across the boat: a station's, or one between stations. Of the frame given
// only side and place count. Its bevels are those of a timber that lies abaft it.
func OfSection(g Given) (Mould, error) {
	g.Frame = frame.Frame{Side: g.Frame.Side, X: g.Frame.X, MouldingFace: frame.Forward}
	m, err := Of(g)
	if err != nil {
		return m, err
	}
	m.Bare, m.Inner = true, nil
	for i := range m.Marks {
		k := &m.Marks[i]
		k.Across = g.Section.At(k.u).Inboard(tick)
	}
	m.Cautions = append(m.Cautions, "The bevels are those of a timber that lies abaft the section; of one forward of it plus and minus change places.")
	return m, nil
}

// tick, mm, is how long the marks of a section alone are, inboard of its line.
const tick = 20.0

// Name is what the mould is of.
func (m Mould) Name() string {
	if !m.Bare {
		return fmt.Sprintf("Frame %d %s", m.Frame.No, m.Frame.Side)
	}
	l, err := notation.FromMM(m.X)
	if err != nil {
		return fmt.Sprintf("Section %s", m.Frame.Side)
	}
	return fmt.Sprintf("Section %s, %s aft of station 0", m.Frame.Side, m.Notation.Said(l))
}

// Of is the mould of a frame.
func Of(g Given) (Mould, error) {
	s := g.Section
	if s == nil {
		return Mould{}, &NoSectionError{g.Frame.Member()}
	}
	m := Mould{
		Frame: g.Frame, X: g.Frame.X.InexactFloat64(), Sided: g.Frame.Siding.InexactFloat64(), Moulded: g.Frame.Moulded.InexactFloat64(),
		MouldedHead: g.Frame.MouldedHead.InexactFloat64(), RestsOn: s.RestsOn, Notation: g.Notation,
		Right: (g.Frame.Side == boat.Port) == (g.Frame.MouldingFace != frame.Aft),
	}
	m.Faying = pieces(func(u float64) hull.Point { p := s.At(u); return hull.Point{Y: p.Y, Z: p.Z} })
	var deep *hull.DepthError
	if _, _, err := s.RadiusAt(m.Moulded); errors.As(err, &deep) {
		m.Cautions = append(m.Cautions, "The frame bends more sharply than it is deep, so its inner face cannot be laid down.")
	} else {
		m.Inner = pieces(func(u float64) hull.Point { return s.At(u).Inboard(depth(g.Frame, s, u)) })
	}
	if err := m.mark(g); err != nil {
		return Mould{}, err
	}
	m.uprights()
	m.turned(s)
	if !m.Marks[0].Known {
		m.Cautions = append(m.Cautions, "The pattern stands alone: how the boat runs fore and aft of it is not known, so no bevels are given. Take them off the boat.")
	}
	if s.Doubtful {
		m.Cautions = append(m.Cautions, "The fair curve through the points did not settle; measure this frame again before anything is cut.")
	}
	return m, nil
}

// NoSectionError: a frame of which no shape is known.
type NoSectionError struct{ Member boat.Member }

func (e *NoSectionError) Error() string {
	return fmt.Sprintf("%s has no shape that could be laid down: measure stations about it or take its pattern", e.Member)
}

// step between marks where no waterlines are given, and between uprights: half a foot, or 200 mm.
func step(n notation.Notation) float64 {
	if n == notation.FeetInchesEighths || n == notation.Inches {
		return 152.4
	}
	return 200
}

// mark puts the marks and their levels: rabbet, each level once or oftener, sheer.
func (m *Mould) mark(g Given) error {
	s := g.Section
	body := hull.Abaft
	if g.Frame.MouldingFace == frame.Aft {
		body = hull.Before
	}
	at := func(name string, u float64) error {
		p := s.At(u)
		k := Mark{Name: name, At: hull.Point{Y: p.Y, Z: p.Z}, Across: p.Inboard(depth(g.Frame, s, u)), u: u}
		b, err := s.BevelAt(u, body)
		var alone *hull.NoLinesError
		switch {
		case err == nil:
			k.Bevel, k.Known = b.Angle, true
		case !errors.As(err, &alone):
			return err
		}
		m.Marks = append(m.Marks, k)
		return nil
	}
	if err := at("rabbet", 0); err != nil {
		return err
	}
	for _, l := range m.levels(g) {
		us, err := s.AtHeight(l.MM, g.Slack)
		var beyond *hull.HeightError
		if errors.As(err, &beyond) {
			continue
		}
		if err != nil {
			return err
		}
		// In a frame that leans a height of the boat lies farther up than it is high.
		m.Levels = append(m.Levels, Line{l.Name, s.At(us[0]).Z})
		for _, u := range us {
			if u > 0 && u < 1 {
				if err := at(l.Name, u); err != nil {
					return err
				}
			}
		}
	}
	return at("sheer", 1)
}

// levels that are looked for: the waterlines, or even steps over the frame's own heights.
func (m *Mould) levels(g Given) []Line {
	var out []Line
	for _, w := range g.Waterlines {
		out = append(out, Line{"WL " + g.Notation.Format(w), w.MM()})
	}
	if len(out) > 0 {
		return out
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range m.Faying {
		low, high = min(low, p.Z), max(high, p.Z)
	}
	return even(g.Notation, low, high, "height ")
}

// uprights at even half-breadths that the frame reaches over.
func (m *Mould) uprights() {
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range append(append([]hull.Point{}, m.Faying...), m.Inner...) {
		low, high = min(low, p.Y), max(high, p.Y)
	}
	name := "half-breadth "
	if !m.Frame.Square() {
		name = "out in its plane "
	}
	m.Uprights = even(m.Notation, max(low, 1), high, name)
}

// maxSteps keeps absurd reaches from making more lines than anybody draws.
const maxSteps = 500

func even(n notation.Notation, low, high float64, name string) []Line {
	var out []Line
	by := step(n)
	for i := math.Ceil(low / by); i <= math.Floor(high/by) && len(out) < maxSteps; i++ {
		if l, err := notation.FromMM(i * by); err == nil {
			out = append(out, Line{name + n.Format(l), i * by})
		}
	}
	return out
}

// Across is a half-breadth as it stands across the mould: to the right or to the left of the centreline.
func (m Mould) Across(y float64) float64 {
	if m.Right {
		return y
	}
	return -y
}

// Seen says how the mould lies for whoever looks at it.
func (m Mould) Seen() string {
	from, way := "the forward face, looking aft", "right"
	switch {
	case m.Bare:
		from = "forward, looking aft"
	case m.Frame.MouldingFace == frame.Aft:
		from = "the after face, looking forward"
	}
	if !m.Right {
		way = "left"
	}
	return fmt.Sprintf("Seen from %s: outboard is to the %s of the centreline.", from, way)
}
