package area

import "ribband/takeoff/hull"

const (
	// looks is how many stretches of the girth are looked at for where the section passes a height.
	looks = 48
	// maxSpans is how many stretches of one girth may lie between two heights; a section that waves more is none.
	maxSpans = 8
	// onLevel is how near to a height, mm, an end of the girth counts as lying at it: far below any grain, and above
	// what is lost in reckoning, so that a sheer drawn level is not cut a thousand times.
	onLevel = 1e-7
)

// clip finds the stretches of the girth at x that lie within the window, into d.spans. The shape of what it finds, how
// many and which ends they reach, comes back as one number: where that changes along the boat the integral is split.
func (d *Side) clip(x float64, w Window) (shape int) {
	d.spans = d.spans[:0]
	if w.unbounded() {
		if w.Rabbet < w.Sheer {
			d.spans = append(d.spans, span{w.Rabbet, w.Sheer})
		}
		return 0
	}
	d.look(x)
	for i := range looks {
		d.piece(x, i, w)
	}
	for i, s := range d.spans {
		if shape += 4; i == 0 && s.from == w.Rabbet {
			shape++
		}
		if i == len(d.spans)-1 && s.to == w.Sheer {
			shape += 2
		}
	}
	return shape
}

// piece adds what of the stretch from look i to the next lies within the window, which is taken to pass each height no
// more than once there.
func (d *Side) piece(x float64, i int, w Window) {
	za, zb := d.heights[i], d.heights[i+1]
	var from, to float64
	if za < zb {
		from, to = d.bounds(x, i, za, zb, w.Low, w.High)
	} else {
		to, from = d.bounds(x, i, zb, za, w.Low, w.High)
	}
	from, to = max(from, w.Rabbet), min(to, w.Sheer)
	if !(from < to) {
		return
	}
	if n := len(d.spans); n > 0 && d.spans[n-1].to == from {
		d.spans[n-1].to = to
		return
	}
	if len(d.spans) < maxSpans {
		d.spans = append(d.spans, span{from, to})
	}
}

// bounds are the fractions, within look i, at which the section enters the heights from low to high and leaves them, as z
// grows from zl to zh.
func (d *Side) bounds(x float64, i int, zl, zh, low, high float64) (lower, upper float64) {
	a, b := d.grid[i], d.grid[i+1]
	atLow, atHigh := a, b
	if zl == zh || d.heights[i] > d.heights[i+1] {
		atLow, atHigh = b, a
	}
	if zh <= low+onLevel || zl >= high-onLevel {
		return atLow, atLow // nothing
	}
	lower, upper = atLow, atHigh
	if zl < low-onLevel {
		lower = d.pass(x, i, low)
	}
	if zh > high+onLevel {
		upper = d.pass(x, i, high)
	}
	return lower, upper
}

// pass is where within look i the section passes the height z: Newton's method, held between the ends.
func (d *Side) pass(x float64, i int, z float64) float64 {
	below, above := d.grid[i], d.grid[i+1]
	za, zb := d.heights[i], d.heights[i+1]
	if za > zb {
		below, above = above, below
	}
	u := d.grid[i] + (z-za)/(zb-za)*(d.grid[i+1]-d.grid[i])
	for range 60 {
		j := d.at(u, x)
		if miss := z - j.Z; miss > onLevel/100 {
			below = u
		} else if miss < -onLevel/100 {
			above = u
		} else {
			return u
		}
		u = step(u, below, above, z, j)
	}
	return u
}

// step is Newton's next u, or the middle where that leads out of what is left.
func step(u, below, above, z float64, j hull.Jet) float64 {
	next := u + (z-j.Z)/j.Zu
	if lo, hi := min(below, above), max(below, above); next > lo && next < hi {
		return next
	}
	return (below + above) / 2
}
