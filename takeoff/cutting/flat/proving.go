package flat

import (
	"cmp"
	"math"
	"math/big"
	"slices"

	"ribband/takeoff/cutting/internal/simplex"
)

// node is a case: how often it was parted and by what, and the best floor so far with what shows it.
type node struct {
	path   []side
	values []int64 // by class
	worths []int64 // by side
	floor  int64   // in units
	usage  float64 // the program's cost
	state  *simplex.State
	part   *parted
}

// side is what a case is bounded by.
type side struct {
	counted
	few, many int64
}

// parted are the two cases of a node.
type parted struct {
	counted
	most        int64
	fewer, more *node
}

// Cases are told apart until so many were looked at.
const mostCases = 600

// byCases tries to show by cases that no plan is cheaper than the best, until so much work is done, and goes on where it ended
// before. It is for two stages, where all is cut from sheets of which few do.
func (s *search) byCases(until int64) {
	if s.best == nil || s.settled() || !s.provable() {
		return
	}
	v := s.prover
	if v == nil {
		v = newProver(s)
		s.prover = v
	}
	v.until = until
	v.aim()
	if v.root == nil {
		v.root = &node{values: make([]int64, len(s.classes))}
		v.keep(v.root, v.solve(v.root))
	}
	for len(v.open) > 0 && v.cases < mostCases && !v.over() {
		at := 0
		for i, n := range v.open {
			if cmp.Or(cmp.Compare(n.floor, v.open[at].floor), cmp.Compare(n.usage, v.open[at].usage)) < 0 {
				at = i
			}
		}
		n := v.open[at]
		v.open = slices.Delete(v.open, at, at+1)
		if n.floor <= v.target {
			v.part(n)
		}
	}
	s.cased = s.list.costOf(v.root.least(), s.unit, s.per)
	s.work += v.lp.Work - v.counted
	v.counted = v.lp.Work
}

// least is the least floor of the cases that a case is parted into, or its own where that is higher.
func (n *node) least() int64 {
	if n.part == nil {
		return n.floor
	}
	return max(n.floor, min(n.part.fewer.least(), n.part.more.least()))
}

// aim is what a plan cheaper than the best may cost.
func (v *prover) aim() {
	v.target = ceil(product(v.best.Cost, v.per), big.NewInt(v.unit)).Int64() - 1
	v.lp.Right()[v.money] = float64(v.target) / v.norm
}

// over reports whether the work allowed is done.
func (v *prover) over() bool { return v.worked()+v.lp.Work-v.counted > v.until }

// keep puts a case that is not closed among the open ones, the program being at its optimum.
func (v *prover) keep(n *node, closed bool) {
	v.cases++
	if closed {
		return
	}
	n.state = &simplex.State{}
	v.lp.Save(n.state)
	v.open = append(v.open, n)
}

// part tells two cases of a node apart and solves both.
func (v *prover) part(n *node) {
	v.lp.Restore(n.state)
	v.bounds(n)
	v.lp.Fresh()
	c, most, ok := v.choose(n)
	if !ok {
		n.state = nil
		return
	}
	p := &parted{counted: c, most: most}
	for i, b := range []side{{c, 0, most}, {c, most + 1, unbounded}} {
		m := &node{path: append(slices.Clone(n.path), b), values: n.values, worths: append(slices.Clone(n.worths), 0), floor: n.floor, usage: n.usage}
		if i == 0 {
			p.fewer = m
		} else {
			p.more = m
		}
		v.lp.Restore(n.state)
		v.keep(m, v.solve(m))
	}
	n.part, n.state = p, nil
}

// bound is between what something counted lies in a case.
func (v *prover) bound(n *node, c counted) (few, many int64) {
	many = v.most(c)
	for _, b := range n.path {
		if b.counted == c {
			few, many = max(few, b.few), min(many, b.many)
		}
	}
	return few, many
}

// bounds puts a case's bounds into the program.
func (v *prover) bounds(n *node) {
	set := func(c counted) {
		few, many := v.bound(n, c)
		v.set(c, few, many)
	}
	for k := range v.stock {
		set(counted{ofStock, k, 0})
	}
	for _, b := range n.path {
		set(b.counted)
	}
}

func (v *prover) set(c counted, few, many int64) {
	hi := math.Inf(1)
	if many != unbounded {
		hi = float64(many)
	}
	v.lp.SetBounds(v.column(c), float64(few), hi)
}

// Pivots that a case may take at once, and times that strips and layouts are brought in.
const (
	casePivots = 3_000
	caseRounds = 80
)

