package drawing

import (
	"fmt"
	"math"
	"strconv"

	"ribband/takeoff/draw"
	"ribband/takeoff/hull"
	"ribband/takeoff/mould"
)

// OneFrame is one frame as whoever looks at its moulding face sees it: faying and inner face, and the levels by which it is
// set up with the bevel at each.
type OneFrame struct {
	Sheet Sheet
	Mould mould.Mould
}

// frameHigh is how much of a sheet's width a frame may take in height.
const frameHigh = 0.9

// Draw is the frame with its marks as a table.
func (f OneFrame) Draw() Drawing {
	k, m := f.Sheet.look(), f.Mould
	name := m.Name()
	list := &draw.List{Width: k.width, Title: name + " of " + or(f.Sheet.Boat, "the boat")}
	t := foot{subject: name, notation: m.Notation, units: unitsLine(m.Notation)}
	if len(m.Faying) < 2 {
		return empty(list, f.Sheet, k, t, "The frame has no shape; there is nothing to draw.")
	}
	p := oneFrame{look: k, list: list, m: m}
	y := p.put()
	t.key = p.key()
	t.notes = append(append([]string{m.Seen()}, p.bevelNote()...), m.Cautions...)
	t.notes = append(t.notes, p.notes...)
	what := "The faying and the inner face of one frame"
	if m.Bare {
		what = "The section, inside of plank,"
	}
	list.Desc = fmt.Sprintf("%s from the rabbet to the sheer, with %s and the centreline. The marks and their bevels stand in the table of the same name.",
		what, plural(len(m.Levels), "level", "levels"))
	list.Height = math.Ceil(t.put(list, f.Sheet, k, y+line(k.text)))
	return Drawing{list, p.table()}
}

// oneFrame is a frame being laid out.
type oneFrame struct {
	look
	list  *draw.List
	m     mould.Mould
	notes []string
	// axis is X of the centreline, base Y of the lowest height, units units to a millimetre.
	axis, base, units, low float64
}

func (p *oneFrame) at(q hull.Point) draw.Point {
	return draw.Point{X: p.axis + p.m.Across(q.Y)*p.units, Y: p.base - (q.Z-p.low)*p.units}
}

// put draws the frame and gives the Y below it.
func (p *oneFrame) put() float64 {
	low, high, across := math.Inf(1), math.Inf(-1), 1.0
	for _, face := range [][]hull.Point{p.m.Faying, p.m.Inner} {
		for _, q := range face {
			low, high, across = min(low, q.Z), max(high, q.Z), max(across, q.Y)
		}
	}
	low, high = heightsShown(low, high)
	high = max(high, low+across/100)
	words := 0.0
	for _, k := range p.m.Marks {
		words = max(words, draw.TextWidth(p.told(k), p.small, false))
	}
	left, right := p.margin+p.small, p.width-p.margin-words-p.small
	p.low, p.units = low, min((right-left)/(across*1.05), frameHigh*p.width/(high-low))
	p.list.ScaleMM = 1 / p.units
	p.axis = left
	if !p.m.Right {
		p.axis = left + 1.05*across*p.units
	}
	p.base = p.margin + line(p.text) + (high-low)*p.units
	from, to := left, left+1.05*across*p.units
	p.levels(from, to)
	full, fine := draw.Pen{Width: p.full * 1.5, Colour: draw.Ink}, draw.Pen{Width: p.full, Colour: draw.Ink}
	if p.m.Bare {
		p.face("section", full, p.m.Faying)
	} else {
		p.face("faying face", full, p.m.Faying)
		p.face("inner face", fine, p.m.Inner)
	}
	for _, k := range p.m.Marks {
		if len(p.m.Inner) > 0 || p.m.Bare {
			p.list.Layer("marks").Line(draw.Pen{Width: 0.8, Colour: draw.Ink}, p.at(k.At), p.at(k.Across))
		}
	}
	top := p.at(hull.Point{Z: high}).Y - 0.4*p.small
	p.list.Layer("centreline").Line(draw.ChainDotted(0.8, draw.Ink), draw.Point{X: p.axis, Y: top}, draw.Point{X: p.axis, Y: p.base})
	p.list.Layer("names").Add(draw.Text{At: draw.Point{X: p.axis, Y: top - 0.3*p.small}, Anchor: draw.Middle, Size: p.small, String: "CL"})
	return p.base + line(p.small)
}

