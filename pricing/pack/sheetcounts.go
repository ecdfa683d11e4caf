package pack

import (
	"math"
	"math/big"
	"slices"
	"strings"

	"ribband/takeoff/cutting/flat"
)

// take keeps a plan that costs less than the best.
func (y *laying) take(p laidOut) {
	for i, s := range p.list.Stock {
		if name, ok := strings.CutSuffix(s.ID, beyond); ok { // one kind again, of which as many are for sale
			k := slices.IndexFunc(p.list.Stock, func(o flat.Stock) bool { return o.ID == name })
			p = p.merged(k, i)
			y.take(p)
			return
		}
	}
	if p.counts, p.cost, p.found = y.count(p.plan); p.found && (!y.best.found || p.cost < y.best.cost) {
		y.best = p
	}
}

// merged is a plan in which stock i is called by the name of stock k and stands with it.
func (p laidOut) merged(k, i int) laidOut {
	from, into := p.list.Stock[i], p.list.Stock[k]
	into.Price = from.Price
	if into.Avail >= 0 && from.Avail >= 0 {
		into.Avail += from.Avail
	} else {
		into.Avail = -1
	}
	p.list.Stock = slices.Clone(p.list.Stock)
	p.list.Stock[k] = into
	p.list.Stock = slices.Delete(p.list.Stock, i, i+1)
	p.plan.Bought, p.plan.Layout = slices.Clone(p.plan.Bought), slices.Clone(p.plan.Layout)
	for n := range p.plan.Bought {
		if p.plan.Bought[n].StockID == from.ID {
			p.plan.Bought[n].StockID = into.ID
		}
	}
	for n := range p.plan.Layout {
		if p.plan.Layout[n].StockID == from.ID {
			p.plan.Layout[n].StockID = into.ID
		}
	}
	slices.SortStableFunc(p.plan.Layout, func(a, b flat.Layout) int { return strings.Compare(a.StockID, b.StockID) })
	return p
}

// count is how many packs of each row a plan buys, and what they cost: no fewer than are sold at once, at the price that makes so
// many cheapest; false where too few are for sale.
func (y *laying) count(plan flat.Plan) (counts []int64, cost int64, ok bool) {
	counts = make([]int64, len(y.packs))
	for _, s := range y.rows {
		sheets, length := int64(0), int64(0)
		for _, lot := range plan.Bought {
			if lot.StockID == s.name {
				sheets, length = sheets+lot.N, length+lot.Length
			}
		}
		if sheets == 0 && length == 0 {
			continue
		}
		best, most := -1, int64(0)
		for _, k := range s.breaks {
			n := sheets
			if s.size.Roll() {
				n = whole(new(big.Rat).Quo(big.NewRat(length, 1), s.rollLength(y.packs[k])))
			} else {
				n = (n + s.size.Each - 1) / s.size.Each
			}
			if n = max(n, y.packs[k].least); y.packs[k].avail >= 0 && n > y.packs[k].avail {
				continue
			}
			if cost := n * y.packs[k].price.Minor(); best < 0 || cost < most {
				best, most, counts[k] = k, cost, n
			}
		}
		if best < 0 {
			return nil, 0, false
		}
		for _, k := range s.breaks {
			if k != best {
				counts[k] = 0
			}
		}
		cost += most
	}
	return counts, cost, true
}

// mostFormed bounds the search for a sum that prices can form; where it ends, the sum stays as it was.
const mostFormed = 20_000

// formable is the least sum of prices, each any number of times, that is not below a sum.
func formable(sum int64, kinds []int64) int64 {
	kinds = slices.Clone(kinds)
	slices.Sort(kinds)
	kinds = slices.Compact(kinds)
	slices.Reverse(kinds)
	if sum <= 0 || len(kinds) == 0 || kinds[len(kinds)-1] <= 0 {
		return max(0, sum)
	}
	best, steps := int64(math.MaxInt64), 0
	var walk func(k int, left, spent int64)
	walk = func(k int, left, spent int64) {
		if steps++; steps > mostFormed || spent >= best {
			return
		}
		if left <= 0 {
			best = spent
			return
		}
		n := (left + kinds[k] - 1) / kinds[k]
		if k == len(kinds)-1 {
			best = min(best, spent+n*kinds[k])
			return
		}
		for ; n >= 0 && steps <= mostFormed; n-- {
			walk(k+1, left-n*kinds[k], spent+n*kinds[k])
		}
	}
	walk(0, sum, 0)
	if steps > mostFormed {
		return sum
	}
	return best
}
