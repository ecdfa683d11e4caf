package drawing

import (
	"math"
	"slices"
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/hull"
)

// tolerance is how far a drawn line may stand off the curve, in units: a twentieth of a fine pen.
const tolerance = 0.02

// placed is where one plan stands on the sheet.
type placed struct {
	*body
	list   *draw.List
	centre float64 // X of the centreline
	base   float64 // Y of the lowest height
	units  float64 // units to a millimetre
}

func (f placed) at(right bool, y, z float64) draw.Point {
	if !right {
		y = -y
	}
	return draw.Point{X: f.centre + y*f.units, Y: f.base - (z-f.low)*f.units}
}

// put draws the plans and gives the Y below them.
func (p *body) put(list *draw.List) float64 {
	labels := 0.0 // room for the names of waterlines, right of each plan
	for _, w := range p.waterlines {
		labels = max(labels, draw.TextWidth("WL "+w.shown, p.small, false)+0.8*p.small)
	}
	columns := len(p.plans)
	if p.narrow {
		columns = 1
	}
	room := (p.width-2*p.margin-float64(columns-1)*p.margin)/float64(columns) - labels
	// A little air beyond the greatest half-breadth; and no sheet so high that it does not fit a screen.
	units := min(room/(2*p.across*1.04), 0.62*p.width/(p.high-p.low))
	list.ScaleMM = 1 / units
	bottom := p.margin
	top := p.margin
	for i, h := range p.plans {
		column := i % columns
		if column == 0 {
			top = bottom
		}
		left := p.margin + float64(column)*(room+labels+p.margin)
		f := placed{body: p, list: list, centre: left + room/2, units: units}
		f.base = top + f.headroom() + (p.high-p.low)*units
		bottom = f.plan(h, top, left, left+room, labels)
	}
	return bottom
}

// headroom is what stands above the highest line: name of the side, names of the halves, numbers, leaders.
func (f placed) headroom() float64 { return 2*line(f.text) + line(f.small) + 1.2*f.small }

// plan draws one plan and gives the Y below it.
func (f placed) plan(h halves, top, left, right, labels float64) float64 {
	f.grid(left, right)
	f.lines(h)
	names := f.list.Layer("names")
	title := [...]string{"Port side", "Starboard side", "Port and starboard, measured alike"}[slices.Index([]boat.Side{boat.Port, boat.Starboard, boat.Both}, h.side)]
	y := top + f.text
	names.Add(draw.Text{At: draw.Point{X: left, Y: y}, Size: f.text, Bold: true, String: title})
	y += line(f.text)
	names.Add(
		draw.Text{At: draw.Point{X: (left + f.centre) / 2, Y: y}, Anchor: draw.Middle, Size: f.small, String: "After body"},
		draw.Text{At: draw.Point{X: (right + f.centre) / 2, Y: y}, Anchor: draw.Middle, Size: f.small, String: "Fore body"},
	)
	y += line(f.small)
	f.numbers(h, false, y, left, f.centre-2)
	f.numbers(h, true, y, f.centre+2, right)
	f.patterns(h)
	f.knuckles(h)
	f.diagonalsAcross(h)
	return f.base + 2*line(f.small)
}

// grid is waterlines, buttocks, baseline and centreline with their names.
func (f placed) grid(left, right float64) {
	_, _, _, fine := f.pens()
	names := f.list.Layer("names")
	reach := f.across * 1.02
	var rows []label
	for _, w := range f.waterlines {
		if w.mm < f.low || w.mm > f.high {
			continue
		}
		a, b := f.at(false, reach, w.mm), f.at(true, reach, w.mm)
		f.list.Layer("waterlines").Line(fine, a, b)
		rows = append(rows, label{text: "WL " + w.shown, at: a.Y})
	}
	x := f.at(true, reach, 0).X + 0.4*f.small
	for _, r := range tower(rows, f.small) {
		names.Add(draw.Text{At: draw.Point{X: x, Y: r.at + 0.36*f.small}, Size: f.small, String: r.text})
	}
	axis := draw.TextWidth("CL", f.small, false)/2 + 0.5*f.small
	var columns []label
	for _, b := range f.buttocks {
		if b.mm > f.across {
			continue
		}
		for _, half := range []bool{false, true} {
			f.list.Layer("buttocks").Line(fine, f.at(half, b.mm, f.low), f.at(half, b.mm, f.high))
		}
		c := label{text: "B " + b.shown, at: f.at(true, b.mm, 0).X}
		if c.at-c.width(f.small)/2 > f.centre+axis {
			columns = append(columns, c)
		}
	}
	y := f.base + line(f.small)
	for _, c := range thinned(columns, f.small) {
		for _, x := range []float64{c.at, 2*f.centre - c.at} {
			names.Add(draw.Text{At: draw.Point{X: x, Y: y}, Anchor: draw.Middle, Size: f.small, String: c.text})
		}
	}
	names.Add(draw.Text{At: draw.Point{X: f.centre, Y: y}, Anchor: draw.Middle, Size: f.small, String: "CL"})
	if f.low == 0 {
		f.list.Layer("baseline").Line(draw.Pen{Width: 0.8, Colour: draw.Ink}, f.at(false, reach, 0), f.at(true, reach, 0))
		f.baseName(rows, x)
	}
	f.list.Layer("centreline").Line(draw.ChainDotted(0.8, draw.Ink), f.at(true, 0, f.high+0.6*f.small/f.units), f.at(true, 0, f.low))
}

