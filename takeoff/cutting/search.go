package cutting

import (
	"math"
	"math/big"
	"math/bits"

	"ribband/takeoff/cutting/internal/simplex"
)

// search is the work on one problem: a linear program over layouts, the best integer duals so far and the best plan.
//
// Rows: one for each item, pieces of it at least as many as asked for; one for each board, strips used at most those
// the boards give. Columns: a number of boards for each board, of strips for each layout, and for each row one that
// makes up the difference. A column for each way to make a piece of two gives one of the piece and takes its parts.
type search struct {
	*problem
	limits Limits
	scale  int64 // integer duals are in unit/scale
	norm   float64

	lp       *simplex.LP
	sack     *knapsack
	boardCol []int // columns of the numbers of boards
	splitCol []int // columns of pieces made of two
	missing  []int // columns of pieces not cut, dearer than any way to cut them
	over     []int // columns of pieces cut beyond those asked for
	dear     float64
	layouts  []layout
	column   []int // columns of layouts
	seen     map[string]int

	lister *lister // of the values that layouts were listed by last

	best    *Plan
	offered bool    // the best plan is one of the program's
	duals   []int64 // the best integer duals, and what they prove in unit/scale
	proved  int64
	// ceiling of what a plan may cost that is looked for, in unit/scale, 0 for none.
	ceiling int64
	// packShare is the part of the work allowed that putting layouts together may take.
	packShare int64
	work      int64
	nodes     int
}

func newSearch(p *problem, limits Limits, best *Plan) *search {
	s := &search{problem: p, limits: limits, best: best, seen: map[string]int{}, sack: newKnapsack(p.items, p.cells)}
	top := int64(1)
	for _, b := range p.boards {
		s.norm = max(s.norm, float64(b.price))
		top += b.price / b.strips // a piece to a strip, a strip of the dearest, is more than any plan needs
	}
	if best != nil {
		top = best.Cost/p.unit + p.extra
	} else if c, ok := times(top+p.joint, p.pieces+p.joints+1); ok {
		top = c
	} else {
		top = MaxCost
	}
	s.scale = max(1, (1<<46)/max(1, top)) // sums of values times a large price for a piece left out stay in range
	s.scale = 1 << (bits.Len64(uint64(s.scale)) - 1)
	s.duals = make([]int64, len(p.items))
	if p.rules.Keep != nil {
		s.sack.base = make([]int64, p.cells+1)
		for x := range s.sack.base {
			s.sack.base[x] = p.leftOver(x) * s.scale
		}
	}
	s.build()
	return s
}

// build makes the program without layouts, feasible because every piece may go missing.
func (s *search) build() {
	m, n := len(s.items), len(s.items)+len(s.boards)
	b := make([]float64, n)
	for i, it := range s.items {
		b[i] = float64(it.demand)
	}
	s.lp = simplex.New(b)
	head, unit := make([]int, n), make([]int, n)
	inf := math.Inf(1)
	for k, b := range s.boards {
		s.dear = max(s.dear, 2*float64(b.price)/float64(b.strips)/s.norm)
		if s.joints > 0 { // a piece takes two strips and a joint
			s.dear = max(s.dear, (4*float64(b.price)/float64(b.strips)+2*float64(s.joint))/s.norm)
		}
		row := []int32{int32(m + k)}
		most := inf
		if b.most >= 0 {
			most = float64(b.most)
		}
		s.boardCol = append(s.boardCol, s.lp.Add(row, []float64{-float64(b.strips)}, float64(b.price)/s.norm, 0, most))
		unit[m+k] = s.lp.Add(row, []float64{1}, 0, 0, inf)
		head[m+k] = unit[m+k]
	}
	for i := range s.items {
		row := []int32{int32(i)}
		unit[i] = s.lp.Add(row, []float64{-1}, 0, 0, inf)
		s.over = append(s.over, unit[i])
		s.missing = append(s.missing, s.lp.Add(row, []float64{1}, s.dear, 0, inf))
		head[i] = s.missing[i]
	}
	for _, sp := range s.splits {
		rows, vals := []int32{int32(sp.item), int32(sp.long)}, []float64{1, -1}
		if sp.short == sp.long {
			vals[1] = -2
		} else {
			rows, vals = append(rows, int32(sp.short)), append(vals, -1)
		}
		s.splitCol = append(s.splitCol, s.lp.Add(rows, vals, float64(s.joint)/s.norm, 0, inf))
	}
	s.lp.Begin(head, unit)
}

// add takes a layout into the program; false when it stands there already.
func (s *search) add(l layout) bool {
	key := l.key()
	if _, ok := s.seen[key]; ok || len(l.counts) == 0 {
		return false
	}
	rows, vals := make([]int32, 0, len(l.counts)+1), make([]float64, 0, len(l.counts)+1)
	for _, c := range l.counts {
		rows, vals = append(rows, int32(c.item)), append(vals, float64(c.k))
	}
	rows, vals = append(rows, int32(len(s.items)+l.board)), append(vals, 1)
	s.seen[key] = len(s.layouts)
	s.layouts = append(s.layouts, l)
	s.column = append(s.column, s.lp.Add(rows, vals, float64(s.takes(l))/s.norm, 0, math.Inf(1)))
	return true
}

