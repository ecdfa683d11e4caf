package cutting

import (
	"math"
	"slices"
)

// Layouts listed for fixed numbers of boards before dives are tried for a plan.
const fewLayouts = 1_500

// single tries the numbers n of boards, which the program says suffice: a dive, then the layouts that could stand in a
// plan with them and whether those can be put together. The rest of the region is parted from it.
func (t *counts) single(r region, n []int64) {
	cost := float64(0)
	for k, b := range t.boards {
		cost += float64(n[k] * b.price)
	}
	t.upTo(n)
	t.dive(0.99, t.aim(cost), 0)
	if r.floor > t.target() {
		return // the plan costs no more than the region's floor
	}
	for k := range t.boards {
		if r.lo[k] < r.hi[k] {
			t.part(r, k, r.lo[k], n[k]-1)
			t.part(r, k, n[k]+1, r.hi[k])
			r.lo, r.hi = slices.Clone(r.lo), slices.Clone(r.hi)
			r.lo[k], r.hi[k] = n[k], n[k]
		}
	}
	if t.decide(&r, n, fewLayouts) {
		return
	}
	for i, up := range []float64{0.8, 0.6, 2, 0.9} {
		t.upTo(n)
		t.dive(up, t.aim(cost), 40*i)
		if r.floor > t.target() {
			return
		}
	}
	t.sway()
	most := t.limits.Layouts
	if t.extra > 0 { // other numbers may have a cheaper plan, with which there are fewer to list
		most /= 4
	}
	if !t.decide(&r, n, most) && !t.stray(r, n, cost) {
		r.tried = n
		t.open = append(t.open, r)
	}
}

// again tries numbers of boards with more work that were given up while there were others to try.
func (t *counts) again() {
	t.packShare = lastPackShare
	for i := range t.open {
		r := &t.open[i]
		if r.tried != nil && r.floor <= t.target() && t.decide(r, r.tried, t.limits.Layouts) {
			r.floor = t.target() + t.scale
		}
	}
}

// Dives astray where a region would be given up, and the part of the work allowed that they may take.
const (
	strays     = 60
	strayShare = 4
)

// stray tries more dives; false when none found a plan at the region's floor.
func (t *counts) stray(r region, n []int64, cost float64) bool {
	if len(t.items) <= manyItems || t.extra > 0 { // few lengths are listed soon; what is paid beside the boards is then what is open
		return false
	}
	until := t.lp.Work + t.sack.work + t.limits.Work/strayShare
	for i := range strays {
		if t.lp.Work+t.sack.work > until || t.spent() {
			return false
		}
		t.upTo(n)
		t.astray([]float64{0.99, 2, 0.8}[i%3], t.aim(cost), 20, uint32(i+1))
		if r.floor > t.target() {
			return true
		}
	}
	return false
}

// aim is what a plan with boards of this cost may cost with its joints, in units.
func (t *counts) aim(boards float64) float64 {
	if t.extra == 0 {
		return boards
	}
	return math.Min(boards+float64(t.extra), float64(t.target()/t.scale))
}

// upTo sets the program's bounds to at most n of the boards: with fewer at hand it keeps an eye on what pieces are worth.
func (t *counts) upTo(n []int64) {
	for k, j := range t.boardCol {
		t.lp.SetBounds(j, 0, float64(n[k]))
	}
	t.lp.Fresh()
	t.lp.Dual(t.limits.Pivots, math.Inf(1))
}

