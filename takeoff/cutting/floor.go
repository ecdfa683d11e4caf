package cutting

import "math"

// judge is the bound of a node in integers: with any whole values of pieces and of strips, the sum of the pieces and,
// for each column, its reduced cost times the bound it would then rest on. It takes nothing from the program but
// the values, so that rounding can make it weak but never false.
type judge struct {
	*search
	values []int64 // of items
	strips []int64 // of a strip of each board
	over   []int64 // reduced cost of each layout
	dearer []int64 // and of each board
	floor  int64
	ok     bool // false when a sum left its range
}

// bound is the judgement of the program's duals within its present bounds.
func (s *search) bound(y []float64) judge {
	j := judge{search: s, values: s.integers(y), strips: make([]int64, len(s.boards)), over: make([]int64, len(s.layouts)), dearer: make([]int64, len(s.boards)), ok: true}
	for k := range s.boards {
		j.strips[k] = s.whole(-y[len(s.items)+k])
	}
	for l, lay := range s.layouts {
		for _, c := range lay.counts {
			j.over[l] -= j.product(j.values[c.item], c.k)
		}
		// a layout without limit rests at its lower bound if its strip is worth at least its pieces
		if _, hi := s.lp.Bounds(s.column[l]); math.IsInf(hi, 1) {
			j.strips[lay.board] = max(j.strips[lay.board], -j.over[l])
		}
	}
	s.work += int64(4 * len(s.layouts))
	for i, it := range s.items {
		j.add(j.product(j.values[i], it.demand))
	}
	for l, lay := range s.layouts {
		j.over[l] += j.strips[lay.board]
		lo, hi := s.lp.Bounds(s.column[l])
		j.rest(j.over[l], lo, hi)
	}
	for k, b := range s.boards {
		j.dearer[k] = b.price*s.scale - j.product(j.strips[k], b.strips)
		lo, hi := s.lp.Bounds(s.boardCol[k])
		j.rest(j.dearer[k], lo, hi)
	}
	return j
}

func (j *judge) rest(over int64, lo, hi float64) {
	switch {
	case over >= 0:
		j.add(j.product(over, int64(lo)))
	case math.IsInf(hi, 1):
		j.ok = false
	default:
		j.add(j.product(over, int64(hi)))
	}
}

// Sums of a judgement stay within this; whatever passes it proves nothing.
const bigSum = int64(1) << 60

func (j *judge) add(v int64) {
	j.floor += v
	if j.floor > bigSum || j.floor < -bigSum {
		j.ok = false
		j.floor = 0
	}
}

func (j *judge) product(a, b int64) int64 {
	if f := float64(a) * float64(b); f > 1<<60 || f < -(1<<60) {
		j.ok = false
		return 0
	}
	return a * b
}

// target is the most, in unit/scale, that a plan cheaper than the best may cost.
func (s *search) target() int64 {
	if s.best == nil {
		return bigSum
	}
	return (s.best.Cost/s.unit - 1) * s.scale
}

// beaten reports whether no plan within the present bounds is cheaper than the best.
func (j *judge) beaten() bool { return j.ok && j.floor > j.target() }

// tighten takes away what the judgement rules out: numbers of layouts and boards that would pass the target.
func (j *judge) tighten() {
	if !j.ok {
		return
	}
	room := j.target() - j.floor
	narrow := func(col int, over int64) {
		if over == 0 {
			return
		}
		lo, hi := j.lp.Bounds(col)
		n := float64(room / max(over, -over))
		if n >= float64(j.pieces) { // no limit worth having: without one the column can rest anywhere
			return
		}
		if over > 0 && lo+n < hi {
			j.lp.SetBounds(col, lo, lo+n)
		} else if over < 0 && hi-n > lo {
			j.lp.SetBounds(col, hi-n, hi)
		}
	}
	for l, over := range j.over {
		narrow(j.column[l], over)
	}
	for k, over := range j.dearer {
		narrow(j.boardCol[k], over)
	}
}
