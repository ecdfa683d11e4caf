package buy

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"ribband/pricing/money"
	"ribband/pricing/sawing"
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
	// article is the same of rows that are prices of one pack at several quantities.
	article string
}

// rate is the price of one unit needed, in minor units.
func (p pack) rate() *big.Rat { return new(big.Rat).Quo(big.NewRat(p.price.Minor(), 1), p.holds) }

// packed plans an item; off the same rows it is planned once, though suppliers are chosen many times over.
func (g groups) packed(n *packNeed, from source, r Rules) (Packs, error) {
	if from.laden != nil {
		if from.laden.rates.Any(from.sheet.Item(n.item)) {
			return g.planPacks(n, from, r)
		}
		goods := from
		goods.laden = nil
		p, err := g.packed(n, goods, r)
		if err != nil {
			return Packs{}, err
		}
		return p.scaled()
	}
	var key strings.Builder
	for _, i := range n.lines {
		fmt.Fprintf(&key, "%q %s %s;", g.needs[i].ID, g.needs[i].Net, g.needs[i].Gross)
	}
	for _, it := range from.sheet.Item(n.item) {
		fmt.Fprintf(&key, "%q", it.Row())
	}
	if p, ok := g.memo[key.String()]; ok {
		return p, nil
	}
	p, err := g.planPacks(n, from, r)
	if err == nil && g.memo != nil {
		g.memo[key.String()] = p
	}
	return p, err
}

func (g groups) planPacks(n *packNeed, from source, r Rules) (Packs, error) {
	c := from.sheet
	net, gross, err := g.total(n.lines, n.unit)
	if err != nil {
		return Packs{}, err
	}
	packs, err := packsOf(n, from)
	if err != nil {
		return Packs{}, err
	}
	out := Packs{
		Item: n.item, Kind: packs[0].item.Kind, Lines: g.ids(n.lines), Net: net, Gross: gross, Method: NoPacks, Proven: true,
		Bought: []PackLot{}, Cost: money.Zero(c.Currency), Bound: money.Zero(c.Currency), LeftOver: quantity.Zero(n.unit),
	}
	if gross.IsZero() {
		return out, nil
	}
	laid, err := g.laid(n, packs, &out, from, r)
	if err != nil || laid {
		return out, err
	}
	need := gross.Value().Rat()
	if out.Bound, err = boundPacks(packs, need, c.Currency); err != nil {
		return Packs{}, err
	}
	best, proven := choose(packs, need)
	if !best.found {
		return Packs{}, shortPacks(n.item, packs, gross)
	}
	out.Proven = proven
	if err := out.fill(packs, best.counts, need); err != nil {
		return Packs{}, err
	}
	if proven {
		out.Bound = out.Cost
	}
	out.Method = SeveralRows
	if len(out.Bought) == 1 {
		out.Method = OneRow
	}
	return out, nil
}

// packsOf is the rows that can be bought, in an order that does not depend on the sheet's.
func packsOf(n *packNeed, from source) ([]pack, error) {
	var out []pack
	for _, it := range from.sheet.Item(n.item) {
		holds, ok := it.Holds(sheet.UnitOf(n.unit))
		if !ok {
			continue
		}
		price, err := from.price(it, sawing.Way{})
		if err != nil {
			return nil, err
		}
		out = append(out, pack{it, holds, price, it.MinPieces(), it.Available, it.Article()})
	}
	slices.SortStableFunc(out, func(a, b pack) int {
		return cmp.Or(a.rate().Cmp(b.rate()), a.holds.Cmp(b.holds), cmp.Compare(a.item.Supplier, b.item.Supplier), cmp.Compare(a.item.Unit, b.item.Unit))
	})
	return out, nil
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
		lot := PackLot{
			Description: p.item.Description, Supplier: p.item.Supplier, PackSize: size.String(), Unit: p.item.Unit,
			UnitPrice: p.item.Price.String(), Per: p.item.Per.String(), Count: counts[i], Price: p.price, Cost: cost,
		}
		if of, ok := p.item.Sized(); ok {
			lot.Width, lot.StockLength = of.Width.Text(), of.Length.Text()
		}
		out.Bought = append(out.Bought, lot)
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
