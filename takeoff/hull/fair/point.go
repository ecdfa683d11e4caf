package fair

import "math"

// Kind says which part of a point was read off with an error; the other part
// is a given, as the height of a waterline is.
type Kind uint8

const (
	// Both is a pattern point: y and z were both measured.
	Both Kind = iota
	// AtHeight is a half-breadth on a waterline: z is given, y was measured.
	AtHeight
	// AtWidth is a height on a buttock: y is given, z was measured.
	AtWidth
	// Along is a distance on a diagonal: measured along the direction (DY, DZ).
	Along
)

// Point is one written point of a section, millimetres, y outboard and z up.
type Point struct {
	Y, Z float64
	Kind Kind
	// DY, DZ is the direction a diagonal is measured along, of any length. It
	// is read only when Kind is Along.
	DY, DZ float64
}

// coordinateLimit keeps a section within a kilometre, mm. Beyond it a mistake
// of units is certain, and squares could overflow.
const coordinateLimit = 1e6

const withinLimit = "it must be a number between -1000000 and 1000000 mm"

func usable(v float64) bool { return math.Abs(v) <= coordinateLimit } // NaN fails too

// checked returns the point with its direction made a unit vector.
func (p Point) checked(i int) (Point, error) {
	switch {
	case !usable(p.Y):
		return p, &PointError{i, "y", p.Y, withinLimit}
	case !usable(p.Z):
		return p, &PointError{i, "z", p.Z, withinLimit}
	case p.Kind > Along:
		return p, &PointError{i, "kind", float64(p.Kind), "it must be both, at height, at width or along"}
	case p.Kind != Along:
		p.DY, p.DZ = 0, 0
		return p, nil
	}
	d := math.Hypot(p.DY, p.DZ)
	if !(d > 0) || math.IsInf(d, 0) {
		return p, &PointError{i, "direction", d, "a diagonal needs a direction that is not zero"}
	}
	p.DY, p.DZ = p.DY/d, p.DZ/d
	return p, nil
}

// share is the part of the written error that lies along the normal of a curve
// with unit tangent (ty, tz): a waterline that crosses the curve squarely is
// held by its whole error, one that crosses at a glancing angle by less.
func (p *Point) share(ty, tz float64) float64 {
	switch p.Kind {
	case AtHeight:
		return math.Abs(tz)
	case AtWidth:
		return math.Abs(ty)
	case Along:
		return math.Abs(ty*p.DZ - tz*p.DY)
	}
	return 1
}