// baseName names the baseline unless the lowest waterline's name stands there.
func (f placed) baseName(waterlines []label, x float64) {
	for _, w := range waterlines {
		if math.Abs(w.at-f.base) < 1.1*f.small {
			return
		}
	}
	f.list.Layer("names").Add(draw.Text{At: draw.Point{X: x, Y: f.base + 0.36*f.small}, Size: f.small, String: "Base"})
}

// lines draws sections, sheer and rabbet.
func (f placed) lines(h halves) {
	pen, sheer, rabbet, _ := f.pens()
	for i, s := range h.sections {
		for _, right := range h.halvesOf(i) {
			f.curve("sections", pen, right, s.line, "section/"+strconv.Itoa(s.station)+"/"+string(h.side))
		}
	}
	if len(h.sections) == 0 {
		return
	}
	for _, l := range []struct {
		name string
		pen  draw.Pen
		line []hull.Point
	}{{"rabbet", rabbet, h.rabbet}, {"sheer", sheer, h.sheer}} {
		of := l.name + "/" + string(h.side)
		f.curve(l.name, l.pen, true, l.line[:h.cut], of+"/fore")
		f.curve(l.name, l.pen, false, l.line[h.cut-1:], of+"/after")
	}
}

// pens of the plan: full for sections and sheer, fine for what cuts them.
func (p *body) pens() (section, sheer, rabbet, fine draw.Pen) {
	section = draw.Pen{Width: p.full, Colour: draw.Ink}
	if !p.faired {
		section = draw.Dashed(p.full, draw.Ink, 5)
	}
	sheer = draw.Pen{Width: p.full * 1.5, Colour: draw.Ink}
	rabbet = draw.Pen{Width: p.full, Colour: draw.Accent, Dash: []float64{6, 2}}
	return section, sheer, rabbet, draw.Pen{Width: p.fine, Colour: draw.Ink}
}

// key explains the lines, and the trade's words for them to whoever does not know them.
func (p *body) key() []keyLine {
	section, sheer, rabbet, fine := p.pens()
	out := []keyLine{
		explained(section, "section: the boat cut across at a station"),
		explained(sheer, "sheer: upper edge of the planking"),
		explained(rabbet, "rabbet: where planking meets the keel"),
		explained(fine, "WL waterline, height above base"),
		explained(fine, "B buttock, distance from centreline"),
		explained(draw.ChainDotted(0.8, draw.Ink), "CL centreline"),
	}
	if len(p.diagonals) > 0 {
		out = append(out, explained(diagonalPen(p.fine), "D diagonal, a slanting plane"))
	}
	if p.knuckleCount() > 0 {
		out = append(out, explainedKnuckle(p.look, p.faired))
	}
	for _, h := range p.plans {
		if len(h.patterns) > 0 {
			return append(out, explained(patternPen(p.full), "F pattern of the frame with that number"))
		}
	}
	return out
}

// halvesOf is the halves that a section stands in: the right one forward of the middle, the left one aft of it, both
// for the middle section.
func (h halves) halvesOf(i int) []bool {
	switch {
	case i < h.middle:
		return []bool{true}
	case i > h.middle:
		return []bool{false}
	}
	return []bool{true, false}
}

func (f placed) curve(layer string, pen draw.Pen, right bool, line []hull.Point, of string) {
	if len(line) < 2 {
		return
	}
	points := make([]draw.Point, len(line))
	for i, q := range line {
		points[i] = f.at(right, q.Y, q.Z)
	}
	f.list.Layer(layer).Add(draw.Path{Points: draw.Simplified(points, tolerance), Pen: pen, Of: of})
}

// numbers puts the stations' numbers of one half in a row above it, each over its section's end at the sheer as far
// as they do not crowd, and leads from the one to the other.
func (f placed) numbers(h halves, right bool, y, low, high float64) {
	var row []label
	for i, s := range h.sections {
		if !slices.Contains(h.halvesOf(i), right) {
			continue
		}
		end := s.line[len(s.line)-1]
		p := f.at(right, end.Y, end.Z)
		row = append(row, label{text: strconv.Itoa(s.station), at: p.X, from: p.Y})
	}
	slices.SortStableFunc(row, func(a, b label) int {
		switch {
		case a.at < b.at:
			return -1
		case a.at > b.at:
			return 1
		}
		return 0
	})
	ends := slices.Clone(row)
	if !spread(row, f.small, low, high) {
		row = thinned(row, f.small)
		ends = slices.Clone(row)
		f.notes = append(f.notes, "Stations stand too close on the sheet for every number; the table has them all.")
	}
	for i, l := range row {
		f.list.Layer("leaders").Line(draw.Pen{Width: 0.5, Colour: draw.Rule},
			draw.Point{X: l.at, Y: y + 0.3*f.small}, draw.Point{X: ends[i].at, Y: l.from})
		f.list.Layer("numbers").Add(draw.Text{At: draw.Point{X: l.at, Y: y}, Anchor: draw.Middle, Size: f.small, Bold: true, String: l.text})
	}
}
