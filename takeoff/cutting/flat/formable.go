package flat

import (
	"math/big"
	"slices"
)

// mostFormed bounds the search for a sum that prices can form; where it ends, the floor stays as it was.
const mostFormed = 50_000

// formed raises a floor, in 1/per of a minor unit, to the least sum that whole sheets and strips off rolls can form: a plan
// costs no other. Strips of three stages may be of any depth, and then nothing is raised where there are rolls.
func (l List) formed(floor *big.Int, per int64) *big.Int {
	if !floor.IsInt64() || floor.Sign() <= 0 || floor.Int64() > MaxCost*4 {
		return floor
	}
	kinds, ok := l.costs(per)
	if !ok {
		return floor
	}
	return big.NewInt(leastSum(floor.Int64(), kinds))
}

// LeastSum is the least sum of prices, each any number of times, that is not below a floor: a plan that costs such a sum costs no less. It is
// the floor itself where prices are not above 0, or where looking for it would take too long.
func LeastSum(floor int64, prices []int64) int64 {
	prices = slices.Clone(prices)
	slices.Sort(prices)
	if len(prices) == 0 || prices[0] <= 0 || floor <= 0 || floor > MaxCost {
		return floor
	}
	prices = slices.Compact(prices)
	slices.Reverse(prices)
	return leastSum(floor, prices)
}

// leastSum is LeastSum of prices that differ, dearest first.
func leastSum(floor int64, kinds []int64) int64 {
	if len(kinds) == 0 {
		return floor
	}
	f := forming{kinds: kinds, best: -1}
	f.walk(0, floor, 0)
	if f.steps > mostFormed || f.best < 0 {
		return floor
	}
	return f.best
}

// costs that what is bought is made of, dearest first.
func (l List) costs(per int64) ([]int64, bool) {
	var out []int64
	add := func(price, times int64) bool {
		if price > MaxCost/max(1, times) {
			return false
		}
		out = append(out, price*times)
		return true
	}
	for _, s := range l.Stock {
		switch {
		case s.Avail == 0:
		case !s.Roll():
			if !add(s.Price, per) {
				return nil, false
			}
		case l.Rules.Stages == 3:
			return nil, false
		default:
			for _, p := range l.Pieces {
				for _, h := range shapes(p, false) {
					if p.Qty > 0 && !add(s.Price, h.deep+l.Rules.Kerf) {
						return nil, false
					}
				}
			}
		}
	}
	slices.Sort(out)
	out = slices.Compact(out)
	slices.Reverse(out)
	return out, true
}

// forming looks for the least sum of kinds, each any number of times, that is not below what is wanted.
type forming struct {
	kinds []int64
	best  int64
	steps int
}

func (f *forming) walk(k int, rest, sum int64) {
	if f.steps++; f.steps > mostFormed || f.best >= 0 && sum >= f.best {
		return
	}
	if rest <= 0 {
		f.best = sum
		return
	}
	price := f.kinds[k]
	most := (rest + price - 1) / price
	if k == len(f.kinds)-1 {
		if sum += most * price; f.best < 0 || sum < f.best {
			f.best = sum
		}
		return
	}
	for n := most; n >= 0 && f.steps <= mostFormed; n-- {
		f.walk(k+1, rest-n*price, sum+n*price)
	}
}
