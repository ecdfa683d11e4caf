package drawing

import (
	"math"
	"slices"
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/hull"
)

// view is the plan of frames being laid out.
type view struct {
	look
	list     *draw.List
	ribs     []rib
	measured bool
	// sheer and rabbet of each side from forward: x aft in Z, half-breadth in Y.
	sheer, rabbet map[boat.Side][]hull.Point
	forward, aft  float64 // mm, how far the sheet reaches
	across        float64 // mm, the greatest half-breadth
	right, axis   float64 // X of the forward end, Y of the centreline
	units         float64 // units to a millimetre
	// letterRows and numberRows are how many rows of each stand beyond the boat.
	letterRows, numberRows int
	notes                  []string
}

// planPoints are taken along the sheer, both ends counted.
const planPoints = 97

// outline gathers sheer and rabbet and how far all reaches. A boat without lines gets a straight edge.
func (v *view) outline(h *hull.Hull) {
	v.sheer, v.rabbet = map[boat.Side][]hull.Point{}, map[boat.Side][]hull.Point{}
	v.forward, v.aft = v.ribs[0].x, v.ribs[len(v.ribs)-1].x
	if h == nil {
		length := max(v.aft-v.forward, 1000)
		v.across = length / 7
		v.forward, v.aft = v.forward-length/40, v.aft+length/40
		for i := range v.ribs {
			v.ribs[i].outer = v.across
		}
		return
	}
	v.forward, v.aft = h.Reach()
	for _, side := range boat.Sides {
		for i := range planPoints {
			x := v.forward + (v.aft-v.forward)*float64(i)/(planPoints-1)
			c, err := h.Section(x, side)
			if err != nil {
				continue
			}
			low, high := c.At(0), c.At(1)
			v.rabbet[side] = append(v.rabbet[side], hull.Point{Y: low.Y, Z: x})
			v.sheer[side] = append(v.sheer[side], hull.Point{Y: high.Y, Z: x})
			v.across = max(v.across, high.Y)
		}
	}
	for _, r := range v.ribs {
		v.across = max(v.across, r.outer)
	}
	v.across = max(v.across, (v.aft-v.forward)/100, 1)
}

// at is a place x aft and y outboard on a side.
func (v *view) at(side boat.Side, x, y float64) draw.Point {
	if side == boat.Port {
		y = -y
	}
	return draw.Point{X: v.right - (x-v.forward)*v.units, Y: v.axis + y*v.units}
}

// put draws the plan and gives the Y below it.
func (v *view) put() float64 {
	inset := v.margin + v.small
	v.right = v.width - inset
	length := max(v.aft-v.forward, 1)
	v.units = min((v.width-2*inset)/length, 0.6*v.width/(2*v.across))
	v.right -= ((v.width - 2*inset) - length*v.units) / 2
	if v.measured {
		v.list.ScaleMM = 1 / v.units
	}
	v.measureStrips()
	v.axis = v.margin + line(v.text) + v.strip() + v.across*v.units
	v.edges()
	for _, r := range v.ribs {
		if r.drawn {
			v.rib(r)
		}
	}
	for _, side := range boat.Sides {
		v.letters(side)
		v.numbers(side)
	}
	top := v.margin + v.text
	bottom := 2*v.axis - v.margin - line(v.text) + v.text
	names := v.list.Layer("names")
	left, right := v.margin, v.width-v.margin
	for _, n := range []draw.Text{
		{At: draw.Point{X: left, Y: top}, Size: v.text, Bold: true, String: "Port"},
		{At: draw.Point{X: left, Y: bottom}, Size: v.text, Bold: true, String: "Starboard"},
		{At: draw.Point{X: right, Y: top}, Size: v.small, Anchor: draw.End, String: "Bow this way \u2192"},
	} {
		names.Add(n)
	}
	return bottom
}

