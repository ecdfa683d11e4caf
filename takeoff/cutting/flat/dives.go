package flat

import (
	"math"
	"math/rand/v2"
	"slices"
)

// look looks for plans cheaper than the best, with the program at its optimum: by dives, by dives within whole numbers
// of sheets, and by branching among all strips and layouts that matter for an aim.
func (s *search) look(r *rand.Rand) {
	low := s.lp.Cost()
	for _, lean := range []float64{0, 0.5, -0.5, 2} {
		if s.settled() || s.spent() {
			return
		}
		s.dive(way{up: 0.99, lean: lean, aim: s.target()})
	}
	all := s.limits.Work - s.worked()
	s.bought(low, s.worked()+all*3/20, r)
	if !s.levels(low, s.worked()+all*5/20) {
		s.bought(low, s.limits.Work, r)
	}
}

// Rounds of dives within numbers of sheets, and how many numbers are tried in each.
const (
	boughtRounds = 60
	boughtEach   = 60
)

// bought dives within whole numbers of sheets until so much work is done: near what the program buys, and in every other
// round near what the best plan buys.
func (s *search) bought(low float64, until int64, r *rand.Rand) {
	if slices.ContainsFunc(s.stock, func(t stock) bool { return t.Roll() }) || s.best == nil {
		return
	}
	for round := range boughtRounds {
		x := s.lp.Values()
		near := make([]float64, len(s.stock))
		for k, j := range s.buy {
			near[k] = x[j]
			if round%3 != 0 {
				near[k] = float64(s.best.sheets(s.stock[k].ID))
			}
		}
		for _, p := range s.purchases(near, low, s.target(), boughtEach) {
			if s.settled() || s.spent() || s.worked() > until {
				return
			}
			w := way{up: []float64{0.99, 0.8, 0.6}[round/2%3], lean: []float64{0, 0.3, -0.3, 0}[round%4], aim: s.target(), back: 10, sheets: p.n, draw: r.Float64}
			if float64(p.cost)/s.norm <= s.target() && s.dive(w) {
				break
			}
		}
	}
}

// sheets is how many of a stock a plan buys.
func (p *Plan) sheets(id string) int64 {
	for _, lot := range p.Bought {
		if lot.StockID == id {
			return lot.N
		}
	}
	return 0
}

// levels branches for ever higher aims until a plan is found, then for aims between the highest that failed and the
// best plan, until so much work is done. A low aim leaves few strips and layouts that matter and closes branches early.
// It reports whether the last aim was the best plan's and every branch was followed to its end: then it is no use to
// look further.
func (s *search) levels(low float64, until int64) (ended bool) {
	if s.best == nil {
		return true
	}
	unit := 1 / s.norm
	low = float64(math.Ceil(low/unit-nearWhole) * unit)
	failed := low - unit
	open := func() bool {
		return !s.settled() && !s.spent() && failed < s.target()-float64(unit/2) && s.worked() < until
	}
	for part := 16.0; part > 1 && open(); part /= 2 {
		aim := math.Min(low+float64(math.Ceil((s.target()-low)/unit/part)*unit), s.target())
		if aim <= failed+float64(unit/2) {
			continue
		}
		found, whole := s.level(aim)
		if found {
			break
		}
		failed, ended = aim, whole
	}
	for i := 0; open() && i < 40; i++ {
		part := []float64{0.5, 0.75, 1, 1}[i%4]
		aim := math.Min(failed+float64(math.Max(1, math.Ceil((s.target()-failed)/unit*part))*unit), s.target())
		if found, whole := s.level(aim); !found {
			failed, ended = math.Max(failed, aim), whole
		}
	}
	return ended && failed >= s.target()-float64(unit/2)
}

// So many strips, or layouts, are listed at most for an aim.
const mostListed = 20_000

// level looks for a plan within an aim; whole when there is none among all strips and layouts.
func (s *search) level(aim float64) (found, whole bool) {
	all := s.list.Rules.Stages == 2
	if gap := aim - s.lp.Cost(); s.list.Rules.Stages == 2 {
		strips, ok := s.listStrips(gap, mostListed)
		for _, t := range strips {
			s.addStrip(t)
		}
		all = all && ok
		cuts, ok := s.listCuts(gap, mostListed)
		all = all && ok
		for _, c := range cuts {
			s.addCut(c)
		}
	}
	// near the program's answer, quickly, a little further off, and anywhere
	for _, b := range []branching{{keep: 0, part: 60}, {keep: anywhere, part: 100, quick: true}, {keep: 1, part: 40}, {keep: anywhere, part: 40}} {
		found, whole := s.branch(aim+1e-7, b)
		if found {
			return true, false
		}
		if whole && b.keep == anywhere {
			return false, all
		}
	}
	return false, false
}
