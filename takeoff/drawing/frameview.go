package drawing

import (
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
			v.ribs[i].outer.Y = v.across
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
		v.across = max(v.across, r.outer.Y)
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

// seen is a place as half-breadth and x.
func (v *view) seen(side boat.Side, p hull.Point) draw.Point { return v.at(side, p.Z, p.Y) }

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
	var pieces []strokePiece
	for _, p := range r.pieces {
		pieces = append(pieces, strokePiece{v.seen(r.Side, p.from), v.seen(r.Side, p.low), v.seen(r.Side, p.high), v.seen(r.Side, p.to)})
	}
	v.list.Layer("frames").Add(r.treatment.strokes(v.look, r.Member().Path(), v.seen(r.Side, r.inner), v.seen(r.Side, r.outer), pieces)...)
}
