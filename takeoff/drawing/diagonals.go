package drawing

import (
	"math"

	"ribband/takeoff/draw"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/fair"
	"ribband/takeoff/hull/offsets"
)

// diagonal is a plane that runs down and outboard from the middle line at a height, mm, by an angle from that line.
type diagonal struct {
	name     string
	height   float64
	sin, cos float64
}

// diagonals of a table of offsets, as they were declared.
func diagonals(o *offsets.Table) []diagonal {
	var out []diagonal
	for _, d := range o.Diagonals {
		sin, cos := math.Sincos(d.Angle)
		if sin > 0 { // along the middle line itself no distance is measured
			out = append(out, diagonal{d.Name, d.Z.MM(), sin, cos})
		}
	}
	return out
}

// title is the name as it stands on a drawing.
func (d diagonal) title() string { return "D " + shortName(d.name) }

// at is the half-breadth and the height at a distance from the centreline.
func (d diagonal) at(distance float64) hull.Point {
	return hull.Point{Y: distance * d.sin, Z: d.height - distance*d.cos}
}

// distance of a place in the plane from the centreline.
func (d diagonal) distance(q hull.Spot) float64 { return q.Y / d.sin }

// cut is the surface where the plane meets it: cos y + sin z = sin height.
func (d diagonal) cut(m *hull.Mesh) [][]hull.Spot { return m.Cut(d.cos, d.sin, d.sin*d.height) }

// nearPlane, mm, is how far a mark may lie off the diagonal that it was measured along: lengths hold less than a thousandth.
const nearPlane = 0.01

// holds reports whether a mark was measured along the diagonal. Marks have shortened names, so the plane itself is asked.
func (d diagonal) holds(m offsets.Mark) bool {
	return m.Kind == fair.Along && math.Abs(m.DY-d.sin) < 1e-9 && math.Abs(d.cos*m.Y.MM()+d.sin*(m.Z.MM()-d.height)) < nearPlane
}

// within is the piece of the diagonal that lies within a half-breadth and between two heights; false where none does.
func (d diagonal) within(across, low, high float64) (from, to hull.Point, ok bool) {
	a, b := 0.0, across/d.sin
	const level = 1e-9 // of the cosine: the plane is a waterline
	switch {
	case d.cos > level:
		a, b = max(a, (d.height-high)/d.cos), min(b, (d.height-low)/d.cos)
	case d.height < low || d.height > high:
		return hull.Point{}, hull.Point{}, false
	}
	if !(a < b) {
		return hull.Point{}, hull.Point{}, false
	}
	return d.at(a), d.at(b), true
}

// diagonalPen is fine and broken seldom, so that a curve of a diagonal is not taken for a waterline.
func diagonalPen(width float64) draw.Pen {
	return draw.Pen{Width: width, Colour: draw.Ink, Dash: []float64{14, 2}}
}

// diagonalsAcross draws the diagonals as the straight lines that they are in the body plan, both halves, with their names.
func (f placed) diagonalsAcross(h halves) {
	var lines []named
	for _, d := range f.diagonals {
		from, to, ok := d.within(f.across*1.02, f.low, f.high)
		if !ok {
			f.notes = append(f.notes, "Diagonal "+shortName(d.name)+" passes outside of what is drawn.")
			continue
		}
		for _, right := range []bool{false, true} {
			ends := []draw.Point{f.at(right, from.Y, from.Z), f.at(right, to.Y, to.Z)}
			f.list.Layer("diagonals").Add(draw.Path{Points: ends, Pen: diagonalPen(f.fine), Of: "diagonal/" + d.name + "/" + string(h.side)})
			lines = append(lines, named{d.title(), ends})
		}
	}
	if len(lines) > 0 && nameLines(f.list, f.small, lines, f.sectionsAround(h)) > 0 {
		f.notes = append(f.notes, "Not every diagonal has room for its name on the plan; the table has them all.")
	}
}

// sectionsAround is the sections on the sheet.
func (f placed) sectionsAround(h halves) [][]draw.Point {
	var out [][]draw.Point
	for i, s := range h.sections {
		for _, right := range h.halvesOf(i) {
			points := make([]draw.Point, len(s.line))
			for j, at := range s.line {
				points[j] = f.at(right, at.Y, at.Z)
			}
			out = append(out, points)
		}
	}
	return out
}

// farthest is the greatest distance along any diagonal, mm.
func (p *lengthwise) farthest() float64 {
	most := 0.0
	for _, s := range p.sides {
		for i, runs := range s.diagonals {
			for _, run := range runs {
				for _, q := range run {
					most = max(most, p.diagonals[i].distance(q))
				}
			}
		}
	}
	return most
}

// flatPen is of a diagonal laid flat; dashed as all lines are that go through points which make no fair curve.
func (p *lengthwise) flatPen() draw.Pen {
	if !p.faired {
		return draw.Dashed(p.fine*1.8, draw.Ink, 5)
	}
	return diagonalPen(p.fine * 1.8)
}

// laidFlat draws the diagonals in their own planes from axis down, or up where way is -1, on the stations of the
// half-breadths: the distance along each from the centreline over the length.
func (p *lengthwise) laidFlat(s sideLines, axis, way float64) {
	pen := p.flatPen()
	var lines []named
	for i, runs := range s.diagonals {
		d := p.diagonals[i]
		at := func(q hull.Spot) draw.Point { return draw.Point{X: p.x(q.X), Y: axis + way*d.distance(q)*p.units} }
		drawn := false
		for _, run := range runs {
			points := p.run("diagonals", pen, "diagonal/"+d.name+"/"+string(s.side), run, at)
			if len(points) > 0 {
				lines, drawn = longest(lines, named{d.title(), points}), true
			}
		}
		if !drawn {
			p.notes = append(p.notes, "Diagonal "+shortName(d.name)+" meets no planking and has no curve.")
		}
	}
	if nameLines(p.list, p.small, lines, nil) > 0 {
		p.notes = append(p.notes, "Not every diagonal has room for its name; the table has them all.")
	}
}

// diagonalsBelow draws the curves of the diagonals beyond the half-breadths: on the other side of the centreline where one
// half stands for both sides, below both halves otherwise, on a centreline of their own; and gives the Y below.
func (p *lengthwise) diagonalsBelow(axis, bottom float64) float64 {
	deep := p.farthest() * p.units
	if deep == 0 {
		return bottom
	}
	name := "Diagonals laid flat"
	top := axis
	if len(p.sides) > 1 {
		name += ", port above and starboard below"
		top = bottom + line(p.small) + 0.3*p.small
		axis = top + deep
	}
	end := axis + deep + 0.3*p.small
	p.uprights(top, end)
	if len(p.sides) > 1 {
		p.axis(axis)
	}
	for i, s := range p.sides {
		way := 1.0
		if len(p.sides) > 1 && i == 0 {
			way = -1
		}
		p.laidFlat(s, axis, way)
	}
	end += line(p.text)
	p.list.Layer("names").Add(draw.Text{At: draw.Point{X: p.margin, Y: end}, Size: p.text, Bold: true, String: name})
	return end + 0.4*p.small
}
