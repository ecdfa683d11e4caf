package drawing

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/offsets"
)

// BodyPlan is the sections of a boat in one view, with waterlines, buttocks, sheer and rabbet.
type BodyPlan struct {
	Sheet Sheet
	// Offsets as measured; nil before there are any.
	Offsets *offsets.Table
	// Hull is the fair curves through them; nil where the points do not make any, and then the points are joined
	// by straight dashed lines.
	Hull *hull.Hull
	// Patterns of single frames are drawn among the sections.
	Patterns []FramePattern
	// Notes are said below the drawing, beside its own.
	Notes []string
}

// Draw is the body plan: one plan of both halves where the two sides were measured alike in every point, otherwise
// one a side.
func (b BodyPlan) Draw() Drawing {
	k := b.Sheet.look()
	list := &draw.List{Width: k.width, Title: "Body plan of " + or(b.Sheet.Boat, "the boat")}
	f := foot{subject: "Body plan"}
	if b.Offsets == nil || len(b.Offsets.Stations) == 0 {
		return empty(list, b.Sheet, k, f, "No table of offsets has been entered yet; there is nothing to draw.")
	}
	p := b.prepare(k)
	f.notation, f.units = b.Offsets.Notation, unitsLine(b.Offsets.Notation)
	y := p.put(list)
	f.notes, f.key = once(p.notes), p.key()
	list.Desc = p.describe()
	list.Height = math.Ceil(f.put(list, b.Sheet, k, y+line(k.text)))
	return Drawing{list, b.table(p)}
}

// empty is a drawing with nothing on it but the reason and its title block.
func empty(list *draw.List, s Sheet, k look, f foot, why string) Drawing {
	y := k.margin
	for _, l := range draw.Wrap(why, k.text, false, k.width-2*k.margin, 6) {
		y += line(k.text)
		list.Layer("notes").Add(draw.Text{At: draw.Point{X: k.margin, Y: y}, Size: k.text, String: l})
	}
	list.Desc = why
	list.Height = math.Ceil(f.put(list, s, k, y+line(k.text)))
	return Drawing{list, Table{Caption: f.subject + ". " + why}}
}

// once is the notes without those that were already there.
func once(notes []string) []string {
	var out []string
	for _, n := range notes {
		if !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}

// body is a body plan made ready: every line in millimetres.
type body struct {
	look
	// plans from the left: one that stands for both sides, or port and starboard.
	plans []halves
	// across and low, high bound all lines: greatest half-breadth, least and greatest height.
	across, low, high float64
	waterlines        []level
	buttocks          []level
	diagonals         []diagonal
	notes             []string
	stations          []int
	faired            bool
}

// halves is one plan: the sections of one side, forward ones for the right half.
type halves struct {
	side     boat.Side // boat.Both where it stands for both
	sections []section
	middle   int // index of the section with the greatest half-breadth, drawn in both halves
	// sheer and rabbet from forward to aft, and the index where the middle section cuts them.
	sheer, rabbet []hull.Point
	cut           int
	patterns      []patternLine
	knuckles      []knuckleLine
}

// section is one station's line from rabbet to sheer.
type section struct {
	station int
	x       float64
	line    []hull.Point
}

// level is a waterline or a buttock: how far from its datum, and how that is shown.
type level struct {
	of    place
	mm    float64
	shown string
}

func (b BodyPlan) prepare(k look) *body {
	p := &body{look: k, faired: b.Hull != nil, low: math.Inf(1), high: math.Inf(-1)}
	for _, st := range b.Offsets.Stations {
		p.stations = append(p.stations, st.No)
	}
	alike := sidesAlike(b.Offsets)
	sides := boat.Sides[:]
	if alike {
		sides = []boat.Side{boat.Both}
	}
	for _, side := range sides {
		h := b.halves(p, side)
		b.patternsOf(p, &h)
		p.plans = append(p.plans, h)
	}
	p.waterlines, p.buttocks, p.diagonals = levels(b.Offsets, "wl"), levels(b.Offsets, "buttock"), diagonals(b.Offsets)
	p.bound()
	p.notes = append(append(p.notes, b.remarks(alike)...), b.Notes...)
	return p
}

func sameMarks(a, b []offsets.Mark) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if placeOf(a[i]) != placeOf(b[i]) || a[i].Y != b[i].Y || a[i].Z != b[i].Z {
			return false
		}
	}
	return true
}

