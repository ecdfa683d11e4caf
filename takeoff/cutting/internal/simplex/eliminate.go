package simplex

import (
	"math"
	"slices"
)

// factorise makes the factors afresh from the basis, mending it with single-entry columns where it has become singular;
// false when it had to.
func (p *LP) factorise() bool {
	n := p.n
	f := &factors{}
	f.lower.close()
	f.upper.close()
	p.lu, p.swaps = f, nil
	order, counts := p.order()
	e := elimination{factors: f, lp: p, x: make([]float64, n), step: make([]int, n), counts: counts}
	whole := true
	for e.single < len(order) && order[e.single].row >= 0 && e.plain(order[e.single]) {
		e.single++
	}
	for r := range n {
		if e.step[r] == 0 {
			e.left = append(e.left, r)
		}
	}
	for _, c := range order[e.single:] {
		if !e.full(c) {
			whole, p.at[c.j] = false, atLower
		}
	}
	for r := range e.step {
		if e.step[r] == 0 && p.at[p.unit[r]] != basic && e.full(choice{p.unit[r], r}) {
			p.at[p.unit[r]] = basic
		}
	}
	return whole
}

// elimination is a factorisation under way.
type elimination struct {
	*factors
	lp     *LP
	x      []float64 // the column at hand, noughts between columns
	step   []int     // of each row, from 1; 0 for a row left
	single int       // plain steps, which come first
	left   []int     // rows left, among some that are not any more
	counts []int
}

// plain takes a column that no earlier one disturbs: its entries stand as they are. false where the pivot is too small.
func (e *elimination) plain(c choice) bool {
	p := e.lp
	pivot := 0.0
	for t := p.start[c.j]; t < p.start[c.j+1]; t++ {
		if int(p.rows[t]) == c.row {
			pivot += p.vals[t]
		}
	}
	if math.Abs(pivot) <= pivotTol {
		return false
	}
	for t := p.start[c.j]; t < p.start[c.j+1]; t++ {
		switch r, v := int(p.rows[t]), p.vals[t]; {
		case r == c.row || math.Abs(v) < tiny:
		case e.step[r] > 0:
			e.upper.add(r, v)
		default:
			e.lower.add(r, v/pivot)
		}
	}
	e.took(c, c.row, pivot)
	return true
}

// took closes a step.
func (e *elimination) took(c choice, row int, pivot float64) {
	e.upper.close()
	e.lower.close()
	e.pivot, e.diag = append(e.pivot, int32(row)), append(e.diag, pivot)
	e.step[row], e.lp.head[row] = len(e.pivot), c.j
}

// full takes a column after the steps there are; false when it leaves nothing to pivot on.
func (e *elimination) full(c choice) bool {
	x := e.x
	e.lp.scatter(c.j, x)
	e.down(x, e.single) // the steps before disturb nothing
	row := e.choose(c.row)
	e.lp.Work += int64(2 * sparsely * e.lp.n)
	if row < 0 {
		clear(x)
		return false
	}
	for r, v := range x {
		if v == 0 {
			continue
		}
		switch {
		case r == row || math.Abs(v) < tiny:
		case e.step[r] > 0:
			e.upper.add(r, v)
		default:
			e.lower.add(r, v/x[row])
		}
	}
	e.took(c, row, x[row])
	clear(x)
	return true
}

// choose is the row to pivot on: the wanted one, or of those with a large enough element the one with fewest entries.
func (e *elimination) choose(wanted int) int {
	if wanted >= 0 && e.step[wanted] == 0 && math.Abs(e.x[wanted]) > pivotTol {
		return wanted
	}
	e.left = slices.DeleteFunc(e.left, func(r int) bool { return e.step[r] > 0 })
	most := pivotTol
	for _, r := range e.left {
		most = max(most, math.Abs(e.x[r]))
	}
	at := -1
	for _, r := range e.left {
		v := math.Abs(e.x[r])
		if v < steady*most || v <= pivotTol {
			continue
		}
		if at < 0 || e.counts[r] < e.counts[at] || e.counts[r] == e.counts[at] && v > math.Abs(e.x[at]) {
			at = r
		}
	}
	return at
}
