package drawing

import (
	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/offsets"
)

// knuckleLine is a corner of the sections followed along one side, from forward.
type knuckleLine struct {
	name string
	line []hull.Spot
}

func (k knuckleLine) title() string { return "K " + shortName(k.name) }

// knucklesOf are the knuckles of one side from the rabbet up: by the fair surface where there is one, between stations too;
// otherwise straight through the measured points. Every station has the same ones in the same order.
func knucklesOf(stations []offsets.Station, lines *hull.Hull, side boat.Side) []knuckleLine {
	var out []knuckleLine
	put := func(i int, name string, q hull.Spot) {
		for len(out) <= i {
			out = append(out, knuckleLine{name: name})
		}
		out[i].line = append(out[i].line, q)
	}
	if lines == nil {
		for i := range stations {
			n := 0
			for _, m := range stations[i].Marks(side) {
				if m.Knuckle != "" {
					put(n, m.Knuckle, hull.Spot{X: stations[i].X.MM(), Y: m.Y.MM(), Z: m.Z.MM()})
					n++
				}
			}
		}
		return out
	}
	if surface, err := lines.Surface(side); err != nil || len(surface.Corners()) == 0 {
		return nil
	}
	at := func(x float64) {
		s, err := lines.Section(x, side)
		if err != nil {
			return
		}
		for i, k := range s.Knuckles() {
			put(i, k.Name, hull.Spot{X: x, Y: k.Y, Z: k.Z})
		}
	}
	for i := range stations {
		x := stations[i].X.MM()
		if i > 0 {
			before := stations[i-1].X.MM()
			for j := 1; j < longPoints; j++ {
				at(before + (x-before)*float64(j)/longPoints)
			}
		}
		at(x)
	}
	return out
}

// knucklePen of the line itself; what tells it from fair lines are the lozenges at the stations, see lozenge.
func knucklePen(width float64, faired bool) draw.Pen {
	if !faired {
		return draw.Dashed(width, draw.Ink, 5)
	}
	return draw.Pen{Width: width, Colour: draw.Ink}
}

// lozenge marks a corner.
func lozenge(at draw.Point, pen float64) draw.Path {
	const half = 2.6
	return draw.Path{
		Points: []draw.Point{{X: at.X - half, Y: at.Y}, {X: at.X, Y: at.Y - half}, {X: at.X + half, Y: at.Y}, {X: at.X, Y: at.Y + half}},
		Closed: true, Pen: draw.Pen{Width: pen, Colour: draw.Ink}, Fill: draw.Paper,
	}
}

// explainedKnuckle is the key's line.
func explainedKnuckle(k look, faired bool) keyLine {
	return keyLine{text: "K knuckle: corner of the sections", sample: func(a, b draw.Point) []draw.Item {
		return []draw.Item{
			draw.Path{Points: []draw.Point{a, b}, Pen: knucklePen(k.full, faired)},
			lozenge(draw.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}, k.full*0.7),
		}
	}}
}

// cornered draws one run of a knuckle with a lozenge at each station of it.
func cornered(list *draw.List, k look, faired bool, of string, line []hull.Spot, stations func(x float64) bool, at func(hull.Spot) draw.Point) []draw.Point {
	layer := list.Layer("knuckles")
	points := make([]draw.Point, len(line))
	for i, q := range line {
		points[i] = at(q)
	}
	if len(points) > 1 {
		points = draw.Simplified(points, tolerance)
		layer.Add(draw.Path{Points: points, Pen: knucklePen(k.full, faired), Of: of})
	}
	for _, q := range line {
		if stations(q.X) {
			layer.Add(lozenge(at(q), k.full*0.7))
		}
	}
	return points
}

// knuckles draws the knuckles of one side along the boat and gives them with their names.
func (p *lengthwise) knuckles(s sideLines, at func(hull.Spot) draw.Point) []named {
	var out []named
	station := func(x float64) bool {
		for i := range p.stations {
			if p.stations[i].X.MM() == x {
				return true
			}
		}
		return false
	}
	for _, k := range s.knuckles {
		out = append(out, named{k.title(), cornered(p.list, p.look, p.faired, "knuckle/"+k.name+"/"+string(s.side), k.line, station, at)})
	}
	return out
}

// knuckles draws those of one plan, fore body right and after body left, with their names.
func (f placed) knuckles(h halves) {
	if len(h.sections) == 0 || len(h.knuckles) == 0 {
		return
	}
	middle := h.sections[h.middle].x
	station := func(x float64) bool {
		for _, s := range h.sections {
			if s.x == x {
				return true
			}
		}
		return false
	}
	var lines []named
	for _, k := range h.knuckles {
		for _, right := range []bool{true, false} {
			var part []hull.Spot
			for _, q := range k.line {
				if right && q.X <= middle || !right && q.X >= middle {
					part = append(part, q)
				}
			}
			half := "/after"
			if right {
				half = "/fore"
			}
			points := cornered(f.list, f.look, f.faired, "knuckle/"+k.name+"/"+string(h.side)+half, part, station,
				func(q hull.Spot) draw.Point { return f.at(right, q.Y, q.Z) })
			lines = longest(lines, named{k.title(), points})
		}
	}
	// A name that hid a corner or a section would cost more than it tells: kept clear of both, or left to the table.
	if nameLines(f.list, f.small, lines, f.sectionsAround(h)) > 0 {
		f.notes = append(f.notes, "Not every knuckle has room for its name on the plan; the table has them all.")
	}
}

// knuckled reports whether any side has a knuckle.
func (p *lengthwise) knuckled() bool {
	for _, s := range p.sides {
		if len(s.knuckles) > 0 {
			return true
		}
	}
	return false
}