// halves gathers the lines of one plan.
func (b BodyPlan) halves(p *body, side boat.Side) halves {
	h := halves{side: side}
	of := side
	if side == boat.Both {
		of = boat.Port
	}
	for i := range b.Offsets.Stations {
		st := &b.Offsets.Stations[i]
		s := section{station: st.No, x: st.X.MM()}
		switch {
		case b.Hull == nil:
			for _, m := range st.Marks(of) {
				s.line = append(s.line, hull.Point{Y: m.Y.MM(), Z: m.Z.MM()})
			}
		default:
			if c, err := b.Hull.Section(s.x, of); err == nil {
				s.line = c.Line(sectionPoints)
			}
		}
		if len(s.line) < 2 {
			p.notes = append(p.notes, fmt.Sprintf("Station %d %s has no section and is not drawn: measure it.", st.No, sideWord(of)))
			continue
		}
		h.sections = append(h.sections, s)
	}
	h.long(b.Hull, of)
	h.knuckles = knucklesOf(b.Offsets.Stations, b.Hull, of)
	return h
}

// sectionPoints are taken on every section before those that a straight line passes are left out: on 2 m of girth
// one every 14 mm, where a bend of 150 mm radius stands a sixth of a millimetre proud.
const sectionPoints = 145

// longPoints are taken between two stations on the lines that run along the boat.
const longPoints = 8

// long gathers sheer and rabbet, and finds the middle section.
func (h *halves) long(lines *hull.Hull, side boat.Side) {
	widest := math.Inf(-1)
	for i, s := range h.sections {
		for _, q := range s.line {
			if q.Y > widest {
				widest, h.middle = q.Y, i
			}
		}
	}
	for i, s := range h.sections {
		if i > 0 && lines != nil {
			before := h.sections[i-1].x
			for j := 1; j < longPoints; j++ {
				c, err := lines.Section(before+(s.x-before)*float64(j)/longPoints, side)
				if err != nil {
					continue
				}
				low, high := c.At(0), c.At(1)
				h.rabbet = append(h.rabbet, hull.Point{Y: low.Y, Z: low.Z})
				h.sheer = append(h.sheer, hull.Point{Y: high.Y, Z: high.Z})
			}
		}
		h.rabbet = append(h.rabbet, s.line[0])
		h.sheer = append(h.sheer, s.line[len(s.line)-1])
		if i == h.middle {
			h.cut = len(h.sheer)
		}
	}
}

// bound finds how far all lines reach. The baseline is taken in unless it lies far below the boat.
func (p *body) bound() {
	for _, h := range p.plans {
		lines := make([][]hull.Point, 0, len(h.sections)+len(h.patterns))
		for _, s := range h.sections {
			lines = append(lines, s.line)
		}
		for _, s := range h.patterns {
			lines = append(lines, s.line)
		}
		for _, line := range lines {
			for _, q := range line {
				p.across, p.low, p.high = max(p.across, q.Y), min(p.low, q.Z), max(p.high, q.Z)
			}
		}
	}
	p.low, p.high = heightsShown(p.low, p.high)
	p.across = max(p.across, (p.high-p.low)/100, 1)
	p.high = max(p.high, p.low+p.across/100)
}

func sideWord(s boat.Side) string {
	switch s {
	case boat.Port:
		return "port"
	case boat.Starboard:
		return "starboard"
	}
	return "port and starboard"
}

// describe says in words what is to be seen.
func (p *body) describe() string {
	var what string
	if len(p.plans) == 1 {
		what = "One plan, port and starboard being alike: "
	} else {
		what = "Two plans, port on the left and starboard on the right: "
		if p.narrow {
			what = "Two plans, port above and starboard below: "
		}
	}
	first, last := p.stations[0], p.stations[len(p.stations)-1]
	what += fmt.Sprintf("the sections at %d stations, numbered from forward %s to %s, ", len(p.stations), strconv.Itoa(first), strconv.Itoa(last))
	what += fmt.Sprintf("the fore body right and the after body left of the centreline, with %d waterlines, %d buttocks, the sheer and the rabbet%s.", len(p.waterlines), len(p.buttocks), p.seenToo())
	return what + " The measured offsets stand in the table of the same name."
}

// seenToo is what a boat may have beside the lines of every boat, in words after the others.
func (p *body) seenToo() string {
	out := ""
	if n := len(p.diagonals); n > 0 {
		out += ", with " + plural(n, "diagonal as a straight line", "diagonals as straight lines")
	}
	if n := p.knuckleCount(); n > 0 {
		out += ", with " + plural(n, "knuckle marked by lozenges", "knuckles marked by lozenges")
	}
	return out
}

// knuckleCount is how many knuckles the side with most of them has.
func (p *body) knuckleCount() int {
	most := 0
	for _, h := range p.plans {
		most = max(most, len(h.knuckles))
	}
	return most
}
