package buy

import (
	"math/big"
	"slices"

	"ribband/pricing/money"
	"ribband/pricing/rack"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"

	"github.com/shopspring/decimal"
)

// LeastOrders is what the least orders of a sheet do to a list.
type LeastOrders struct {
	// Rows of which more are bought than are needed, because fewer are not sold.
	Rows []LeastRow
	// Extra is what the same needs would cost less if everything were sold singly, as far as the search finds; it is nothing
	// where least orders change nothing.
	Extra money.Money
}

// LeastRow is a row of the sheet of which Needed would do and Least are the fewest sold.
type LeastRow struct {
	What, Supplier string
	Least, Needed  int64
}

// Least looks at where least orders decide what is bought. Needs, sheet, rack and rules are those the list was made from; a
// *NeedError when they are not.
func (l List) Least(needs []bill.Line, c sheet.Content, inHand rack.Rack, r Rules) (LeastOrders, error) {
	out := LeastOrders{Extra: money.Zero(l.Currency)}
	free, some := c, false
	free.Items = nil
	for _, it := range c.Items {
		some = some || it.Kind.Goods() && it.MinQty.Sign() > 0
		if it.Kind.Goods() { // of the prices at several quantities that at the least
			if breaks := c.Breaks(it); slices.ContainsFunc(breaks, func(o sheet.Item) bool { return o.MinQty.LessThan(it.MinQty) }) {
				continue
			}
			it.MinQty = decimal.Zero
		}
		free.Items = append(free.Items, it)
	}
	if !some {
		return out, nil
	}
	var err error
	if out.Rows, err = l.leastBoards(c); err != nil {
		return LeastOrders{}, err
	}
	for _, p := range l.Packs {
		rows, err := p.least(c)
		if err != nil {
			return LeastOrders{}, err
		}
		out.Rows = append(out.Rows, rows...)
	}
	singly, err := WithRack(needs, free, inHand, r)
	if err != nil {
		return LeastOrders{}, err
	}
	if less := l.Cost.Minor() + l.labour() - singly.Cost.Minor() - singly.labour(); less > 0 {
		out.Extra, err = money.New(less, l.Currency)
	}
	return out, err
}

// leastBoards are the boards bought beyond those that are cut into, all groups together.
func (l List) leastBoards(c sheet.Content) ([]LeastRow, error) {
	bought, cut := map[string]int64{}, map[string]int64{}
	items := map[string]sheet.Item{}
	var order []string
	for _, t := range l.Timber {
		for _, b := range t.Boards {
			it, ok := find(c.Boards(t.Species, t.Grade), func(it sheet.Item) bool { return id(c, it) == b.Offer })
			if !ok || b.Count < 1 {
				continue // in hand
			}
			if _, seen := items[b.Offer]; !seen {
				order = append(order, b.Offer)
			}
			each := b.Strips / b.Count
			items[b.Offer] = it
			bought[b.Offer] += b.Count
			cut[b.Offer] += (b.Used + each - 1) / each
		}
	}
	var out []LeastRow
	for _, offer := range order {
		if it := items[offer]; cut[offer] < bought[offer] && it.MinPieces() > cut[offer] && !soldSingly(c, it, cut[offer]) {
			out = append(out, LeastRow{it.Label(), it.Supplier, it.MinPieces(), cut[offer]})
		}
	}
	return out, nil
}

// soldSingly reports whether so few are sold too, at another price: then what is bought beyond them is bought for its lower price.
func soldSingly(c sheet.Content, it sheet.Item, n int64) bool {
	return slices.ContainsFunc(c.Breaks(it), func(o sheet.Item) bool { return n > 0 && o.MinPieces() <= n })
}

// least are the packs bought beyond what is needed of them beside the others.
func (p Packs) least(c sheet.Content) ([]LeastRow, error) {
	if p.Sheets != nil {
		return p.leastSheets(c)
	}
	var out []LeastRow
	rows, holds, all := make([]sheet.Item, len(p.Bought)), make([]*big.Rat, len(p.Bought)), new(big.Rat)
	for i, lot := range p.Bought {
		it, ok := lot.row(p.Item, c)
		if !ok {
			return nil, &NeedError{p.Item, "this pack is not on the sheet that the list was made from"}
		}
		one, ok := it.Holds(sheet.UnitOf(p.Gross.Unit()))
		if !ok {
			return nil, &NeedError{p.Item, "the sheet sells this pack in a unit that does not measure the need"}
		}
		rows[i], holds[i] = it, one
		all.Add(all, new(big.Rat).Mul(one, big.NewRat(lot.Count, 1)))
	}
	for i, lot := range p.Bought {
		others := new(big.Rat).Sub(all, new(big.Rat).Mul(holds[i], big.NewRat(lot.Count, 1)))
		left := new(big.Rat).Sub(p.Gross.Value().Rat(), others)
		needed := int64(0)
		if left.Sign() > 0 {
			needed = whole(left.Quo(left, holds[i]))
		}
		if needed < lot.Count && rows[i].MinPieces() > needed && !soldSingly(c, rows[i], needed) {
			out = append(out, LeastRow{packLabel(p.Item, lot), rows[i].Supplier, rows[i].MinPieces(), needed})
		}
	}
	return out, nil
}
