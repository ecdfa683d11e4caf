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
	copy(w.back, w.turned)
	var first [free]float64
	for i := range first {
		first[i] = w.rows[i*stride+asked]
	}
	clear(m.drive[:])
	w.answer(square, &first, m)
}

// answer adds to the drives that m holds those that meet best what is asked:
// by the rows of the prior, in the tridiagonal frame, in w.back, which it
// spends; by the first rows, once the drives are known, in first. The free
// movements and the curvature follow from the drives.
func (w *Workspace) answer(square float64, first *[free]float64, m *movement) {
	t := &w.tri
	u := w.back[:t.n]
	t.solve(square, u, w.pivot)
	t.fromTurned(u, w.weight)
	for i, a := range w.weight[:t.n] {
		a *= square
		for j, x := range w.drives(i) {
			m.drive[j] += a * x
		}
	}
	var moved [free]float64
	for i := free - 1; i >= 0; i-- {
		row := w.rows[i*stride : (i+1)*stride]
		s := first[i] - dot(row[free:asked], m.drive[:])
		for l := i + 1; l < free; l++ {
			s -= row[l] * moved[l]
		}
		moved[i] = s / row[i]
	}
	m.shift, m.turn = moved[0], moved[1]
	curvature(moved[2], &m.drive, &m.k)
}
