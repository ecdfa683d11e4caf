package cutting

import (
	"math"
	"math/big"

	"ribband/takeoff/cutting/internal/simplex"
)

// mix is the program over the numbers of boards alone, with a row for each set of values kept: the strips of the boards
// hold at least what all pieces are worth. It is kept in its dual form, in which a mix of the sets is looked for that
// proves most of a region: few rows, of which only the costs change from one region to the next.
type mix struct {
	*search
	lp          *simplex.LP
	above, upto []int // columns of the bounds on each board's number
	exact       tally
	kept        []values
	paid        bool // the last row stands for what is paid beside the boards
}

func newMix(s *search) *mix {
	m := &mix{search: s}
	rhs := make([]float64, len(s.boards))
	for k, b := range s.boards {
		rhs[k] = float64(b.price) / s.norm
	}
	if m.paid = s.extra > 0; m.paid { // joints and cutting into strips are paid for: money is one more board, that holds its price
		rhs = append(rhs, 1)
	}
	m.lp = simplex.New(rhs)
	for k := range rhs {
		m.above = append(m.above, m.lp.Add([]int32{int32(k)}, []float64{1}, 0, 0, math.Inf(1)))
		m.upto = append(m.upto, m.lp.Add([]int32{int32(k)}, []float64{-1}, 0, 0, math.Inf(1)))
	}
	m.lp.Begin(m.above, m.above)
	m.exact.over = make([]big.Int, len(s.boards))
	return m
}

// tally is room for sums past an int64, used again from region to region.
type tally struct {
	sum     big.Int
	over    []big.Int // what each board costs more than its strips hold
	a, b, c big.Int
}

// product of three, which holds until the next.
func (t *tally) product(a, b, c int64) *big.Int {
	t.a.SetInt64(a)
	t.b.SetInt64(b)
	t.c.Mul(&t.a, &t.b)
	if c == 1 {
		return &t.c
	}
	t.a.SetInt64(c)
	return t.b.Mul(&t.c, &t.a)
}

// add keeps a set of values.
func (m *mix) add(v values) {
	rows, vals := make([]int32, len(m.above)), make([]float64, len(m.above))
	one := m.norm * float64(m.scale)
	if m.paid {
		rows[len(m.boards)], vals[len(m.boards)] = int32(len(m.boards)), 1
	}
	for k, b := range m.boards {
		rows[k], vals[k] = int32(k), float64(v.strip[k])*float64(b.strips)/one
	}
	m.lp.Add(rows, vals, -float64(v.all)/one, 0, math.Inf(1))
	m.kept = append(m.kept, v)
}

// Shares of a mix are whole numbers of 1/mixScale.
const mixScale = 1 << 30

// floor lifts the floor of a region to what the best mix proves, in integers, and gives the numbers of boards at which
// it is least; nil when the program has none.
func (m *mix) floor(r *region) []float64 {
	for k := range m.boards {
		m.lp.SetCost(m.above[k], -float64(r.lo[k]))
		m.lp.SetCost(m.upto[k], float64(r.hi[k]))
	}
	if m.paid {
		m.lp.SetCost(m.upto[len(m.boards)], float64(m.extra)/m.norm)
	}
	status := m.lp.Primal(1_000)
	t := &m.exact
	t.sum.SetInt64(0)
	free := int64(mixScale) // what the mix leaves of the money's own price
	for k, b := range m.boards {
		t.over[k].Set(t.product(b.price, m.scale, mixScale))
	}
	for row := range m.above {
		j, x := m.lp.Basic(row) // others are nought
		i := j - len(m.above) - len(m.upto)
		if i < 0 {
			continue
		}
		if share := int64(math.Round(math.Min(x, 1<<20) * mixScale)); share > 0 {
			v := &m.kept[i]
			t.sum.Add(&t.sum, t.product(v.all, share, 1))
			free -= share
			for k, b := range m.boards {
				t.over[k].Sub(&t.over[k], t.product(v.strip[k], share, b.strips))
			}
		}
	}
	for k := range m.boards {
		n := r.lo[k]
		if t.over[k].Sign() < 0 {
			n = r.hi[k]
		}
		t.a.SetInt64(n)
		t.sum.Add(&t.sum, t.c.Mul(&t.over[k], &t.a))
	}
	if m.paid && free < 0 {
		t.sum.Add(&t.sum, t.product(free, m.extra, m.scale))
	}
	t.a.SetInt64(mixScale)
	if t.c.Div(&t.sum, &t.a); t.c.IsInt64() { // Div rounds down
		r.floor = max(r.floor, t.c.Int64())
	}
	if status != simplex.Optimal {
		m.empty(r)
		return nil
	}
	n := m.lp.Duals(0)[:len(m.boards)]
	for k := range n {
		n[k] = -n[k]
	}
	return n
}

// empty puts the floor of a region out of reach where by some values all its boards hold less than the pieces are worth.
func (m *mix) empty(r *region) {
	for i := range m.kept {
		v := &m.kept[i]
		left := sum{v: v.all}
		if m.paid {
			left.addExtra(m.search, m.extra)
		}
		for k, b := range m.boards {
			if v.strip[k] > 0 {
				n, ok := times(b.strips, r.hi[k])
				left.past = left.past || !ok
				left.addProduct(-v.strip[k], n)
			}
		}
		if !left.past && left.v > 0 {
			r.floor = bigSum
			return
		}
	}
}
