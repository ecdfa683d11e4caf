package hull

import "math"

// Place is a point of a section and how the section runs there.
type Place struct {
	Y, Z  float64 // half-breadth and height, mm
	Theta float64 // direction of the section, radians from outboard towards up
	Kappa float64 // curvature, 1/mm, positive where the centre lies inboard; never NaN, infinite at a cusp
}

// Inboard is the point at the given depth from the faying face along the normal, mm: where the laminate at that
// depth, or the inner face of the frame, runs.
func (p Place) Inboard(depth float64) Point {
	s, c := math.Sincos(p.Theta)
	return Point{p.Y - depth*s, p.Z + depth*c}
}

// Point of a section, mm: half-breadth and height.
type Point struct{ Y, Z float64 }

// jet is a place by girth fraction u with its first and second derivatives by u: at a station by length the tangent is a
// unit vector and turns at the curvature.
type jet struct{ y, z, yu, zu, yuu, zuu float64 }

func (j *jet) add(w float64, o *jet) {
	j.y += w * o.y
	j.z += w * o.z
	j.yu += w * o.yu
	j.zu += w * o.zu
	j.yuu += w * o.yuu
	j.zuu += w * o.zuu
}

// speed is the girth passed per unit of u, mm.
func (j *jet) speed() float64 { return math.Sqrt(j.yu*j.yu + j.zu*j.zu) }

// kappa is the curvature, 1/mm. Where the section stands still it has a cusp, or all the girth is gone: then no
// timber bends to it, and the curvature is infinite rather than no number.
func (j *jet) kappa() float64 {
	v := j.speed()
	k := (j.yu*j.zuu - j.zu*j.yuu) / (v * v * v)
	if math.IsNaN(k) {
		return math.Inf(1)
	}
	return k
}

// inboard is Place.Inboard without the angles.
func (j *jet) inboard(depth float64) Point {
	v := j.speed()
	if v == 0 {
		return Point{j.y, j.z}
	}
	return Point{j.y - depth*j.zu/v, j.z + depth*j.yu/v}
}

func (j *jet) place() Place { return Place{j.y, j.z, math.Atan2(j.zu, j.yu), j.kappa()} }
