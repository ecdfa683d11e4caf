package cutting

import (
	"maps"
	"math"
	"slices"

	"ribband/takeoff/cutting/internal/simplex"
)

// Values of the program this near a whole number count as it.
const nearWhole = 1e-6

// offer takes a plan when it is better than the best.
func (s *search) offer(batches []batch, joints []int64) {
	if plan, ok := s.assemble(batches, joints); ok && (s.best == nil || better(plan, *s.best)) {
		s.best = &plan
	}
}

// dive is a plan being made: layouts are fixed one after another, whole parts of the program's answer first, then the
// layout nearest to one more, and the program is solved again in between with new layouts for the pieces still wanted.
// Where the cost passes the aim the last step is taken back and another layout tried.
type dive struct {
	*search
	aim    float64       // the most the plan may cost, in the program's costs
	up     float64       // how near to the next whole number a layout must be to be fixed along with the nearest
	back   int           // steps that may be taken back
	fixed  map[int]int64 // by layout
	joints []int64       // pieces made of two, by split
	wanted []int64       // by item
	barred map[int]bool  // layouts that led nowhere at this step
	full   []int64       // the table's own limits
	state  simplex.State // before this step
	last   int           // the layout fixed last
}

// dive looks for a plan that costs at most aim, in units.
func (s *search) dive(up float64, aim float64, back int) {
	d := &dive{search: s, aim: aim/s.norm + 1e-7, up: up, back: back, fixed: map[int]int64{}, barred: map[int]bool{}, full: s.sack.most}
	var start simplex.State
	s.lp.Save(&start)
	defer func() {
		s.lp.Restore(&start)
		s.sack.most = d.full
	}()
	for _, it := range s.items {
		d.wanted = append(d.wanted, it.demand)
	}
	if len(s.splits) > 0 && !d.join() {
		return
	}
	for !s.spent() && slices.ContainsFunc(d.wanted, func(n int64) bool { return n > 0 }) {
		if !d.step() {
			return
		}
	}
	var batches []batch
	for l := range s.layouts {
		if n := d.fixed[l]; n > 0 {
			batches = append(batches, batch{s.layouts[l], n})
		}
	}
	s.offer(batches, d.joints)
}

// step fixes what it can and solves again; false when it leads nowhere and no step may be taken back.
func (d *dive) step() bool {
	d.lp.Save(&d.state)
	fixed, wanted := maps.Clone(d.fixed), slices.Clone(d.wanted)
	up := d.up
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
		d.fixed, d.wanted, up = maps.Clone(fixed), slices.Clone(wanted), 2
	}
}

// again solves the program after layouts have been fixed; false when no plan within the aim can come of it.
func (d *dive) again() bool {
	d.sack.most = make([]int64, len(d.items))
	for i, w := range d.wanted {
		d.sack.most[i] = min(d.full[i], max(0, w))
	}
	for l := range d.layouts {
		n, hi := float64(d.fixed[l]), math.Inf(1)
		if !d.fits(l) { // it would cut pieces that nobody wants any more
			hi = n
		}
		d.lp.SetBounds(d.column[l], n, hi)
	}
	d.lp.Fresh()
	if d.lp.Dual(4*len(d.items)+200, math.Inf(1)) != simplex.Optimal {
		return false
	}
	return d.solve()
}

// solve brings in layouts for the program as it stands; false when no plan within the aim can come of it.
func (d *dive) solve() bool {
	for range 40 {
		if d.spent() || d.lp.Primal(20*len(d.items)+500) != simplex.Optimal {
			return false
		}
		y := d.lp.Duals(0)
		d.sack.run(d.integers(y))
		if d.bring(y) == 0 {
			break
		}
	}
	return d.lp.Cost() <= d.aim
}

// fix raises the fixed numbers of layouts; false when the program's answer has nothing to raise.
func (d *dive) fix(up float64) bool {
	x := d.lp.Values()
	best, at, any := 0.0, -1, false
	for l, j := range d.column {
		over := x[j] - float64(d.fixed[l])
		if over < nearWhole {
			continue
		}
		if n := int64(over + nearWhole); n > 0 {
			any = d.take(l, n) || any
			over -= float64(n)
		}
		if over > best && !d.barred[l] {
			best, at = over, l
		}
	}
	d.last = at
	if any && best < up {
		return true
	}
	for l, j := range d.column {
		over := x[j] - float64(d.fixed[l])
		if over > nearWhole && (l == at || over >= up) && (d.fits(l) || !any && l == at) {
			any = d.take(l, 1) || any
		}
	}
	return any
}

// take fixes n more of a layout; false when it gives nothing that is wanted.
func (d *dive) take(l int, n int64) bool {
	counts := d.layouts[l].counts
	if !slices.ContainsFunc(counts, func(c count) bool { return d.wanted[c.item] > 0 }) {
		return false
	}
	for _, c := range counts {
		d.wanted[c.item] -= n * c.k
	}
	d.fixed[l] += n
	return true
}

// fits reports whether all pieces of a layout are still wanted.
func (d *dive) fits(l int) bool {
	for _, c := range d.layouts[l].counts {
		if d.wanted[c.item] < c.k {
			return false
		}
	}
	return true
}
