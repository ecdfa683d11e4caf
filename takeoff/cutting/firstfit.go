package cutting

import (
	"cmp"
	"slices"
)

// laying is a list laid first-fit decreasing, in one way after another.
type laying struct {
	stock  []Stock
	pieces []Piece
	rules  Rules
	best   *Plan
}

// firstFit lays the pieces first-fit decreasing: for each board alone, and with strips of several kinds opened in three
// orders, the cheapest for its length of strip first, the shortest first, the longest first. Where none of that gives a plan, pieces that
// found no strip whole are made of two parts. It gives the best plan, or the first kind of piece for which no strip was left and how
// many of it.
func firstFit(stock []Stock, pieces []Piece, r Rules) (best *Plan, stuck Piece, short int64) {
	l := laying{stock: stock, pieces: pieces, rules: r}
	for _, choose := range halvings {
		laid, joints := lumps(stock, pieces, r, choose, nil)
		for i := range stock {
			l.take([]int{i}, OneBoard, laid, joints)
		}
		for i, open := range orders(stock, r) {
			p, n := l.take(open, SeveralBoards, laid, joints)
			if i == 0 && (stuck.ID == "" || n == 0) {
				stuck, short = p, n
			}
		}
		if len(joints) == 0 {
			break
		}
	}
	if l.best == nil && r.Scarf != nil {
		for _, choose := range halvings {
			for _, open := range orders(stock, r) {
				l.halved(open, choose)
			}
		}
	}
	if l.best != nil && len(l.best.Bought) == 1 {
		l.best.Method = OneBoard
	}
	return l.best, stuck, short
}

// take lays pieces into strips opened in an order and keeps the best plan; else it gives what found no strip, and how many of it.
func (l *laying) take(open []int, m Method, laid []lump, joints []Joint) (stuck Piece, short int64) {
	f := filling{rules: l.rules, stock: l.stock, open: open, joints: joints}
	for _, s := range l.stock {
		f.left = append(f.left, s.strips())
	}
	stuck, short, ok := f.fill(laid)
	if !ok {
		return stuck, short
	}
	if plan, ok := f.plan(m); ok {
		plan.Kept = kept(plan, l.stock, l.rules)
		if plan.Cuts = joined(plan.Cuts); l.best == nil || better(plan, *l.best) {
			l.best = &plan
		}
	}
	return stuck, short
}

// mostHalved is how often more pieces are made of two parts in one order.
const mostHalved = 40

// halved makes what finds no strip whole of two parts, or where that may not be the longest that may, again and again, until all is laid
// or no more may be.
func (l *laying) halved(open []int, choose func(places []int64) int64) {
	two := map[string]int64{}
	for range mostHalved {
		laid, joints := lumps(l.stock, l.pieces, l.rules, choose, two)
		stuck, short := l.take(open, SeveralBoards, laid, joints)
		if short == 0 {
			return
		}
		may := func(p Piece) bool { return sortOf(p, l.rules) == scarfed && two[p.ID] < p.Qty }
		i := slices.IndexFunc(l.pieces, func(p Piece) bool { // a part is shorter than its piece
			return p.ID == stuck.ID && p.Length == stuck.Length && may(p)
		})
		if i < 0 {
			i = slices.IndexFunc(l.pieces, may)
		}
		if i < 0 {
			return
		}
		p := l.pieces[i]
		two[p.ID] = min(p.Qty, two[p.ID]+short)
	}
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
