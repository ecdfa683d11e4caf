package simplex

import "math"

// Primal improves the present basis, which must be feasible, until no column lowers the cost or pivots run out.
func (p *LP) Primal(pivots int) Status {
	p.ray = nil
	if p.sparse {
		return p.primalDevex(pivots)
	}
	still := 0 // pivots in a row that moved nothing
	p.multipliers()
	for range pivots {
		if p.since >= p.refresh() {
			p.invert()
			p.multipliers()
		}
		q := p.entering(still > 4*p.n)
		if q < 0 {
			return Optimal
		}
		dir := 1.0
		if p.at[q] == atUpper {
			dir = -1
		}
		alpha := p.column(q)
		r, step := p.leaving(alpha, dir, p.hi[q]-p.lo[q])
		if math.IsInf(step, 1) {
			return Stopped
		}
		if step > feasible {
			still = 0
		} else {
			still++
		}
		for i, a := range alpha {
			p.xb[i] -= float64(dir * step * a)
		}
		if r < 0 { // it runs to its other bound
			p.at[q] = atUpper - p.at[q]
			continue
		}
		p.turn(p.Row(r), q, alpha[r])
		p.swap(r, q, dir*step, dir*alpha[r] > 0)
	}
	return Stopped
}

// turn brings the multipliers along when q enters in a row of the inverse with element a.
func (p *LP) turn(row []float64, q int, a float64) {
	step := (p.cost[q] - p.dot(p.y, q)) / a
	for i, v := range row {
		p.y[i] += float64(step * v)
	}
}

// swap makes q basic in row r after moving by step; the leaving one goes to its lower bound or its upper.
func (p *LP) swap(r, q int, step float64, toLower bool) {
	out := p.head[r]
	value := p.nonbasic(q) + step
	p.exchange(r, p.alpha)
	p.head[r], p.at[q], p.xb[r] = q, basic, value
	p.at[out] = atUpper
	if toLower {
		p.at[out] = atLower
	}
	p.since++
}

// entering is the column with the best reduced cost, or with first set the first that has one; -1 for none.
func (p *LP) entering(first bool) int {
	y := p.y
	best, at := dualTol, -1
	for j, c := range p.cost {
		if p.at[j] == basic || p.lo[j] == p.hi[j] {
			continue
		}
		d := p.dot(y, j) - c
		if p.at[j] == atUpper {
			d = -d
		}
		if d > best {
			if first {
				return j
			}
			best, at = d, j
		}
	}
	p.Work += int64(len(p.vals))
	return at
}

// leaving is the row that limits the step, -1 when the entering variable's own range does. Among rows that limit it
// alike the largest element is taken.
func (p *LP) leaving(alpha []float64, dir, own float64) (row int, step float64) {
	reach := func(r int, a, slack float64) float64 {
		j := p.head[r]
		if a > 0 {
			return (p.xb[r] - p.lo[j] + slack) / a
		}
		if math.IsInf(p.hi[j], 1) {
			return math.Inf(1)
		}
		return (p.xb[r] - p.hi[j] - slack) / a
	}
	most := math.Inf(1)
	for r, a := range alpha {
		if a *= dir; math.Abs(a) > pivotTol {
			most = min(most, reach(r, a, feasible))
		}
	}
	row, step = -1, own
	if own <= most {
		return -1, own
	}
	best := 0.0
	for r, a := range alpha {
		if a *= dir; math.Abs(a) > pivotTol {
			if t := reach(r, a, 0); t <= most && math.Abs(a) > best {
				best, row, step = math.Abs(a), r, math.Max(0, t)
			}
		}
	}
	return row, step
}
