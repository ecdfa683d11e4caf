package strake

import (
	"math"

	"ribband/takeoff/hull"
)

func (s *Shape) measure() {
	n := len(s.Lower)
	ring := make([]hull.Point, 0, 2*n)
	ring = append(ring, s.Lower...)
	for i := n - 1; i >= 0; i-- {
		ring = append(ring, s.Upper[i])
	}
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		s.Area += (p.Y*q.Z - q.Y*p.Z) / 2
	}
	s.RoundLow, s.RoundUp = round(s.Lower), round(s.Upper)
	s.BoardLength, s.BoardWidth = enclose(ring)
	if r := s.BoardLength * s.BoardWidth; r > 0 {
		s.Spiling = max(0, (r-s.Area)/r)
	}
}

func round(edge []hull.Point) (far float64) {
	p, q := edge[0], edge[len(edge)-1]
	dy, dz := q.Y-p.Y, q.Z-p.Z
	c := math.Hypot(dy, dz)
	if c == 0 {
		return 0
	}
	for _, r := range edge {
		far = max(far, math.Abs(dy*(r.Z-p.Z)-dz*(r.Y-p.Y))/c)
	}
	return far
}

// enclose tries every pair of points as a side's direction: the smallest rectangle lies along an edge of the convex
// outline, and each such edge joins two of the points. Only pairs with all others on one side count.
func enclose(ps []hull.Point) (length, width float64) {
	least := math.Inf(1)
	for i, p := range ps {
		for _, q := range ps[i+1:] {
			dy, dz := q.Y-p.Y, q.Z-p.Z
			c := math.Hypot(dy, dz)
			if c == 0 {
				continue
			}
			dy, dz = dy/c, dz/c
			l, w, ok := spans(ps, p, dy, dz)
			if ok && l*w < least {
				least, length, width = l*w, max(l, w), min(l, w)
			}
		}
	}
	return length, width
}

func spans(ps []hull.Point, p hull.Point, dy, dz float64) (l, w float64, ok bool) {
	var l0, l1, w0, w1 float64
	for _, r := range ps {
		ry, rz := r.Y-p.Y, r.Z-p.Z
		s, t := ry*dy+rz*dz, rz*dy-ry*dz
		l0, l1, w0, w1 = min(l0, s), max(l1, s), min(w0, t), max(w1, t)
		if eps := 1e-7 * (l1 - l0 + 1); w0 < -eps && w1 > eps {
			return 0, 0, false
		}
	}
	return l1 - l0, w1 - w0, true
}
