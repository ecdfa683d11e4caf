package buy

import (
	"cmp"
	"math/big"
	"slices"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// mostPacks of one item; more is a slip of the pen.
const mostPacks = 1_000_000_000

// pack is one row of the sheet as a choice: what one pack holds in the unit needed, and costs.
type pack struct {
	item  sheet.Item
	holds *big.Rat
	price money.Money
	least int64
	avail int64
}

// rate is the price of one unit needed, in minor units.
func (p pack) rate() *big.Rat { return new(big.Rat).Quo(big.NewRat(p.price.Minor(), 1), p.holds) }

func (g groups) planPacks(n *packNeed, c sheet.Content) (Packs, error) {
	net, gross, err := g.total(n.lines, n.unit)
	if err != nil {
		return Packs{}, err
	}
	packs, err := packsOf(n, c)
	if err != nil {
		return Packs{}, err
	}
	out := Packs{
		Item: n.item, Kind: packs[0].item.Kind, Lines: g.ids(n.lines), Net: net, Gross: gross, Method: NoPacks,
		Bought: []PackLot{}, Cost: money.Zero(c.Currency), Bound: money.Zero(c.Currency), LeftOver: quantity.Zero(n.unit),
	}
	if gross.IsZero() {
		return out, nil
	}
	need := gross.Value().Rat()
	if out.Bound, err = boundPacks(packs, need, c.Currency); err != nil {
		return Packs{}, err
	}
	counts, method, ok := choose(packs, need)
	if !ok {
		return Packs{}, shortPacks(n.item, packs, gross)
	}
	out.Method = method
	if err := out.fill(packs, counts, need); err != nil {
		return Packs{}, err
	}
	return out, nil
}

// packsOf is the rows that can be bought, in an order that does not depend on the sheet's.
func packsOf(n *packNeed, c sheet.Content) ([]pack, error) {
	var out []pack
	for _, it := range c.Item(n.item) {
		holds, ok := sheet.Convert(it.PieceMeasure(), it.Unit, sheet.UnitOf(n.unit))
		if !ok {
			continue
		}
		price, err := it.PiecePrice(c.Currency)
		if err != nil {
			return nil, err
		}
		out = append(out, pack{it, holds, price, it.MinPieces(), it.Available})
	}
	slices.SortStableFunc(out, func(a, b pack) int {
		return cmp.Or(a.rate().Cmp(b.rate()), a.holds.Cmp(b.holds), cmp.Compare(a.item.Supplier, b.item.Supplier), cmp.Compare(a.item.Unit, b.item.Unit))
	})
	return out, nil
}

// choose gives how many of each pack: the cheapest row alone, among equals the one that leaves least; or, when none
// has enough, rows one after another as they are ordered, cheapest for a unit first.
func choose(packs []pack, need *big.Rat) (counts []int64, m PackMethod, ok bool) {
	best, bestCost, bestHeld := -1, new(big.Int), new(big.Rat)
	counts = make([]int64, len(packs))
	for i, p := range packs {
		n := max(whole(new(big.Rat).Quo(need, p.holds)), p.least)
		if n > mostPacks || p.avail >= 0 && n > p.avail {
			continue
		}
		cost := new(big.Int).Mul(big.NewInt(n), big.NewInt(p.price.Minor()))
		held := new(big.Rat).Mul(p.holds, big.NewRat(n, 1))
		if d := cost.Cmp(bestCost); best < 0 || d < 0 || d == 0 && held.Cmp(bestHeld) < 0 {
			best, bestCost, bestHeld = i, cost, held
			clear(counts)
			counts[i] = n
		}
	}
	if best >= 0 {
		return counts, OneRow, true
	}
	left := new(big.Rat).Set(need)
	for i, p := range packs {
		n := max(whole(new(big.Rat).Quo(left, p.holds)), p.least)
		if p.avail >= 0 {
			n = min(n, p.avail)
		}
		if left.Sign() <= 0 || n < p.least || n > mostPacks {
			continue
		}
		counts[i] = n
		left.Sub(left, new(big.Rat).Mul(p.holds, big.NewRat(n, 1)))
	}
	return counts, SeveralRows, left.Sign() <= 0
}

// whole is the least whole number not below r, at most mostPacks + 1.
func whole(r *big.Rat) int64 {
	q, rest := new(big.Int).QuoRem(r.Num(), r.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		q.Add(q, big.NewInt(1))
	}
	if !q.IsInt64() || q.Int64() > mostPacks {
		return mostPacks + 1
	}
	return q.Int64()
}

// boundPacks is the need at the lowest rate, rounded up: packs only round it up further.
func boundPacks(packs []pack, need *big.Rat, c money.Currency) (money.Money, error) {
	least := packs[0].rate() // packs are ordered by it
	x := least.Mul(least, need)
	q, rest := new(big.Int).QuoRem(x.Num(), x.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		q.Add(q, big.NewInt(1))
	}
	if !q.IsInt64() {
		return money.Money{}, &money.RangeError{Currency: c}
	}
	return money.New(q.Int64(), c)
}

func (out *Packs) fill(packs []pack, counts []int64, need *big.Rat) error {
	held := new(big.Rat)
	for i, p := range packs {
		if counts[i] == 0 {
			continue
		}
		cost, err := p.price.Times(decimal.NewFromInt(counts[i]), money.HalfUp)
		if err != nil {
			return err
		}
		if out.Cost, err = out.Cost.Add(cost); err != nil {
			return err
		}
		size := p.item.PackSize
		if size.IsZero() {
			size = decimal.NewFromInt(1)
		}
		out.Bought = append(out.Bought, PackLot{
			Description: p.item.Description, Supplier: p.item.Supplier, PackSize: size.String(), Unit: p.item.Unit,
			UnitPrice: p.item.Price.String(), Per: p.item.Per.String(), Count: counts[i], Price: p.price, Cost: cost,
		})
		held.Add(held, new(big.Rat).Mul(p.holds, big.NewRat(counts[i], 1)))
	}
	var err error
	out.LeftOver, err = down(held.Sub(held, need), out.Gross.Unit())
	return err
}

// down is an exact amount cut down to the unit's places.
func down(r *big.Rat, u quantity.Unit) (quantity.Quantity, error) {
	scaled := new(big.Int).Mul(r.Num(), new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(u.Places())), nil))
	return quantity.Of(decimal.NewFromBigInt(scaled.Quo(scaled, r.Denom()), -u.Places()), u)
}

func shortPacks(item string, packs []pack, gross quantity.Quantity) error {
	held := new(big.Rat)
	for _, p := range packs {
		if p.avail > 0 && p.avail >= p.least {
			held.Add(held, new(big.Rat).Mul(p.holds, big.NewRat(p.avail, 1)))
		}
	}
	short, err := down(held.Sub(gross.Value().Rat(), held), gross.Unit())
	if err != nil {
		return err
	}
	return &ShortPacksError{item, gross, short}
}
