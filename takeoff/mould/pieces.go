package mould

import (
	"math"

	"ribband/takeoff/hull"
)

// How a curve is broken: into so many pieces at least, each halved until it keeps to the curve at its quarters by
// three fifths of Sagitta, which leaves room for the curve to stand off farther between them, and at most so often.
const (
	leastPieces = 16
	mostHalved  = 10
	atQuarters  = 0.6 * Sagitta
)

// pieces is a curve over 0 to 1 in straight pieces, both ends counted; every point lies on the curve.
func pieces(at func(float64) hull.Point) []hull.Point {
	out := []hull.Point{at(0)}
	var halve func(from, to float64, a, b hull.Point, left int)
	halve = func(from, to float64, a, b hull.Point, left int) {
		near := true
		for _, w := range [3]float64{0.25, 0.5, 0.75} {
			near = near && off(at(from+w*(to-from)), a, b) <= atQuarters
		}
		if near || left == 0 {
			out = append(out, b)
			return
		}
		middle := (from + to) / 2
		c := at(middle)
		halve(from, middle, a, c, left-1)
		halve(middle, to, c, b, left-1)
	}
	for i := range leastPieces {
		from, to := float64(i)/leastPieces, float64(i+1)/leastPieces
		halve(from, to, out[len(out)-1], at(to), mostHalved)
	}
	return out
}

// off is how far a point lies off the piece from a to b, mm.
func off(p, a, b hull.Point) float64 {
	dy, dz := b.Y-a.Y, b.Z-a.Z
	w := 0.0
	if l := dy*dy + dz*dz; l > 0 {
		w = min(1, max(0, ((p.Y-a.Y)*dy+(p.Z-a.Z)*dz)/l))
	}
	return math.Hypot(p.Y-a.Y-w*dy, p.Z-a.Z-w*dz)
}
