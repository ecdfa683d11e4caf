package drawing

import (
	"fmt"
	"math"

	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/offsets"
)

// lengthwise is the lines of a boat along her made ready, in millimetres: what profile and half-breadths are drawn from.
// Both are laid out by the same figures, so that one stands below the other on the same stations.
type lengthwise struct {
	look
	list *draw.List
	// sides from above: one that stands for both, or port and starboard.
	sides []sideLines
	// What bounds all lines: along the boat, greatest half-breadth, least and greatest height.
	forward, aft, across, low, high float64
	waterlines, buttocks            []level
	diagonals                       []diagonal
	// stem and transom in profile, on the centreline; empty where they were not measured.
	stem, transom []hull.Spot
	stations      []offsets.Station
	faired        bool
	notes         []string
	left, right   float64 // X of the after and the forward end
	units         float64 // units to a millimetre
}

// sideLines is the lines of one side, each in runs from forward; waterlines and buttocks by level.
type sideLines struct {
	side                 boat.Side // boat.Both where it stands for both
	rabbet, sheer        []hull.Spot
	waterlines, buttocks [][][]hull.Spot
	diagonals            [][][]hull.Spot
	knuckles             []knuckleLine
}

// along gathers the lines along a boat that was measured.
func along(k look, list *draw.List, o *offsets.Table, h *hull.Hull) *lengthwise {
	p := &lengthwise{look: k, list: list, faired: h != nil, low: math.Inf(1), high: math.Inf(-1), stations: o.Stations}
	p.waterlines, p.buttocks, p.diagonals = levels(o, "wl"), levels(o, "buttock"), diagonals(o)
	p.stem, p.transom = endLine(o.Stem), endLine(o.Transom)
	sides := boat.Sides[:]
	if sidesAlike(o) {
		sides = []boat.Side{boat.Both}
	}
	for _, side := range sides {
		of := side
		if side == boat.Both {
			of = boat.Port
		}
		s := p.joined(of)
		if h != nil {
			if surface, err := h.Surface(of); err == nil {
				s = p.traced(surface.Mesh())
			}
		}
		s.side, s.knuckles = side, knucklesOf(p.stations, h, of)
		p.sides = append(p.sides, s)
	}
	p.bound()
	return p
}

// sidesAlike reports whether port and starboard were measured alike in every point.
func sidesAlike(o *offsets.Table) bool {
	for i := range o.Stations {
		if !sameMarks(o.Stations[i].Port, o.Stations[i].Starboard) {
			return false
		}
	}
	return true
}

// traced is the lines that planes cut out of a fair surface.
func (p *lengthwise) traced(m *hull.Mesh) sideLines {
	s := sideLines{rabbet: m.Rabbet(), sheer: m.Sheer()}
	for _, w := range p.waterlines {
		s.waterlines = append(s.waterlines, m.Waterline(w.mm))
	}
	for _, b := range p.buttocks {
		s.buttocks = append(s.buttocks, m.Buttock(b.mm))
	}
	for _, d := range p.diagonals {
		s.diagonals = append(s.diagonals, d.cut(m))
	}
	return s
}

// joined is the lines through the measured points themselves, straight from station to station where both were measured.
func (p *lengthwise) joined(side boat.Side) sideLines {
	through := func(is func(offsets.Mark) bool) [][]hull.Spot {
		var runs [][]hull.Spot
		var run []hull.Spot
		for i := range p.stations {
			st := &p.stations[i]
			found := false
			for _, m := range st.Marks(side) {
				if is(m) && !found {
					run, found = append(run, hull.Spot{X: st.X.MM(), Y: m.Y.MM(), Z: m.Z.MM()}), true
				}
			}
			if !found && len(run) > 0 {
				runs, run = append(runs, run), nil
			}
		}
		if len(run) > 0 {
			runs = append(runs, run)
		}
		return runs
	}
	at := func(of place) func(offsets.Mark) bool { return func(m offsets.Mark) bool { return placeOf(m) == of } }
	var s sideLines
	for _, r := range through(at(place{line: "rabbet"})) {
		s.rabbet = append(s.rabbet, r...)
	}
	for _, r := range through(at(place{line: "sheer"})) {
		s.sheer = append(s.sheer, r...)
	}
	for _, w := range p.waterlines {
		s.waterlines = append(s.waterlines, through(at(w.of)))
	}
	for _, b := range p.buttocks {
		s.buttocks = append(s.buttocks, through(at(b.of)))
	}
	for _, d := range p.diagonals {
		s.diagonals = append(s.diagonals, through(d.holds))
	}
	return s
}

// every calls f with each line of a side.
func (s sideLines) every(f func([]hull.Spot)) {
	f(s.rabbet)
	f(s.sheer)
	for _, level := range append(append([][][]hull.Spot{}, s.waterlines...), s.buttocks...) {
		for _, run := range level {
			f(run)
		}
	}
}

