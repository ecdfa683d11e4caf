package buy

import (
	"slices"

	"ribband/pricing/money"
	"ribband/pricing/pack"
	"ribband/pricing/rack"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"

	"github.com/shopspring/decimal"
)

// LeastOrders is what the least orders of a sheet do to a list.
type LeastOrders struct {
	// Rows of which more are bought than are needed, because fewer are not sold.
	Rows []pack.LeastRow
	// Extra is what the same needs would cost less if everything were sold singly, as far as the search finds; it is nothing
	// where least orders change nothing.
	Extra money.Money
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
		rows, err := p.Least(c)
		if err != nil {
			return LeastOrders{}, asNeed(err)
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
func (l List) leastBoards(c sheet.Content) ([]pack.LeastRow, error) {
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
	var out []pack.LeastRow
	for _, offer := range order {
		if it := items[offer]; cut[offer] < bought[offer] && it.MinPieces() > cut[offer] && !pack.SoldSingly(c, it, cut[offer]) {
			out = append(out, pack.LeastRow{What: it.Label(), Supplier: it.Supplier, Least: it.MinPieces(), Needed: cut[offer]})
		}
	}
	return out, nil
}
