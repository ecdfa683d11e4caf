package buy

import (
	"math/big"
	"slices"

	"ribband/pricing/freight"
	"ribband/pricing/money"
	"ribband/pricing/pack"
	"ribband/pricing/sheet"

	"github.com/shopspring/decimal"
)

// filled is a list with more bought of a supplier than is needed, where the sum from which on freight is not asked is reached so for
// less than the freight: more of what is bought of it anyway, the least that reaches the sum.
func (d *delivering) filled(l List) (List, error) {
	for _, f := range slices.Clone(l.Freight) {
		best := l
		for _, line := range f.Lines {
			if line.Free || line.FreeFrom == "" {
				continue
			}
			from, err := decimal.NewFromString(line.FreeFrom)
			if err != nil {
				return l, err
			}
			full, ok, err := d.filledTo(l, f.Supplier, from)
			if err != nil {
				return l, err
			}
			if ok && full.Total.Minor() < best.Total.Minor() {
				best = full
			}
		}
		l = best
	}
	return l, nil
}

// spare is a row of a list of which more may be bought: of timber group t or of packs p, the k-th of what is bought there.
type spare struct {
	timber bool
	at, k  int
	what   string
	price  int64
	cost   int64    // with what is asked for bringing it, in parts of a minor unit
	most   int64    // that may still be bought
	exact  *big.Rat // what one holds
}

// filledTo buys of a supplier up to a sum of its goods; false where nothing more is for sale or the freight that it spares is less.
func (d *delivering) filledTo(l List, supplier string, sum decimal.Decimal) (List, bool, error) {
	loads, err := l.loads(d.sheet)
	if err != nil {
		return l, false, err
	}
	has := int64(0)
	for _, o := range loads {
		if same(o.Supplier, supplier) {
			has += o.Goods.Minor()
		}
	}
	gap := sum.Shift(l.Currency.Digits()).Ceil().IntPart() - has
	spares, err := d.spares(l, supplier, sum)
	if err != nil || gap <= 0 || gap >= l.FreightCost.Minor() || len(spares) == 0 {
		return l, false, err
	}
	counts, ok := leastSpares(spares, gap)
	if !ok {
		return l, false, nil
	}
	full, err := d.withMore(l, spares, counts)
	if err != nil {
		return l, false, err
	}
	if err := full.charge(d.sheet, d.rules); err != nil {
		return l, false, err
	}
	for i := range full.Freight {
		if j := slices.IndexFunc(l.Freight, func(f freight.Charge) bool { return same(f.Supplier, full.Freight[i].Supplier) }); j >= 0 {
			full.Freight[i].Beyond = slices.Clone(l.Freight[j].Beyond)
		}
		if !same(full.Freight[i].Supplier, supplier) {
			continue
		}
		for k, s := range spares {
			if counts[k] == 0 {
				continue
			}
			cost, err := money.New(s.price*counts[k], l.Currency)
			if err != nil {
				return l, false, err
			}
			full.Freight[i].Beyond = append(full.Freight[i].Beyond, freight.Beyond{What: s.what, Count: counts[k], Cost: cost})
		}
	}
	return full, true, nil
}