// decide finds the cheapest plan with the numbers n of boards, or that there is none cheaper than the best; false when it could do
// neither. Where more than boards is paid for it asks for a plan hardly above the region's floor first, then further and
// further above: the less may be paid, the fewer layouts can stand in a plan. What it shows lifts the floor.
func (t *counts) decide(r *region, n []int64, most int) bool {
	if t.extra == 0 {
		return t.decideOnce(n, most)
	}
	defer func() { t.ceiling = 0 }()
	boards := sum{}
	for k, b := range t.boards {
		boards.addProduct(b.price*t.scale, n[k])
	}
	if !boards.past {
		r.floor = max(r.floor, boards.v)
	}
	before := 0
	for part := int64(ladder); ; {
		full := t.target()
		if r.floor > full {
			return true
		}
		if t.fewFit(n) {
			part = 1
		}
		ceiling := min(full, (r.floor/t.scale+max(1, (full-r.floor)/t.scale/part))*t.scale)
		t.ceiling = ceiling
		if t.spent() || !t.decideOnce(n, most) {
			return false
		}
		t.ceiling = 0
		if t.target() == full {
			r.floor = max(r.floor, ceiling+t.scale)
			if part = max(1, part/2); t.listed < before+before/4 { // hardly more to put together than at the last step
				part = max(1, part/4)
			}
		}
		before = t.listed
	}
}

// decideOnce finds a plan with the numbers n of boards within the target, or that there is none; false when it could do neither.
func (t *counts) decideOnce(n []int64, most int) bool {
	strips, extra := t.strips(n), t.affords(n)
	found, ok := t.fitting(strips, extra, most)
	if !ok {
		return false
	}
	t.listed = len(found)
	p := newPacking(t.search, found, strips, extra)
	x, sure := p.solve()
	t.work += p.work + p.lp.Work
	if x != nil {
		var out []batch
		for l, k := range x[:len(found)] {
			if k > 0 {
				out = append(out, batch{found[l], k})
			}
		}
		before := t.target()
		t.offer(out, x[len(found):])
		sure = sure && t.target() < before
	}
	return sure
}

// fewFit reports whether so few layouts can stand in a plan cheaper than the best that no ladder is needed.
func (t *counts) fewFit(n []int64) bool {
	_, ok := t.fitting(t.strips(n), t.affords(n), veryFew)
	return ok
}

// strips of numbers of boards.
func (t *counts) strips(n []int64) []int64 {
	out := make([]int64, len(n))
	for k, b := range t.boards {
		out[k] = n[k] * b.strips
	}
	return out
}

// So few layouts are put together at once.
const veryFew = 250

// ladder is the part of the way up to the best plan that the first step takes; each step after takes twice
// the part of what is left, or more.
const ladder = 64

// fitting lists every layout that can stand in a plan with these strips that pays so much beside them: with any values, a strip loses no more of the
// most that it can hold than all strips together can lose, and what is paid beside them. They are listed by the values that leave the strips least
// to lose, and the others take away what they can. ok is false when there are more than most.
func (t *counts) fitting(strips []int64, extra int64, most int) (found []layout, ok bool) {
	gaps, at, least := make([]int64, len(t.mix.kept)), -1, math.Inf(1)
	for i, v := range t.mix.kept {
		gaps[i], ok = v.gap(t.search, strips, extra)
		if !ok {
			gaps[i] = bigSum
		} else if part := float64(gaps[i]) / float64(v.all); v.all > 0 && part < least {
			least, at = part, i
		}
	}
	if at < 0 {
		return nil, false
	}
	if t.mean > 0 && float64(gaps[t.mean]) <= float64(meanLoses*float64(gaps[at]))+float64(t.norm*float64(t.scale)*meanLosesAt) {
		at = t.mean // it leaves fewer that lose nothing
	}
	if found, ok = t.list(t.mix.kept[at], gaps[at], strips, most); !ok {
		return nil, false
	}
	t.work += int64(len(found) * len(t.mix.kept))
	return slices.DeleteFunc(found, func(l layout) bool {
		for i := range t.mix.kept {
			if t.mix.kept[i].lost(t.search, l) > gaps[i] {
				return true
			}
		}
		return false
	}), true
}

// How much more than the best values the mean may leave all strips to lose, that layouts are listed by it: times as much, and
// this part of the dearest board.
const (
	meanLoses   = 4
	meanLosesAt = 1.0 / 64
)

// lost is what a layout holds less than the most that its strip can.
func (v *values) lost(of *search, l layout) int64 {
	lost := v.strip[l.board] + of.takes(l)*of.scale
	for _, c := range l.counts {
		lost -= v.items[c.item] * c.k
	}
	return lost
}
