package flat

import (
	"cmp"
	"math"
	"math/big"
	"math/bits"
	"slices"
)

// holder is a sheet with the first cuts one way, or a strip off a roll, and the most that it holds by some values of
// pieces. price is in units, by the list's Per.
type holder struct {
	stock       int
	first       First
	price, most int64
	deep        int64 // of a strip off a roll, 0 for a sheet
	few, many   int64 // how many of it there may be
}

// So many steps of the search for the cheapest numbers of sheets that could hold all pieces are worth while, and a check
// goes so many: it may take stock in another order.
const (
	mostHeld    = 20_000
	checkedHeld = 4 * mostHeld
)

// leastHolding is the least cost, in units, of numbers of sheets and lengths off rolls that hold as much as is wanted by
// what each holds at most, with at least few and at most many of each stock (few nil for none, many -1 for no limit): what a
// plan buys does. It is dear where no numbers below
// dear do, and false where the search would take more than so many steps; steps is what it took.
func leastHolding(want, dear int64, kinds []holder, few, many []int64, limit int) (cost int64, ok bool, steps int) {
	w := holding{few: few, many: many, have: make([]int64, len(many)), best: dear, limit: limit}
	for _, k := range kinds {
		if k.deep > 0 {
			w.rolls = append(w.rolls, k)
		} else {
			w.kinds = append(w.kinds, k)
		}
	}
	// what holds most for its price first; products of the numbers as they come need up to 128 bits
	slices.SortStableFunc(w.kinds, func(a, b holder) int { return cmpProducts(b.most, a.price, a.most, b.price) })
	w.walk(0, want, 0)
	return w.best, w.steps <= limit, w.steps
}

func cmpProducts(a, b, c, d int64) int {
	h, l := bits.Mul64(uint64(a), uint64(b))
	g, k := bits.Mul64(uint64(c), uint64(d))
	return cmp.Or(cmp.Compare(h, g), cmp.Compare(l, k))
}

// holding is that search: numbers of one kind after another.
type holding struct {
	kinds, rolls    []holder
	few, many, have []int64
	best            int64
	steps, limit    int
}

func (w *holding) walk(i int, rest, cost int64) {
	if w.steps++; w.steps > w.limit || cost >= w.best {
		return
	}
	// the rest costs no less than by what holds most for its price
	least := int64(math.MaxInt64)
	for _, k := range w.rolls {
		least = min(least, k.rate(rest))
	}
	if i == len(w.kinds) {
		for k, n := range w.few {
			more, price := max(0, n-w.have[k]), w.price(k)
			if more > 0 && price > (w.best-cost)/more {
				return
			}
			cost += more * price
		}
		if rest <= 0 {
			least = 0
		}
		if least < w.best-cost {
			w.best = cost + least
		}
		return
	}
	k := w.kinds[i]
	if least = min(least, k.rate(rest)); rest > 0 && least >= w.best-cost {
		return
	}
	most := k.few
	if rest > 0 && k.most > 0 {
		most = max(most, (rest-1)/k.most+1)
	}
	most = min(most, k.many)
	if a := w.many[k.stock]; a >= 0 {
		most = min(most, a-w.have[k.stock])
	}
	for n := most; n >= k.few && w.steps <= w.limit; n-- {
		if n > 0 && k.price > (w.best-cost)/n {
			continue
		}
		w.have[k.stock] += n
		w.walk(i+1, rest-n*k.most, cost+n*k.price)
		w.have[k.stock] -= n
	}
}

// price of a stock's sheets.
func (w *holding) price(stock int) int64 {
	for _, k := range w.kinds {
		if k.stock == stock {
			return k.price
		}
	}
	return 0
}

// rate is what so much costs at least, at what a holder holds for its price, parts of it allowed.
func (k holder) rate(want int64) int64 {
	if want <= 0 {
		return 0
	}
	hi, lo := bits.Mul64(uint64(want), uint64(k.price))
	if k.most <= 0 || hi >= uint64(k.most) {
		return math.MaxInt64
	}
	q, _ := bits.Div64(hi, lo, uint64(k.most))
	return int64(min(q, math.MaxInt64))
}

// held is the highest floor by numbers of sheets, in minor units, and the values that prove it.
type held struct {
	floor  int64
	values []int64
}

// hold keeps values by which only dearer sheets than so far could hold all pieces; the tables hold them.
func (s *search) hold(values []int64) {
	if s.best == nil || !s.few() {
		return
	}
	var kinds []holder
	want, dear := new(big.Int), ceil(product(s.best.Cost, s.per), big.NewInt(s.unit))
	for i, c := range s.classes {
		want.Add(want, product(c.demand, values[i]))
	}
	for i, f := range s.forms {
		least, at := s.lays[s.groups[f.group].lay].least, 0
		s.each(i, func(v, cost int64) {
			k := holder{stock: f.stock, price: cost, most: v, many: math.MaxInt64}
			if s.stock[f.stock].Roll() {
				k.deep = least[at]
			}
			kinds = append(kinds, k)
			at++
		})
	}
	if want.BitLen() > 60 || !dear.IsInt64() || slices.ContainsFunc(kinds, func(k holder) bool { return k.most >= bigWorth }) {
		return
	}
	cost, ok, steps := leastHolding(want.Int64(), dear.Int64(), kinds, nil, s.limited(), mostHeld)
	s.work += int64(steps)
	if floor := s.list.costOf(cost, s.unit, s.per); ok && floor > s.held.floor {
		s.held = held{floor, values}
	}
}

// limited is how many sheets of each stock are for sale, -1 for no limit and for rolls.
func (s *search) limited() []int64 {
	out := make([]int64, len(s.stock))
	for k, t := range s.stock {
		if out[k] = t.Avail; t.Roll() {
			out[k] = -1
		}
	}
	return out
}
