package flat

import (
	"math"
	"math/rand/v2"

	"ribband/takeoff/cutting/internal/simplex"
)

// A strip or layout enters the program when it is worth so much more than it costs, of the dearest sheet's price.
const gain = 1e-8

// run solves the program and looks for plans.
func (s *search) run() {
	r := rand.New(rand.NewPCG(1, 1)) // the same draws each time
	if s.large() {
		s.price(s.areas())
		s.sequences(s.limits.Work, r)
		return
	}
	small := s.small()
	if small {
		s.limits.Work += min(smallTimes*s.limits.Work, smallWork)
	}
	ended := s.root()
	s.first = [2]int{len(s.strips), len(s.cuts)}
	if s.settled() {
		return
	}
	if ended && small {
		s.runSmall(r)
		return
	}
	if s.few() {
		s.sequences(s.worked()+(s.limits.Work-s.worked())/4, r)
	}
	if !ended || s.settled() {
		return
	}
	// cases, plans, and cases again, which a cheaper plan makes fewer
	all, rest := s.limits.Work, s.limits.Work-s.worked()
	s.byCases(s.worked() + rest/4)
	if s.prover != nil {
		s.limits.Work -= rest / 4
	}
	s.look(r)
	s.limits.Work = all
	s.byCases(all)
}

// areas are values of pieces by their area, at the rate of the sheet or roll that is cheapest for it.
func (s *search) areas() []int64 {
	rate := math.Inf(1)
	for _, f := range s.forms {
		t := s.stock[f.stock]
		per := float64(t.price) / float64(s.groups[f.group].room)
		if !t.Roll() {
			per /= float64(f.deep)
		}
		rate = math.Min(rate, per)
	}
	out := make([]int64, len(s.classes))
	for i := range out {
		out[i] = s.whole(s.area(i) * rate / s.norm)
	}
	return out
}

// root solves the program at the top; false when the work allowed ended before, or when not even parts of sheets
// could give every piece.
func (s *search) root() bool {
	for range 6 {
		if !s.generate() {
			return false
		}
		if s.settled() || s.uncut() < 1e-6 {
			return true
		}
		s.dear *= 10 // limited sheets may be worth more than they cost
		for _, j := range s.missing {
			s.lp.SetCost(j, s.dear)
		}
	}
	return false
}

// generate solves the program, bringing in strips and layouts until none would lower its cost.
func (s *search) generate() bool {
	until := s.worked() + (s.limits.Work-s.worked())*3/4 // some is left to make plans with
	for !s.spent() && s.worked() < until {
		if s.lp.Primal(s.limits.Pivots-s.lp.Pivots+1) != simplex.Optimal {
			return false
		}
		y := s.lp.Duals(0)
		values := make([]int64, len(s.classes))
		for i := range values {
			values[i] = s.whole(y[i])
		}
		s.last = values
		s.price(values)
		if s.settled() || s.bring(y) == 0 {
			return true
		}
	}
	return false
}

// bring adds the best strip of each group and level, and the best layout of each form, where they lower the cost; the
// tables hold the present values. It gives how many.
func (s *search) bring(y []float64) int {
	added := 0
	unit := s.norm * float64(s.scale)
	for g, group := range s.groups {
		before := int64(0)
		for level := range s.lays[group.lay].levels {
			v := s.worth(g, level)
			if v <= before && !s.list.Rules.Exact {
				continue
			}
			before = v
			if float64(v)/unit+y[s.base[g]+level] > gain && s.addStrip(strip{g, level, s.pricers[group.lay].stacks(level, group.room)}) {
				added++
			}
		}
	}
	for i, f := range s.forms {
		if s.stock[f.stock].Roll() {
			continue
		}
		// slots are worth what strips pay for them now, or what the best strip would
		slot := func(level int) int64 { return max(s.worth(f.group, level), s.whole(-y[s.base[f.group]+level])) }
		for _, worth := range []func(int) int64{slot, func(level int) int64 { return s.whole(-y[s.base[f.group]+level]) }} {
			s.outer[i].clear()
			s.across(i, worth, s.lays[s.groups[f.group].lay].levels)
			c := cut{i, s.outer[i].fill(f.deep, 0, len(s.outer[i].passes))}
			v := 0.0
			for _, p := range c.slots {
				v += float64(float64(worth(p.thing)) / unit * float64(p.n))
			}
			if v+y[len(s.classes)+f.stock] > gain && s.addCut(c) {
				added++
			}
		}
	}
	return added
}

// uncut is how many pieces the program leaves out.
func (s *search) uncut() float64 {
	x, sum := s.lp.Values(), 0.0
	for _, j := range s.missing {
		sum += x[j]
	}
	return sum
}
