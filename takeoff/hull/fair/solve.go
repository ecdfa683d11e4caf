package fair

import "math"

// movement is a change of the present curve: of its start and of the curvature
// at every knot.
type movement struct {
	shift, turn float64
	drive, k    [knots]float64
}

// solve finds the curve that is likeliest given the points, in the linear
// problem about the present one, for the roughness squared.
func (w *Workspace) solve(square float64, m *movement) {
	t := &w.tri
	u := w.back[:t.n]
	copy(u, w.turned)
	t.solve(square, u, w.pivot)
	t.fromTurned(u, w.weight)
	clear(m.drive[:])
	for i, a := range w.weight[:t.n] {
		a *= square
		for j, x := range w.drives(i) {
			m.drive[j] += a * x
		}
	}
	var moved [free]float64
	for i := free - 1; i >= 0; i-- {
		row := w.rows[i*stride : (i+1)*stride]
		s := row[asked] - dot(row[free:asked], m.drive[:])
		for l := i + 1; l < free; l++ {
			s -= row[l] * moved[l]
		}
		moved[i] = s / row[i]
	}
	m.shift, m.turn = moved[0], moved[1]
	curvature(moved[2], &m.drive, &m.k)
}

// longestStep is the most that the curvature may change at a time, in units of
// one over the girth: beyond it the linear problem means nothing.
const longestStep = 4

// move applies the movement, or the part of it that is not too long.
func (w *Workspace) move(m *movement) {
	l := &w.line
	most := 0.0
	for j, k := range m.k {
		most = max(most, math.Abs(k-l.k[j]))
	}
	part := 1.0
	if most > longestStep {
		part = longestStep / most
	}
	for j, k := range m.k {
		l.k[j] += part * (k - l.k[j])
	}
	sin, cos := math.Sincos(l.th[0])
	l.y[0] -= part * m.shift * sin
	l.z[0] += part * m.shift * cos
	l.th[0] += part * m.turn
	l.integrate()
}
