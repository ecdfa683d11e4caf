package fair

import "math"

// Peak is the greatest curvature of one sign and where it lies.
type Peak struct {
	Kappa float64 // 1/mm, never negative; 0 where the curve nowhere bends that way
	S     float64 // mm along the curve from the first foot
}

// straight is the curvature, in units of one over the girth, below which a
// section is straight: its round over the whole girth is then less than the
// error that even exact points are given (k L^2/8 < 1e-5 L).
const straight = 8 * exactError

// extremes are the greatest and the least curvature between a and b, given at
// the knots. It is linear on the cells, so they lie at knots or at a and b.
func extremes(k *[knots]float64, a, b float64) (most, mostAt, least, leastAt float64) {
	most, least = math.Inf(-1), math.Inf(1)
	see := func(v, s float64) {
		if v > most {
			most, mostAt = v, s
		}
		if v < least {
			least, leastAt = v, s
		}
	}
	first, d := locate(a)
	see(k[first]+(k[first+1]-k[first])*d/cell, a)
	last, e := locate(b)
	for j := first + 1; j <= last; j++ {
		see(k[j], from+float64(j)*cell)
	}
	see(k[last]+(k[last+1]-k[last])*e/cell, b)
	return most, mostAt, least, leastAt
}

// greatest is the greatest curvature of either sign between a and b.
func (l *line) greatest(a, b float64) float64 {
	most, _, least, _ := extremes(&l.k, a, b)
	return max(most, -least)
}

// Peaks are the tightest bend with its centre inboard (the bilge) and the
// tightest with its centre outboard (the hollow) between the end feet.
func (c *Curve) Peaks() (bilge, hollow Peak) {
	most, mostAt, least, leastAt := extremes(&c.line.k, c.first, c.last)
	if most > 0 {
		bilge = Peak{most / c.length, c.along(mostAt)}
	}
	if least < 0 {
		hollow = Peak{-least / c.length, c.along(leastAt)}
	}
	return bilge, hollow
}

// along turns a length of the line into mm from the first foot.
func (c *Curve) along(s float64) float64 {
	return max(0, min(c.Girth(), (s-c.first)*c.length))
}

// Least is the least radius of curvature, mm, and where it lies along the
// curve from the first foot, whichever way the curve bends there. It is +Inf
// at 0 for a straight section.
func (c *Curve) Least() (radius, s float64) {
	if c.Straight() {
		return math.Inf(1), 0
	}
	bilge, hollow := c.Peaks()
	if hollow.Kappa > bilge.Kappa {
		bilge = hollow
	}
	return 1 / bilge.Kappa, bilge.S
}

// Straight says that the section is straight as far as points can tell: its
// least radius is more than 12500 times its girth.
func (c *Curve) Straight() bool {
	return c.line.greatest(c.first, c.last) < straight
}
