package cutting

import (
	"container/heap"
	"math"
	"slices"

	"ribband/takeoff/cutting/internal/simplex"
)

// counts is the search over the numbers of boards: regions of them, the one with the lowest floor first. A region goes
// when its floor, in integers, passes what a cheaper plan may cost; else it is parted at a board whose number is not
// whole. Where all are whole, those numbers are tried by themselves. What a region's floor is and where it lies is
// asked of the mix of all values so far; of the program over layouts, with new ones where they help, only where the
// mix says that numbers are whole, and as often beside that as it is found to know better.
type counts struct {
	*search
	mix    *mix
	queue  regions
	open   []region // given up: neither a plan was found in them nor that there is none
	made   int
	swayed bool
	listed int // layouts put together last
	mean   int // which of the values kept is a mean, 0 for none
	// wait is how many regions go by before the program is asked again, twice as many each time that was for nothing.
	wait, pause int
}

// The program knows better when it lifts a floor by this part of the gap at the root. Less is not worth a table.
const (
	worthAsking  = 0.05
	worthPricing = 0.005
	longestPause = 64
)

// region is bounds on the numbers of boards.
type region struct {
	lo, hi []int64
	floor  int64     // in unit/scale
	n      []float64 // numbers of boards at which the mix has its floor, nil if it has none
	order  int
	tried  []int64 // the numbers of boards where they were given up
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
	s.packShare = packShare
	t := counts{search: s, mix: newMix(s)}
	root := s.integers(s.lp.Duals(0)) // the root's values say most of all
	s.price(root)
	if v, ok := s.valued(root); ok {
		t.mix.add(v)
	}
	heap.Push(&t.queue, s.everywhere())
	for t.queue.Len() > 0 && t.queue[0].floor <= s.target() {
		if s.nodes++; s.nodes > s.limits.Nodes || s.spent() {
			break
		}
		t.look(heap.Pop(&t.queue).(region))
	}
	if t.queue.Len() == 0 || t.queue[0].floor > s.target() {
		t.again()
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
		r.hi[k] = min(s.target()/s.scale/b.price, max(b.stock.boards(s.pieces+s.joints), 1))
		if b.most >= 0 {
			r.hi[k] = min(r.hi[k], b.most)
		}
	}
	return r
}

// look closes a region or parts it.
func (t *counts) look(r region) {
	if t.wait > 0 && r.n != nil && t.parted(r, r.n) {
		t.wait--
		return
	}
	before := r.floor
	t.within(r)
	if !t.settle(&r) {
		t.open = append(t.open, r)
		return
	}
	if float64(r.floor-before) > worthAsking*t.gap() {
		t.wait, t.pause = 0, 1
	} else {
		t.pause = min(2*t.pause, longestPause)
		t.wait = t.pause
	}
	if r.floor > t.target() {
		return
	}
	x := t.numbers()
	if t.parted(r, x) {
		return
	}
	n := make([]int64, len(t.boards))
	for k, b := range t.boards {
		n[k] = min(max(int64(math.Round(x[k])), r.lo[k]), r.hi[k])
		if n[k] > 0 && n[k] < b.stock.Least {
			t.part(r, k, r.lo[k], 0)
			t.part(r, k, b.stock.Least, r.hi[k])
			return
		}
	}
	t.single(r, n)
}

// gap between what a cheaper plan may cost and the floor at the root.
func (t *counts) gap() float64 { return float64(t.target() - t.proved) }

// within sets the program's bounds on the numbers of boards.
func (t *counts) within(r region) {
	for k, j := range t.boardCol {
		t.lp.SetBounds(j, float64(r.lo[k]), float64(r.hi[k]))
	}
	t.lp.Fresh()
}

// settle brings the program to its optimum over all layouts, or the region's floor past the target; false when it
// could not. It goes without where the program's cost, which more layouts only lower, is hardly above the floor.
func (t *counts) settle(r *region) bool {
	if t.lp.Dual(t.limits.Pivots, math.Inf(1)) != simplex.Optimal {
		return false
	}
	if cost := t.lp.Cost() * t.norm * float64(t.scale); cost < float64(r.floor)+float64(worthPricing*t.gap()) && t.uncut() < nearWhole && t.broken(t.numbers()) >= 0 {
		return true
	}
	defer t.charge(t.dear) // raised from region to region it would leave the range of whole values
	for dearer := 0; ; {
		if t.spent() || t.lp.Primal(t.limits.Pivots) != simplex.Optimal {
			return false
		}
		y := t.lp.Duals(0)
		items := t.integers(y)
		t.price(items)
		if v, ok := t.valued(items); ok {
			r.floor = max(r.floor, v.floor(t.search, r))
			t.mix.add(v)
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

// numbers of boards in the program's answer.
func (t *counts) numbers() []float64 {
	n := make([]float64, len(t.boards))
	for k, j := range t.boardCol {
		n[k] = t.lp.Value(j)
	}
	return n
}

// broken is the board whose number is furthest from whole, weighed by its price; -1 for none.
func (t *counts) broken(n []float64) int {
	best, at := 0.0, -1
	for k, b := range t.boards {
		off := math.Abs(n[k] - math.Round(n[k]))
		if off > nearWhole && off*float64(b.price) > best {
			best, at = off*float64(b.price), k
		}
	}
	return at
}

// parted parts a region at a number that is not whole; false when there is none.
func (t *counts) parted(r region, n []float64) bool {
	k := t.broken(n)
	if k < 0 {
		return false
	}
	below := int64(math.Floor(n[k]))
	if below < r.lo[k] || below >= r.hi[k] {
		return false // rounding has carried it out of the region
	}
	t.part(r, k, r.lo[k], below)
	t.part(r, k, below+1, r.hi[k])
	return true
}

// part puts the part of a region with lo to hi of board k in the queue if it may hold a cheaper plan.
func (t *counts) part(r region, k int, lo, hi int64) {
	if lo > hi {
		return
	}
	q := region{lo: slices.Clone(r.lo), hi: slices.Clone(r.hi), floor: r.floor}
	q.lo[k], q.hi[k] = lo, hi
	before := t.mix.lp.Work
	q.n = t.mix.floor(&q)
	t.work += t.mix.lp.Work - before
	if q.floor <= t.target() {
		t.made++
		q.order = t.made
		heap.Push(&t.queue, q)
	}
}
