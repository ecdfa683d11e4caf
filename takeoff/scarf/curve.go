package scarf

import "math"

// Curve is the faying face of a frame by length along it: a place in the frame's plane and the direction in which the
// curve goes on there, radians from Y towards Z. Its inner side lies to the left.
type Curve func(along float64) (y, z, theta float64)

// point at a depth from the faying face, square to it.
func (c Curve) point(along, depth float64) (y, z float64) {
	y, z, theta := c(along)
	s, k := math.Sincos(theta)
	return y - depth*s, z + depth*k
}

// Laid is a taper as it is laid along a curve.
type Laid struct {
	// Face is the length of its glued face, mm: longer or shorter than that of a straight piece.
	Face float64
	// Marks are where the cut lies, from the tip at the faying face to that at the inner face.
	Marks []Mark
}

// Mark is one place of the cut: along the faying face, and how deep the cut lies square to it there, mm.
type Mark struct{ Along, Depth float64 }

// Steps along a taper in which its face is added up; a face turns by little more than the frame does in one.
const steps = 400

// Lay lays a taper along the curve from its tip at the faying face, at from, towards greater lengths, or towards smaller
// ones with back set. marks is how many places are given, both tips counted.
func (f Feather) Lay(c Curve, from float64, back bool, marks int) Laid {
	length := f.Length()
	if back {
		length = -length
	}
	at := func(i, n int) Mark {
		share := float64(i) / float64(n)
		return Mark{from + share*length, share * f.Depth}
	}
	var out Laid
	y, z := c.point(from, 0)
	for i := 1; i <= steps; i++ {
		m := at(i, steps)
		ny, nz := c.point(m.Along, m.Depth)
		out.Face += math.Hypot(ny-y, nz-z)
		y, z = ny, nz
	}
	marks = max(2, marks)
	for i := range marks {
		out.Marks = append(out.Marks, at(i, marks-1))
	}
	return out
}
