package flat

import (
	"math"
	"slices"

	"ribband/takeoff/cutting/internal/simplex"
)

// Values of the program this near a whole number count as it.
const nearWhole = 1e-6

// dive is a plan being made: strips and layouts are fixed one after another, whole parts of the program's answer first,
// then what is nearest to one more, and the program is solved again in between with new strips for the pieces still
// wanted. Where the cost passes the aim the last step is taken back and something else tried.
type dive struct {
	*search
	way
	fixed  map[item]int64 // how many of each are fixed
	barred map[item]bool  // what led nowhere at this step
	wanted []int64
	last   item
	state  simplex.State
}

// way is how a dive goes about it.
type way struct {
	aim    float64        // the most the plan may cost, in the program's costs
	up     float64        // how near to the next whole number something must be to be fixed along with the nearest
	lean   float64        // added to the part of a layout when it is weighed against a strip
	back   int            // steps that may be taken back
	sheets []int64        // what may be bought of each stock, when it is decided beforehand
	draw   func() float64 // what the choice is shaken with, when it is
}

// A choice is shaken by up to this much of a strip.
const shake = 0.4

// item is a layout or a strip of the program.
type item struct {
	isCut bool
	at    int
}

// dive looks for a plan.
func (s *search) dive(w way) bool {
	d := &dive{search: s, way: w, fixed: map[item]int64{}, barred: map[item]bool{}, wanted: s.wanted()}
	var start simplex.State
	s.lp.Save(&start)
	defer s.lp.Restore(&start)
	for k, n := range w.sheets {
		s.lp.SetBounds(s.buy[k], 0, float64(n))
	}
	if w.sheets != nil && !d.again() {
		return false
	}
	for !s.spent() {
		if d.complete() {
			return s.offer(d.fixed)
		}
		if !d.step() {
			return false
		}
	}
	return false
}

// complete reports whether all pieces are in fixed strips, and these in fixed layouts.
func (d *dive) complete() bool {
	if slices.ContainsFunc(d.wanted, func(n int64) bool { return n > 0 }) {
		return false
	}
	x := d.lp.Values()
	for i, j := range d.cutCol {
		if x[j] > float64(d.fixed[item{true, i}])+nearWhole {
			return false
		}
	}
	return true
}

// step fixes what it can and solves again; false when it leads nowhere and no step may be taken back.
func (d *dive) step() bool {
	d.lp.Save(&d.state)
	fixed, wanted, up := clone(d.fixed), slices.Clone(d.wanted), d.up
	for {
		if !d.fix(up) {
			return false
		}
		if d.again() {
			clear(d.barred)
			return true
		}
		if d.back--; d.back < 0 {
			return false
		}
		d.lp.Restore(&d.state)
		d.barred[d.last] = true
		d.fixed, d.wanted, up = clone(fixed), slices.Clone(wanted), 2
	}
}

func clone(m map[item]int64) map[item]int64 {
	out := make(map[item]int64, len(m))
	for k, v := range m {
		out[k] = v
	}
	return out
}

// fix raises the fixed numbers; false when the program's answer has nothing to raise.
func (d *dive) fix(up float64) bool {
	x := d.lp.Values()
	any := false
	type part struct {
		item
		over float64
	}
	var parts []part
	look := func(it item, col int) {
		over := x[col] - float64(d.fixed[it])
		if over < nearWhole {
			return
		}
		n := int64(over + nearWhole)
		if n > 0 {
			any = d.take(it, n) || any
			over -= float64(n)
		}
		if over > nearWhole && !d.barred[it] {
			parts = append(parts, part{it, over})
		}
	}
	for i, j := range d.stripCol {
		look(item{false, i}, j)
	}
	for i, j := range d.cutCol {
		look(item{true, i}, j)
	}
	best := -1
	most := 0.0
	for i, p := range parts {
		w := p.over
		if p.isCut {
			w += d.lean
		}
		if d.draw != nil {
			w += float64(shake * d.draw())
		}
		if best < 0 || w > most {
			best, most = i, w
		}
	}
	if best < 0 || any && parts[best].over < up {
		if best >= 0 {
			d.last = parts[best].item
		}
		return any
	}
	d.last = parts[best].item
	any = d.take(d.last, 1) || any
	for i, p := range parts {
		if i != best && p.over >= up && d.fits(p.item) {
			any = d.take(p.item, 1) || any
		}
	}
	return any
}

// take fixes n more; false when it gives nothing that is wanted.
func (d *dive) take(it item, n int64) bool {
	if !it.isCut {
		if !slices.ContainsFunc(d.gives[it.at], func(c pick) bool { return d.wanted[c.thing] > 0 }) {
			return false
		}
		for _, c := range d.gives[it.at] {
			d.wanted[c.thing] -= n * c.n
		}
	}
	d.fixed[it] += n
	return true
}

// fits reports whether all pieces of a strip are still wanted.
func (d *dive) fits(it item) bool {
	if it.isCut {
		return true
	}
	for _, c := range d.gives[it.at] {
		if d.wanted[c.thing] < c.n {
			return false
		}
	}
	return true
}

// again solves the program after something has been fixed; false when no plan within the aim can come of it.
func (d *dive) again() bool {
	for i, j := range d.stripCol {
		n, hi := float64(d.fixed[item{false, i}]), math.Inf(1)
		if !d.fits(item{false, i}) { // it would cut pieces that nobody wants any more
			hi = n
		}
		d.lp.SetBounds(j, n, hi)
	}
	for i, j := range d.cutCol {
		d.lp.SetBounds(j, float64(d.fixed[item{true, i}]), math.Inf(1))
	}
	d.lp.Fresh()
	if d.lp.Dual(4*d.rows()+200, math.Inf(1)) != simplex.Optimal {
		return false
	}
	left := make([]int64, len(d.wanted))
	for i, n := range d.wanted {
		left[i] = max(0, n)
	}
	for range 40 {
		if d.spent() || d.lp.Primal(20*d.rows()+500) != simplex.Optimal {
			return false
		}
		y := d.lp.Duals(0)
		values := make([]int64, len(d.classes))
		for i := range values {
			values[i] = d.whole(y[i])
		}
		d.fill(values, left)
		if d.bring(y) == 0 {
			break
		}
	}
	return d.lp.Cost() <= d.aim
}

// rows of the program.
func (s *search) rows() int {
	n := len(s.classes) + len(s.stock)
	for _, g := range s.groups {
		n += len(s.lays[g.lay].levels)
	}
	return n
}
