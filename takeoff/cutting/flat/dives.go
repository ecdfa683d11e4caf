package flat

import (
	"math"
	"math/rand"
	"slices"
)

// look looks for plans cheaper than the best, with the program at its optimum: by dives, by dives within whole numbers
// of sheets, and by branching among all strips and layouts that matter for an aim.
func (s *search) look() {
	low := s.lp.Cost()
	for _, lean := range []float64{0, 0.5, -0.5, 2} {
		if s.settled() || s.spent() {
			return
		}
		s.dive(way{up: 0.99, lean: lean, aim: s.target()})
	}
	s.bought(low, s.worked()+(s.limits.Work-s.worked())/2)
	s.levels(low)
}

// bought dives within whole numbers of sheets until so much work is done.
func (s *search) bought(low float64, until int64) {
	if slices.ContainsFunc(s.stock, func(t stock) bool { return t.Roll() }) || s.best == nil {
		return
	}
	r := rand.New(rand.NewSource(1)) // the same draws each time
	for round := range 3 {
		for _, p := range s.purchases(low, s.target(), 200) {
			if s.settled() || s.spent() || s.worked() > until {
				return
			}
			if float64(p.cost)/s.norm <= s.target() {
				s.dive(way{up: []float64{0.99, 0.8}[round%2], aim: s.target(), back: 10, sheets: p.n, draw: r.Float64})
			}
		}
	}
}

// levels branches for ever higher aims until a plan is found, then for aims between the highest that failed and the
// best plan. A low aim leaves few strips and layouts that matter and closes branches early.
func (s *search) levels(low float64) {
	if s.best == nil {
		return
	}
	unit := 1 / s.norm
	low = math.Ceil(low/unit-nearWhole) * unit
	failed := low - unit
	open := func() bool { return !s.settled() && !s.spent() && failed < s.target()-unit/2 }
	for step := 1.0; open(); step *= 2 {
		aim := math.Min(low+(step-1)*unit, s.target())
		if s.level(aim) {
			break
		}
		failed = aim
	}
	for i := 0; open() && i < 40; i++ {
		part := []float64{0.5, 0.75, 1, 1}[i%4]
		aim := math.Min(failed+math.Max(1, math.Ceil((s.target()-failed)/unit*part))*unit, s.target())
		if !s.level(aim) {
			failed = math.Max(failed, aim)
		}
	}
}

// So many strips, or layouts, are listed at most for an aim.
const mostListed = 20_000

// level looks for a plan within an aim; false when none was found.
func (s *search) level(aim float64) bool {
	if gap := aim - s.lp.Cost(); s.list.Rules.Stages == 2 {
		found, _ := s.listStrips(gap, mostListed)
		for _, t := range found {
			s.addStrip(t)
		}
		cuts, _ := s.listCuts(gap, mostListed)
		for _, c := range cuts {
			s.addCut(c)
		}
	}
	// near the program's answer, quickly, a little further off, and anywhere
	for _, b := range []branching{{keep: 0, part: 60}, {keep: anywhere, part: 100, quick: true}, {keep: 1, part: 40}, {keep: anywhere, part: 40}} {
		found, whole := s.branch(aim+1e-7, b)
		if found {
			return true
		}
		if whole && b.keep == anywhere {
			return false
		}
	}
	return false
}
