package fair

// refit fits the points of the fitted curve again, under fresh errors of the
// size of the written ones: what the fit would have made of other rounding.
// It returns the bends of the refit without any error, which are blunter than
// the fitted ones by what the batten's stiffness takes off.
func (w *Workspace) refit(square float64) (blunt struct{ tightest, bilge, hollow float64 }) {
	tr, m := &w.trials, &w.trials.movement
	first, last := w.ends()
	w.fittedRows(square)
	w.again(square, nil)
	var one bends
	one.see(0, &m.k, first, last)
	blunt.tightest, blunt.bilge, blunt.hollow = one.tightest[0], one.bilge[0], one.hollow[0]
	for i := range draws {
		w.again(square, &theChances().refits[i])
		tr.refitted.see(i, &m.k, first, last)
	}
	tr.refitted.sort()
	return blunt
}

// fittedRows finds what the reduced rows would ask for had the points no error
// but lain on the fitted curve.
func (w *Workspace) fittedRows(square float64) {
	copy(w.back, w.turned)
	w.tri.solve(square, w.back, w.pivot)
	for i := range w.left {
		w.fitted[i] = w.turned[i] - w.back[i]
	}
}

// again fits those rows, with the error of c where there is one.
func (w *Workspace) again(square float64, c *chance) {
	copy(w.back, w.fitted)
	var first [free]float64
	for i := range first {
		first[i] = w.rows[i*stride+asked]
	}
	if c != nil {
		for i := range w.left {
			w.back[i] += c.rows[i] // turning leaves independent errors independent
		}
		for i := range first {
			first[i] += c.first[i]
		}
	}
	m := &w.trials.movement
	clear(m.drive[:])
	w.answer(square, &first, m)
}
