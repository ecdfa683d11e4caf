package drawing

import (
	"math"

	"ribband/takeoff/draw"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/offsets"
)

// Lines is what the lines along a boat are drawn from.
type Lines struct {
	Sheet Sheet
	// Offsets as measured; nil before there are any.
	Offsets *offsets.Table
	// Hull is the fair curves through them; nil where the points do not make any, and then the points are joined by
	// straight dashed lines.
	Hull *hull.Hull
}

// linesView is one way to look at lines along a boat.
type linesView struct {
	name   string
	remark string // what its figures are to
	// put draws it and gives the Y below; key and describe explain it, by these and rows.
	put      func(*lengthwise) float64
	key      func(*lengthwise) []keyLine
	describe func(*lengthwise) string
	rows     rowsOf
}

// draw is the view of the lines, with its foot and its table.
func (l Lines) draw(v linesView) Drawing {
	k := l.Sheet.look()
	list := &draw.List{Width: k.width, Title: v.name + " of " + or(l.Sheet.Boat, "the boat")}
	f := foot{subject: v.name + ", bow to the right"}
	if l.Offsets == nil || len(l.Offsets.Stations) == 0 {
		return empty(list, l.Sheet, k, f, "No table of offsets has been entered yet; there is nothing to draw.")
	}
	p := along(k, list, l.Offsets, l.Hull)
	p.place()
	f.notation, f.units = l.Offsets.Notation, unitsLine(l.Offsets.Notation)
	y := v.put(p)
	p.notes = append(p.notes, p.remarks(v.remark)...)
	f.notes, f.key = once(p.notes), v.key(p)
	list.Desc = v.describe(p)
	list.Height = math.Ceil(f.put(list, l.Sheet, k, y+line(k.text)))
	return Drawing{list, p.table(l.Offsets.Notation, v.rows)}
}