// measureStrips finds how many rows of letters and numbers are needed beside the boat.
func (v *view) measureStrips() {
	v.letterRows, v.numberRows = 1, 1
	for _, side := range boat.Sides {
		all := v.drawnOn(side)
		texts, _ := v.beside(all)
		for _, t := range texts {
			if !slices.ContainsFunc(all, func(r rib) bool { return v.letterAt(r, 0).At == t.At }) {
				v.letterRows = 2
			}
		}
		if labels := v.numbersOf(side); !apart(labels, v.small) {
			odd, even := alternate(labels)
			if apart(odd, v.small) && apart(even, v.small) {
				v.numberRows = 2
			}
		}
	}
}

// strip is the depth of letters and numbers beyond the greatest half-breadth.
func (v *view) strip() float64 {
	return v.numbersOut() + float64(v.numberRows-1)*line(v.small) + 1.5*v.small
}

// numbersOut is where the first row of numbers begins, counted from the greatest half-breadth.
func (v *view) numbersOut() float64 { return (0.9 + 1.15*float64(v.letterRows)) * v.small }

// edges draws sheer, rabbet, the ends of what was measured, and the centreline.
func (v *view) edges() {
	full := draw.Pen{Width: v.full, Colour: draw.Ink}
	fine := draw.Pen{Width: v.fine, Colour: draw.Ink}
	for _, side := range boat.Sides {
		v.curve("sheer", full, side, v.sheer[side])
		v.curve("rabbet", fine, side, v.rabbet[side])
		for _, e := range []float64{v.forward, v.aft} {
			if s := v.sheer[side]; len(s) > 0 {
				y := s[0].Y
				if e == v.aft {
					y = s[len(s)-1].Y
				}
				v.list.Layer("ends").Line(fine, v.at(side, e, 0), v.at(side, e, y))
			}
		}
		if !v.measured {
			v.list.Layer("sheer").Line(draw.Dashed(v.fine, draw.Ink, 3), v.at(side, v.forward, v.across), v.at(side, v.aft, v.across))
		}
	}
	over := v.small / v.units
	v.list.Layer("centreline").Line(draw.ChainDotted(0.8, draw.Ink), v.at(boat.Port, v.aft+over, 0), v.at(boat.Port, v.forward-over, 0))
}

func (v *view) curve(layer string, pen draw.Pen, side boat.Side, line []hull.Point) {
	if len(line) < 2 {
		return
	}
	points := make([]draw.Point, len(line))
	for i, q := range line {
		points[i] = v.at(side, q.Z, q.Y)
	}
	v.list.Layer(layer).Add(draw.Path{Points: draw.Simplified(points, tolerance), Pen: pen, Of: layer + "/" + string(side)})
}

func (v *view) rib(r rib) {
	v.list.Layer("frames").Add(r.treatment.strokes(v.look, r.Member().Path(),
		v.at(r.Side, r.x, r.inner), v.at(r.Side, r.x, r.outer), v.at(r.Side, r.x, r.from), v.at(r.Side, r.x, r.to))...)
}

// outward is -1 to port, which is up the sheet, and 1 to starboard.
func outward(side boat.Side) float64 {
	if side == boat.Port {
		return -1
	}
	return 1
}

// drawnOn is the drawn frames of one side from forward.
func (v *view) drawnOn(side boat.Side) []rib {
	var out []rib
	for _, r := range v.ribs {
		if r.drawn && r.Side == side {
			out = append(out, r)
		}
	}
	return out
}

// letterAt is the text beside a frame's outer end, out by so many rows.
func (v *view) letterAt(r rib, row int) draw.Text {
	p := v.at(r.Side, r.x, r.outer)
	p.Y += outward(r.Side) * (0.8 + 1.15*float64(row)) * v.small
	if r.Side == boat.Port {
		p.Y -= 0.1 * v.small
	} else {
		p.Y += draw.Ascent*v.small - 0.35*v.small
	}
	return draw.Text{At: p, Anchor: draw.Middle, Size: v.small, Bold: true, Halo: true, String: r.treatment.letter(), Of: r.Member().Path()}
}

