package cutting

import (
	"cmp"
	"slices"
)

// SolveUnaided is the search alone, without a plan laid before it: its best plan, nil for none, and its floor. ok is false where no board
// serves, where nothing is wanted, or where lengths have no common step.
func SolveUnaided(stock []Stock, pieces []Piece, r Rules, limits Limits) (best *Plan, floor int64, ok bool) {
	pieces = slices.DeleteFunc(byLength(pieces), func(p Piece) bool { return p.Qty == 0 })
	if check(stock, pieces, r) != nil || len(pieces) == 0 || tooLong(stock, pieces, r) >= 0 {
		return nil, 0, false
	}
	stock = slices.Clone(stock)
	slices.SortFunc(stock, func(a, b Stock) int { return cmp.Compare(a.ID, b.ID) })
	p, exact := reduce(stock, pieces, r, false)
	if !exact || len(p.boards) == 0 {
		return nil, 0, false
	}
	s := newSearch(p, limits, nil)
	floor = s.run(nil, true)
	return s.best, floor, true
}
