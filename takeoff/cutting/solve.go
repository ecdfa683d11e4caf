package cutting

import (
	"cmp"
	"math/big"
	"slices"
)

// Solve finds boards for the pieces. For each board alone, pieces are laid into its strips first-fit decreasing;
// the cheapest is taken, among equals the one with fewer boards and then the earlier id. Where limits on what is
// for sale, or lengths, leave no board that can do it alone, strips of several kinds are opened as they are needed,
// in three orders: the cheapest for its length of strip first, the shortest first, the longest first; the cheapest
// plan that comes out is taken.
//
// The order of stock and pieces changes nothing. A *RequestError when a number is out of range; a *ShortError when
// no plan was found, naming a piece and what would do.
func Solve(stock []Stock, pieces []Piece, r Rules) (Plan, error) {
	if err := check(stock, pieces, r); err != nil {
		return Plan{}, err
	}
	pieces = slices.DeleteFunc(byLength(pieces), func(p Piece) bool { return p.Qty == 0 })
	if len(pieces) == 0 {
		return Plan{Method: Nothing, Bought: []Lot{}, Cuts: []Cut{}}, nil
	}
	stock = slices.Clone(stock)
	slices.SortFunc(stock, func(a, b Stock) int { return cmp.Compare(a.ID, b.ID) })
	best, found := Plan{}, false
	take := func(open []int, m Method) (Piece, int64) {
		l := layout{rules: r, stock: stock, open: open}
		for _, s := range stock {
			l.left = append(l.left, s.strips())
		}
		p, short, ok := l.fill(pieces)
		if ok {
			if plan, ok := l.plan(m); ok && (!found || better(plan, best)) {
				best, found = plan, true
			}
		}
		return p, short
	}
	for i := range stock {
		take([]int{i}, OneBoard)
	}
	if !found {
		var stuck Piece
		var short int64
		for i, open := range orders(stock, r) {
			p, n := take(open, SeveralBoards)
			if i == 0 {
				stuck, short = p, n
			}
		}
		if !found {
			return Plan{}, shortage(stock, pieces, r, stuck, short)
		}
	}
	best.Bound = Bound(stock, pieces, r)
	return best, nil
}

func better(a, b Plan) bool {
	boards := func(p Plan) (n int64) {
		for _, l := range p.Bought {
			n += l.Boards
		}
		return n
	}
	return cmp.Or(cmp.Compare(a.Cost, b.Cost), cmp.Compare(boards(a), boards(b))) < 0
}

// orders in which strips of several boards are opened.
func orders(stock []Stock, r Rules) [][]int {
	var usable []int
	for i, s := range stock {
		if s.room(r) > r.Kerf {
			usable = append(usable, i)
		}
	}
	order := func(less func(a, b Stock) int) []int {
		out := slices.Clone(usable)
		slices.SortStableFunc(out, func(i, j int) int { return less(stock[i], stock[j]) })
		return out
	}
	dearness := func(a, b Stock) int { return rate(a, r).Cmp(rate(b, r)) }
	return [][]int{
		order(dearness),
		order(func(a, b Stock) int { return cmp.Or(cmp.Compare(a.Length, b.Length), dearness(a, b)) }),
		order(func(a, b Stock) int { return cmp.Or(cmp.Compare(b.Length, a.Length), dearness(a, b)) }),
	}
}

// rate is what a length of strip costs: price / (strips x room).
func rate(s Stock, r Rules) *big.Rat {
	return new(big.Rat).SetFrac(big.NewInt(s.Price), new(big.Int).Mul(big.NewInt(s.Strips), big.NewInt(s.room(r))))
}

// Bound is a cost that no plan can be below: sum(piece + kerf) times the least of board price / (strips x (length -
// 2 trim + kerf)), rounded up to a whole minor unit, since every plan costs a whole number of them. It is 0 when
// there are no pieces or no board gives a strip.
//
// It holds because along each strip sum(piece + kerf) is at most that room, so that a piece takes at least its share
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
