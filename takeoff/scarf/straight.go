package scarf

import "math"

// Straight is what a straight edge gives: the longest straight cut from a tip at the faying face to the inner face that
// stays within the frame and is no longer along it than the taper asks for.
type Straight struct {
	// Along is its length along the faying face, mm; Shortfall is what is missing of the taper's.
	Along, Shortfall float64
	// Slope that comes out, to one of depth.
	Slope float64
}

// Straight finds it for a tip at from, towards greater lengths, or towards smaller ones with back set.
//
// At a bilge the cut can go no farther than the line from the tip that touches the inner face: on an arc of radius R at
// the faying face that is R acos((R - t)/R) along it. In a hollow it can go no farther than the line along the faying
// face at the tip: R acos(R/(R + t)).
func (f Feather) Straight(c Curve, from float64, back bool) Straight {
	way := 1.0
	if back {
		way = -1
	}
	length := f.Length()
	y0, z0, theta := c(from)
	if back {
		theta += math.Pi
	}
	// angle from the direction at the tip towards the inner side
	angle := func(along, depth float64) float64 {
		y, z := c.point(along, depth)
		s, k := math.Sincos(theta)
		ahead, in := (y-y0)*k+(z-z0)*s, way*((z-z0)*k-(y-y0)*s)
		return math.Atan2(in, ahead)
	}
	const n = 4 * steps
	reached := 0.0
	least, most := math.Inf(1), 0.0 // of the inner face and of the faying face as far as here
	for i := 1; i <= n; i++ {
		along := from + way*length*float64(i)/n
		inner, faying := angle(along, f.Depth), angle(along, 0)
		// near the tip the inner face lies behind or beside; a cut ends no nearer than square across
		least, most = math.Min(least, inner), math.Max(most, faying)
		if inner > least || inner < most {
			break
		}
		reached = length * float64(i) / n
	}
	return Straight{Along: reached, Shortfall: length - reached, Slope: reached / f.Depth}
}