// bound finds how far all lines reach. The baseline is taken in unless it lies far below the boat.
func (p *lengthwise) bound() {
	for _, s := range p.sides {
		s.every(func(run []hull.Spot) {
			for _, q := range run {
				p.across, p.low, p.high = max(p.across, q.Y), min(p.low, q.Z), max(p.high, q.Z)
			}
		})
	}
	p.forward, p.aft = p.stations[0].X.MM(), p.stations[len(p.stations)-1].X.MM()
	for _, line := range [][]hull.Spot{p.stem, p.transom} {
		for _, q := range line {
			p.low, p.high = min(p.low, q.Z), max(p.high, q.Z)
			p.forward, p.aft = min(p.forward, q.X), max(p.aft, q.X)
		}
	}
	p.low, p.high = heightsShown(p.low, p.high)
	p.across = max(p.across, (p.aft-p.forward)/100, 1)
	p.high = max(p.high, p.low+p.across/100)
}

// heightsShown is the heights that a sheet reaches over when its lines reach over these.
func heightsShown(low, high float64) (from, to float64) {
	if math.IsInf(low, 0) {
		return 0, 1
	}
	// Assumption: half the depth of the boat is as much empty paper as the baseline is worth.
	if low > 0 && low < (high-low)/2 {
		low = 0
	}
	return low, high
}

// place puts the stations on the sheet: the bow to the right, the names of levels left of the stern.
func (p *lengthwise) place() {
	names := draw.TextWidth("Base", p.small, false)
	for _, w := range p.waterlines {
		names = max(names, draw.TextWidth("WL "+w.shown, p.small, false))
	}
	for _, b := range p.buttocks {
		names = max(names, draw.TextWidth("B "+b.shown, p.small, false))
	}
	from, to := p.margin+names+1.2*p.small, p.width-p.margin-0.8*p.small
	length := max(p.aft-p.forward, 1)
	// No sheet so high that it does not fit a screen.
	p.units = min((to-from)/length, 0.5*p.width/max(p.high-p.low, 2*p.across))
	spare := (to - from - length*p.units) / 2
	p.left, p.right = from+spare, to-spare
	p.list.ScaleMM = 1 / p.units
}

// x is where a place so far aft stands across the sheet.
func (p *lengthwise) x(aft float64) float64 { return p.right - (aft-p.forward)*p.units }

// head names a plan and the way the boat lies, and gives the Y below.
func (p *lengthwise) head(name string, top float64) float64 {
	names := p.list.Layer("names")
	y := top + p.text
	const bow = "Bow this way \u2192"
	names.Add(draw.Text{At: draw.Point{X: p.width - p.margin, Y: y}, Anchor: draw.End, Size: p.small, String: bow})
	room := p.width - 2*p.margin - draw.TextWidth(bow, p.small, false) - p.text
	for i, l := range draw.Wrap(name, p.text, true, room, 3) {
		if i > 0 {
			y += line(p.text)
		}
		names.Add(draw.Text{At: draw.Point{X: p.margin, Y: y}, Size: p.text, Bold: true, String: l})
	}
	return y
}

// numbers puts the stations' numbers in a row, each over its station as far as they do not crowd.
func (p *lengthwise) numbers(y float64) {
	var row []label
	for _, st := range p.stations {
		row = append(row, label{text: fmt.Sprint(st.No), at: p.x(st.X.MM())})
	}
	all := len(row)
	row = thinned(row, p.small)
	if len(row) < all {
		p.notes = append(p.notes, "Stations stand too close on the sheet for every number; the table has them all.")
	}
	for _, l := range row {
		p.list.Layer("numbers").Add(draw.Text{At: draw.Point{X: l.at, Y: y}, Anchor: draw.Middle, Size: p.small, Bold: true, String: l.text})
	}
}

// uprights draws the stations between two heights on the sheet.
func (p *lengthwise) uprights(from, to float64) {
	for _, st := range p.stations {
		x := p.x(st.X.MM())
		p.list.Layer("stations").Line(draw.Pen{Width: p.fine, Colour: draw.Ink}, draw.Point{X: x, Y: from}, draw.Point{X: x, Y: to})
	}
}

// run draws one run of a line, at is its place on the sheet.
func (p *lengthwise) run(layer string, pen draw.Pen, of string, run []hull.Spot, at func(hull.Spot) draw.Point) []draw.Point {
	if len(run) < 2 {
		return nil
	}
	points := make([]draw.Point, len(run))
	for i, q := range run {
		points[i] = at(q)
	}
	points = draw.Simplified(points, tolerance)
	p.list.Layer(layer).Add(draw.Path{Points: points, Pen: pen, Of: of})
	return points
}

// linePens are those of sheer, rabbet, the curves that planes cut out, and the straight lines they are seen as from the
// side. Lines through points that make no fair curve are dashed.
func (p *lengthwise) linePens() (sheer, rabbet, curve, straight draw.Pen) {
	sheer = draw.Pen{Width: p.full * 1.5, Colour: draw.Ink}
	curve = draw.Pen{Width: p.fine * 1.8, Colour: draw.Ink}
	if !p.faired {
		sheer, curve = draw.Dashed(p.full*1.5, draw.Ink, 5), draw.Dashed(p.fine*1.8, draw.Ink, 5)
	}
	rabbet = draw.Pen{Width: p.full, Colour: draw.Accent, Dash: []float64{6, 2}}
	return sheer, rabbet, curve, draw.Pen{Width: p.fine, Colour: draw.Ink}
}
