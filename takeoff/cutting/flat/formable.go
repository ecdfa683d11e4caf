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
	if !ok || len(kinds) == 0 {
		return floor
	}
	f := forming{kinds: kinds, best: -1}
	f.walk(0, floor.Int64(), 0)
	if f.steps > mostFormed || f.best < 0 {
		return floor
	}
	return big.NewInt(f.best)
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
