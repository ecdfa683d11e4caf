package fair

import "math"

// The linear problem about the present curve: one row a point, scaled to unit
// error. Its columns are the three free movements (shift along the normal at
// the start, turn there, constant curvature), the drives of the prior, and
// what the point asks for.
const (
	free   = 3
	asked  = free + knots
	stride = asked + 1
)

// linear writes the rows. Moving the start by c along its normal, turning it
// by b and changing the curvature by dk(s) moves the foot of point i along its
// normal by
//
//	n.n0 c + T.(r_i - r_0) b + integral over s < s_i of dk(s) T.(r_i - r(s)) ds.
func (w *Workspace) linear() {
	l := &w.line
	sin0, cos0 := math.Sincos(l.th[0])
	for i := range w.holds {
		h := &w.holds[i]
		w.levers(h)
		sum, now := 0.0, 0.0
		for j, v := range w.lever {
			sum += v
			now += v * l.k[j]
		}
		unit := 1 / h.sd
		row := w.rows[i*stride : (i+1)*stride]
		row[0] = unit * (sin0*h.tz + cos0*h.ty)
		row[1] = unit * (h.ty*(h.y-l.y[0]) + h.tz*(h.z-l.z[0]))
		row[2] = unit * sum
		driveRow(&w.lever, unit, row[free:])
		row[asked] = unit * (h.miss + now)
	}
}

// levers fills w.lever with what the curvature at each knot does to the foot
// h: the lever T.(r_i - r(s)) against the hat functions, Simpson on each cell.
func (w *Workspace) levers(h *hold) {
	l := &w.line
	clear(w.lever[:])
	last, d := locate(h.s)
	ty, tz := h.ty, h.tz
	base := ty*h.y + tz*h.z
	at := base - ty*l.y[0] - tz*l.z[0]
	for j := range last {
		mid := base - ty*l.ym[j] - tz*l.zm[j]
		next := base - ty*l.y[j+1] - tz*l.z[j+1]
		w.lever[j] += cell / 6 * (at + 2*mid)
		w.lever[j+1] += cell / 6 * (next + 2*mid)
		at = next
	}
	// In the part cell the lever falls to nothing at the foot.
	y, z, _, _ := l.at(h.s - d/2)
	mid := base - ty*y - tz*z
	u := d / cell
	w.lever[last] += d / 6 * (at + 4*mid*(1-u/2))
	w.lever[last+1] += d / 6 * 4 * mid * u / 2
}
