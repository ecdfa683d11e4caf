package simplex

import (
	"cmp"
	"math"
	"slices"
)

// factors are the basis as L U in pivot order, and a column for each exchange since (the product form). They serve
// programs of many rows, whose bases are mostly noughts: solving with them costs their entries, not the rows squared.
// What has been made is never changed, so that a state to come back to keeps them without a copy.
type factors struct {
	pivot []int32 // the row of each step, which is also the basic variable's
	diag  []float64
	lower columns // below the pivots, as multiples of them
	upper columns // above the pivots
}

// columns are sparse columns one after another.
type columns struct {
	start []int32
	rows  []int32
	vals  []float64
}

func (c *columns) close() { c.start = append(c.start, int32(len(c.rows))) }

func (c *columns) add(row int, v float64) {
	c.rows, c.vals = append(c.rows, int32(row)), append(c.vals, v)
}

func (c *columns) column(k int) (rows []int32, vals []float64) {
	a, b := c.start[k], c.start[k+1]
	return c.rows[a:b], c.vals[a:b]
}

// swapped is an exchange: the entering column through the inverse of before, apart from its element in the row.
type swapped struct {
	row  int
	at   float64
	rows []int32
	vals []float64
}

// Elements smaller than this are taken for rounding's. A pivot may be smaller than the largest of its column by
// steady, where its row has fewer entries.
const (
	tiny   = 1e-13
	steady = 0.1
)

// sparsely is what a multiplication by an entry found through its index counts in Work: measured, it takes about twice
// the time of one along a row of the inverse.
const sparsely = 2

// choice is a column in the order of elimination; row is -1 where the numbers choose it.
type choice struct{ j, row int }

// order puts columns first that no other disturbs: those with one entry in the rows left, then those that are the last
// in a row, then the rest, short ones first. counts are the entries in each row among the rest.
func (p *LP) order() (out []choice, counts []int) {
	n := p.n
	in, counts := make([][]int32, n), make([]int, n) // columns in each row, as places in the basis
	left := make([]int, n)                           // entries of each column in rows left
	for c, j := range p.head {
		rows := p.rows[p.start[j]:p.start[j+1]]
		left[c] = len(rows)
		for _, r := range rows {
			in[r] = append(in[r], int32(c))
			counts[r]++
		}
	}
	usedRow, usedCol := make([]bool, n), make([]bool, n)
	var queue []int
	take := func(c, row int) {
		usedRow[row], usedCol[c] = true, true
		out = append(out, choice{p.head[c], row})
	}
	for c, k := range left {
		if k == 1 {
			queue = append(queue, c)
		}
	}
	for ; len(queue) > 0; queue = queue[1:] {
		c := queue[0]
		if usedCol[c] || left[c] != 1 {
			continue
		}
		j := p.head[c]
		row := -1
		for _, r := range p.rows[p.start[j]:p.start[j+1]] {
			if !usedRow[r] {
				row = int(r)
			}
		}
		take(c, row)
		for _, d := range in[row] {
			if left[d]--; left[d] == 1 && !usedCol[d] {
				queue = append(queue, int(d))
			}
		}
	}
	clear(counts)
	for c, j := range p.head {
		if !usedCol[c] {
			for _, r := range p.rows[p.start[j]:p.start[j+1]] {
				counts[r]++
			}
		}
	}
	for r, k := range counts {
		if k == 1 && !usedRow[r] {
			queue = append(queue, r)
		}
	}
	for ; len(queue) > 0; queue = queue[1:] {
		row := queue[0]
		if usedRow[row] || counts[row] != 1 {
			continue
		}
		for _, c := range in[row] {
			if usedCol[c] {
				continue
			}
			take(int(c), row)
			j := p.head[c]
			for _, r := range p.rows[p.start[j]:p.start[j+1]] {
				if counts[r]--; counts[r] == 1 && !usedRow[r] {
					queue = append(queue, int(r))
				}
			}
			break
		}
	}
	first := len(out)
	for c, j := range p.head {
		if !usedCol[c] {
			out = append(out, choice{j, -1})
		}
	}
	slices.SortStableFunc(out[first:], func(a, b choice) int {
		return cmp.Compare(p.start[a.j+1]-p.start[a.j], p.start[b.j+1]-p.start[b.j])
	})
	return out, counts
}

// scatter writes column j into x, which is noughts.
func (p *LP) scatter(j int, x []float64) {
	for t := p.start[j]; t < p.start[j+1]; t++ {
		x[p.rows[t]] += p.vals[t]
	}
}

// down is x = L^-1 x, by the steps there are from first on.
func (f *factors) down(x []float64, first int) (work int64) {
	for k := first; k < len(f.pivot); k++ {
		v := x[f.pivot[k]]
		if v == 0 {
			continue
		}
		rows, vals := f.lower.column(k)
		for t, q := range rows {
			x[q] -= float64(vals[t] * v)
		}
		work += int64(len(rows))
	}
	return work
}

// forward is x = B^-1 x.
func (p *LP) forward(x []float64) {
	f := p.lu
	work := f.down(x, 0) + int64(2*p.n)
	for k := len(f.pivot) - 1; k >= 0; k-- {
		r := f.pivot[k]
		v := x[r]
		if v == 0 {
			continue
		}
		v /= f.diag[k]
		x[r] = v
		rows, vals := f.upper.column(k)
		for t, q := range rows {
			x[q] -= float64(vals[t] * v)
		}
		work += int64(len(rows))
	}
	for i := range p.swaps {
		e := &p.swaps[i]
		v := x[e.row]
		if v == 0 {
			continue
		}
		v /= e.at
		x[e.row] = v
		for t, q := range e.rows {
			x[q] -= float64(e.vals[t] * v)
		}
		work += int64(len(e.rows))
	}
	p.Work += sparsely * work
}

// backward is x = x B^-1.
func (p *LP) backward(x []float64) {
	f := p.lu
	for i := len(p.swaps) - 1; i >= 0; i-- {
		e := &p.swaps[i]
		s := x[e.row]
		for t, q := range e.rows {
			s -= float64(e.vals[t] * x[q])
		}
		x[e.row] = s / e.at
		p.Work += int64(sparsely * len(e.rows))
	}
	for k, r := range f.pivot {
		rows, vals := f.upper.column(k)
		s := x[r]
		for t, q := range rows {
			s -= float64(vals[t] * x[q])
		}
		x[r] = s / f.diag[k]
	}
	for k := len(f.pivot) - 1; k >= 0; k-- {
		rows, vals := f.lower.column(k)
		s := x[f.pivot[k]]
		for t, q := range rows {
			s -= float64(vals[t] * x[q])
		}
		x[f.pivot[k]] = s
	}
	p.Work += int64(sparsely * (len(f.lower.rows) + len(f.upper.rows) + 2*p.n))
}

// note keeps an exchange.
func (p *LP) note(r int, alpha []float64) {
	e := swapped{row: r, at: alpha[r]}
	for i, a := range alpha {
		if i != r && math.Abs(a) > tiny {
			e.rows, e.vals = append(e.rows, int32(i)), append(e.vals, a)
		}
	}
	p.swaps = append(p.swaps, e)
	p.Pivots++
}
