package flat

import (
	"math/rand/v2"
	"slices"
)

// A small list of two stages takes so many sheets at most, of so many sizes of piece, and is worth so many times the work allowed,
// up to so much more: some tenths of a second, in which most are proved.
const (
	smallSheets = 12
	smallKinds  = 32
	smallTimes  = 4
	smallWork   = 240_000_000
)

// small reports whether a list is.
func (s *search) small() bool {
	return s.best != nil && s.provable() && s.best.bought() <= smallSheets && len(s.classes) <= smallKinds
}

// bought is how many sheets a plan buys.
func (p *Plan) bought() (n int64) {
	for _, lot := range p.Bought {
		n += lot.N
	}
	return n
}

// provable reports whether a list's cases can be told apart: two stages, all from sheets, of which few do.
func (s *search) provable() bool {
	return s.list.Rules.Stages == 2 && s.few() && !slices.ContainsFunc(s.stock, func(t stock) bool { return t.Roll() })
}

// runSmall looks for plans and goes through cases in turn: a plan found early makes cases fewer, and cases closed early spare looking for
// plans. What is wanted at each step are eighths of the work.
func (s *search) runSmall(r *rand.Rand) {
	all, eighth := s.limits.Work, (s.limits.Work-s.worked())/8
	for _, part := range []int64{1, 3} {
		if s.settled() {
			return
		}
		s.sequences(s.worked()+part*eighth, r)
		s.byCases(s.worked() + eighth)
	}
	if !s.settled() {
		s.limits.Work = s.worked() + eighth
		s.look(r)
		s.limits.Work = all
	}
	s.byCases(all)
}