// addPlan takes the layouts of a plan.
func (s *search) addPlan(p Plan) {
	itemOf, partOf := map[string]int{}, map[int64]int{}
	for i, it := range s.items {
		if it.sort == part {
			partOf[it.length] = i
		}
		for _, q := range it.ids {
			itemOf[q.ID] = i
		}
	}
	boardOf := map[string]int{}
	for k, b := range s.boards {
		boardOf[b.stock.ID] = k
	}
	for _, c := range p.Cuts {
		k, ok := boardOf[c.StockID]
		if !ok {
			continue
		}
		l, room := layout{board: k}, s.boards[k].room
		for _, q := range c.Pieces {
			i, ok := itemOf[q.PieceID]
			if q.Part > 0 {
				i, ok = partOf[q.Part]
			}
			if !ok {
				continue
			}
			room -= int(q.K) * s.items[i].size
			if n := len(l.counts); n > 0 && l.counts[n-1].item == i {
				l.counts[n-1].k += q.K
			} else {
				l.counts = append(l.counts, count{i, q.K})
			}
		}
		if room >= 0 { // sizes rounded up may not fit where the lengths do
			s.add(l)
		}
	}
}

// integers are the program's duals of the items as integers, rounded to nearest. None is so great that a strip full of it would pass
// all range: parts that no joint uses yet are worth as much as the program has them cost, and thousands may lie on a strip.
func (s *search) integers(y []float64) []int64 {
	out := make([]int64, len(s.items))
	each := bigSum / int64(max(1, s.cells))
	for i, it := range s.items {
		out[i] = min(s.whole(y[i]), each*int64(it.size))
	}
	return s.joinable(out)
}

// joinable lowers the values of pieces that may be scarfed, in place, to what any two parts and their joint are worth.
func (s *search) joinable(values []int64) []int64 {
	for _, sp := range s.splits {
		values[sp.item] = min(values[sp.item], values[sp.long]+values[sp.short]+s.joint*s.scale)
	}
	return values
}

// whole is a cost of the program in unit/scale; what no plan could use is cut off.
func (s *search) whole(v float64) int64 {
	v *= s.norm * float64(s.scale)
	if !(v > 0) {
		return 0
	}
	return int64(math.Round(math.Min(v, 1<<55)))
}

// price fills the table with integer duals and keeps what they prove. V of each board comes out of the table, exactly;
// where a board without limit could hold more than its price, all duals are scaled down to what it allows.
func (s *search) price(duals []int64) {
	s.sack.run(duals)
	num, den := int64(1), int64(1)
	for k, b := range s.boards {
		v := product(s.holds(k), b.strips)
		p := product(b.price, s.scale)
		if b.most < 0 && v.Cmp(p) > 0 && new(big.Int).Mul(p, big.NewInt(den)).Cmp(new(big.Int).Mul(v, big.NewInt(num))) < 0 {
			if !v.IsInt64() || !p.IsInt64() {
				return
			}
			num, den = p.Int64(), v.Int64()
		}
	}
	scaled := duals
	if num != den {
		scaled = make([]int64, len(duals))
		for i, d := range duals {
			scaled[i] = share(d, num, den)
		}
		s.joinable(scaled)
	}
	sum := new(big.Int)
	for i, it := range s.items {
		sum.Add(sum, product(it.demand, scaled[i]))
	}
	for k, b := range s.boards {
		if b.most >= 0 {
			over := product(share(s.holds(k), num, den), b.strips)
			if over.Sub(over, product(b.price, s.scale)); over.Sign() > 0 {
				sum.Sub(sum, over.Mul(over, big.NewInt(b.most)))
			}
		}
	}
	if sum.IsInt64() && sum.Int64() > s.proved {
		s.proved, s.duals = sum.Int64(), append([]int64{}, scaled...)
	}
}

// holds is the most that a strip of a board can hold by the table as it stands, above what it is worth uncut.
func (s *search) holds(board int) int64 {
	b := s.boards[board]
	return s.sack.f[b.room] - b.uncut*s.scale
}

// share is floor(d x num / den), num <= den.
func share(d, num, den int64) int64 {
	if num == den {
		return d
	}
	hi, lo := bits.Mul64(uint64(d), uint64(num))
	q, _ := bits.Div64(hi, lo, uint64(den))
	return int64(q)
}

// floor is what is proved, a cost that prices can form.
func (s *search) floor() int64 { return roundUp(big.NewInt(s.proved), s.scale, s.unit) }

// settled reports whether the floor is the cost of the best plan.
func (s *search) settled() bool { return s.best != nil && s.floor() >= s.best.Net() }

// spent reports whether the work allowed is done.
func (s *search) spent() bool {
	return s.lp.Work+s.sack.work+s.work > s.limits.Work || s.lp.Pivots > s.limits.Pivots
}

func (s *search) certificate() Certificate {
	return Certificate{Step: s.step, Unit: s.unit, Scale: s.scale, Duals: dualsOf(s.items, s.duals, whole), Scarfed: dualsOf(s.items, s.duals, scarfed),
		Parts: dualsOf(s.items, s.duals, part), Floor: s.floor()}
}
