package takeoff

import (
	"fmt"
	"math"

	"ribband/takeoff/bill"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/quantity"
)

// offLines is the greatest distance of a pattern from the lines, along its girth, and which of its points lies farthest off
// them, counted from 1 at the heel, and by how much, mm outboard of the point.
type offLines struct {
	most     frame.Offset
	point    int
	pointOff float64
}

// offLinesOf lays the lines over a pattern and over its points.
func offLinesOf(found, lines *hull.Section, points []hull.Point) offLines {
	out := offLines{most: differenceOf(found, lines).Greatest}
	line := lines.Line(laid + 1)
	for i, p := range points {
		if off := outboard(line, p); out.point == 0 || quantity.Snap(math.Abs(off)) > quantity.Snap(math.Abs(out.pointOff)) {
			out.point, out.pointOff = i+1, off
		}
	}
	return out
}

// missing are the warnings of patterns that miss the lines by more than the yard lets pass, each with the point that is the
// first to look at.
func (b Basis) missing(stands []stand) []bill.Warning {
	var out []bill.Warning
	for _, s := range stands {
		off, m := s.offLines, s.frame.Member()
		if !b.beyond(off.most) {
			continue
		}
		out = append(out, bill.Warning{Code: "pattern_off_lines", Member: &m,
			Detail: fmt.Sprintf("Frame %d %s: its pattern misses the lines by up to %.0f mm: the lines lie %s of it, %.0f mm along the girth from the heel. Of its points number %d from the heel is the farthest off, by %.0f mm.",
				m.No, m.Side, math.Abs(off.most.OutboardMM), way(off.most), off.most.AtMM, off.point, math.Abs(off.pointOff)),
			Fix: "Check this point, the pattern's others and the frame's place against the boat. Where the boat has moved, choose the shape that the frame is to have."})
	}
	return out
}
