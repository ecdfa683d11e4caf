package buy

import (
	"slices"
	"strings"

	"ribband/pricing/money"
	"ribband/pricing/pack"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"

	"github.com/shopspring/decimal"
)

// PriceMove is one board or pack of a buy list at the prices of two sheets.
type PriceMove struct {
	// Label of the board or pack with its supplier, Lines the needs it serves.
	Label string
	Lines []string
	// Count is how many are bought.
	Count int64
	// Old and New are what one piece costs. Where the other sheet has no such board or pack, Gone is true and New is
	// the old price.
	Old, New money.Money
	Gone     bool
}

// SharesAt is what each need would cost if the same boards and packs were bought at the prices of another sheet: the
// part of a change that is prices alone. L is the buy list of the needs off from. What to does not sell stays at the
// old price. Boards are matched by species, grade, sizes and supplier, packs by item, supplier, size and unit; whether
// enough of them is for sale does not count here.
//
// A *NeedError when the list is not that of the needs, a *money.MixedError when the sheets differ in currency.
func (l List) SharesAt(needs []bill.Line, from, to sheet.Content, r Rules) ([]Share, []PriceMove, error) {
	g, err := group(needs, r)
	if err != nil {
		return nil, nil, err
	}
	if g, err = g.glued(l.Timber, false, r, &List{}); err != nil {
		return nil, nil, err
	}
	if !g.asListed(l) || len(g.packs) != len(l.Packs) {
		return nil, nil, &NeedError{"", "the buy list is not that of the needs"}
	}
	if from.Currency != to.Currency {
		return nil, nil, &money.MixedError{Left: from.Currency, Right: to.Currency}
	}
	out := List{Currency: l.Currency, Cost: money.Zero(l.Currency), Bound: money.Zero(l.Currency), Shares: make([]Share, len(g.needs))}
	var moves []PriceMove
	together := map[string]int64{} // a price at a quantity holds for all groups' boards
	for _, t := range l.Timber {
		for _, b := range t.Boards {
			together[b.Offer] += b.Count
		}
	}
	for i, t := range l.Timber {
		cost := t.Cost
		for _, b := range t.Boards {
			move := PriceMove{b.Offer, t.Lines, b.Count, b.Price, b.Price, true}
			if move.New, move.Gone, err = boardAt(t, b, together[b.Offer], from, to); err != nil {
				return nil, nil, err
			}
			if cost, err = moved(cost, move, b.Count); err != nil {
				return nil, nil, err
			}
			moves = append(moves, move)
		}
		item := TimberItem(t.Species, t.Grade)
		if err := out.add(g, g.timber[i].lines, sheet.Timber, item, cost, money.Zero(l.Currency)); err != nil {
			return nil, nil, err
		}
	}
	for i, p := range l.Packs {
		cost := p.Cost
		for _, b := range p.Bought {
			move := PriceMove{b.Label(p.Item), p.Lines, b.Count, b.Price, b.Price, true}
			if move.New, move.Gone, err = packAt(p, b, from, to); err != nil {
				return nil, nil, err
			}
			if cost, err = moved(cost, move, b.Count); err != nil {
				return nil, nil, err
			}
			moves = append(moves, move)
		}
		if err := out.add(g, g.packs[i].lines, p.Kind, p.Item, cost, money.Zero(l.Currency)); err != nil {
			return nil, nil, err
		}
	}
	return out.Shares, moves, nil
}

// moved is the cost of a group once so many of its pieces cost what they do on the other sheet.
func moved(cost money.Money, m PriceMove, count int64) (money.Money, error) {
	each, err := m.New.Sub(m.Old)
	if err != nil {
		return money.Money{}, err
	}
	all, err := each.Times(decimal.NewFromInt(count), money.HalfUp)
	if err != nil {
		return money.Money{}, err
	}
	return cost.Add(all)
}

// boardAt is what the board costs on the other sheet, which may write its sizes otherwise.
func boardAt(t Timber, b Boards, count int64, from, to sheet.Content) (price money.Money, gone bool, err error) {
	old := from.Boards(t.Species, t.Grade)
	i := slices.IndexFunc(old, func(it sheet.Item) bool { return id(from, it) == b.Offer })
	if i < 0 {
		return b.Price, true, nil
	}
	rows := to.Boards(t.Species, t.Grade)
	if o, ok := t.Offer(b.Offer); ok { // as wide as they were reckoned
		for k := range rows {
			rows[k] = rows[k].At(o.WidthMM)
		}
	}
	return at(rows, count, b.Price, to.Currency, func(it sheet.Item) bool {
		return it.Thickness.MM().Equal(old[i].Thickness.MM()) && it.Width.MM().Equal(old[i].Width.MM()) && it.Widest.MM().Equal(old[i].Widest.MM()) &&
			it.StockLength.MM().Equal(old[i].StockLength.MM()) && strings.EqualFold(it.Supplier, old[i].Supplier)
	})
}

// at is the lowest price that a row which is the same holds for so many; gone where none is.
func at(rows []sheet.Item, count int64, old money.Money, c money.Currency, same func(sheet.Item) bool) (price money.Money, gone bool, err error) {
	gone = true
	for _, it := range rows {
		if !same(it) || len(rows) > 1 && it.MinPieces() > count && slices.ContainsFunc(rows, func(o sheet.Item) bool { return o.Article() == it.Article() && o.MinPieces() < it.MinPieces() }) {
			continue
		}
		p, err := it.PiecePrice(c)
		if err != nil {
			return old, true, err
		}
		if gone || p.Minor() < price.Minor() {
			price, gone = p, false
		}
	}
	if gone {
		price = old
	}
	return price, gone, nil
}

// packAt is what the pack costs on the other sheet; of sheets and rolls whose sizes both say, one of the same size.
func packAt(p pack.Plan, b pack.Lot, from, to sheet.Content) (price money.Money, gone bool, err error) {
	old, found := b.Row(p.Item, from)
	rows, article := to.Item(p.Item), old.Article()
	if alike := func(it sheet.Item) bool { return it.Article() == article }; found && slices.ContainsFunc(rows, alike) {
		return at(rows, b.Count, b.Price, to.Currency, alike) // whatever else it sells in packs so large
	}
	size, sized := old.Sized()
	return at(rows, b.Count, b.Price, to.Currency, func(it sheet.Item) bool {
		holds := it.PackSize
		if holds.IsZero() {
			holds = decimal.NewFromInt(1)
		}
		if of, ok := it.Sized(); ok && found && sized && (!of.Width.MM().Equal(size.Width.MM()) || !of.Length.MM().Equal(size.Length.MM())) {
			return false
		}
		return holds.String() == b.PackSize && it.Unit == b.Unit && strings.EqualFold(it.Supplier, b.Supplier)
	})
}