func (p *oneFrame) face(layer string, pen draw.Pen, face []hull.Point) {
	if len(face) < 2 {
		return
	}
	points := make([]draw.Point, len(face))
	for i, q := range face {
		points[i] = p.at(q)
	}
	p.list.Layer(layer).Add(draw.Path{Points: draw.Simplified(points, tolerance), Pen: pen, Of: p.m.Frame.Member().Path() + "/" + layer})
}

// levels draws the levels, and right of the frame what is told at each.
func (p *oneFrame) levels(from, to float64) {
	var rows []label
	for _, k := range p.m.Marks {
		rows = append(rows, label{text: p.told(k), at: p.at(k.At).Y})
	}
	for _, l := range p.m.Levels {
		y := p.at(hull.Point{Z: l.MM}).Y
		p.list.Layer("levels").Line(draw.Pen{Width: p.fine, Colour: draw.Ink}, draw.Point{X: from, Y: y}, draw.Point{X: to + 0.4*p.small, Y: y})
	}
	if p.low == 0 {
		p.list.Layer("baseline").Line(draw.Pen{Width: 0.8, Colour: draw.Ink}, draw.Point{X: from, Y: p.base}, draw.Point{X: to + 0.4*p.small, Y: p.base})
	}
	kept := tower(rows, p.small)
	if len(kept) < len(rows) {
		p.notes = append(p.notes, "Marks stand too close on the sheet for every one to be named; the table has them all.")
	}
	for _, r := range kept {
		p.list.Layer("names").Add(draw.Text{At: draw.Point{X: to + 0.8*p.small, Y: r.at + 0.36*p.small}, Size: p.small, String: r.text})
	}
}

// told is a mark's name with its bevel.
func (p *oneFrame) told(k mould.Mark) string {
	if !k.Known {
		return k.Name
	}
	return k.Name + ", " + mould.Degrees(k.Bevel)
}

func (p *oneFrame) bevelNote() []string {
	if !p.m.Marks[0].Known {
		return nil
	}
	return []string{"Beside each mark stands its bevel, in degrees from square: plus where the angle inside the timber is wider than square, minus where it is sharper."}
}

func (p *oneFrame) key() []keyLine {
	faces := []keyLine{
		explained(draw.Pen{Width: p.full * 1.5, Colour: draw.Ink}, "faying face: against the planking"),
		explained(draw.Pen{Width: p.full, Colour: draw.Ink}, "inner face, at the moulded depth"),
	}
	if p.m.Bare {
		faces = []keyLine{explained(draw.Pen{Width: p.full * 1.5, Colour: draw.Ink}, "section, inside of plank")}
	}
	return append(faces,
		explained(draw.Pen{Width: p.fine, Colour: draw.Ink}, "level, height above base"),
		explained(draw.ChainDotted(0.8, draw.Ink), "CL centreline"),
	)
}

// table is the marks from the rabbet up.
func (p *oneFrame) table() Table {
	where := "faying face"
	if p.m.Bare {
		where = "section"
	}
	t := Table{
		Caption: fmt.Sprintf("Marks on the "+where+", %s; bevels in degrees from square, plus where wider", lengthUnit(p.m.Notation)),
		Head:    []string{"Mark", "Half-breadth", "Height", "Bevel"},
	}
	for _, k := range p.m.Marks {
		bevel := missing
		if k.Known {
			bevel = strconv.FormatFloat(math.Round(k.Bevel*1800/math.Pi)/10+0, 'f', 1, 64)
		}
		t.Rows = append(t.Rows, []string{k.Name, shownMM(p.m.Notation, k.At.Y), shownMM(p.m.Notation, k.At.Z), bevel})
	}
	return t
}