// solve brings the program of a case to its optimum among all strips and layouts; true when the case is closed.
func (v *prover) solve(n *node) bool {
	v.bounds(n)
	v.lp.Fresh()
	for range caseRounds {
		status := v.lp.Dual(casePivots, math.Inf(1))
		var y []float64
		if status == simplex.Infeasible {
			y = v.lp.Duals(notCut)
		} else {
			if v.lp.Primal(casePivots) != simplex.Optimal {
				break
			}
			y = v.lp.Duals(0)
		}
		fine := v.weigh(n, y)
		if n.floor > v.target {
			return true
		}
		if v.over() || v.bring(y, fine) == 0 {
			break
		}
	}
	n.usage = v.lp.Cost()
	return false
}

// Values of a case are whole numbers of at most caseScale; strips and layouts are brought in by finer ones.
const (
	caseScale = 1 << 25
	fineScale = 1 << 36
)

// weigh makes whole numbers of the program's duals and keeps them when only dearer sheets than so far could hold all pieces by
// them. The tables are left filled with values of fine to the program's one.
func (v *prover) weigh(n *node, y []float64) (fine float64) {
	worths, most := v.duals(n, y), 1e-9
	for i := range v.classes {
		most = math.Max(most, y[i])
	}
	for _, w := range worths {
		most = math.Max(most, math.Abs(w))
	}
	whole := func(scale float64) (values, extra []int64) {
		for i := range v.classes {
			values = append(values, int64(math.Round(math.Max(0, y[i])/most*scale)))
		}
		for _, w := range worths {
			extra = append(extra, int64(math.Round(w/most*scale)))
		}
		return values, extra
	}
	if values, extra := whole(fineScale); v.holds(n, values, extra) > n.floor {
		short, few := whole(caseScale)
		if floor := v.holds(n, short, few); floor > n.floor {
			n.floor, n.values, n.worths = floor, short, few
		}
		if n.floor <= v.target {
			for _, p := range v.pricers {
				p.run(values, v.wanted())
			}
		}
	}
	return fineScale / most
}

// duals are what strips counted are worth by the program, at the last side of each that bounds them from where it matters.
func (v *prover) duals(n *node, y []float64) []float64 {
	out, done := make([]float64, len(n.path)), map[counted]bool{}
	for i := len(n.path) - 1; i >= 0; i-- {
		b := n.path[i]
		if b.kind != ofStrips || done[b.counted] {
			continue
		}
		row := v.at[b.at][b.level]
		w := y[row+1] - y[row]
		if b.level > 0 {
			w -= y[row-1] - y[row-2]
		}
		if w > 0 && b.few > 0 || w < 0 && b.many < unbounded {
			out[i], done[b.counted] = w, true
		}
	}
	return out
}

// holds is the floor by values of pieces and of strips counted, 0 where it is not found.
func (v *prover) holds(n *node, values, worths []int64) int64 {
	for _, p := range v.pricers {
		p.run(values, v.wanted())
	}
	want := int64(0)
	for i, c := range v.classes {
		want += c.demand * values[i]
	}
	beside := make([][]int64, len(v.groups))
	for g, group := range v.groups {
		beside[g] = make([]int64, len(v.lays[group.lay].levels))
	}
	few, many := make([]int64, len(v.stock)), v.limited()
	forms := make([]side, len(v.forms))
	for i := range forms {
		forms[i].many = unbounded
	}
	for i, b := range n.path {
		switch b.kind {
		case ofStock:
			few[b.at] = max(few[b.at], b.few)
			if many[b.at] < 0 || many[b.at] > b.many {
				many[b.at] = b.many
			}
		case ofForm:
			forms[b.at].few, forms[b.at].many = max(forms[b.at].few, b.few), min(forms[b.at].many, b.many)
		case ofStrips:
			for level := b.level; level < len(beside[b.at]); level++ {
				beside[b.at][level] += worths[i]
			}
			if worths[i] < 0 {
				want += worths[i] * b.many
			} else {
				want += worths[i] * b.few
			}
		}
	}
	var kinds []holder
	for i, f := range v.forms {
		v.outer[i].clear()
		v.inSheet(i, func(level int) int64 { return v.worth(f.group, level) + beside[f.group][level] })
		kinds = append(kinds, holder{stock: f.stock, price: v.stock[f.stock].price, most: v.outer[i].f[f.deep], few: forms[i].few, many: forms[i].many})
	}
	floor, ok, steps := leastHolding(want, v.target+1, kinds, few, many, mostHeld)
	if v.work += int64(steps); !ok {
		return 0
	}
	return floor
}
