package fair

import "math"

// Inside the package lengths are in units of the polygon through the points,
// so that every constant below is a plain number; s = 0 is the first point of
// that polygon and s = 1 its last.
const (
	// Cells over the girth and its margins.
	Cells = 60
	knots = Cells + 1
	// margin beyond the end points, so that their feet stay on the curve.
	margin = 0.03
	from   = -margin
	upTo   = 1 + margin
	cell   = (1 + 2*margin) / Cells
)

// line is a plane curve held by its curvature at the knots, with the angle and
// place that follow from it.
type line struct {
	k, th, y, z [knots]float64
	ym, zm      [Cells]float64 // place at mid-cell
}

const gauss = 0.21132486540518713 // two-point Gauss abscissa on [0, 1]

// integrate finds the angle and place of every knot from those of the first
// and from the curvature, by two-point Gauss on each half of a cell.
func (l *line) integrate() {
	for j := range Cells {
		k, dk, th := l.k[j], l.k[j+1]-l.k[j], l.th[j]
		turned := func(u float64) float64 { return th + cell*u*(k+dk*u/2) }
		s1, c1 := math.Sincos(turned(gauss / 2))
		s2, c2 := math.Sincos(turned((1 - gauss) / 2))
		s3, c3 := math.Sincos(turned((1 + gauss) / 2))
		s4, c4 := math.Sincos(turned(1 - gauss/2))
		l.ym[j] = l.y[j] + cell/4*(c1+c2)
		l.zm[j] = l.z[j] + cell/4*(s1+s2)
		l.y[j+1] = l.ym[j] + cell/4*(c3+c4)
		l.z[j+1] = l.zm[j] + cell/4*(s3+s4)
		l.th[j+1] = turned(1)
	}
}

// locate gives the cell that holds s and the length from its first knot.
func locate(s float64) (j int, d float64) {
	j = min(max(int((s-from)*(1/cell)), 0), Cells-1)
	return j, s - from - float64(j)*cell
}

// at gives place, tangent angle and curvature at s.
func (l *line) at(s float64) (y, z, th, k float64) {
	j, d := locate(s)
	k0, dk := l.k[j], (l.k[j+1]-l.k[j])/cell
	a, b := gauss*d, (1-gauss)*d
	s1, c1 := math.Sincos(l.th[j] + a*(k0+dk*a/2))
	s2, c2 := math.Sincos(l.th[j] + b*(k0+dk*b/2))
	return l.y[j] + (c1+c2)*d/2, l.z[j] + (s1+s2)*d/2, l.th[j] + d*(k0+dk*d/2), k0 + dk*d
}

// finite says that every knot has a place, an angle and a curvature.
func (l *line) finite() bool {
	for j := range knots {
		if v := l.k[j] + l.th[j] + l.y[j] + l.z[j]; math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// foot is the place on a line where a point's normal meets it.
type foot struct {
	s, y, z, ty, tz float64 // length, place and unit tangent
}

// foot finds the foot of (py, pz) by Newton's method from s on.
func (l *line) foot(py, pz, s float64) foot {
	const (
		iterations = 3
		near       = 1e-10
		longest    = 4 * cell // no further at a time, lest a bad start jump to another branch
		slack      = 0.3      // the centre of curvature nearly under the point: slow down
	)
	for it := 0; ; it++ {
		y, z, th, k := l.at(s)
		tz, ty := math.Sincos(th)
		dy, dz := py-y, pz-z
		ds := (dy*ty + dz*tz) / max(slack, 1-k*(dz*ty-dy*tz))
		ds = max(-longest, min(longest, ds))
		if it == iterations || math.Abs(ds) < near {
			return foot{s, y, z, ty, tz}
		}
		s = max(from, min(upTo, s+ds))
	}
}
