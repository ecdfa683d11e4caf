package fair

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
