package fair

import "math"

// tridiagonal is a symmetric matrix brought to three diagonals once, so that
// every roughness tried costs only a pass along them: full = turn T turn'.
type tridiagonal struct {
	n         int
	full      []float64 // n x n, destroyed
	turn      []float64 // n x n, orthogonal
	diag, off []float64 // off[i] couples i and i+1
	v, p      []float64
}

func (t *tridiagonal) resize(n int) {
	t.n = n
	t.full, t.turn = sized(t.full, n*n), sized(t.turn, n*n)
	for _, s := range []*[]float64{&t.diag, &t.off, &t.v, &t.p} {
		*s = sized(*s, n)
	}
}

// reduce finds the tridiagonal form by Householder reflections.
func (t *tridiagonal) reduce() {
	n := t.n
	clear(t.turn)
	for i := range n {
		t.turn[i*n+i] = 1
	}
	for c := 0; c+2 < n; c++ {
		t.reflect(c)
	}
	for i := range n {
		t.diag[i] = t.full[i*n+i]
		if i+1 < n {
			t.off[i] = t.full[(i+1)*n+i]
		}
	}
}

// reflect clears column c below its subdiagonal, from both sides.
func (t *tridiagonal) reflect(c int) {
	n := t.n
	lo := c + 1
	v, p := t.v[lo:n], t.p[lo:n]
	norm := 0.0
	for i := range v {
		v[i] = t.full[(lo+i)*n+c]
		norm += v[i] * v[i]
	}
	if norm == 0 {
		return
	}
	norm = math.Sqrt(norm)
	if v[0] > 0 {
		norm = -norm
	}
	scale := 1 / (norm * (norm - v[0]))
	v[0] -= norm
	vp := 0.0
	for i := range p {
		p[i] = scale * dot(t.full[(lo+i)*n+lo:(lo+i+1)*n], v)
		vp += p[i] * v[i]
	}
	for i := range p {
		p[i] -= scale / 2 * vp * v[i]
	}
	for i := range v {
		row := t.full[(lo+i)*n+lo : (lo+i+1)*n]
		vi, pi := v[i], p[i]
		for j := range row {
			row[j] -= vi*p[j] + pi*v[j]
		}
	}
	t.full[lo*n+c], t.full[c*n+lo] = norm, norm
	for i := range n {
		row := t.turn[i*n+lo : (i+1)*n]
		s := scale * dot(row, v)
		for j := range row {
			row[j] -= s * v[j]
		}
	}
}

// toTurned sets out = turn' in.
func (t *tridiagonal) toTurned(in, out []float64) {
	clear(out[:t.n])
	for j, x := range in[:t.n] {
		for i, q := range t.turn[j*t.n : (j+1)*t.n] {
			out[i] += q * x
		}
	}
}

// fromTurned sets out = turn in.
func (t *tridiagonal) fromTurned(in, out []float64) {
	for i := range t.n {
		out[i] = dot(t.turn[i*t.n:(i+1)*t.n], in[:t.n])
	}
}

// solve replaces u by the solution x of (1 + square T) x = u; pivot is scratch.
func (t *tridiagonal) solve(square float64, u, pivot []float64) {
	n := t.n
	for i := range n {
		pivot[i] = 1 + square*t.diag[i]
		if i > 0 {
			f := square * t.off[i-1] / pivot[i-1]
			pivot[i] -= f * square * t.off[i-1]
			u[i] -= f * u[i-1]
		}
	}
	for i := n - 1; i >= 0; i-- {
		if i+1 < n {
			u[i] -= square * t.off[i] * u[i+1]
		}
		u[i] /= pivot[i]
	}
}

func dot(a, b []float64) float64 {
	b = b[:len(a)]
	s := 0.0
	for i, x := range a {
		s += x * b[i]
	}
	return s
}

func sized(s []float64, n int) []float64 {
	if cap(s) < n {
		return make([]float64, n)
	}
	return s[:n]
}
