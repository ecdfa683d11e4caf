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
		s.best, s.offered = &plan, true
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
	alone  bool          // one at a time
	turn   uint32        // of the way astray, 0 on the straight way
}

// dive looks for a plan that costs at most aim, in units.
func (s *search) dive(up float64, aim float64, back int) { s.astray(up, aim, back, 0) }

// astray is dive with the choice of layouts led astray, in another way for each turn but 0.
func (s *search) astray(up float64, aim float64, back int, turn uint32) {
	d := &dive{search: s, turn: turn, aim: aim/s.norm + 1e-7, up: up, back: back, fixed: map[int]int64{}, barred: map[int]bool{}, full: s.sack.most}
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
	few := int64(finishPieces)
	for !s.spent() && slices.ContainsFunc(d.wanted, func(n int64) bool { return n > 0 }) {
		if !d.step() {
			return
		}
		if left := d.pieces(); left > 0 && left <= few && len(d.splits) == 0 && len(d.items) > manyItems {
			if few = left - finishFewer; d.end() {
				return
			}
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

// pieces still wanted.
func (d *dive) pieces() (n int64) {
	for _, w := range d.wanted {
		n += max(0, w)
	}
	return n
}

// step fixes what it can and solves again; false when it leads nowhere and no step may be taken back.
func (d *dive) step() bool {
	d.lp.Save(&d.state)
	fixed, wanted := maps.Clone(d.fixed), slices.Clone(d.wanted)
	up := d.up
	d.alone = false
	for {
		if !d.fix(up) {
			return false
		}
		if d.again() {
			clear(d.barred)
			return true
		}
		if !d.alone && d.several() > 1 {
			d.alone = true
			d.lp.Restore(&d.state)
			d.fixed, d.wanted = maps.Clone(fixed), slices.Clone(wanted)
			continue
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
		if over *= d.noise(); over > best && !d.barred[l] {
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
	for n := d.several(); n > 1 && any; n-- {
		if any = d.nearest(x); !any {
			return true
		}
	}
	return any
}

// nearest fixes one more of the layout nearest below a whole number that fits whole; false when there is none.
func (d *dive) nearest(x []float64) bool {
	best, at := nearWhole, -1
	for l, j := range d.column {
		if over := (x[j] - float64(d.fixed[l])) * d.noise(); over > best && !d.barred[l] && d.fits(l) {
			best, at = over, l
		}
	}
	return at >= 0 && d.take(at, 1)
}

// noise is 1 on the straight way, else drawn from astrayBy to 1.
func (d *dive) noise() float64 {
	if d.turn == 0 {
		return 1
	}
	d.turn = d.turn*1664525 + 1013904223
	return astrayBy + float64((1-astrayBy)*float64(d.turn>>8)/(1<<24))
}

// How much nearer to a whole number than the nearest a layout may be taken for on a way astray.
const astrayBy = 0.5

// several is how many layouts are fixed at once: where many pieces are left, one alone would make the dive very long. It is
// one where that has led nowhere.
func (d *dive) several() int {
	if d.alone {
		return 1
	}
	left := 0
	for _, w := range d.wanted {
		if w > 0 {
			left++
		}
	}
	return 1 + left/manyItems
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
