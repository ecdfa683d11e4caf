package cutting

import (
	"math"

	"ribband/takeoff/cutting/internal/simplex"
)

// Values of the program this near a whole number count as it.
const nearWhole = 1e-6

// offer takes a plan when it is better than the best.
func (s *search) offer(batches []batch) {
	if plan, ok := s.assemble(batches); ok && (s.best == nil || better(plan, *s.best)) {
		s.best = &plan
	}
}

// dive fixes layouts one after another until a plan stands: whole parts of the program's answer first, then the
// layout nearest to one more, and solves the program again in between with new layouts for the pieces still wanted.
// up is how near to the next whole number one must be to be fixed along with the first.
func (s *search) dive(up float64) {
	var start simplex.State
	s.lp.Save(&start)
	full := s.sack.most
	defer func() {
		s.lp.Restore(&start)
		s.sack.most = full
	}()
	fixed := map[int]int64{} // by layout
	wanted := make([]int64, len(s.items))
	for i, it := range s.items {
		wanted[i] = it.demand
	}
	for !s.spent() {
		if !s.fix(fixed, wanted, up) {
			break
		}
		open := false
		s.sack.most = make([]int64, len(s.items))
		for i, w := range wanted {
			open = open || w > 0
			s.sack.most[i] = min(full[i], max(0, w))
		}
		if !open {
			break
		}
		if !s.again(fixed) {
			return
		}
	}
	var batches []batch
	for l := range s.layouts {
		if n := fixed[l]; n > 0 {
			batches = append(batches, batch{s.layouts[l], n})
		}
	}
	s.offer(batches)
}

// again solves the program after layouts have been fixed; false when no plan better than the best can come of it.
func (s *search) again(fixed map[int]int64) bool {
	for l, n := range fixed {
		s.lp.SetBounds(s.column[l], float64(n), math.Inf(1))
	}
	s.lp.Fresh()
	if s.lp.Dual(4*len(s.items)+200, math.Inf(1)) != simplex.Optimal {
		return false
	}
	for range 12 {
		if s.lp.Primal(20*len(s.items)+500) != simplex.Optimal {
			return false
		}
		y := s.lp.Duals(0)
		s.sack.run(s.integers(y))
		if s.bring(y) == 0 {
			break
		}
	}
	return s.best == nil || s.lp.Cost()*s.norm*float64(s.unit) < float64(s.best.Cost)-float64(s.unit)*0.999
}

// fix raises the fixed numbers of layouts; false when the program's answer has nothing to raise.
func (s *search) fix(fixed map[int]int64, wanted []int64, up float64) bool {
	x := s.lp.Values()
	take := func(l int, n int64) bool {
		for _, c := range s.layouts[l].counts {
			if wanted[c.item] > 0 {
				for _, c := range s.layouts[l].counts {
					wanted[c.item] -= n * c.k
				}
				fixed[l] += n
				return true
			}
		}
		return false
	}
	best, at, any := 0.0, -1, false
	for l, j := range s.column {
		over := x[j] - float64(fixed[l])
		if over < nearWhole {
			continue
		}
		if n := int64(over + nearWhole); n > 0 {
			any = take(l, n) || any
			over -= float64(n)
		}
		if over > best {
			best, at = over, l
		}
	}
	if any && best < up {
		return true
	}
	for l, j := range s.column {
		if over := x[j] - float64(fixed[l]); over > nearWhole && (l == at || over >= up) {
			if s.fits(l, wanted) || !any && l == at {
				any = take(l, 1) || any
			}
		}
	}
	return any
}

// fits reports whether all pieces of a layout are still wanted.
func (s *search) fits(l int, wanted []int64) bool {
	for _, c := range s.layouts[l].counts {
		if wanted[c.item] < c.k {
			return false
		}
	}
	return true
}
