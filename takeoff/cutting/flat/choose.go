package flat

import (
	"cmp"
	"math"
	"slices"

	"ribband/takeoff/cutting/internal/simplex"
)

// So many columns are tried at a node, with so many pivots each.
const (
	tried     = 8
	tryPivots = 25
)

// choose is the column to branch on, of some fractional ones that whose sides cost most; -1 when the node is done: all
// are whole and the plan they make was offered, or both sides of one pass the aim.
func (t *tree) choose() int {
	if t.quick {
		return t.largest()
	}
	for {
		x := t.lp.Values()
		list := t.fractions(x)
		if len(list) == 0 {
			t.found = t.offer(t.batches(x)) || t.found
			return -1
		}
		best, col, closed := -1.0, -1, false
		base := t.lp.Cost()
		t.lp.Save(&t.trial)
		for _, j := range list {
			lo, hi := t.lp.Bounds(j)
			v := math.Floor(x[j] + nearWhole)
			down := t.try(j, lo, math.Min(hi, v)) - base
			up := t.try(j, math.Max(lo, v+1), hi) - base
			if math.IsInf(down, 1) && math.IsInf(up, 1) {
				return -1
			}
			if math.IsInf(up, 1) {
				t.lp.SetBounds(j, lo, math.Min(hi, v))
				closed = true
				break
			}
			if math.IsInf(down, 1) {
				t.lp.SetBounds(j, math.Max(lo, v+1), hi)
				closed = true
				break
			}
			if score := math.Max(down, 1e-6) * math.Max(up, 1e-6); score > best {
				best, col = score, j
			}
		}
		if !closed {
			return col
		}
		if t.spent() {
			t.whole = false
			return -1
		}
		if !t.solve(t.limits.Pivots) {
			return -1
		}
		t.tighten()
	}
}

// largest is the column with the largest part over a whole number, of what is bought, else of layouts, else of strips; -1
// when all are whole and the plan was offered.
func (t *tree) largest() int {
	x := t.lp.Values()
	for _, list := range [][]int{t.buy, t.cutCol, t.stripCol} {
		best, col := nearWhole, -1
		for _, j := range list {
			if part := x[j] - math.Floor(x[j]+nearWhole); part > best && !t.length(j) {
				best, col = part, j
			}
		}
		if col >= 0 {
			return col
		}
	}
	t.found = t.offer(t.batches(x)) || t.found
	return -1
}

// length reports whether a column is a length bought off a roll, which need not be whole.
func (t *tree) length(col int) bool {
	k := slices.Index(t.buy, col)
	return k >= 0 && t.stock[k].Roll()
}

// try is what the program costs with other bounds, infinite when it passes the aim.
func (t *tree) try(col int, lo, hi float64) float64 {
	defer t.lp.Restore(&t.trial)
	if lo > hi {
		return math.Inf(1)
	}
	t.lp.SetBounds(col, lo, hi)
	t.lp.Fresh()
	s := t.lp.Dual(tryPivots, t.aim)
	if c := t.lp.Cost(); (s == simplex.Optimal || s == simplex.Stopped) && c <= t.aim {
		return c
	}
	return math.Inf(1)
}

// fractions are some columns whose numbers are furthest from whole: of what is bought, of layouts and of strips.
func (t *tree) fractions(x []float64) []int {
	off := func(j int) float64 { return math.Abs(x[j] - math.Round(x[j])) }
	var out []int
	for _, list := range [][]int{t.buy, t.cutCol, t.stripCol} {
		var some []int
		for _, j := range list {
			if off(j) > nearWhole && !t.length(j) {
				some = append(some, j)
			}
		}
		slices.SortStableFunc(some, func(a, b int) int { return cmp.Compare(off(b), off(a)) })
		out = append(out, some[:min(len(some), tried/2)]...)
	}
	return out[:min(len(out), tried)]
}
