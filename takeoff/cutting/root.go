package cutting

import (
	"math"
	"slices"

	"ribband/takeoff/cutting/internal/simplex"
)

// A layout enters the program when its strip is worth so much more than it costs, of the dearest board's price.
const gain = 1e-8

// generate solves the program, bringing in layouts until none would lower its cost, the floor meets the best plan or
// the work allowed is done. most says how many rounds at most. It reports whether it came to an end.
func (s *search) generate(most int) bool {
	for range most {
		if s.spent() {
			return false
		}
		if s.lp.Primal(s.limits.Pivots-s.lp.Pivots+1) != simplex.Optimal {
			return false
		}
		y := s.lp.Duals(0)
		if s.lasting() {
			s.price(s.between(y))
			if s.settled() {
				return true
			}
			if s.bring(y) > 0 {
				continue
			}
		}
		s.price(s.integers(y))
		if s.settled() {
			return true
		}
		if s.bring(y) == 0 {
			return true
		}
	}
	return false
}

// Where a table takes so many steps that filling it is nearly all of the work, layouts are looked for by values half-way
// between the program's and those that have proved most, which need fewer tables: on 125 lengths for boards of
// 1,500,000 steps 53 in place of 64. Where tables are quick, on
// 393 lengths, a tenth of the pivots was all that it saved.
const lastingTable = 20_000_000

// lasting reports whether filling a table takes that long.
func (s *search) lasting() bool { return int64(len(s.items))*int64(s.cells) >= lastingTable }

// between are those values half-way.
func (s *search) between(y []float64) []int64 {
	out := s.integers(y)
	for i, v := range out {
		out[i] = v + (s.duals[i]-v)/2
	}
	return s.joinable(out)
}

// bring adds the best layout of each board, and the best of the shorter pieces alone, where they lower the cost; it
// gives how many.
func (s *search) bring(y []float64) int {
	added := 0
	m := len(s.items)
	passes := len(s.sack.passes)
	for k, b := range s.boards {
		for cut := 0; cut < 6; cut++ {
			n := passes - cut*passes/8
			l := layout{k, s.sack.layout(b.room, n)}
			worth := y[m+k] - float64(s.takes(l))/s.norm // the strip's own dual, not above 0
			for _, c := range l.counts {
				worth += float64(y[c.item] * float64(c.k))
			}
			if worth > gain && s.add(l) {
				added++
			}
		}
	}
	return added
}

// root solves the program at the top. missing is set when not even parts of boards could give every piece.
func (s *search) root() (done, missing bool) {
	switch {
	case len(s.items) <= manyItems:
	case len(s.splits) == 0 && !s.lasting(): // steps would have to know of joints, and take some hundred tables
		if s.stepwise(); s.settled() {
			return true, false
		}
		s.boxed()
	case len(s.boards) > 1:
		s.loose()
	}
	for range 6 {
		if !s.generate(1 << 30) {
			return false, false
		}
		if s.settled() || s.uncut() < 1e-6 {
			return true, false
		}
		s.raise() // limited boards may be worth more than they cost
	}
	return true, true
}

// With more lengths than this, to be cut from several kinds of board, the program is solved for demands a little greater
// first: many pieces wanted once each make most pivots move nothing. (With one kind of board it was measured to be for
// the worse.) looseBy is how much greater they are at the most, of themselves.
const (
	manyItems = 64
	looseBy   = 1e-3
)

// loose solves the program for demands a little greater, no two alike, and puts them back.
func (s *search) loose() {
	b, turn := s.lp.Right(), uint32(1)
	full := slices.Clone(b)
	for i := range s.items {
		turn = turn*1664525 + 1013904223
		b[i] *= 1 + float64(looseBy*float64(turn>>8)/(1<<24))
	}
	s.lp.Fresh()
	s.generate(1 << 30)
	copy(b, full)
	s.lp.Fresh()
	s.lp.Dual(s.limits.Pivots, math.Inf(1))
}

// raise makes it ten times as dear to leave a piece out.
func (s *search) raise() { s.charge(10 * s.dear) }

// charge says how dear it is to leave a piece out.
func (s *search) charge(dear float64) {
	s.dear = dear
	for _, j := range s.missing {
		s.lp.SetCost(j, dear)
	}
}

// uncut is how many pieces the program leaves out.
func (s *search) uncut() float64 {
	sum := 0.0
	for _, j := range s.missing {
		sum += s.lp.Value(j)
	}
	return sum
}
