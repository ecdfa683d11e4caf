package pack

import (
	"math/big"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
)

// Most packs of one item; more is a slip of the pen.
const Most = 1_000_000_000

// pack is one row of the sheet as a choice: what one pack holds in the unit needed, and costs.
type pack struct {
	item  sheet.Item
	holds *big.Rat
	price money.Money
	least int64
	avail int64
	// article is the same of rows that are prices of one pack at several quantities.
	article string
}

// rate is the price of one unit needed, in minor units.
func (p pack) rate() *big.Rat { return new(big.Rat).Quo(big.NewRat(p.price.Minor(), 1), p.holds) }

// mostTries bounds the search for a mix of packs; it counts choices, not time, so that the same sheet always gives
// the same list.
const mostTries = 20_000

// choice is how many of each pack.
type choice struct {
	counts []int64
	cost   int64
	found  bool
}

// search looks for the cheapest mix of whole packs. They are in the order of their price for a unit, so that what is
// still needed costs at least that of the first pack not yet decided on.
type search struct {
	packs  []pack
	best   choice
	counts []int64
	tries  int
	// refused says that so many of a row would do that they were not counted: a slip of the pen, and no proof.
	refused bool
	// taken are the articles of which packs are taken at one of their prices.
	taken map[string]bool
}

// choose gives the cheapest whole packs that hold the need, rows mixed where that is cheaper. It begins with the best
// row alone, which is kept unless a mix costs less. Proven says that no choice costs less: the search came to its end.
func choose(packs []pack, need *big.Rat) (c choice, proven bool) {
	s := search{packs: packs, best: alone(packs, need), counts: make([]int64, len(packs)), taken: map[string]bool{}}
	if !s.best.found {
		s.best = inOrder(packs, need)
	}
	s.look(0, need, 0)
	return s.best, s.best.found && s.tries <= mostTries && !s.refused
}

// look decides on packs[i] and those after it.
func (s *search) look(i int, left *big.Rat, cost int64) {
	if s.tries++; s.tries > mostTries || s.best.found && cost >= s.best.cost {
		return
	}
	if left.Sign() <= 0 {
		s.best = choice{append([]int64{}, s.counts...), cost, true}
		return
	}
	if i == len(s.packs) || s.best.found && hopeless(s.packs[i], left, s.best.cost-cost) {
		return
	}
	p := s.packs[i]
	most, article := p.most(left), p.article
	if s.taken[article] { // of one article all are bought at one price
		most = 0
	} else if n := p.wanted(left); n > most && n >= p.least {
		s.refused = true
	}
	for n := most; n >= 0; n-- {
		if n > 0 && n < p.least {
			n = 0
		}
		s.counts[i] = n
		if most > 0 {
			s.taken[article] = n > 0
		}
		held := new(big.Rat).Mul(p.holds, big.NewRat(n, 1))
		s.look(i+1, held.Sub(left, held), cost+n*p.price.Minor())
		if s.tries > mostTries {
			break
		}
	}
	s.counts[i] = 0
}

// hopeless reports that what is left costs no less than spare even at p's price for a unit.
func hopeless(p pack, left *big.Rat, spare int64) bool {
	r := p.rate()
	return r.Mul(r, left).Cmp(big.NewRat(spare-1, 1)) > 0
}

// most is how many of the pack would do alone: enough for what is left, at least the least order, and no more than is
// for sale or than money can be counted in; 0 when the least order is not for sale.
func (p pack) most(left *big.Rat) int64 {
	n := p.wanted(left)
	if n < p.least || n > Most || n > mostMinor/max(1, p.price.Minor()) {
		return 0
	}
	return n
}

// wanted is most, more than money can be counted in and fewer than the least order too.
func (p pack) wanted(left *big.Rat) int64 {
	n := max(whole(new(big.Rat).Quo(left, p.holds)), p.least)
	if p.avail >= 0 {
		n = min(n, p.avail)
	}
	return n
}

// mostMinor keeps sums of costs inside int64, over all rows of an item.
const mostMinor = 100_000_000_000_000

// alone is the row that holds the need most cheaply by itself, among equals the one that leaves least.
func alone(packs []pack, need *big.Rat) choice {
	var best choice
	over := new(big.Rat)
	for i, p := range packs {
		n := p.most(need)
		held := new(big.Rat).Mul(p.holds, big.NewRat(n, 1))
		if held.Cmp(need) < 0 {
			continue
		}
		cost := n * p.price.Minor()
		if !best.found || cost < best.cost || cost == best.cost && held.Cmp(over) < 0 {
			best, over = choice{make([]int64, len(packs)), cost, true}, held
			best.counts[i] = n
		}
	}
	return best
}

// inOrder uses rows up one after another, the cheapest for a unit first.
func inOrder(packs []pack, need *big.Rat) choice {
	c := choice{counts: make([]int64, len(packs))}
	left := new(big.Rat).Set(need)
	taken := map[string]bool{}
	for i, p := range packs {
		if left.Sign() <= 0 {
			break
		}
		if taken[p.article] {
			continue
		}
		c.counts[i] = p.most(left)
		taken[p.article] = c.counts[i] > 0
		c.cost += c.counts[i] * p.price.Minor()
		left.Sub(left, new(big.Rat).Mul(p.holds, big.NewRat(c.counts[i], 1)))
	}
	c.found = left.Sign() <= 0
	return c
}

// whole is the least whole number not below r, at most Most + 1.
func whole(r *big.Rat) int64 {
	q, rest := new(big.Int).QuoRem(r.Num(), r.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		q.Add(q, big.NewInt(1))
	}
	if !q.IsInt64() || q.Int64() > Most {
		return Most + 1
	}
	return q.Int64()
}
