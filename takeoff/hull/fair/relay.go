package fair

import "math"

// drift is how far an end foot may wander from the end of the polygon before
// the cells are laid anew. The margin beyond must not be used up.
const drift = 0.6 * margin

// relay lays the cells anew over the girth of the present curve where that has
// grown much longer or shorter than the polygon through the points. A bend
// between few points does that: the polygon cuts its corner.
func (w *Workspace) relay() {
	a, b := w.holds[0].s, w.holds[len(w.holds)-1].s
	if math.Abs(a) <= drift && math.Abs(b-1) <= drift || !(b > a) {
		return
	}
	old, g := w.line, b-a
	for j := range knots {
		s := a + (from+float64(j)*cell)*g
		_, _, _, k := old.at(max(from, min(upTo, s)))
		w.line.k[j] = k * g
	}
	drivesOf(&w.line.k, &w.drive)
	curvature(w.line.k[0], &w.drive, &w.line.k)
	y, z, th, _ := old.at(a + from*g)
	w.line.y[0], w.line.z[0], w.line.th[0] = y/g, z/g, th
	w.line.integrate()
	for i := range w.pts {
		w.pts[i].Y /= g
		w.pts[i].Z /= g
		w.holds[i].s = (w.holds[i].s - a) / g
	}
	w.length *= g
	w.sd = w.written()
	w.project()
}
