package cutting

import (
	"math"

	"ribband/takeoff/cutting/internal/simplex"
)

// exhaust searches all plans made of the listed layouts that are cheaper than the best; true when none is left. Numbers
// of boards are decided first, then numbers of layouts. Every branch that is given up is given up by a judgement
// in integers.
func (s *search) exhaust(nodes int) bool {
	t := tree{search: s, most: s.nodes + nodes, whole: true, room: s.target() - s.proved}
	var start simplex.State
	s.lp.Save(&start)
	defer s.lp.Restore(&start)
	t.node(0)
	return t.whole
}

type tree struct {
	*search
	states []*simplex.State
	most   int
	whole  bool // nothing has been left open
	room   int64
}

// node looks at what the present bounds leave.
func (t *tree) node(depth int) {
	t.nodes++
	if t.nodes > t.most || t.spent() || depth > 2000 || len(t.layouts) > 500 && t.target()-t.proved < t.room/2 {
		t.whole = false
		return
	}
	status := t.solve()
	if t.prune(status) {
		return
	}
	if status != simplex.Optimal {
		t.whole = false
		return
	}
	x := t.lp.Values()
	col, least := t.fraction(x)
	if col < 0 {
		t.offer(t.batches(x, false))
		j := t.bound(t.lp.Duals(0))
		if j.beaten() {
			return
		}
		if col = t.open(x); col < 0 {
			return // every number is decided and the plan they make was offered
		}
	} else if depth < 3 || depth%16 == 0 {
		t.offer(t.batches(x, true))
	}
	t.split(depth, col, x[col], least)
}

// solve brings the program to its optimum within the present bounds.
func (t *tree) solve() simplex.Status {
	t.lp.Fresh()
	status := t.lp.Dual(t.limits.Pivots, math.Inf(1))
	if status == simplex.Optimal {
		status = t.lp.Primal(t.limits.Pivots)
	}
	return status
}

// prune judges the node; of an infeasible one several points along the ray.
func (t *tree) prune(status simplex.Status) bool {
	gains := []float64{0}
	if status == simplex.Infeasible {
		gains = []float64{1, 10, 0.1, 100, 0.01, 1e4, 1e-4, 0}
	}
	for i, g := range gains {
		j := t.bound(t.lp.Duals(g))
		if j.beaten() {
			return true
		}
		if i == 0 && status == simplex.Optimal {
			j.tighten()
		}
	}
	return false
}

// fraction is the column to branch on: the board whose number is furthest from whole, weighed by its price, or one of
// which fewer than the least order would be bought; then the layout nearest below a whole number. -1 when all are
// whole. least is set for a least order.
func (t *tree) fraction(x []float64) (col int, least bool) {
	best := 0.0
	col = -1
	for k, b := range t.boards {
		v := x[t.boardCol[k]]
		off := math.Abs(v - math.Round(v))
		if off > nearWhole && off*float64(b.price) > best {
			best, col = off*float64(b.price), t.boardCol[k]
		}
	}
	if col >= 0 {
		return col, false
	}
	for k, b := range t.boards {
		if v := x[t.boardCol[k]]; v > nearWhole && v < float64(b.stock.Least)-nearWhole {
			return t.boardCol[k], true
		}
	}
	for _, j := range t.column {
		if part := x[j] - math.Floor(x[j]+nearWhole); part > nearWhole && part > best {
			best, col = part, j
		}
	}
	return col, false
}

// open is a column whose number is not decided yet although all are whole; -1 for none.
func (t *tree) open(x []float64) int {
	for _, list := range [][]int{t.boardCol, t.column} {
		for _, j := range list {
			if lo, hi := t.lp.Bounds(j); lo < hi {
				return j
			}
		}
	}
	return -1
}

// split looks at both sides of a column's value.
func (t *tree) split(depth, col int, v float64, least bool) {
	for len(t.states) <= depth {
		t.states = append(t.states, &simplex.State{})
	}
	state := t.states[depth]
	t.lp.Save(state)
	lo, hi := t.lp.Bounds(col)
	below, above := math.Floor(v+nearWhole), math.Floor(v+nearWhole)+1
	if least {
		below = 0
		for k, j := range t.boardCol {
			if j == col {
				above = float64(t.boards[k].stock.Least)
			}
		}
	}
	up := func() {
		if above <= hi {
			t.lp.SetBounds(col, math.Max(lo, above), hi)
			t.node(depth + 1)
			t.lp.Restore(state)
		}
	}
	down := func() {
		if below >= lo {
			t.lp.SetBounds(col, lo, math.Min(hi, below))
			t.node(depth + 1)
			t.lp.Restore(state)
		}
	}
	if isBoard := col < len(t.boardCol)*2; isBoard && v-below < 0.5 {
		down()
		up()
		return
	}
	up()
	down()
}

// batches are the numbers of layouts in x, rounded, or up where something is left of one.
func (t *tree) batches(x []float64, up bool) []batch {
	var out []batch
	for l, j := range t.column {
		n := int64(math.Round(x[j]))
		if up {
			n = int64(math.Ceil(x[j] - nearWhole))
		}
		if n > 0 {
			out = append(out, batch{t.layouts[l], n})
		}
	}
	return out
}
