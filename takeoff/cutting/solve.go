package cutting

import (
	"cmp"
	"math"
	"math/big"
	"slices"

	"ribband/takeoff/cutting/internal/simplex"
)

// Solve finds the cheapest boards for the pieces within the usual limits, by cost less what is kept. Among plans of one such net
// that it comes across it takes the one with fewest different layouts, then the one with the largest single offcut.
//
// The order of stock and pieces changes nothing. A *RequestError when a number is out of range; a *ShortError when
// no plan was found, naming a piece and what would do.
func Solve(stock []Stock, pieces []Piece, r Rules) (Plan, error) {
	return SolveWithin(stock, pieces, r, Usual)
}

// SolveWithin is Solve with limits of the caller's.
func SolveWithin(stock []Stock, pieces []Piece, r Rules, limits Limits) (Plan, error) {
	plan, err := within(stock, pieces, r, limits)
	if err == nil && plan.Proof == Limit && r.Scarf != nil && r.Scarf.Step <= MaxLength/coarserBy {
		coarser := *r.Scarf // fewer places of joints, all of which are places of the finer step
		coarser.Step *= coarserBy
		r.Scarf = &coarser
		if p, err := within(stock, pieces, r, limits); err == nil && better(p, plan) {
			p.Bound, p.Certificate = plan.Bound, plan.Certificate
			p.settle()
			return p, nil
		}
	}
	return plan, err
}

// coarserBy is how much coarser the places of joints are tried where the limits ended the search among all of them.
const coarserBy = 4

func within(stock []Stock, pieces []Piece, r Rules, limits Limits) (Plan, error) {
	if err := check(stock, pieces, r); err != nil {
		return Plan{}, err
	}
	pieces = slices.DeleteFunc(byLength(pieces), func(p Piece) bool { return p.Qty == 0 })
	if len(pieces) == 0 {
		return Plan{Method: Nothing, Bought: []Lot{}, Cuts: []Cut{}, Proof: ByCertificate, Certificate: Certificate{Step: 1, Unit: 1, Scale: 1, Duals: []Dual{}}}, nil
	}
	stock = slices.Clone(stock)
	slices.SortFunc(stock, func(a, b Stock) int { return cmp.Compare(a.ID, b.ID) })
	best, stuck, short := firstFit(stock, pieces, r)
	if tooLong(stock, pieces, r) >= 0 {
		return Plan{}, shortage(stock, pieces, r, stuck, short)
	}
	p, exact := reduce(stock, pieces, r, false)
	if len(p.boards) == 0 {
		return Plan{}, shortage(stock, pieces, r, stuck, short)
	}
	s := newSearch(p, limits, best)
	floor := s.run(best, exact)
	best = s.best
	if !exact { // sizes rounded up give plans, sizes rounded down the floor
		if q, _ := reduce(stock, pieces, r, true); q.fitsAll() {
			inner := newSearch(q, limits, best)
			inner.run(best, true)
			best = inner.best
		}
	}
	if best == nil {
		return Plan{}, shortage(stock, pieces, r, stuck, short)
	}
	best.Certificate = s.certificate()
	best.Bound, best.Proof = floor, Limit
	if r.Keep == nil {
		best.Bound = max(floor, Bound(stock, pieces, r))
	}
	switch {
	case best.Certificate.Floor >= best.Net():
		best.Proof = ByCertificate
	case floor >= best.Net():
		best.Proof = Exhausted
	}
	return tidied(*best, stock, pieces, r), nil
}

// The program at the root may take all of the work but a third, and never leaves more than this, enough for one dive.
const diveWork = 160_000_000

