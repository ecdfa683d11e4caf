package flat

import (
	"math"
	"math/big"
	"math/bits"

	"ribband/takeoff/cutting/internal/simplex"
)

// cut is a layout of one sheet: how many strips of each level.
type cut struct {
	form  int
	slots []pick
}

// search is the work on one problem: a linear program over strips and layouts of sheets, the best integer values so far
// and the best plan.
//
// Rows: one for each class, pieces of it at least as many as asked for; one for each stock, layouts at most what is
// bought; one for each group and level, strips at most the slots of layouts. Columns: what is bought of each stock,
// layouts, strips, a slot given to a strip less deep or shorter, and for each row one that makes up the difference.
type search struct {
	*problem
	limits  Limits
	scale   int64 // integer values are in unit/scale
	norm    float64
	pricers []pricer    // by lay
	outer   []*knapsack // by form, strips across a sheet
	base    []int       // first row of each group

	lp       *simplex.LP
	buy      []int // columns of what is bought
	missing  []int // columns of pieces not cut, dearer than any way to cut them
	dear     float64
	cuts     []cut
	cutCol   []int
	strips   []strip
	stripCol []int
	gives    [][]pick // what each strip gives, by class
	seen     map[string]bool

	best    *Plan
	values  []int64
	proved  int64
	held    held
	cased   int64 // the floor by cases
	prover  *prover
	first   [2]int // strips and layouts of the program at the top
	floored floored
	last    []int64 // values of the program when last priced at the top
	work    int64
	nodes   int
}

// Sums of values stay within 1 << scaleBits, so that tables leave room above.
const scaleBits = 44

func newSearch(p *problem, limits Limits, best *Plan) *search {
	s := &search{problem: p, limits: limits, best: best, seen: map[string]bool{}, values: make([]int64, len(p.classes))}
	top := 1.0
	for _, t := range p.stock {
		price := float64(t.price)
		if t.Roll() {
			price *= s.deepest()
		}
		s.norm = max(s.norm, price)
		top += float64(price * float64(p.pieces))
	}
	if best != nil {
		top = float64(best.Cost) * float64(p.per) / float64(p.unit)
	}
	s.scale = 1 << max(0, scaleBits-bits.Len64(uint64(min(top, 1<<60))))
	for at := range p.lays {
		var rooms []int64
		for _, g := range p.groups {
			if g.lay == at {
				rooms = append(rooms, g.room)
			}
		}
		if p.list.Rules.Stages == 3 {
			s.pricers = append(s.pricers, newStacked(&p.lays[at], p.list.Rules.Exact, rooms))
		} else {
			s.pricers = append(s.pricers, newSingle(&p.lays[at], p.list.Rules.Exact, rooms))
		}
	}
	for _, f := range p.forms {
		s.outer = append(s.outer, newKnapsack(f.deep))
	}
	if s.rows() > mostRows {
		s.lp = simplex.New(nil)
	} else {
		s.build()
	}
	return s
}

// A program with more rows than this is not made: its inverse would take too much room. The floor is then that of areas.
const mostRows = 1000

// large reports whether there is no program.
func (s *search) large() bool { return s.rows() > mostRows }

// deepest is the greatest depth of a strip.
func (p *problem) deepest() float64 {
	most := int64(1)
	for _, y := range p.lays {
		for _, d := range y.levels {
			most = max(most, d)
		}
	}
	return float64(most)
}

