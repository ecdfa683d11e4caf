package simplex

import (
	"math"
	"slices"
)

// column is B^-1 times column j, into alpha.
func (p *LP) column(j int) []float64 {
	alpha := p.alpha
	clear(alpha)
	if p.sparse {
		p.scatter(j, alpha)
		p.forward(alpha)
		return alpha
	}
	n := p.n
	for t := p.start[j]; t < p.start[j+1]; t++ {
		v, i := p.vals[t], int(p.rows[t])
		for r := range alpha {
			alpha[r] += float64(v * p.inv[r*n+i])
		}
	}
	p.Work += int64(n) * int64(p.start[j+1]-p.start[j])
	return alpha
}

// exchange brings the variable whose column is alpha into the basis in row r.
func (p *LP) exchange(r int, alpha []float64) {
	if p.sparse {
		p.note(r, alpha)
		return
	}
	n := p.n
	pivot := p.inv[r*n : (r+1)*n]
	scale := 1 / alpha[r]
	first, last := n, -1
	for i, v := range pivot {
		if v != 0 {
			pivot[i] = v * scale
			first, last = min(first, i), i
		}
	}
	if last < first {
		return
	}
	pivot = pivot[first : last+1]
	for q, a := range alpha {
		if q == r || a == 0 {
			continue
		}
		row := p.inv[q*n+first : q*n+last+1]
		for i, v := range pivot {
			row[i] -= float64(a * v)
		}
		p.Work += int64(len(pivot))
	}
	p.Pivots++
}

// invert makes the inverse afresh from the basis, mending it with single-entry columns where it has become singular;
// false when it had to.
func (p *LP) invert() bool {
	if p.sparse {
		whole := p.factorise()
		p.since = 0
		p.solveBasics()
		return whole
	}
	n := p.n
	clear(p.inv)
	for i := range n {
		p.inv[i*n+i] = 1
	}
	vars := append([]int{}, p.head...)
	// short columns first: they fill the inverse least
	order := make([][]int, 2)
	for _, j := range vars {
		k := 1
		if p.start[j+1]-p.start[j] == 1 {
			k = 0
		}
		order[k] = append(order[k], j)
	}
	taken := make([]bool, n)
	whole := true
	for _, group := range order {
		for _, j := range group {
			alpha := p.column(j)
			best, at := pivotTol, -1
			for r, a := range alpha {
				if !taken[r] && math.Abs(a) > best {
					best, at = math.Abs(a), r
				}
			}
			if at < 0 {
				whole = false
				p.at[j] = atLower
				continue
			}
			p.exchange(at, alpha)
			taken[at], p.head[at] = true, j
		}
	}
	for r := range taken {
		if !taken[r] {
			p.head[r] = -1
		}
	}
	if !whole {
		p.mend(taken)
	}
	p.since = 0
	p.solveBasics()
	return whole
}

// mend fills rows that found no variable with single-entry columns.
func (p *LP) mend(taken []bool) {
	for _, j := range p.unit {
		if p.at[j] == basic {
			continue
		}
		alpha := p.column(j)
		best, at := pivotTol, -1
		for r, a := range alpha {
			if !taken[r] && math.Abs(a) > best {
				best, at = math.Abs(a), r
			}
		}
		if at >= 0 {
			p.exchange(at, alpha)
			taken[at], p.head[at], p.at[j] = true, j, basic
		}
	}
}

// solveBasics is x_B = B^-1 (b - N x_N).
func (p *LP) solveBasics() {
	rhs := append([]float64{}, p.b...)
	for j := range p.cost {
		if p.at[j] == basic {
			continue
		}
		if x := p.nonbasic(j); x != 0 {
			for t := p.start[j]; t < p.start[j+1]; t++ {
				rhs[p.rows[t]] -= float64(p.vals[t] * x)
			}
		}
	}
	if p.sparse {
		copy(p.xb, rhs)
		p.forward(p.xb)
		return
	}
	n := p.n
	for r := range p.xb {
		sum := 0.0
		for i, v := range p.inv[r*n : (r+1)*n] {
			sum += float64(v * rhs[i])
		}
		p.xb[r] = sum
	}
	p.Work += int64(n) * int64(n)
}

// State is a basis to come back to.
type State struct {
	head   []int
	at     []int8
	inv    []float64
	lu     *factors
	swaps  []swapped
	xb     []float64
	lo, hi []float64
	since  int
}

// Save copies the state into s, whose room is used again.
func (p *LP) Save(s *State) {
	s.head = append(s.head[:0], p.head...)
	s.at = append(s.at[:0], p.at...)
	s.inv = append(s.inv[:0], p.inv...)
	s.lu, s.swaps = p.lu, p.swaps
	s.xb = append(s.xb[:0], p.xb...)
	s.lo = append(s.lo[:0], p.lo...)
	s.hi = append(s.hi[:0], p.hi...)
	s.since = p.since
}

// Restore goes back to s. Columns added since then stay, out of the basis, from 0 without limit.
func (p *LP) Restore(s *State) {
	copy(p.head, s.head)
	copy(p.at, s.at)
	for j := len(s.at); j < len(p.at); j++ {
		p.at[j], p.lo[j], p.hi[j] = atLower, 0, math.Inf(1)
	}
	copy(p.inv, s.inv)
	p.lu, p.swaps = s.lu, slices.Clip(s.swaps) // what comes after must not overwrite what another state keeps
	copy(p.xb, s.xb)
	copy(p.lo, s.lo)
	copy(p.hi, s.hi)
	p.since = s.since
	p.ray = nil
	p.Work += int64(len(p.inv) + len(p.at))
}