// spares are what is bought of a supplier, each row once, with what bringing it costs where its goods come to a sum.
func (d *delivering) spares(l List, supplier string, sum decimal.Decimal) ([]spare, error) {
	var out []spare
	by := loadedBy(slices.DeleteFunc(d.sheet.Freight(supplier), func(it sheet.Item) bool {
		return !it.FreeFrom.IsZero() && !it.FreeFrom.GreaterThan(sum)
	}), l.Currency, d.rules)
	laden := func(it sheet.Item, price int64) int64 {
		if by == nil {
			return price * ladenParts
		}
		return price*ladenParts + money.Down(new(big.Rat).Mul(by.rates.Of(it), big.NewRat(ladenParts, 1)))
	}
	bought := map[string]int64{}
	for _, t := range l.Timber {
		for _, b := range t.Boards {
			bought[b.Offer] += b.Count
		}
	}
	seen := map[string]bool{}
	for i, t := range l.Timber {
		if t.CutSideBySide() {
			continue // a board more would be in none of its layouts
		}
		for k, b := range t.Boards {
			offer, _ := t.Offer(b.Offer)
			it, ok := offer.row(t, d.sheet)
			if !ok || !same(it.Supplier, supplier) || seen[b.Offer] {
				continue // in hand, or of another
			}
			seen[b.Offer] = true
			out = append(out, spare{true, i, k, it.Label(), b.Price.Minor(), laden(it, b.Price.Minor()), d.left(it, bought[b.Offer]), it.PieceMeasure()})
		}
	}
	for i, p := range l.Packs {
		for k, lot := range p.Bought {
			it, ok := lot.Row(p.Item, d.sheet)
			if !ok {
				return nil, &NeedError{p.Item, "this pack is not on the sheet that the list was made from"}
			}
			holds, ok := it.Holds(sheet.UnitOf(p.Gross.Unit()))
			if ok && same(it.Supplier, supplier) {
				out = append(out, spare{false, i, k, lot.Label(p.Item), lot.Price.Minor(), laden(it, lot.Price.Minor()), d.left(it, lot.Count), holds})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b spare) int { return int(min(1, max(-1, b.price-a.price))) })
	return out, nil
}

// left is how many of a row may still be bought at its price: no more than are for sale, and fewer than are sold for less each.
func (d *delivering) left(it sheet.Item, bought int64) int64 {
	most := int64(pack.Most)
	if it.Available >= 0 {
		most = it.Available - bought
	}
	for _, o := range d.sheet.Breaks(it) {
		if o.MinPieces() > it.MinPieces() && o.UnitPrice().Cmp(it.UnitPrice()) < 0 {
			most = min(most, o.MinPieces()-1-bought)
		}
	}
	return max(0, most)
}

// mostSpares bounds the search among them; where it ends, the best so far is taken.
const mostSpares = 20_000

// leastSpares are the numbers that cost least and come to a gap at least; the dearest row stands first. False where all of them do
// not reach it.
func leastSpares(all []spare, gap int64) (counts []int64, ok bool) {
	best, steps := int64(-1), 0
	n := make([]int64, len(all))
	var walk func(k int, left, spent int64)
	walk = func(k int, left, spent int64) {
		if steps++; steps > mostSpares || best >= 0 && spent >= best {
			return
		}
		if left <= 0 {
			best, counts = spent, slices.Clone(n)
			return
		}
		if k == len(all) || all[k].price <= 0 {
			return
		}
		most := min(all[k].most, (left+all[k].price-1)/all[k].price)
		for n[k] = most; n[k] >= 0; n[k]-- {
			walk(k+1, left-n[k]*all[k].price, spent+n[k]*all[k].cost)
		}
		n[k] = 0
	}
	walk(0, gap, 0)
	return counts, best >= 0
}

// withMore is a list with so many more bought.
func (d *delivering) withMore(l List, spares []spare, counts []int64) (List, error) {
	timber, packs := slices.Clone(l.Timber), slices.Clone(l.Packs)
	for k, s := range spares {
		if counts[k] == 0 {
			continue
		}
		add, err := money.New(s.price*counts[k], l.Currency)
		if err != nil {
			return List{}, err
		}
		if s.timber {
			if timber[s.at], err = timber[s.at].withMore(s, counts[k], add); err != nil {
				return List{}, err
			}
			continue
		}
		if packs[s.at], err = packs[s.at].With(s.k, counts[k], s.exact); err != nil {
			return List{}, err
		}
	}
	full, err := d.assemble(timber, packs, d.from, d.rules)
	full.ResawLabour = l.ResawLabour
	return full, err
}

// withMore is a group with so many more boards, which are left whole.
func (t Timber) withMore(s spare, count int64, add money.Money) (Timber, error) {
	t.Boards, t.LeftOver = slices.Clone(t.Boards), slices.Clone(t.LeftOver)
	b := &t.Boards[s.k]
	each := b.Strips / b.Count
	b.Count, b.Strips = b.Count+count, b.Strips+count*each
	b.Measure = fixed(new(big.Rat).Mul(s.exact, big.NewRat(b.Count, 1)))
	var err error
	if b.Cost, err = b.Cost.Add(add); err != nil {
		return t, err
	}
	if t.Cost, err = t.Cost.Add(add); err != nil {
		return t, err
	}
	o, ok := t.Offer(b.Offer)
	if !ok {
		return t, &NeedError{b.Offer, "this board is not among those that the list was made from"}
	}
	length, err := metres(o.LengthMM)
	if err != nil {
		return t, err
	}
	p := timberPlan{out: t}
	p.leave(LeftOver{b.Offer, "strip", count * each, length})
	return p.out.judged(), nil
}
