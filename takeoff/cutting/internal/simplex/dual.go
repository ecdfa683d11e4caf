package simplex

import "math"

// Dual makes the present basis, whose reduced costs must have the right signs, feasible again after bounds have
// moved. It stops early once the cost passes cutoff. Where many pivots change no dual, costs are shifted a little, so that
// it does not go round in circles; they are put back in the end, and what that leaves to do is for Primal.
func (p *LP) Dual(pivots int, cutoff float64) Status {
	status := p.dual(pivots, cutoff)
	if p.shifted != nil {
		copy(p.cost, p.shifted)
		p.shifted = nil
	}
	return status
}

// shift moves the cost of each column out of the basis away from where it would enter.
func (p *LP) shift() {
	p.shifted = append([]float64{}, p.cost...)
	turn := uint32(1)
	for j := range p.cost {
		turn = turn*1664525 + 1013904223
		by := float64(shiftBy * (1 + float64(float64(turn>>8)/(1<<24))))
		switch p.at[j] {
		case atLower:
			p.cost[j] += by
		case atUpper:
			p.cost[j] -= by
		}
	}
}

func (p *LP) dual(pivots int, cutoff float64) Status {
	p.ray = nil
	p.multipliers()
	still := 0 // pivots that changed no dual
	for k := range pivots {
		if still > p.n/2+20 && p.shifted == nil {
			p.shift()
		}
		if p.since >= p.refresh() {
			p.invert()
			p.multipliers()
		}
		r := p.worst()
		if r < 0 {
			return Optimal
		}
		if k%8 == 7 && p.Cost() > cutoff {
			return CutOff
		}
		out := p.head[r]
		low := p.xb[r] < p.lo[out]
		copy(p.rho, p.Row(r))
		q := p.ratio(low)
		if q < 0 {
			p.ray = p.rho
			if low {
				for i := range p.ray {
					p.ray[i] = -p.ray[i]
				}
			}
			return Infeasible
		}
		alpha := p.column(q)
		if math.Abs(alpha[r]) < pivotTol {
			if p.since == 0 {
				return Stopped
			}
			p.invert()
			p.multipliers()
			continue
		}
		target := p.hi[out]
		if low {
			target = p.lo[out]
		}
		step := (p.xb[r] - target) / alpha[r]
		for i, a := range alpha {
			p.xb[i] -= float64(step * a)
		}
		if math.Abs(p.cost[q]-p.dot(p.y, q)) < dualTol {
			still++
		}
		p.turn(p.rho, q, alpha[r])
		p.swap(r, q, step, low)
	}
	return Stopped
}

// worst is the row whose variable lies furthest outside its bounds.
func (p *LP) worst() int {
	far, at := feasible, -1
	for r, j := range p.head {
		if d := max(p.lo[j]-p.xb[r], p.xb[r]-p.hi[j]); d > far {
			far, at = d, r
		}
	}
	return at
}

// candidate is a column that may enter: its reduced cost and its element.
type candidate struct {
	j    int
	d, a float64
}

// ratio picks the entering column: of those that keep every reduced cost's sign, within the tolerance, the one with
// the largest element.
func (p *LP) ratio(low bool) int {
	y := p.y
	most := math.Inf(1)
	list := p.list[:0]
	for j, c := range p.cost {
		if p.at[j] == basic || p.lo[j] == p.hi[j] {
			continue
		}
		a := p.dot(p.rho, j)
		if low {
			a = -a
		}
		// a > 0 is wanted of one at its lower bound, a < 0 of one at its upper
		if p.at[j] == atUpper {
			a = -a
		}
		if a <= pivotTol {
			continue
		}
		d := math.Abs(c - p.dot(y, j))
		list = append(list, candidate{j, d, a})
		most = min(most, (d+dualTol)/a)
	}
	p.Work += int64(len(p.vals))
	p.list = list
	best, at := 0.0, -1
	for _, c := range list {
		if c.d/c.a <= most && c.a > best {
			best, at = c.a, c.j
		}
	}
	return at
}