// letters puts each frame's letter beside its outer end, in a second row where the frames stand close; where they
// stand too close for that, one letter for each run of frames alike.
func (v *view) letters(side boat.Side) {
	all := v.drawnOn(side)
	if texts, ok := v.beside(all); ok {
		v.addTexts(texts)
		return
	}
	var runs []rib
	for i := 0; i < len(all); {
		j := i
		for j < len(all) && all[j].treatment == all[i].treatment {
			j++
		}
		runs = append(runs, all[(i+j-1)/2])
		i = j
	}
	texts, ok := v.beside(runs)
	v.addTexts(texts)
	note := "Frames stand close: one letter stands for each run of frames alike."
	if !ok {
		note = "Frames stand too close on the sheet for every letter; the table has them all."
	}
	v.notes = once(append(v.notes, note))
}

// beside is a letter for each frame, and whether all found room. Those that found none are left out.
func (v *view) beside(ribs []rib) ([]draw.Text, bool) {
	var out []draw.Text
	all := true
	for _, r := range ribs {
		placed := false
		for row := 0; row < 2 && !placed; row++ {
			t := v.letterAt(r, row)
			if placed = clear(t, out); placed {
				out = append(out, t)
			}
		}
		all = all && placed
	}
	return out, all
}

// clear reports whether a text overlaps none of the others. Only the latest can stand in its way, since frames come
// in order.
func clear(t draw.Text, others []draw.Text) bool {
	e := t.Extent()
	for i := len(others) - 1; i >= 0 && i >= len(others)-8; i-- {
		if e.Overlaps(others[i].Extent()) {
			return false
		}
	}
	return true
}

func (v *view) addTexts(texts []draw.Text) {
	for _, t := range texts {
		v.list.Layer("letters").Add(t)
	}
}

// numbers puts the frames' numbers in a row beyond the letters, in two rows where they stand close, every second,
// third or fifth where they stand closer, and leads to each frame.
func (v *view) numbers(side boat.Side) {
	labels := v.numbersOf(side)
	odd, even := alternate(labels)
	switch {
	case apart(labels, v.small):
		v.row(side, labels, 0)
	case apart(odd, v.small) && apart(even, v.small):
		v.row(side, odd, 0)
		v.row(side, even, 1)
	default:
		v.row(side, thinned(labels, v.small), 0)
		v.notes = once(append(v.notes, "Frames stand too close on the sheet for every number; the table has them all."))
	}
}

// numbersOf is the number of every drawn frame of a side, at its place.
func (v *view) numbersOf(side boat.Side) []label {
	var out []label
	for _, r := range v.drawnOn(side) {
		p := v.at(side, r.x, r.outer)
		out = append(out, label{text: strconv.Itoa(r.No), at: p.X, from: p.Y, of: r.Member().Path()})
	}
	return out
}

// alternate is every second label from the first, and the others.
func alternate(labels []label) (odd, even []label) {
	for i, l := range labels {
		if i%2 == 0 {
			odd = append(odd, l)
		} else {
			even = append(even, l)
		}
	}
	return odd, even
}

// row writes numbers in the nth row out from the boat.
func (v *view) row(side boat.Side, labels []label, n int) {
	out := outward(side)
	edge := v.axis + out*(v.across*v.units+v.numbersOut()+float64(n)*line(v.small))
	base := edge
	if side == boat.Starboard {
		base += 0.7 * v.small
	}
	for _, l := range labels {
		from := l.from + out*2
		to := edge - out*0.25*v.small
		if math.Abs(to-v.axis) > math.Abs(from-v.axis) {
			v.list.Layer("leaders").Line(draw.Pen{Width: 0.5, Colour: draw.Rule}, draw.Point{X: l.at, Y: from}, draw.Point{X: l.at, Y: to})
		}
		v.list.Layer("numbers").Add(draw.Text{At: draw.Point{X: l.at, Y: base}, Anchor: draw.Middle, Size: v.small, String: l.text, Halo: true, Of: l.of})
	}
}
