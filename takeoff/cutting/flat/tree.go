package flat

import (
	"math"
	"slices"

	"ribband/takeoff/cutting/internal/simplex"
)

// tree looks for a plan within an aim among the strips and layouts at hand, by branching. At each node a few columns
// are tried both ways; a side that passes the aim is closed at once, which is what ends most branches.
type tree struct {
	*search
	aim    float64
	states []*simplex.State
	trial  simplex.State
	most   int64
	quick  bool
	whole  bool
	found  bool
}

// branching is how a tree is gone through: with all numbers at least keep below the whole part of the program's answer,
// for a part of the work allowed; quick ones try no columns and turn back a few times only.
type branching struct {
	keep  float64
	part  int64
	quick bool
}

// turns are how often a quick tree may take the second side of a branch.
const turns = 3

// States of the program kept for all depths of a tree, in numbers.
const mostKept = 32_000_000

// anywhere keeps nothing of the program's answer.
const anywhere = -1

// branch searches from the present program for a plan within an aim. It reports whether a plan was found, and whether every
// branch was followed to its end.
func (s *search) branch(aim float64, b branching) (found, whole bool) {
	t := tree{search: s, aim: aim, most: s.worked() + s.limits.Work/b.part, whole: true, quick: b.quick}
	var start simplex.State
	s.lp.Save(&start)
	defer s.lp.Restore(&start)
	if b.keep != anywhere {
		x := s.lp.Values()
		for _, list := range [][]int{s.cutCol, s.stripCol} {
			for _, j := range list {
				_, hi := s.lp.Bounds(j)
				s.lp.SetBounds(j, math.Max(0, math.Floor(x[j]+nearWhole)-b.keep), hi)
			}
		}
	}
	t.node(0, turns)
	return t.found, t.whole
}

// node looks at what the present bounds leave, both sides of one column after the other.
func (t *tree) node(depth, off int) {
	t.nodes++
	if t.worked() > t.most || t.spent() || depth > mostKept/(t.rows()*t.rows()) {
		t.whole = false
		return
	}
	if !t.solve(t.limits.Pivots) {
		return
	}
	t.tighten()
	col := t.choose()
	if col < 0 {
		return
	}
	for len(t.states) <= depth {
		t.states = append(t.states, &simplex.State{})
	}
	state := t.states[depth]
	x := t.lp.Values()[col]
	t.lp.Save(state)
	lo, hi := t.lp.Bounds(col)
	v := math.Floor(x + nearWhole)
	sides := []func(){
		func() { t.lp.SetBounds(col, math.Max(lo, v+1), hi) },
		func() { t.lp.SetBounds(col, lo, math.Min(hi, v)) },
	}
	if x-v < 0.5 && slices.Contains(t.buy, col) {
		sides[0], sides[1] = sides[1], sides[0]
	}
	for i, side := range sides {
		if t.quick && i > 0 {
			if off == 0 {
				t.whole = false
				return
			}
			off--
		}
		side()
		t.node(depth+1, off)
		t.lp.Restore(state)
		if t.found {
			return
		}
	}
}

// solve brings the program to its optimum within the present bounds; false when it passes the aim.
func (t *tree) solve(pivots int) bool {
	t.lp.Fresh()
	s := t.lp.Dual(pivots, t.aim)
	return (s == simplex.Optimal && t.lp.Primal(pivots) == simplex.Optimal || s == simplex.Stopped) && t.lp.Cost() <= t.aim
}

// tighten takes away what would pass the aim: a column at a bound may move from it only so far as its reduced cost
// allows.
func (t *tree) tighten() {
	room := t.aim - t.lp.Cost()
	y := t.lp.Duals(0)
	x := t.lp.Values()
	narrow := func(col int, over float64) {
		lo, hi := t.lp.Bounds(col)
		n := math.Floor(room/math.Abs(over) + nearWhole)
		switch {
		case over > 1e-9 && x[col] <= lo+nearWhole && lo+n < hi:
			t.lp.SetBounds(col, lo, lo+n)
		case over < -1e-9 && x[col] >= hi-nearWhole && hi-n > lo:
			t.lp.SetBounds(col, hi-n, hi)
		}
	}
	for i, j := range t.stripCol {
		over := -y[t.base[t.strips[i].group]+t.strips[i].level]
		for _, p := range t.gives[i] {
			over -= float64(float64(p.n) * y[p.thing])
		}
		narrow(j, over)
	}
	for i, j := range t.cutCol {
		c := t.cuts[i]
		f := t.forms[c.form]
		if t.stock[f.stock].Roll() {
			continue
		}
		over := -y[len(t.classes)+f.stock]
		for _, p := range c.slots {
			over += float64(float64(p.n) * y[t.base[f.group]+p.thing])
		}
		narrow(j, over)
	}
	for k, j := range t.buy {
		if !t.stock[k].Roll() {
			narrow(j, float64(t.stock[k].price)/t.norm+y[len(t.classes)+k])
		}
	}
}

// target is the most that a plan cheaper than the best may cost, in the program's costs.
func (s *search) target() float64 {
	if s.best == nil {
		return math.Inf(1)
	}
	return math.Floor(float64((s.best.Cost-1)*s.per)/float64(s.unit))/s.norm + 1e-7
}

// batches are the numbers of layouts and strips.
func (s *search) batches(x []float64) map[item]int64 {
	out := map[item]int64{}
	for i, j := range s.cutCol {
		if n := int64(math.Round(x[j])); n > 0 {
			out[item{true, i}] = n
		}
	}
	for i, j := range s.stripCol {
		if n := int64(math.Round(x[j])); n > 0 {
			out[item{false, i}] = n
		}
	}
	return out
}
