package buy_test

import (
	"errors"
	"fmt"
	"math/big"
	"slices"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/pack"

	"pgregory.net/rapid"
)

// Against everything that could be bought in tiny yards of two groups of laminates that share boards, of glue and of oil, from up to three
// sellers with prices that fall with the quantity, least orders, few for sale and boards in hand, where a board or can costs few coins and
// freight by the order, by measure and by weight comes to parts of one: no plan costs less than a floor, none is cheaper than
// what is told as the least, every sum is that of the sheet, and shares add up.
func TestLadingAgainstEveryPurchase(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawLading(t)
		d.look()
		l, err := buy.WithRack(d.needs, d.sheet, d.rack, d.rules)
		var boards *buy.ShortBoardsError
		var packs *pack.ShortError
		if err != nil && (errors.As(err, &boards) || errors.As(err, &packs)) || err != nil && d.total < 0 {
			if d.total >= 0 && d.needed[1] == 0 {
				t.Fatalf("%v, and %d would do\n%s", err, d.total, d)
			}
			return
		}
		if err != nil {
			t.Fatalf("%v, the cheapest is %d\n%s", err, d.total, d)
		}
		counts := d.recount(t, l)
		if !d.holds(counts) {
			t.Fatalf("%v of %+v do not do\n%s", counts, d.loads, d)
		}
		d.shares(t, l)
		total, bound := l.Total.Minor(), l.TotalBound.Minor()
		if l.Total == (money.Money{}) {
			total, bound = l.Cost.Minor(), l.Bound.Minor()
		}
		if bound > total || l.Bound.Minor() > l.Cost.Minor() {
			t.Fatalf("%d below its floor %d, or goods %s below %s\n%s", total, bound, l.Cost, l.Bound, d)
		}
		if d.total >= 0 && (bound > d.total || l.Bound.Minor() > d.goods || d.within(counts) && total < d.total) || d.within(counts) && d.total < 0 {
			t.Fatalf("%d, none below %d, goods %s, none below %s: the cheapest is %d, goods %d\n%s", total, bound, l.Cost, l.Bound, d.total, d.goods, d)
		}
	})
}

// recount works out from the drawn yard alone what a list buys, what that costs and what is asked for bringing it.
func (d *drawnLading) recount(t *rapid.T, l buy.List) []int64 {
	counts, paid := make([]int64, len(d.loads)), make([]int64, len(d.loads))
	buys := func(key string, n, cost int64) {
		i := slices.IndexFunc(d.loads, func(l load) bool { return l.key == key })
		if i < 0 || n < 1 {
			t.Fatalf("%d of %s are bought\n%s", n, key, d)
		}
		counts[i], paid[i] = counts[i]+n, paid[i]+cost
	}
	for _, g := range l.Timber {
		for _, b := range g.Boards {
			o, _ := g.Offer(b.Offer)
			key := "rack"
			if o.Rack == nil {
				key = fmt.Sprintf("%s %s %s %s %s", o.Supplier[1:], g.Species, o.Thickness, o.Width, o.Length)
			}
			buys(key, b.Count, b.Cost.Minor())
		}
	}
	for _, p := range l.Packs {
		for _, b := range p.Bought {
			buys(b.Supplier[1:]+" "+p.Item+" "+b.PackSize, b.Count, b.Cost.Minor())
		}
	}
	sum := int64(0)
	for i, n := range counts {
		if n == 0 {
			continue
		}
		price, sold := d.loads[i].each(n)
		if sum += paid[i]; !sold || paid[i] != n*price {
			t.Fatalf("%d of %s cost %d, sold %t at %d each\n%s", n, d.loads[i].key, paid[i], sold, price, d)
		}
	}
	freight := int64(0)
	for s, asked := range d.freight(counts) {
		freight += asked
		told := int64(0)
		for _, f := range l.Freight {
			if f.Supplier[1:] == fmt.Sprint(s) {
				told += f.Cost.Minor()
			}
		}
		if told != asked {
			t.Fatalf("seller %d asks %d, told %d\n%s", s, asked, told, d)
		}
	}
	if l.Cost.Minor() != sum || l.Total != (money.Money{}) && (l.FreightCost.Minor() != freight || l.Total.Minor() != sum+freight) || l.Total == (money.Money{}) && freight != 0 {
		t.Fatalf("cost %s, freight %s, total %s, and %d with %d are counted\n%s", l.Cost, l.FreightCost, l.Total, sum, freight, d)
	}
	return counts
}

// shares of every group add to what it costs, none below nothing, each within a coin of its part by length, and a need alone in its group
// bears all of it; at the prices of its own sheet a list costs what it did.
func (d *drawnLading) shares(t *rapid.T, l buy.List) {
	left := map[string]buy.Share{}
	for _, s := range l.Shares {
		left[s.Line] = s
	}
	weight := func(id string) *big.Rat {
		r := left[id].Net.Value().Rat()
		if long, ok := d.lengths[id]; ok {
			r.Mul(r, big.NewRat(long, 1))
		}
		return r
	}
	group := func(lines []string, cost int64) {
		sum, all := int64(0), new(big.Rat)
		for _, id := range lines {
			all.Add(all, weight(id))
		}
		for _, id := range lines {
			s, ok := left[id]
			if sum += s.Cost.Minor(); !ok || s.Cost.Minor() < 0 {
				t.Fatalf("%s bears %s of %d\n%s", id, s.Cost, cost, d)
			}
			if all.Sign() > 0 {
				part := new(big.Rat).Mul(new(big.Rat).Quo(weight(id), all), big.NewRat(cost, 1))
				if part.Sub(part, big.NewRat(s.Cost.Minor(), 1)); part.Abs(part).Cmp(big.NewRat(1, 1)) >= 0 {
					t.Fatalf("%s bears %s of %d, %s beside it\n%s", id, s.Cost, cost, part.FloatString(2), d)
				}
			}
		}
		for _, id := range lines {
			delete(left, id)
		}
		if sum != cost {
			t.Fatalf("%v bear %d of %d\n%s", lines, sum, cost, d)
		}
	}
	for _, g := range l.Timber {
		group(g.Lines, g.Cost.Minor())
	}
	for _, p := range l.Packs {
		group(p.Lines, p.Cost.Minor())
	}
	if len(left) > 0 {
		t.Fatalf("%v bear what nobody buys\n%s", left, d)
	}
	atItsOwn(t, l, d.needs, d.sheet, d.rules)
}
