package drawing

import (
	"fmt"
	"math"

	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/hull"
)

// HalfBreadths is a boat seen from above, the bow to the right: the waterlines, the sheer and the rabbet in plan on the
// stations, with the buttocks as the straight lines that they are.
type HalfBreadths Lines

// Draw is the half-breadths: one half where the two sides were measured alike in every point, otherwise port above the
// centreline and starboard below it. They stand on the same stations as the profile of the same sheet.
func (b HalfBreadths) Draw() Drawing {
	return Lines(b).draw(linesView{"Half-breadths", "Half-breadths are to the inside of plank.",
		(*lengthwise).halfBreadths, (*lengthwise).halfBreadthKey, (*lengthwise).describeHalfBreadths, halfBreadthRows})
}

// halfBreadths draws all and gives the Y below.
func (p *lengthwise) halfBreadths() float64 {
	y := p.head(sideName(p.sides[0].side), p.margin) + line(p.small)
	p.numbers(y)
	top := y + 0.3*p.small
	deep := p.across * p.units
	axis := top + 0.3*p.small + deep
	bottom := axis
	if len(p.sides) > 1 {
		bottom += deep + 0.3*p.small
	}
	p.uprights(top, bottom)
	p.axis(axis)
	for i, s := range p.sides {
		way := -1.0
		if i > 0 {
			way = 1
		}
		p.half(s, axis, way)
	}
	p.transomRemark()
	if len(p.sides) > 1 {
		bottom += line(p.text)
		p.list.Layer("names").Add(draw.Text{At: draw.Point{X: p.margin, Y: bottom}, Size: p.text, Bold: true, String: sideName(boat.Starboard)})
	} else {
		bottom += 0.4 * p.small
	}
	return p.diagonalsBelow(axis, bottom)
}

// axis draws the centreline with its name.
func (p *lengthwise) axis(y float64) {
	p.list.Layer("centreline").Line(draw.ChainDotted(0.8, draw.Ink), draw.Point{X: p.left - 0.3*p.small, Y: y}, draw.Point{X: p.right + 0.5*p.small, Y: y})
	p.list.Layer("names").Add(draw.Text{At: draw.Point{X: p.left - 0.6*p.small, Y: y + 0.36*p.small}, Anchor: draw.End, Size: p.small, String: "CL"})
}

// half draws one side away from the centreline, upwards where way is -1.
func (p *lengthwise) half(s sideLines, axis, way float64) {
	sheer, rabbet, curve, straight := p.linePens()
	at := func(q hull.Spot) draw.Point { return draw.Point{X: p.x(q.X), Y: axis + way*q.Y*p.units} }
	rows := []label{{text: "CL", at: axis}}
	for _, b := range p.buttocks {
		if b.mm <= p.across {
			y := at(hull.Spot{Y: b.mm}).Y
			p.list.Layer("buttocks").Line(straight, draw.Point{X: p.left - 0.3*p.small, Y: y}, draw.Point{X: p.right, Y: y})
			rows = append(rows, label{text: "B " + b.shown, at: y})
		}
	}
	for _, r := range outwards(rows, p.small)[1:] {
		p.list.Layer("names").Add(draw.Text{At: draw.Point{X: p.left - 0.6*p.small, Y: r.at + 0.36*p.small}, Anchor: draw.End, Size: p.small, String: r.text})
	}
	var lines []named
	for i, level := range s.waterlines {
		for _, run := range level {
			points := p.run("waterlines", curve, "wl/"+p.waterlines[i].shown+"/"+string(s.side), run, at)
			lines = longest(lines, named{"WL " + p.waterlines[i].shown, points})
		}
	}
	lines = append(lines, p.knuckles(s, at)...)
	p.endsInPlan(s, at)
	around := [][]draw.Point{
		p.run("rabbet", rabbet, "rabbet/"+string(s.side), s.rabbet, at),
		p.run("sheer", sheer, "sheer/"+string(s.side), s.sheer, at),
	}
	if n := nameLines(p.list, p.small, lines, around); n > 0 {
		p.notes = append(p.notes, "Not every line has room for its name; the table has them all.")
	}
}

// outwards is labels in their order, each kept that stands clear of the one kept before it; the first stays.
func outwards(rows []label, size float64) []label {
	kept := rows[:1]
	for _, r := range rows[1:] {
		if math.Abs(r.at-kept[len(kept)-1].at) >= 1.1*size {
			kept = append(kept, r)
		}
	}
	return kept
}

// halfBreadthKey explains the lines, and the trade's words for them to whoever does not know them.
func (p *lengthwise) halfBreadthKey() []keyLine {
	sheer, rabbet, curve, straight := p.linePens()
	out := []keyLine{
		explained(sheer, "sheer: upper edge of the planking"),
		explained(rabbet, "rabbet: where planking meets the keel"),
		explained(curve, "WL waterline, height above base"),
		explained(straight, "upright: station; along her: B buttock"),
		explained(draw.ChainDotted(0.8, draw.Ink), "CL centreline"),
	}
	if len(p.diagonals) > 0 {
		out = append(out, explained(p.flatPen(), "D diagonal laid flat, distance along it"))
	}
	if len(p.stem) > 1 {
		out = append(out, explained(endPen(p.look), "waterline to the stem line, not measured"))
	}
	if p.knuckled() {
		out = append(out, explainedKnuckle(p.look, p.faired))
	}
	return out
}

// describeHalfBreadths says in words what is to be seen.
func (p *lengthwise) describeHalfBreadths() string {
	what := "Half of the boat seen from above, her bow to the right, port and starboard being alike: "
	if len(p.sides) > 1 {
		what = "The boat seen from above, her bow to the right, the port side above the centreline and the starboard side below it: "
	}
	return what + fmt.Sprintf("rabbet and sheer, %s, %s, %s%s. The half-breadths of the lines stand in the table of the same name.",
		p.stationsSeen(), plural(len(p.waterlines), "waterline", "waterlines"), plural(len(p.buttocks), "buttock as a straight line", "buttocks as straight lines"), p.seenToo(true))
}
