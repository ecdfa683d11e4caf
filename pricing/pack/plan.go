// Package pack is what is bought whole of one item: cans, boxes and kits for least money, with prices that fall with the quantity and
// least orders, and the sheets and rolls that its pieces are laid out on where their sizes are known.
package pack

import (
	"cmp"
	"math/big"
	"slices"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Plan is what is bought whole of one item: cans of glue, sheets of pattern stock.
type Plan struct {
	Item  string            `json:"item"`
	Kind  sheet.Kind        `json:"kind"`
	Lines []string          `json:"lines"`
	Net   quantity.Quantity `json:"net"`
	Gross quantity.Quantity `json:"gross"`
	// Method says whether one row of the sheet is bought or several.
	Method Method `json:"method"`
	// Proven is true when no choice of whole packs off the sheet costs less; false when the search for a cheaper mix
	// was broken off at its stated limit.
	Proven bool        `json:"proven"`
	Bought []Lot       `json:"bought"`
	Cost   money.Money `json:"cost"`
	// Bound: no choice of whole packs can cost less. It is the cost itself where that is proven, and otherwise the
	// gross at the lowest price for a unit.
	Bound money.Money `json:"bound"`
	// LeftOver is what the packs hold beyond the gross, rounded down; of laid-out sheets beyond the net.
	LeftOver quantity.Quantity `json:"left_over"`
	// Sheets is how the pieces lie on sheets and lengths off rolls, where the sizes of both are known. Then the losses by area
	// do not count, since what is cut away is seen, and no plan of such cuts is below Bound, sizes counted in whole millimetres.
	Sheets *Sheets `json:"sheets,omitempty"`
	// ByArea says why pieces are bought by area alone though sheets of known size are for sale.
	ByArea string `json:"by_area,omitempty"`
}

// Method says what packs were chosen.
type Method string

// The methods.
const (
	// OneRow: all packs are of one row of the sheet. A row alone is taken unless a mix costs less.
	OneRow Method = "one_row"
	// SeveralRows: packs of several rows, because that costs less or because no row alone has enough for sale.
	SeveralRows Method = "several_rows"
	// NoPacks: nothing is needed.
	NoPacks Method = "nothing"
)

// Lot is packs of one row of the sheet.
type Lot struct {
	Description string `json:"description,omitempty"`
	Supplier    string `json:"supplier,omitempty"`
	PackSize    string `json:"pack_size"`
	// Width and StockLength of sheets and rolls that pieces can be laid out on, as the sheet writes them.
	Width       string      `json:"width,omitempty"`
	StockLength string      `json:"stock_length,omitempty"`
	Unit        sheet.Unit  `json:"unit"`
	UnitPrice   string      `json:"unit_price"`
	Per         string      `json:"per"`
	Count       int64       `json:"count"`
	Price       money.Money `json:"price"`
	Cost        money.Money `json:"cost"`
}

// fresh plans a need that was not planned before.
func (p *Planner) fresh(n Need, from Source) (Plan, error) {
	c := from.Sheet
	net, gross, err := n.total()
	if err != nil {
		return Plan{}, err
	}
	packs, err := packsOf(n, from)
	if err != nil {
		return Plan{}, err
	}
	sold := from.Sheet.Item(n.Item)
	if from.Whole != nil && gross.IsZero() { // these suppliers need not have it
		sold = from.Whole.Item(n.Item)
	}
	if len(sold) == 0 || len(packs) == 0 && !gross.IsZero() {
		return Plan{}, &ShortError{n.Item, gross, gross}
	}
	out := Plan{
		Item: n.Item, Kind: sold[0].Kind, Lines: n.ids(), Net: net, Gross: gross, Method: NoPacks, Proven: true,
		Bought: []Lot{}, Cost: money.Zero(c.Currency), Bound: money.Zero(c.Currency), LeftOver: quantity.Zero(n.Unit),
	}
	if gross.IsZero() {
		return out, nil
	}
	laid, err := p.laid(n, packs, &out, from)
	if err != nil || laid {
		return out, err
	}
	need := gross.Value().Rat()
	if out.Bound, err = boundPacks(packs, need, c.Currency); err != nil {
		return Plan{}, err
	}
	best, proven := choose(packs, need)
	if !best.found {
		return Plan{}, shortPacks(n.Item, packs, gross)
	}
	out.Proven = proven
	if err := out.fill(packs, best.counts, need); err != nil {
		return Plan{}, err
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
func packsOf(n Need, from Source) ([]pack, error) {
	var out []pack
	for _, it := range from.Sheet.Item(n.Item) {
		holds, ok := it.Holds(sheet.UnitOf(n.Unit))
		if !ok {
			continue
		}
		price, err := from.price(it)
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

func (out *Plan) fill(packs []pack, counts []int64, need *big.Rat) error {
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
		lot := Lot{
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
	return &ShortError{item, gross, short}
}
