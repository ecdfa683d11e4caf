package drawing

import (
	"fmt"
	"math"

	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/hull"
)

// Profile is a boat seen from the side, the bow to the right: rabbet and sheer, the stations upright, the waterlines as
// the level lines that they are, and the buttocks.
type Profile Lines

// Draw is the profile: one where the two sides were measured alike in every point, otherwise one a side, port above. It
// stands on the same stations as the half-breadths of the same sheet.
func (b Profile) Draw() Drawing {
	return Lines(b).draw(linesView{"Profile", "Heights are of the inside of plank.",
		(*lengthwise).profiles, (*lengthwise).profileKey, (*lengthwise).describeProfile, profileRows})
}

// profiles draws all sides and gives the Y below.
func (p *lengthwise) profiles() float64 {
	y := p.margin
	for _, s := range p.sides {
		y = p.profile(s, y)
	}
	return y
}

// profile draws one side from top down and gives the Y below it.
func (p *lengthwise) profile(s sideLines, top float64) float64 {
	y := p.head(sideName(s.side), top) + line(p.small)
	p.numbers(y)
	sheer, rabbet, curve, straight := p.linePens()
	base := y + 0.6*p.small + (p.high-p.low)*p.units
	at := func(q hull.Spot) draw.Point { return draw.Point{X: p.x(q.X), Y: base - (q.Z-p.low)*p.units} }
	p.uprights(y+0.3*p.small, base)
	names := p.list.Layer("names")
	var rows []label
	for _, w := range p.waterlines {
		if w.mm >= p.low && w.mm <= p.high {
			h := at(hull.Spot{Z: w.mm}).Y
			p.list.Layer("waterlines").Line(straight, draw.Point{X: p.left - 0.3*p.small, Y: h}, draw.Point{X: p.right + 0.5*p.small, Y: h})
			rows = append(rows, label{text: "WL " + w.shown, at: h})
		}
	}
	if p.low == 0 {
		p.list.Layer("baseline").Line(draw.Pen{Width: 0.8, Colour: draw.Ink}, draw.Point{X: p.left - 0.3*p.small, Y: base}, draw.Point{X: p.right + 0.5*p.small, Y: base})
		rows = append(rows, label{text: "Base", at: base})
	}
	for _, r := range tower(rows, p.small) {
		names.Add(draw.Text{At: draw.Point{X: p.left - 0.6*p.small, Y: r.at + 0.36*p.small}, Anchor: draw.End, Size: p.small, String: r.text})
	}
	var lines []named
	for i, level := range s.buttocks {
		for _, run := range level {
			points := p.run("buttocks", curve, "buttock/"+p.buttocks[i].shown+"/"+string(s.side), run, at)
			lines = longest(lines, named{"B " + p.buttocks[i].shown, points})
		}
	}
	lines = append(append(lines, p.knuckles(s, at)...), p.endsInProfile(string(s.side), at)...)
	around := [][]draw.Point{
		p.run("rabbet", rabbet, "rabbet/"+string(s.side), s.rabbet, at),
		p.run("sheer", sheer, "sheer/"+string(s.side), s.sheer, at),
	}
	if n := nameLines(p.list, p.small, lines, around); n > 0 {
		p.notes = append(p.notes, "Not every line has room for its name; the table has them all.")
	}
	return base + line(p.small)
}

// longest is the lines with one more; a name is written once, on the longest line of that name.
func longest(lines []named, l named) []named {
	for i, o := range lines {
		if o.text == l.text {
			if acrossSheet(l.points) > acrossSheet(o.points) {
				lines[i] = l
			}
			return lines
		}
	}
	return append(lines, l)
}

// acrossSheet is how far a line reaches across the sheet.
func acrossSheet(points []draw.Point) float64 {
	if len(points) == 0 {
		return 0
	}
	return math.Abs(points[0].X - points[len(points)-1].X)
}

func sideName(s boat.Side) string {
	switch s {
	case boat.Port:
		return "Port side"
	case boat.Starboard:
		return "Starboard side"
	}
	return "Port and starboard, measured alike"
}

// profileKey explains the lines, and the trade's words for them to whoever does not know them.
func (p *lengthwise) profileKey() []keyLine {
	sheer, rabbet, curve, straight := p.linePens()
	out := []keyLine{
		explained(sheer, "sheer: upper edge of the planking"),
		explained(rabbet, "rabbet: where planking meets the keel"),
		explained(straight, "upright: station; level: WL waterline"),
		explained(curve, "B buttock, distance from centreline"),
	}
	if len(p.stem)+len(p.transom) > 0 {
		out = append(out, explained(draw.Pen{Width: p.full, Colour: draw.Ink}, "by its name: stem or transom line"))
	}
	if p.knuckled() {
		out = append(out, explainedKnuckle(p.look, p.faired))
	}
	return out
}

// explained is a line of the key.
func explained(pen draw.Pen, text string) keyLine {
	return keyLine{text: text, sample: func(a, b draw.Point) []draw.Item {
		return []draw.Item{draw.Path{Points: []draw.Point{a, b}, Pen: pen}}
	}}
}

// describeProfile says in words what is to be seen.
func (p *lengthwise) describeProfile() string {
	what := "The boat seen from the side, her bow to the right, port and starboard being alike: "
	if len(p.sides) > 1 {
		what = "The boat seen from the side, her bow to the right, the port side above and the starboard side below: "
	}
	return what + fmt.Sprintf("rabbet and sheer, %s, %s, %s%s. The heights of the lines stand in the table of the same name.",
		p.stationsSeen(), plural(len(p.waterlines), "waterline as a level line", "waterlines as level lines"), plural(len(p.buttocks), "buttock", "buttocks"), p.seenToo(false))
}

// stationsSeen counts the stations and says how they are numbered.
func (p *lengthwise) stationsSeen() string {
	n := len(p.stations)
	return fmt.Sprintf("%d stations, numbered from forward %d to %d", n, p.stations[0].No, p.stations[n-1].No)
}
