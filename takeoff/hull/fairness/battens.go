package fairness

import (
	"cmp"
	"math"
	"slices"

	"ribband/takeoff/hull/fair"
	"ribband/takeoff/hull/offsets"
)

const (
	// letGo is by how many times its error a mark that is set aside counts with: its pull is a ten-thousandth.
	letGo = 100
	// leastShare of a cell's axis must lie along a batten's normal: where the two run side by side the batten says
	// nothing of the figure. Down to here what it says is as sure as it says, a share of it being a greater part of the
	// figure: a waterline beside the rabbet of a hollow section is told of by its station too, and not by its line alone.
	leastShare = 0.3
	// farOff is how many times its own error a point is off to be judged once more, whatever the batten says of it.
	farOff = 12
)

// across judges the cells of one station by its fair curve, from knuckle to knuckle where it has corners. Where no curve
// follows the marks, or they are too few, the verdicts stay as they were.
func (j *judge) across(cells []*cell, marks []offsets.Mark) {
	pts, loose := make([]fair.Point, len(marks)), make([]float64, len(marks))
	for i, m := range marks {
		pts[i] = fair.Point{Y: m.Y.MM(), Z: m.Z.MM(), Kind: m.Kind, DY: m.DY, DZ: m.DZ}
		loose[i] = 1
	}
	for _, c := range cells {
		p := &pts[c.mark]
		switch c.axis {
		case breadth:
			p.Y = c.value
		case height:
			p.Z = c.value
		case diagonal:
			by := c.value - c.written.MM()
			p.Y, p.Z = p.Y+by*p.DY, p.Z+by*p.DZ
		}
		if c.aside {
			loose[c.mark] = letGo
		}
	}
	from := 0
	for to, m := range marks {
		if m.Knuckle == "" && to < len(marks)-1 {
			continue
		}
		if left, seen, err := j.leave(pts[from:to+1], loose[from:to+1]); err == nil {
			for _, c := range cells {
				if from <= c.mark && c.mark <= to {
					j.acrossOf(c, marks[c.mark], left[c.mark-from], seen[c.mark-from], c.mark == from || c.mark == to)
				}
			}
		}
		from = to
	}
}

// acrossOf is the verdict on one cell by what is left of its mark.
func (j *judge) acrossOf(c *cell, m offsets.Mark, l fair.Left, seen fair.Point, end bool) {
	if end {
		c.outer, l.Sure = true, l.Sure*stretched
	} else {
		l.Sure *= j.lessSureAcross(c)
	}
	share, value := -l.TZ, seen.Y // share is what one mm more of the figure adds to the miss
	switch c.axis {
	case height:
		share, value = l.TY, seen.Z
	case diagonal:
		share, value = l.TY*m.DZ-l.TZ*m.DY, c.written.MM()+(seen.Y-m.Y.MM())/m.DY
	}
	c.now.across, c.now.acrossSure = c.off(l, value, share)
}

// leave holds every point against the others, and tells where each lay when it was judged. Points far off bend
// the curve that tells how much the gap hides which they leave; so each is judged once more, let go and laid between its
// neighbours.
func (j *judge) leave(pts []fair.Point, loose []float64) ([]fair.Left, []fair.Point, error) {
	_, left, err := j.work.LeaveOneOut(pts, loose, j.grain*j.worse)
	if err != nil {
		return nil, nil, err
	}
	seen := pts
	for _, far := range suspects(left, loose) {
		moved, loose := slices.Clone(pts), slices.Clone(loose)
		moved[far] = laid(pts[far-1], pts[far], pts[far+1])
		loose[far] = letGo
		_, again, err := j.work.LeaveOneOut(moved, loose, j.grain*j.worse)
		if err != nil {
			continue
		}
		if &seen[0] == &pts[0] {
			seen = slices.Clone(pts)
		}
		seen[far], left[far] = moved[far], again[far]
	}
	return left, seen, nil
}

// mostSuspects is how many points of a batten are judged once more.
const mostSuspects = 3

// suspects are the inner points farthest off but for what the gaps may hide, worst first.
func suspects(left []fair.Left, loose []float64) []int {
	times := func(i int) float64 {
		l := left[i]
		return math.Abs(l.Miss) / math.Hypot(math.Sqrt(max(0, l.Sure*l.Sure-l.Hidden*l.Hidden)), l.Own)
	}
	var out []int
	for i := 1; i+1 < len(left); i++ {
		if l := left[i]; loose[i] == 1 && !math.IsInf(l.Sure, 1) && (times(i) > Threshold || math.Abs(l.Miss) > farOff*l.Own) {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(times(b), times(a)) })
	return out[:min(mostSuspects, len(out))]
}

// laid is p moved as it was measured to the straight line from a to b, or halfway where the line does not pass it.
func laid(a, p, b fair.Point) fair.Point {
	part := func(a, p, b float64) float64 {
		if t := (p - a) / (b - a); t >= 0 && t <= 1 {
			return t
		}
		return 0.5
	}
	switch p.Kind {
	case fair.AtHeight:
		p.Y = a.Y + (b.Y-a.Y)*part(a.Z, p.Z, b.Z)
	case fair.AtWidth:
		p.Z = a.Z + (b.Z-a.Z)*part(a.Y, p.Y, b.Y)
	case fair.Along:
		by := ((a.Y+b.Y)/2-p.Y)*p.DY + ((a.Z+b.Z)/2-p.Z)*p.DZ
		p.Y, p.Z = p.Y+by*p.DY, p.Z+by*p.DZ
	}
	return p
}

// off is how far a cell as written lies off by what is left where its value counted as seen, and how sure that is.
func (c *cell) off(l fair.Left, seen, share float64) (off, sure float64) {
	if !(math.Abs(share) >= leastShare) || math.IsInf(l.Sure, 1) || math.IsNaN(l.Miss) {
		return math.NaN(), math.NaN()
	}
	return c.written.MM() - seen + l.Miss/share, l.Sure / math.Abs(share)
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
	left, seen, err := j.leave(pts, loose)
	if err != nil {
		return
	}
	for i, c := range l.cells {
		c.outermost = i == 0 || i == len(l.cells)-1
		left[i].Sure *= l.lessSure(i)
		c.now.along, c.now.alongSure = c.off(left[i], seen[i].Z, left[i].TY)
		j.slope[c] = left[i].TZ / left[i].TY
	}
}

// contradiction is how many standard deviations the two battens may differ by before one of them counts as misled.
const contradiction = 4

// alone is by how many times farther off an offset must be where only one batten tells of it. Stations at the ends of a
// narrow boat turn sharply beside the rabbet, where few marks show it.
const alone = 1.5

// together puts the two verdicts of a cell into one.
func (c *cell) together(own float64) {
	v := &c.now
	v.judged = true
	a, b := !math.IsNaN(v.across), !math.IsNaN(v.along)
	if a && b && c.outer != c.outermost { // a place that one of them is asked beyond its points is left to the other
		a, b = !c.outer, !c.outermost
	}
	times := func(off, sure float64) float64 { return math.Abs(off) / math.Hypot(sure, own) }
	switch {
	case a && b && (v.across*v.along < 0 || math.Abs(v.across-v.along) > contradiction*math.Sqrt(v.acrossSure*v.acrossSure+v.alongSure*v.alongSure)):
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
	if !a || !b || c.outer {
		v.times /= alone
	}
}