// run solves the problem; plans says whether its layouts are layouts of the list. It gives a floor of every plan.
func (s *search) run(first *Plan, plans bool) (floor int64) {
	if first != nil {
		s.addPlan(*first)
	}
	s.byLength()
	if s.settled() {
		return s.floor()
	}
	whole := s.limits.Work
	s.limits.Work = whole - min(whole/3, diveWork)
	done, missing := s.root()
	s.limits.Work = whole
	if s.settled() || missing || !plans || s.lp.Cost() == 0 {
		return s.floor()
	}
	if !done { // a plan from what layouts there are
		s.dive(0.6, math.Inf(1), 0)
		return s.floor()
	}
	floor = roundUp(big.NewInt(s.count()), s.scale, s.unit)
	if !s.offered && (s.best == nil || floor < s.best.Net()) { // no plan at the floor was found: then one as near above it as comes
		s.limits.Work += min(whole/3, diveWork)
		s.free()
		s.lp.Fresh()
		if s.lp.Dual(s.limits.Pivots, math.Inf(1)) == simplex.Optimal && s.lp.Primal(s.limits.Pivots) == simplex.Optimal {
			s.dive(0.6, math.Inf(1), 0)
		}
	}
	return max(s.floor(), floor)
}

// byLength values pieces by their length alone, at the cheapest board's rate: often that is proof enough.
func (s *search) byLength() {
	rate := math.Inf(1)
	for _, b := range s.boards {
		rate = math.Min(rate, float64(b.price)*float64(s.scale)/(float64(b.strips)*float64(b.room)))
	}
	items := make([]int64, len(s.items))
	for i, it := range s.items {
		items[i] = int64(rate * float64(it.size))
	}
	s.price(s.joinable(items))
}

// longest piece that any stock gives.
func longest(stock []Stock, r Rules) (most int64) {
	for _, s := range stock {
		most = max(most, s.room(r)-r.Kerf)
	}
	return most
}

// fitsAll reports whether every piece goes on some board, or its parts do.
func (p *problem) fitsAll() bool {
	for i, it := range p.items {
		if it.demand > 0 && it.size > p.cells && !slices.ContainsFunc(p.splits, func(s split) bool { return s.item == i && p.items[s.long].size <= p.cells }) {
			return false
		}
	}
	return true
}

// tooLong is the first piece that no board gives, whole or in two parts; -1 when there is none.
func tooLong(stock []Stock, pieces []Piece, r Rules) int {
	gives, most := given(stock, r), longest(stock, r)
	return slices.IndexFunc(pieces, func(p Piece) bool {
		return p.Length > most && (sortOf(p, r) != scarfed || len(r.Scarf.places(p.Length, most, gives)) == 0)
	})
}

// rate is what a length of strip costs: price / (strips x room).
func rate(s Stock, r Rules) *big.Rat {
	return new(big.Rat).SetFrac(big.NewInt(s.Price), new(big.Int).Mul(big.NewInt(s.Strips), big.NewInt(s.room(r))))
}

// Bound is a cost that no plan can be below: sum(piece + kerf) times the least of board price / (strips x (length -
// 2 trim + kerf)), rounded up to a whole minor unit, since every plan costs a whole number of them. It is 0 when
// there are no pieces or no board gives a strip.
//
// It is of the cost alone, whatever is kept. It holds because along each strip sum(piece + kerf) is at most that room, so that a piece takes at least its share
// of a board at the cheapest board's rate. It takes no account of how pieces fit, nor of limits on what is for sale.
func Bound(stock []Stock, pieces []Piece, r Rules) int64 {
	var least *big.Rat
	for _, s := range stock {
		if s.room(r) <= r.Kerf || s.Strips < 1 {
			continue
		}
		if x := rate(s, r); least == nil || x.Cmp(least) < 0 {
			least = x
		}
	}
	if least == nil {
		return 0
	}
	total := new(big.Int)
	for _, p := range pieces {
		total.Add(total, new(big.Int).Mul(big.NewInt(p.Length+r.Kerf), big.NewInt(p.Qty)))
	}
	x := new(big.Rat).Mul(new(big.Rat).SetInt(total), least)
	q, rest := new(big.Int).QuoRem(x.Num(), x.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		q.Add(q, big.NewInt(1))
	}
	if !q.IsInt64() {
		return MaxCost
	}
	return q.Int64()
}
