package fair

import "math"

// reduce turns the rows about by Householder reflections until only the first
// three know of the free movements. The rows below them, those of the prior
// alone, carry the evidence of how stiff the batten is. Where they are more
// than the prior has drives they are turned on until the drives stand in a
// triangle; what the points ask for beneath it no curve can give, whatever its
// stiffness, and is left aside. So the work grows only in proportion to the
// points.
//
// It reports whether the points hold the three free movements at all.
func (w *Workspace) reduce() bool {
	n := len(w.holds)
	for c := range free {
		w.reflect(c)
		if !(math.Abs(w.rows[c*stride+c]) > 0) {
			return false
		}
	}
	w.left = n - free
	if w.left <= knots {
		return true
	}
	w.left = knots
	for c := free; c < asked; c++ {
		w.reflect(c)
	}
	return true
}

// reflect clears column c below row c.
func (w *Workspace) reflect(c int) {
	n := len(w.holds)
	rows := w.rows
	norm := 0.0
	for i := c; i < n; i++ {
		v := rows[i*stride+c]
		norm += v * v
	}
	if norm == 0 {
		return
	}
	norm = math.Sqrt(norm)
	pivot := rows[c*stride+c]
	if pivot > 0 {
		norm = -norm
	}
	rows[c*stride+c] = pivot - norm
	scale := 1 / (norm * (norm - pivot)) // two over the square of the reflector's length
	sums := w.sums[c+1:]
	clear(sums)
	for i := c; i < n; i++ {
		row := rows[i*stride : (i+1)*stride]
		v := row[c]
		for j, x := range row[c+1:] {
			sums[j] += v * x
		}
	}
	for i := c; i < n; i++ {
		row := rows[i*stride : (i+1)*stride]
		v := scale * row[c]
		for j, x := range sums {
			row[c+1+j] -= v * x
		}
		row[c] = 0
	}
	rows[c*stride+c] = norm
}

// drives is the part of reduced row i that belongs to the prior, i counted
// from the first row that is free of the free movements.
func (w *Workspace) drives(i int) []float64 {
	return w.rows[(free+i)*stride+free : (free+i)*stride+asked]
}

// gram forms the products of the reduced rows, B B', ready for their
// tridiagonal form.
func (w *Workspace) gram() {
	t := &w.tri
	t.resize(w.left)
	for i := range w.left {
		a := w.drives(i)
		for j := 0; j <= i; j++ {
			b := w.drives(j)[:len(a)]
			sum := 0.0
			for l, x := range a {
				sum += x * b[l]
			}
			t.full[i*w.left+j], t.full[j*w.left+i] = sum, sum
		}
	}
}
