package simplex

import "math"

// devex is the rule of Harris (1973): the entering column is the one with the greatest reduced cost for the length of its
// edge, of which weights are kept that cost no more than the reduced costs. It needs far fewer pivots than the
// greatest reduced cost alone where many columns are alike: on a list of 393 lengths, most of them wanted once, 67,000 in
// place of 107,000.
type devex struct {
	weight []float64
	d      []float64 // reduced costs
}

// Weights start over once one is as large as this.
const heavy = 1e8

// reprice takes columns that are new and computes reduced costs from the multipliers.
func (p *LP) reprice() {
	x := &p.edges
	for j := len(x.weight); j < len(p.cost); j++ {
		x.weight, x.d = append(x.weight, 1), append(x.d, 0)
	}
	p.multipliers()
	for j, c := range p.cost {
		x.d[j] = 0
		if p.at[j] != basic {
			x.d[j] = c - p.dot(p.y, j)
		}
	}
	p.Work += int64(sparsely * len(p.vals))
}

// steepest is the column to enter, -1 for none.
func (p *LP) steepest() int {
	best, at := 0.0, -1
	weight := p.edges.weight
	for j, d := range p.edges.d {
		if math.Abs(d) <= dualTol || p.at[j] == basic || (d > 0) != (p.at[j] == atUpper) || p.lo[j] == p.hi[j] {
			continue
		}
		if v := d * d; v > best*weight[j] {
			best, at = v/weight[j], j
		}
	}
	p.Work += int64(sparsely * len(p.cost))
	return at
}

// along brings reduced costs and weights along when q enters in a row of the inverse with element a; out leaves.
func (p *LP) along(row []float64, q, out int, a float64) {
	x := &p.edges
	theta, wq := x.d[q]/a, x.weight[q]
	for j := range x.d {
		if p.at[j] == basic || j == q {
			continue
		}
		if v := p.dot(row, j); v != 0 {
			x.d[j] -= float64(theta * v)
			v /= a
			x.weight[j] = math.Max(x.weight[j], v*v*wq)
		}
	}
	x.d[q], x.d[out] = 0, -theta
	x.weight[out] = math.Max(1, wq/(a*a))
	p.Work += int64(sparsely * len(p.vals))
	if x.weight[out] > heavy {
		for j := range x.weight {
			x.weight[j] = 1
		}
	}
}

// primalDevex is Primal by this rule.
func (p *LP) primalDevex(pivots int) Status {
	p.reprice()
	sure := true // nothing has been added up since reduced costs were computed
	for range pivots {
		if p.since >= p.refresh() {
			p.invert()
			p.reprice()
			sure = true
		}
		q := p.steepest()
		if q < 0 {
			if sure {
				return Optimal
			}
			p.reprice()
			if sure = true; p.steepest() < 0 {
				return Optimal
			}
			continue
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
		for i, a := range alpha {
			p.xb[i] -= float64(dir * step * a)
		}
		if r < 0 {
			p.at[q] = atUpper - p.at[q]
			continue
		}
		p.along(p.Row(r), q, p.head[r], alpha[r])
		p.swap(r, q, dir*step, dir*alpha[r] > 0)
		sure = false
	}
	return Stopped
}
