package fair

import "math"

// without is the linear problem with all points, in the form in which each can
// be taken out of it.
type without struct {
	n, left int
	turn    []float64 // n x n, its first three columns span the free movements
	drives  []float64 // left x knots, what the prior does to the rest
	tri     tridiagonal
	frame   []float64 // n x left, every point in the tridiagonal frame
	asks    []float64 // left, what the points ask for, there
	// Of every roughness tried: its cost, and of every point its share of itself
	// and its residual.
	cost        [roughTried]float64
	own, resid  []float64 // roughTried x n
	pivot, work []float64
	worked      []float64
}

// pose brings the rows of the linear problem to that form. It reports whether
// the points hold the free movements.
func (o *without) pose(rows []float64, n int) bool {
	o.n, o.left = n, n-free
	o.turn, o.drives = sized(o.turn, n*n), sized(o.drives, o.left*knots)
	o.frame, o.asks = sized(o.frame, n*o.left), sized(o.asks, o.left)
	o.own, o.resid = sized(o.own, roughTried*n), sized(o.resid, roughTried*n)
	o.pivot, o.work, o.worked = sized(o.pivot, o.left), sized(o.work, o.left), sized(o.worked, o.left)
	if !o.turnFree(rows) {
		return false
	}
	o.reduce(rows)
	for i, square := range roughSquares {
		o.try(i, square)
	}
	return true
}

// turnFree finds an orthogonal matrix whose first columns span what the free
// movements do to the points (Gram and Schmidt, each column twice).
func (o *without) turnFree(rows []float64) bool {
	n := o.n
	col := make([]float64, n)
	kept := 0
	take := func() bool {
		before := math.Sqrt(dot(col, col))
		for range 2 {
			for c := range kept {
				s := 0.0
				for i := range n {
					s += o.turn[i*n+c] * col[i]
				}
				for i := range n {
					col[i] -= s * o.turn[i*n+c]
				}
			}
		}
		after := math.Sqrt(dot(col, col))
		if !(after > 1e-9*before) {
			return false
		}
		for i := range n {
			o.turn[i*n+kept] = col[i] / after
		}
		kept++
		return true
	}
	for c := range free {
		for i := range n {
			col[i] = rows[i*stride+c]
		}
		if !take() {
			return false
		}
	}
	// The rest of the columns come from the unit vectors, less the ones that the
	// free movements have used up: those of the greatest remainders.
	for kept < n {
		best, most := 0, -1.0
		for i := range n {
			used := 0.0
			for c := range kept {
				used += o.turn[i*n+c] * o.turn[i*n+c]
			}
			if 1-used > most {
				best, most = i, 1-used
			}
		}
		clear(col)
		col[best] = 1
		if !take() {
			return false
		}
	}
	return true
}

// reduce brings prior and points into the frame where the prior is tridiagonal.
func (o *without) reduce(rows []float64) {
	n := o.n
	clear(o.drives)
	clear(o.work)
	for i := range n {
		row := rows[i*stride : (i+1)*stride]
		for a := range o.left {
			q := o.turn[i*n+free+a]
			d := o.drives[a*knots : (a+1)*knots]
			for j, x := range row[free:asked] {
				d[j] += q * x
			}
			o.work[a] += q * row[asked]
		}
	}
	t := &o.tri
	t.resize(o.left)
	for a := range o.left {
		for b := 0; b <= a; b++ {
			s := dot(o.drives[a*knots:(a+1)*knots], o.drives[b*knots:(b+1)*knots])
			t.full[a*o.left+b], t.full[b*o.left+a] = s, s
		}
	}
	t.reduce()
	t.toTurned(o.work, o.asks)
	for i := range n {
		t.toTurned(o.turn[i*n+free:(i+1)*n], o.frame[i*o.left:(i+1)*o.left])
	}
}

// try works out one roughness.
func (o *without) try(r int, square float64) {
	t := &o.tri
	spread := 0.0
	for i := range t.n {
		o.pivot[i] = 1 + square*t.diag[i]
		if i > 0 {
			f := square * t.off[i-1] / o.pivot[i-1]
			o.pivot[i] -= f * square * t.off[i-1]
		}
		o.pivot[i] = max(o.pivot[i], 1e-60)
		spread += math.Log(o.pivot[i])
	}
	forward := func(in, out []float64) {
		for i := range t.n {
			out[i] = in[i]
			if i > 0 {
				out[i] -= square * t.off[i-1] / o.pivot[i-1] * out[i-1]
			}
		}
	}
	forward(o.asks, o.worked)
	misfit := 0.0
	for i, v := range o.worked {
		misfit += v * v / o.pivot[i]
	}
	o.cost[r] = spread + misfit
	for p := range o.n {
		forward(o.frame[p*o.left:(p+1)*o.left], o.work)
		own, resid := 0.0, 0.0
		for i, v := range o.work {
			own += v * v / o.pivot[i]
			resid += v * o.worked[i] / o.pivot[i]
		}
		o.own[r*o.n+p], o.resid[r*o.n+p] = own, resid
	}
}

// judge gives the residual of point p against the others and its standard
// deviation, its own error counted in, both in units of that error: over all
// roughnesses, each as likely as the others find it.
func (o *without) judge(p int) (miss, sd float64) {
	var cost [roughTried]float64
	best := math.Inf(1)
	for r := range cost {
		own, resid := o.own[r*o.n+p], o.resid[r*o.n+p]
		if !(own > 1e-12) {
			return 0, math.Inf(1)
		}
		cost[r] = o.cost[r] + math.Log(own) - resid*resid/own
		best = min(best, cost[r])
	}
	sum, first, second := 0.0, 0.0, 0.0
	for r, c := range cost {
		share := math.Exp((best - c) / 2)
		own := o.own[r*o.n+p]
		m := o.resid[r*o.n+p] / own
		sum += share
		first += share * m
		second += share * (m*m + 1/own)
	}
	first /= sum
	return first, math.Sqrt(second/sum - first*first)
}
