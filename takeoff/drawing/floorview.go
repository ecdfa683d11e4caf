package drawing

import (
	"math"
	"slices"
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/hull"
)

// floorView is the floors being laid out, row by row.
type floorView struct {
	look
	Floors
	list  *draw.List
	units float64 // units to a millimetre
}

// columns of floors beside one another: as many as leave each a width to be read in.
func (v *floorView) columns() int {
	most := max(1, int((v.width-2*v.margin)/330))
	return min(most, len(v.Floors.Floors))
}

// put draws all floors and gives the Y below them.
func (v *floorView) put() float64 {
	n := v.columns()
	gap := 1.5 * v.text
	wide := (v.width - 2*v.margin - gap*float64(n-1)) / float64(n)
	widest, tallest := 1.0, 1.0
	for _, f := range v.Floors.Floors {
		a, h := f.size()
		widest, tallest = max(widest, a), max(tallest, h)
	}
	v.units = min(wide/widest, 0.6*v.width/tallest)
	v.list.ScaleMM = 1 / v.units
	y := v.margin
	for i := 0; i < len(v.Floors.Floors); i += n {
		row := v.Floors.Floors[i:min(len(v.Floors.Floors), i+n)]
		high := 0.0
		for _, f := range row {
			_, h := f.size()
			high = max(high, h*v.units)
		}
		below := y
		for j, f := range row {
			left := v.margin + float64(j)*(wide+gap)
			below = max(below, v.floor(f, left, left+wide, y, high))
		}
		y = below + 0.8*v.text
	}
	return y
}

// floor draws one below y, its rectangle standing on a common level, and gives the Y below its name.
func (v *floorView) floor(f DrawnFloor, left, right, y, high float64) float64 {
	across, height := f.size()
	corner := draw.Point{X: (left+right)/2 - across*v.units/2, Y: y + high}
	if across > 0 && f.Remedy != boat.ReplaceLaminated && f.Remedy != boat.ReplaceStrap { // which no board is cut for
		v.list.Layer("rectangles").Add(draw.Path{Points: draw.Box(corner, draw.Point{X: corner.X + across*v.units, Y: corner.Y - height*v.units}), Closed: true, Pen: draw.Dashed(v.fine, draw.Ink, 3)})
	}
	if o := f.Outline; o != nil {
		at := func(p hull.Point) draw.Point {
			return draw.Point{X: corner.X + (p.Y-o.Left)*v.units, Y: corner.Y - (p.Z-o.Low)*v.units}
		}
		v.outline(f, at)
	}
	y += high + 0.3*v.small
	words := "Floor " + strconv.Itoa(f.No) + ", " + f.word()
	if f.Outline == nil && across > 0 {
		words += ", measured by hand"
	}
	if across <= 0 {
		words += ": " + or(f.Why, "its shape is not known")
	}
	if f.Short && f.Remedy == boat.ReplaceSawn {
		words += ": short grain"
	}
	for _, l := range draw.Wrap(words, v.small, false, right-left, 3) {
		y += line(v.small)
		v.list.Layer("names").Add(draw.Text{At: draw.Point{X: (left + right) / 2, Y: y}, Anchor: draw.Middle, Size: v.small, String: l})
	}
	return y
}

