package drawing

import (
	"math"
	"slices"

	"ribband/takeoff/hull"
)

// laminate is the line of a floor glued up so far inboard of its lower face, mm: along the arms, and round the chock over the keel
// with the throat's radius less that depth.
func (f DrawnFloor) laminate(depth float64) []hull.Point {
	lower := f.Outline.Lower
	n := len(lower)
	port, starboard := slices.Clone(lower[:n/2]), slices.Clone(lower[(n+1)/2:])
	slices.Reverse(port) // both from the keel outboard
	for i := range port {
		port[i].Y = -port[i].Y
	}
	from := [2]int{}
	c, angles := hull.Point{}, [2]float64{}
	// the chock touches each arm where the arm's own direction is the chock's: a few rounds find it, since arms bend little
	for range 8 {
		angles = [2]float64{steep(port, from[0]), steep(starboard, from[1])}
		c = touching(port[from[0]], starboard[from[1]], angles, f.ThroatRadius)
		for a, arm := range [2][]hull.Point{port, starboard} {
			s, co := math.Sincos(angles[a])
			y := c.Y
			if a == 0 {
				y = -y
			}
			from[a] = nearest(arm, hull.Point{Y: y + f.ThroatRadius*s, Z: c.Z - f.ThroatRadius*co})
		}
	}
	side := func(arm []hull.Point, from int) []hull.Point {
		var out []hull.Point
		for i := from; i < len(arm); i++ {
			s, co := math.Sincos(steep(arm, i))
			if p := (hull.Point{Y: arm[i].Y - depth*s, Z: arm[i].Z + depth*co}); p.Y > 0 {
				out = append(out, p)
			}
		}
		return out
	}
	left, right := side(port, from[0]), side(starboard, from[1])
	slices.Reverse(left)
	for i := range left {
		left[i].Y = -left[i].Y
	}
	out := left
	if r := f.ThroatRadius - depth; r > 0 {
		for i := range 17 {
			s, co := math.Sincos(-angles[0] + (angles[0]+angles[1])*float64(i)/16)
			out = append(out, hull.Point{Y: c.Y + r*s, Z: c.Z - r*co})
		}
	}
	return append(out, right...)
}

// steep is the angle from level at which an arm runs at one of its places, from the keel outboard, radians.
func steep(arm []hull.Point, i int) float64 {
	a, b := arm[max(0, i-1)], arm[min(len(arm)-1, i+1)]
	return math.Atan2(b.Z-a.Z, b.Y-a.Y)
}

// touching is the middle of a circle inboard of two straight arms through places of theirs, half-breadths to either side above 0,
// that touches both; above the keel where they lie in one line.
func touching(port, starboard hull.Point, angles [2]float64, radius float64) hull.Point {
	sp, cp := math.Sincos(angles[0])
	ss, cs := math.Sincos(angles[1])
	// n1 (x - p) = r and n2 (x - s) = r, the normals pointing inboard
	p, q := sp*-port.Y+cp*port.Z+radius, -ss*starboard.Y+cs*starboard.Z+radius
	det := sp*cs + ss*cp
	if math.Abs(det) < 1e-6 {
		return hull.Point{Z: (port.Z+starboard.Z)/2 + radius}
	}
	return hull.Point{Y: (p*cs - q*cp) / det, Z: (sp*q + ss*p) / det}
}

// nearest place of an arm to a point.
func nearest(arm []hull.Point, p hull.Point) int {
	best, least := 0, math.Inf(1)
	for i, q := range arm {
		if d := math.Hypot(q.Y-p.Y, q.Z-p.Z); d < least {
			best, least = i, d
		}
	}
	return best
}
