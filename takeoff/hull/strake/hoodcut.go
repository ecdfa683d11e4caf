package strake

import "math"

// point3 is a place of the surface, mm.
type point3 struct{ x, y, z float64 }

func (a point3) minus(b point3) point3  { return point3{a.x - b.x, a.y - b.y, a.z - b.z} }
func (a point3) times(f float64) point3 { return point3{a.x * f, a.y * f, a.z * f} }
func (a point3) plus(b point3) point3   { return point3{a.x + b.x, a.y + b.y, a.z + b.z} }
func (a point3) dot(b point3) float64   { return a.x*b.x + a.y*b.y + a.z*b.z }
func (a point3) long() float64          { return math.Sqrt(a.dot(a)) }
func (a point3) cross(b point3) point3 {
	return point3{a.y*b.z - a.z*b.y, a.z*b.x - a.x*b.z, a.x*b.y - a.y*b.x}
}

// Steps of the differences that normals and bends beyond an end station are read from: of the panel's girth, and of the
// way to the line.
const (
	aside  = 1. / 256
	onward = 1e-5
)

// vertex of the place at u and the part q of the way. Below takes a knuckle as the piece towards the rabbet has it.
func (e *ending) vertex(u, q float64, below bool) vertex {
	from, to := 0.0, 1.0
	for _, c := range e.of.Corners() {
		if c < u-onKnuckle || !below && c <= u+onKnuckle {
			from = c
		}
		if to == 1 && (c > u+onKnuckle || below && c >= u-onKnuckle) {
			to = c
		}
	}
	at := func(u float64) point3 { p, _ := e.at(e.ray(u), q); return p }
	p, d := at(u), aside*(to-from)
	var ru, ruu point3
	step := 0.0
	switch {
	case u-d < from:
		step = d
	case u+d > to:
		step = -d
	}
	if step != 0 {
		a, b := at(u+step), at(u+2*step)
		ru = a.times(4).minus(p.times(3)).minus(b).times(1 / (2 * step))
		ruu = p.minus(a.times(2)).plus(b).times(1 / (d * d))
	} else {
		a, b := at(u-d), at(u+d)
		ru, ruu = b.minus(a).times(1/(2*d)), a.minus(p.times(2)).plus(b).times(1/(d*d))
	}
	r := e.ray(u)
	fore, _ := e.at(r, max(0, q-onward))
	back, _ := e.at(r, min(1, q+onward))
	v := back.minus(fore).times(e.out)
	if r.far+e.in < nothing {
		v = point3{1, r.Yx, r.Zx} // no way to go: the end station's own
	}
	n := ru.cross(v)
	out := vertex{x: p.x, y: p.y, z: p.z}
	if l := n.long(); l > 0 {
		out.nx, out.ny, out.nz = n.x/l, n.y/l, n.z/l
	}
	if l := ru.dot(ru); l > 0 {
		out.bend = math.Abs(ruu.x*out.nx+ruu.y*out.ny+ruu.z*out.nz) / l
	}
	return out
}

// hoodSteps is into how many pieces the way to a line is cut: an assumption. With it the areas are as near as package
// planking's TestStrakesAreThePlankingToTheEnds says.
const hoodSteps = 12

// parts of the way to the line at which strakes are laid out, the end station left out: closer to a round end.
func (e *ending) parts(steps int) []float64 {
	out := make([]float64, steps)
	for i := range out {
		q := float64(i+1) / float64(steps)
		if e.round {
			q = 1 - (1-q)*(1-q)
		}
		out[i] = q
	}
	return out
}

// edge is the share of the girth of edge k at the part q of the way: within the stations where it runs there, beyond as it
// ran at the end station, and ever less so.
func (e *ending) edge(of *Edges, k int, q float64) float64 {
	u := of.At(k, e.x0)
	r := e.ray(u)
	_, t := e.at(r, q)
	if t <= 0 {
		return of.At(k, e.x0+e.out*t)
	}
	if e.hold || r.far <= 0 {
		return u
	}
	return u + of.slope(k, e.x0)*e.out*t*(1-t/(2*r.far))
}

// carriedOn decides whether edges may go on as they ran at the end station.
func (e *ending) carriedOn(of *Edges) {
	corners := e.of.Corners()
	for _, q := range []float64{.25, .5, .75, 1} {
		below := 0.0
		for k := 1; k < of.n; k++ {
			u := e.edge(of, k, q)
			if !(u > below+leastShare && u < 1-leastShare) || across(k-1, below, u, corners, e.x0) != nil {
				e.hold = true
				return
			}
			below = u
		}
		if across(of.n-1, below, 1, corners, e.x0) != nil {
			e.hold = true
			return
		}
	}
}

// leastShare of the girth that a strake keeps where its edges go on as they ran; an assumption, no source.
const leastShare = 1e-3
