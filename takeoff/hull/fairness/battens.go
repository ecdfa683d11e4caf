package fairness

import (
	"math"

	"ribband/takeoff/hull"
	"ribband/takeoff/hull/fair"
)

const (
	// letGo is by how many times its error a mark that is set aside counts with: its pull is a ten-thousandth.
	letGo = 100
	// leastShare of a cell's axis must lie along a batten's normal: where the two run side by side the batten says
	// nothing of the figure.
	leastShare = 0.3
)

// across judges the cells of one station by its fair curve. Where no curve follows the marks the verdicts stay as they
// were.
func (j *judge) across(cells []*cell, marks []hull.Mark) {
	pts, loose := make([]fair.Point, len(marks)), make([]float64, len(marks))
	for i, m := range marks {
		pts[i] = fair.Point{Y: m.Y.MM(), Z: m.Z.MM(), Kind: m.Kind}
		loose[i] = 1
	}
	for _, c := range cells {
		if c.axis == breadth {
			pts[c.mark].Y = c.value
		} else {
			pts[c.mark].Z = c.value
		}
		if c.aside {
			loose[c.mark] = letGo
		}
	}
	_, left, err := j.work.LeaveOneOut(pts, loose, j.grain*j.worse)
	if err != nil {
		return
	}
	for _, c := range cells {
		l := left[c.mark]
		share := -l.TZ // what one mm more of the figure adds to the miss
		if c.axis == height {
			share = l.TY
		}
		c.now.across, c.now.acrossSure = c.off(l, share)
	}
}

// off is how far a cell as written lies off by what is left, and how sure that is.
func (c *cell) off(l fair.Left, share float64) (off, sure float64) {
	if !(math.Abs(share) >= leastShare) || math.IsInf(l.Sure, 1) || math.IsNaN(l.Miss) {
		return math.NaN(), math.NaN()
	}
	return c.written.MM() - c.value + l.Miss/share, l.Sure / math.Abs(share)
}

// along judges the cells of one line by the fair line along the boat, and notes how it slopes.
func (j *judge) along(l *line) {
	pts, loose := make([]fair.Point, len(l.cells)), make([]float64, len(l.cells))
	for i, c := range l.cells {
		pts[i] = fair.Point{Y: j.x[c.station], Z: c.value, Kind: fair.AtWidth}
		loose[i] = 1
		if c.aside {
			loose[i] = letGo
		}
	}
	_, left, err := j.work.LeaveOneOut(pts, loose, j.grain*j.worse)
	if err != nil {
		return
	}
	for i, c := range l.cells {
		c.now.along, c.now.alongSure = c.off(left[i], left[i].TY)
		j.slope[c] = left[i].TZ / left[i].TY
	}
}

// contradiction is how many standard deviations the two battens may differ by before one of them counts as misled.
const contradiction = 4

// together puts the two verdicts of a cell into one.
func (c *cell) together(own float64) {
	v := &c.now
	v.judged = true
	a, b := !math.IsNaN(v.across), !math.IsNaN(v.along)
	times := func(off, sure float64) float64 { return math.Abs(off) / math.Hypot(sure, own) }
	switch {
	case a && b && math.Abs(v.across-v.along) > contradiction*math.Sqrt(v.acrossSure*v.acrossSure+v.alongSure*v.alongSure):
		if times(v.across, v.acrossSure) < times(v.along, v.alongSure) {
			v.off, v.sure = v.across, v.acrossSure
		} else {
			v.off, v.sure = v.along, v.alongSure
		}
	case a && b:
		wa, wb := 1/(v.acrossSure*v.acrossSure), 1/(v.alongSure*v.alongSure)
		v.off, v.sure = (wa*v.across+wb*v.along)/(wa+wb), 1/math.Sqrt(wa+wb)
	case a:
		v.off, v.sure = v.across, v.acrossSure
	case b:
		v.off, v.sure = v.along, v.alongSure
	default:
		v.judged = false
		return
	}
	v.times = times(v.off, v.sure)
}
