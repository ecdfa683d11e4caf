package fair

import "math"

const (
	// longestStep is the most that the curvature may change at a time, in units
	// of one over the girth: beyond it the linear problem means nothing.
	longestStep = 4
	// halvings is how often a step that makes the curve worse is halved.
	halvings = 4
	// worse is how much worse a step may leave the curve, in squared errors:
	// far less than the points can tell.
	worse = 0.01
)

// descend takes the step to the curve that solve has found, or as much of it
// as leaves the curve no worse than before. A bend that falls into a wide gap
// between points can slide to and fro in it; without this the steps would
// chase it and lose the points on either side. It returns the part taken.
func (w *Workspace) descend(square float64) float64 {
	before := w.merit(square)
	l, m := &w.line, &w.movement
	most := 0.0
	for j, k := range m.k {
		most = max(most, math.Abs(k-l.k[j]))
	}
	part := min(1, longestStep/max(most, longestStep))
	w.kept.line, w.kept.drive = w.line, w.drive
	copy(w.kept.holds, w.holds)
	for range halvings {
		w.move(part)
		w.project()
		if w.merit(square) <= before+worse {
			return part
		}
		w.line, w.drive = w.kept.line, w.kept.drive
		copy(w.holds, w.kept.holds)
		part /= 2
	}
	w.move(part)
	w.project()
	return part
}

// merit is what the fit makes small for a given roughness squared: the squares
// of the misses in units of their errors, and of the drives.
func (w *Workspace) merit(square float64) float64 {
	sum := 0.0
	for _, h := range w.holds {
		e := h.miss / h.sd
		sum += e * e
	}
	return sum + dot(w.drive[:], w.drive[:])/square
}

// move makes part of the movement.
func (w *Workspace) move(part float64) {
	l, m := &w.line, &w.movement
	for j := range knots {
		l.k[j] += part * (m.k[j] - l.k[j])
		w.drive[j] += part * (m.drive[j] - w.drive[j])
	}
	sin, cos := math.Sincos(l.th[0])
	l.y[0] -= part * m.shift * sin
	l.z[0] += part * m.shift * cos
	l.th[0] += part * m.turn
	l.integrate()
}