// outline draws a floor that has one: edges, and how grain, laminates or strap run in it.
func (v *floorView) outline(f DrawnFloor, at func(hull.Point) draw.Point) {
	of := f.member().Path()
	place := func(in []hull.Point) []draw.Point {
		out := make([]draw.Point, len(in))
		for i, p := range in {
			out[i] = at(p)
		}
		return draw.Simplified(out, tolerance)
	}
	lower := slices.Clone(f.Outline.Lower)
	switch f.Remedy {
	case boat.ReplaceStrap:
		v.list.Layer("floors").Add(draw.Path{Points: place(lower), Pen: draw.Pen{Width: v.thick, Colour: draw.Blue}, Of: of})
		return
	case boat.ReplaceLaminated:
		var ends [][]hull.Point
		for i := range f.Laminates + 1 {
			pen := draw.Pen{Width: v.fine, Colour: draw.Ink}
			if i == 0 || i == f.Laminates {
				pen.Width = 1.5 * v.full
			} else if f.Thick*v.units < 1.5 {
				continue // closer than a pen draws
			}
			if p := f.laminate(float64(i) * f.Thick); len(p) > 1 {
				ends = append(ends, []hull.Point{p[0], p[len(p)-1]})
				v.list.Layer("floors").Add(draw.Path{Points: place(p), Pen: pen, Of: of})
			}
		}
		for i := range min(2, len(ends)) { // the arms are cut off square
			v.list.Layer("floors").Line(draw.Pen{Width: 1.5 * v.full, Colour: draw.Ink}, at(ends[0][i]), at(ends[len(ends)-1][i]))
		}
		return
	}
	round := append(lower, f.Outline.Upper...)
	if f.Remedy == boat.ReplaceSawn {
		for _, s := range grainLines(round, grainApart/v.units) {
			v.list.Layer("grain").Line(draw.Pen{Width: v.fine, Colour: draw.Rule}, at(s[0]), at(s[1]))
		}
	}
	pen := draw.Pen{Width: v.full, Colour: draw.Ink}
	if f.Remedy == boat.ReplaceSawn {
		pen.Width = 2 * v.full
	}
	v.list.Layer("floors").Add(draw.Path{Points: place(round), Closed: true, Pen: pen, Of: of})
}

// grainApart, units, is between two lines of grain.
const grainApart = 5.0

// member is the floor as the paths of a drawing name it.
func (f DrawnFloor) member() boat.Member { return boat.Member{Kind: boat.Floor, No: f.No} }

// grainLines are the stretches of level lines so far apart that lie within a closed outline, from below.
func grainLines(round []hull.Point, apart float64) [][2]hull.Point {
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range round {
		low, high = min(low, p.Z), max(high, p.Z)
	}
	var out [][2]hull.Point
	for z := low + apart/2; z < high; z += apart {
		var cuts []float64
		for i, a := range round {
			b := round[(i+1)%len(round)]
			if (a.Z < z) != (b.Z < z) {
				cuts = append(cuts, a.Y+(b.Y-a.Y)*(z-a.Z)/(b.Z-a.Z))
			}
		}
		slices.Sort(cuts)
		for i := 0; i+1 < len(cuts); i += 2 {
			out = append(out, [2]hull.Point{{Y: cuts[i], Z: z}, {Y: cuts[i+1], Z: z}})
		}
	}
	return out
}

func (v *floorView) key() []keyLine {
	out := []keyLine{explained(draw.Dashed(v.fine, draw.Ink, 3), "smallest level rectangle round the floor")}
	has := func(r ...boat.Remedy) bool {
		return slices.ContainsFunc(v.Floors.Floors, func(f DrawnFloor) bool { return slices.Contains(r, f.Remedy) && f.Outline != nil })
	}
	if has(boat.ReplaceSawn) {
		out = append(out, explained(draw.Pen{Width: 2 * v.full, Colour: draw.Ink}, "sawn; fine level lines are its grain"))
	}
	if has(boat.ReplaceLaminated) {
		out = append(out, explained(draw.Pen{Width: 1.5 * v.full, Colour: draw.Ink}, "laminated; fine lines are its glue lines"))
	}
	if has(boat.ReplaceStrap) {
		out = append(out, explained(draw.Pen{Width: v.thick, Colour: draw.Blue}, "strap"))
	}
	if has(boat.Leave, "") {
		out = append(out, explained(draw.Pen{Width: v.full, Colour: draw.Ink}, "left, or as measured"))
	}
	return out
}

func (v *floorView) remarks() []string {
	out := []string{"All to one scale, port to the left. Each is drawn at its moulding face; the bevel asks for more, which the sizes of boards hold."}
	if slices.ContainsFunc(v.Floors.Floors, func(f DrawnFloor) bool { return f.Outline == nil }) {
		out = append(out, "Of floors without sections only the rectangle is known, or nothing.")
	}
	return out
}