// build makes the program without strips, feasible because every piece may go missing.
func (s *search) build() {
	m := len(s.classes)
	n := m + len(s.stock)
	for _, g := range s.groups {
		s.base = append(s.base, n)
		n += len(s.lays[g.lay].levels)
	}
	b := make([]float64, n)
	for i, c := range s.classes {
		b[i] = float64(c.demand)
	}
	s.lp = simplex.New(b)
	head, unit := make([]int, n), make([]int, n)
	inf := math.Inf(1)
	add := func(cost, hi float64, at ...int32) int {
		vals := make([]float64, len(at))
		for i := range vals {
			vals[i] = 1 - 2*float64(i%2)
		}
		return s.lp.Add(at, vals, cost, 0, hi)
	}
	s.dear = 2
	for i := range s.classes {
		unit[i] = s.lp.Add([]int32{int32(i)}, []float64{-1}, 0, 0, inf)
		head[i] = add(s.dear, inf, int32(i))
		s.missing = append(s.missing, head[i])
	}
	for i := m; i < n; i++ {
		head[i] = add(0, inf, int32(i))
		unit[i] = head[i]
	}
	for k, t := range s.stock {
		price, most := float64(t.price), inf
		step := 1.0
		if t.Roll() {
			step = s.deepest() // bought in lengths of the deepest strip, to keep numbers near 1
		}
		if t.Avail >= 0 {
			most = float64(t.Avail) / step
		}
		s.buy = append(s.buy, s.lp.Add([]int32{int32(m + k)}, []float64{-1}, price*step/s.norm, 0, most))
	}
	for g, a := range s.groups {
		for i := range s.lays[a.lay].levels {
			if i > 0 {
				add(0, inf, int32(s.base[g]+i), int32(s.base[g]+i-1))
			}
		}
		if h := s.nextShorter(g); h >= 0 {
			for i := range s.lays[a.lay].levels {
				add(0, inf, int32(s.base[g]+i), int32(s.base[h]+i))
			}
		}
	}
	s.lp.Begin(head, unit)
	for i, f := range s.forms {
		if s.stock[f.stock].Roll() {
			for level, d := range s.lays[s.groups[f.group].lay].levels {
				if d <= f.deep {
					s.addCut(cut{i, []pick{{level, 1}}})
				}
			}
		}
	}
}

// nextShorter is the group of the same lay whose strips are the longest shorter ones; -1 for none.
func (s *search) nextShorter(g int) int {
	best := -1
	for h, b := range s.groups {
		if b.lay == s.groups[g].lay && b.room < s.groups[g].room && (best < 0 || b.room > s.groups[best].room) {
			best = h
		}
	}
	return best
}

// whole is a cost of the program in unit/scale, rounded to nearest; what no plan could use is cut off.
func (s *search) whole(v float64) int64 {
	v *= s.norm * float64(s.scale)
	if !(v > 0) {
		return 0
	}
	return int64(math.Round(math.Min(v, 1<<scaleBits)))
}

// wanted are all classes' numbers.
func (p *problem) wanted() []int64 {
	out := make([]int64, len(p.classes))
	for i, c := range p.classes {
		out[i] = c.demand
	}
	return out
}

// floor is what is proved, in minor units.
func (s *search) floor() int64 { return max(s.summed(), s.held.floor, s.cased) }

// summed is the floor that follows from the sum of values alone.
func (s *search) summed() int64 {
	if s.floored.of != s.proved || !s.floored.known {
		s.floored = floored{true, s.proved, s.list.roundUp(big.NewInt(s.proved), s.scale, s.unit, s.per)}
	}
	return s.floored.cost
}

// floored is the cost that follows from what is proved, which takes a search of its own.
type floored struct {
	known    bool
	of, cost int64
}

// settled reports whether the floor is the cost of the best plan.
func (s *search) settled() bool { return s.best != nil && s.floor() >= s.best.Cost }

// spent reports whether the work allowed is done.
func (s *search) spent() bool {
	return s.worked() > s.limits.Work || s.lp.Pivots > s.limits.Pivots || s.nodes > s.limits.Nodes
}

// worked is the work done.
func (s *search) worked() int64 {
	work := s.lp.Work + s.work
	for _, p := range s.pricers {
		work += p.spent()
	}
	for _, k := range s.outer {
		work += k.work
	}
	return work
}

func (s *search) certificate() Certificate {
	values, cases := s.values, s.cased > max(s.summed(), s.held.floor)
	if s.held.floor > s.summed() {
		values = s.held.values
	}
	if cases {
		if root := s.prover.root; root.floor >= root.least() { // it needs no parting
			values, cases = root.values, false
		}
	}
	c := Certificate{Unit: s.unit, Scale: s.scale, Values: []Value{}, Depths: s.depths(), Floor: s.floor()}
	for i, class := range s.classes {
		for _, q := range class.ids {
			if values[i] > 0 || cases {
				c.Values = append(c.Values, Value{q.ID, values[i]})
			}
		}
	}
	if cases {
		c.Cases = s.prover.written(s.prover.root, s.prover.root.least())
	}
	return c
}
