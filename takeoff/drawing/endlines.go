package drawing

import (
	"ribband/takeoff/draw"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/offsets"
)

// endLine is the line of stem or transom in profile, from the lowest height up; its places lie on the centreline.
func endLine(line []offsets.Profile) []hull.Spot {
	out := make([]hull.Spot, len(line))
	for i, q := range line {
		out[i] = hull.Spot{X: q.X.MM(), Z: q.Z.MM()}
	}
	return out
}

// lineAt is how far aft a line of rising heights stands at a height, straight between its places; false beyond them.
func lineAt(line []hull.Spot, z float64) (x float64, ok bool) {
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		if z >= a.Z && z <= b.Z && b.Z > a.Z {
			return a.X + (b.X-a.X)*(z-a.Z)/(b.Z-a.Z), true
		}
	}
	return 0, false
}

// endsInProfile draws stem and transom and gives them with their names. Straight from measured place to measured place.
func (p *lengthwise) endsInProfile(side string, at func(hull.Spot) draw.Point) []named {
	var out []named
	pen := draw.Pen{Width: p.full, Colour: draw.Ink}
	for _, e := range []struct {
		name, of string
		line     []hull.Spot
	}{{"Stem", "stem/" + side, p.stem}, {"Transom", "transom/" + side, p.transom}} {
		if len(e.line) == 0 {
			continue
		}
		if points := p.run("ends", pen, e.of, e.line, at); points != nil {
			out = append(out, named{e.name, points})
		} else {
			p.notes = append(p.notes, e.name+" line: one place is no line; measure it at two heights or more.")
		}
	}
	return out
}

// toTheStem are the waterlines of a side from the first station to the stem line, by level: two places each, the second at
// the half-breadth that the rabbet has at the first station, which is taken to be the stem's. None where the line does not
// reach the height, or where it stands abaft the station.
func (p *lengthwise) toTheStem(s sideLines) [][][]hull.Spot {
	out := make([][][]hull.Spot, len(s.waterlines))
	if len(s.rabbet) == 0 {
		return out
	}
	first := p.stations[0].X.MM()
	foot := s.rabbet[0]
	for i, runs := range s.waterlines {
		z := p.waterlines[i].mm
		x, ok := lineAt(p.stem, z)
		if !ok || x >= first || z < foot.Z {
			continue
		}
		for _, run := range runs {
			for _, q := range []hull.Spot{run[0], run[len(run)-1]} {
				if q.X == first && q.Y >= foot.Y {
					out[i] = append(out[i], []hull.Spot{q, {X: x, Y: foot.Y, Z: z}})
					break // closed runs have both ends alike
				}
			}
		}
	}
	return out
}

// endPen is of what was not measured but lies between two places that were.
func endPen(k look) draw.Pen { return draw.Dashed(k.fine*1.8, draw.Ink, 3) }

// endsInPlan draws the waterlines' ends to the stem line.
func (p *lengthwise) endsInPlan(s sideLines, at func(hull.Spot) draw.Point) {
	if len(p.stem) < 2 {
		return
	}
	drawn := false
	for i, level := range p.toTheStem(s) {
		for _, run := range level {
			p.run("ends", endPen(p.look), "to-stem/"+p.waterlines[i].shown+"/"+string(s.side), run, at)
			drawn = true
		}
	}
	if drawn {
		p.notes = append(p.notes, "Between the first station and the stem line waterlines are drawn straight and dashed, to the half-breadth that the rabbet has at that station: nothing was measured between.")
	}
}

// transomRemark says what is not drawn in plan of a transom.
func (p *lengthwise) transomRemark() {
	if len(p.transom) > 0 {
		p.notes = append(p.notes, "Of the transom only its line in profile was measured, not its half-breadths: lines stop at the last station.")
	}
}

// seenToo is what a boat may have beside the lines of every boat, in words after the others.
func (p *lengthwise) seenToo(above bool) string {
	out := ""
	most := 0
	for _, s := range p.sides {
		most = max(most, len(s.knuckles))
	}
	if most > 0 {
		out += ", " + plural(most, "knuckle marked by lozenges", "knuckles marked by lozenges")
	}
	if above {
		if n := len(p.diagonals); n > 0 {
			out += ", " + plural(n, "diagonal laid flat", "diagonals laid flat")
		}
		if len(p.stem) > 1 {
			out += ", the waterlines carried straight to the stem line"
		}
		return out
	}
	if len(p.stem) > 1 {
		out += ", the stem line"
	}
	if len(p.transom) > 1 {
		out += ", the transom line"
	}
	return out
}
