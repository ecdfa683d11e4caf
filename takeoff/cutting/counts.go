package cutting

import (
	"container/heap"
	"math"
	"slices"

	"ribband/takeoff/cutting/internal/simplex"
)

// counts is the search over the numbers of boards: regions of them, the one with the lowest floor first. The program is
// solved anew in each region, with new layouts where they help, and every set of values it gives is kept, for each
// says something of every region. A region goes when its floor, in integers, passes what a cheaper plan may cost; else
// it is parted at a board whose number is not whole in the program's answer. Where all are whole, those numbers are
// tried by themselves.
type counts struct {
	*search
	queue regions
	kept  []values
	open  []region // given up: neither a plan was found in them nor that there is none
	made  int
}

// region is bounds on the numbers of boards, with a floor in unit/scale.
type region struct {
	lo, hi []int64
	floor  int64
	order  int
}

// regions are a heap, the lowest floor first and the latest among equals.
type regions []region

func (q regions) Len() int { return len(q) }
func (q regions) Less(i, j int) bool {
	return q[i].floor < q[j].floor || q[i].floor == q[j].floor && q[i].order > q[j].order
}
func (q regions) Swap(i, j int) { q[i], q[j] = q[j], q[i] }

// Push is for container/heap.
func (q *regions) Push(x any) { *q = append(*q, x.(region)) }

// Pop is for container/heap.
func (q *regions) Pop() any {
	last := len(*q) - 1
	r := (*q)[last]
	*q = (*q)[:last]
	return r
}

// count searches all numbers of boards. It gives a floor of every plan, in unit/scale, which is the best plan's cost or
// more when none is cheaper.
func (s *search) count() (floor int64) {
	t := counts{search: s}
	heap.Push(&t.queue, s.everywhere())
	for t.queue.Len() > 0 && t.queue[0].floor <= s.target() {
		if s.nodes++; s.nodes > s.limits.Nodes || s.spent() {
			break
		}
		t.look(heap.Pop(&t.queue).(region))
	}
	floor = s.target() + s.scale
	for _, r := range append(t.open, t.queue...) {
		floor = min(floor, r.floor)
	}
	return floor
}

// everywhere is the region of all plans cheaper than the best.
func (s *search) everywhere() region {
	r := region{lo: make([]int64, len(s.boards)), hi: make([]int64, len(s.boards)), floor: s.proved}
	for k, b := range s.boards {
		r.hi[k] = min(s.target()/s.scale/b.price, max(b.stock.boards(s.pieces), 1))
		if b.most >= 0 {
			r.hi[k] = min(r.hi[k], b.most)
		}
	}
	return r
}

// look solves the program in a region and closes it or parts it.
func (t *counts) look(r region) {
	t.within(r)
	if !t.settle(&r) {
		t.open = append(t.open, r)
		return
	}
	if r.floor > t.target() {
		return
	}
	x := t.lp.Values()
	if k := t.broken(x); k >= 0 {
		n := int64(math.Floor(x[t.boardCol[k]]))
		t.part(r, k, r.lo[k], n)
		t.part(r, k, n+1, r.hi[k])
		return
	}
	n := make([]int64, len(t.boards))
	for k, b := range t.boards {
		n[k] = int64(math.Round(x[t.boardCol[k]]))
		if n[k] > 0 && n[k] < b.stock.Least {
			t.part(r, k, r.lo[k], 0)
			t.part(r, k, b.stock.Least, r.hi[k])
			return
		}
	}
	t.single(r, n)
}

// within sets the program's bounds on the numbers of boards.
func (t *counts) within(r region) {
	for k, j := range t.boardCol {
		t.lp.SetBounds(j, float64(r.lo[k]), float64(r.hi[k]))
	}
	t.lp.Fresh()
}

// settle brings the program to its optimum over all layouts, or the region's floor past the target; false when
// it could not.
func (t *counts) settle(r *region) bool {
	if t.lp.Dual(t.limits.Pivots, math.Inf(1)) != simplex.Optimal {
		return false
	}
	for dearer := 0; ; {
		if t.spent() || t.lp.Primal(t.limits.Pivots) != simplex.Optimal {
			return false
		}
		y := t.lp.Duals(0)
		items := t.integers(y)
		t.price(items)
		if v, ok := t.valued(items); ok {
			r.floor = max(r.floor, v.floor(t.search, r))
			t.kept = append(t.kept, v)
		}
		switch {
		case r.floor > t.target():
			return true
		case t.bring(y) > 0:
		case t.uncut() < nearWhole:
			return true
		case dearer > 5:
			return false
		default: // pieces left out must cost so much that the floor shows that they cannot all be cut
			dearer++
			t.raise()
		}
	}
}

// broken is the board whose number in the program's answer is furthest from whole, weighed by its price; -1 for none.
func (t *counts) broken(x []float64) int {
	best, at := 0.0, -1
	for k, b := range t.boards {
		v := x[t.boardCol[k]]
		off := math.Abs(v - math.Round(v))
		if off > nearWhole && off*float64(b.price) > best {
			best, at = off*float64(b.price), k
		}
	}
	return at
}

// part puts the part of a region with lo to hi of board k in the queue if it may hold a cheaper plan.
func (t *counts) part(r region, k int, lo, hi int64) {
	if lo > hi {
		return
	}
	q := region{lo: slices.Clone(r.lo), hi: slices.Clone(r.hi), floor: r.floor}
	q.lo[k], q.hi[k] = lo, hi
	for i := range t.kept {
		q.floor = max(q.floor, t.kept[i].floor(t.search, &q))
	}
	t.work += int64(len(t.kept) * len(t.boards))
	if q.floor <= t.target() {
		t.made++
		q.order = t.made
		heap.Push(&t.queue, q)
	}
}
