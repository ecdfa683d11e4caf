package buy

import (
	"math/big"
	"slices"

	"ribband/pricing/freight"
	"ribband/pricing/money"
	"ribband/pricing/rack"
	"ribband/pricing/sawing"
	"ribband/pricing/sheet"

	"github.com/shopspring/decimal"
)

// What suppliers ask by measure or weight grows with what is bought of them. A plan of laden prices, each board and pack with
// its part of that, buys what costs least delivered, and its floor holds for goods and such freight together. It is then told at the
// prices of the sheet, with the floor of goods alone that another plan gives.

// ladenParts are the parts of a minor unit that laden prices are counted in, cut down, so that a floor of them is never above.
const ladenParts = 100

// laden is what is put on prices, in minor units.
type laden struct {
	rates *freight.Rates
	// metre of the bandsaw in boards that are resawn; nil where its hours do not count.
	metre *big.Rat
	saw   sawing.Resaw
}

// loadedBy are the rates of freight rows that are asked; nil where none goes by measure or weight.
func loadedBy(rows []sheet.Item, c money.Currency, r Rules) *laden {
	if rates := freight.RatesOf(rows, c, r.Densities); rates != nil {
		return &laden{rates: rates}
	}
	return nil
}

// parts of a minor unit that prices are counted in.
func (s source) parts() int64 {
	if s.laden == nil {
		return 1
	}
	return ladenParts
}

// price of one board or pack; of laden prices in their parts.
func (s source) price(it sheet.Item, w sawing.Way) (money.Money, error) {
	p, err := it.PiecePrice(s.sheet.Currency)
	if err != nil || s.laden == nil {
		return p, err
	}
	x := s.laden.rates.Of(it)
	if it.Kind == sheet.Timber {
		x.Add(x, s.laden.sawn(w, it.Thickness.MM(), it.Across(), it.StockLength.MM()))
	}
	x.Add(x, big.NewRat(p.Minor(), 1)).Mul(x, big.NewRat(ladenParts, 1))
	return money.New(money.Down(x), s.sheet.Currency)
}

// sawn is what the bandsaw's hours in one board cost, minor units.
func (l *laden) sawn(w sawing.Way, thickness, width, length decimal.Decimal) *big.Rat {
	if l.metre == nil {
		return new(big.Rat)
	}
	m := w.Sawn(thickness, width, length, l.saw).Shift(-3).Rat()
	return m.Mul(m, l.metre)
}

// worth of the clear stretches of a board in hand, which nobody brings.
func (s source) worth(all []money.Money, b rack.Board, w sawing.Way) ([]money.Money, error) {
	if s.laden == nil {
		return all, nil
	}
	out := make([]money.Money, len(all))
	for i, m := range all {
		x := s.laden.sawn(w, b.Thickness.MM(), b.Width.MM(), b.Clear[i].Length())
		x.Add(x, big.NewRat(m.Minor(), 1)).Mul(x, big.NewRat(ladenParts, 1))
		var err error
		if out[i], err = money.New(money.Down(x), s.sheet.Currency); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// atLaden plans the groups at laden prices. The list is what it buys at the sheet's own, with the floors of goods, which is the list
// of the same source by prices alone; least is what goods and such freight cannot cost less than together, in parts.
func (g groups) atLaden(from source, by *laden, goods List, r Rules) (list List, least int64, err error) {
	loaded := from
	loaded.laden = by
	plan, err := g.withScarfs(loaded, r)
	if err != nil {
		return List{}, 0, err
	}
	timber, packs := slices.Clone(plan.Timber), slices.Clone(plan.Packs)
	if !slices.EqualFunc(timber, goods.Timber, func(a, b Timber) bool { return slices.Equal(a.Lines, b.Lines) }) {
		return goods, plan.Bound.Minor(), nil // planks lie side by side at one of the prices and not at the other
	}
	for i := range timber {
		if timber[i], err = timber[i].unladen(goods.Timber[i], from, true); err != nil {
			return List{}, 0, err
		}
	}
	with, err := g.glued(timber, false, r, &List{})
	if err != nil {
		return List{}, 0, err
	}
	for i, n := range with.packs {
		alone, err := with.packed(n, from)
		if err != nil {
			return List{}, 0, err
		}
		if by.rates.Any(from.sheet.Item(n.item)) {
			packs[i], err = unladenPacks(packs[i], alone, from)
		} else {
			packs[i] = alone
		}
		if err != nil {
			return List{}, 0, err
		}
	}
	list, err = g.assemble(timber, packs, from, r)
	return list, plan.Bound.Minor(), err
}

// unladen is what a plan buys, at the sheet's prices, with the floor of the goods; parted where the plan is at laden prices.
func (t Timber) unladen(goods Timber, from source, parted bool) (Timber, error) {
	offer := func(o Offer) (Offer, error) {
		if own, ok := goods.Offer(o.ID); ok {
			return own, nil
		}
		it, ok := o.row(t, from.sheet)
		if !ok {
			return Offer{}, &NeedError{o.ID, "this board is not on the sheet"}
		}
		var err error
		o.Price, err = it.PiecePrice(from.sheet.Currency)
		return o, err
	}
	if !parted && slices.ContainsFunc(t.Offers, func(o Offer) bool { // sawn another way, which its certificate is of
		own, err := offer(o)
		return err == nil && own.Way != o.Way
	}) {
		t.Bound = goods.Bound
		return t.judged(), nil
	}
	offers := slices.Clone(goods.Offers)
	for _, o := range t.Offers {
		if !slices.ContainsFunc(offers, func(q Offer) bool { return q.ID == o.ID }) {
			own, err := offer(o)
			if err != nil {
				return Timber{}, err
			}
			offers = append(offers, own)
		}
	}
	t.Offers, t.Boards, t.Cost = offers, slices.Clone(t.Boards), money.Zero(from.sheet.Currency)
	for i := range t.Boards {
		b := &t.Boards[i]
		o, ok := findOffer(offers, b.Offer)
		if !ok {
			return Timber{}, &NeedError{b.Offer, "this board is not on the sheet"}
		}
		var err error
		b.Price = o.Price
		if b.Cost, err = b.Price.Times(decimal.NewFromInt(b.Count), money.HalfUp); err != nil {
			return Timber{}, err
		}
		if t.Cost, err = t.Cost.Add(b.Cost); err != nil {
			return Timber{}, err
		}
	}
	if t.Scarfed != nil && parted {
		own := *t.Scarfed
		each, err := decimal.NewFromString(own.Each)
		if err != nil {
			return Timber{}, err
		}
		x := each.Shift(-2).Rat() // of ladenParts
		own.Each = fixed(x)
		if own.Labour, err = money.RoundRat(x.Mul(x, big.NewRat(own.Count, 1)), from.sheet.Currency, money.HalfUp); err != nil {
			return Timber{}, err
		}
		if own.Saves != nil {
			saves, err := money.RoundRat(own.Saves.Decimal().Shift(-2).Rat(), from.sheet.Currency, money.HalfUp)
			if err != nil {
				return Timber{}, err
			}
			own.Saves = &saves
		}
		t.Scarfed = &own
	}
	t.SideBySide = t.unladenBeside(goods)
	t.Bound, t.Proof, t.Certificate, t.PriceScale, t.JointGrid = goods.Bound, goods.Proof, goods.Certificate, goods.PriceScale, goods.JointGrid
	return t.judged(), nil
}

// unladenBeside is how planks lie side by side in the plan, with what that comes to and its floor by the goods' prices.
func (t Timber) unladenBeside(goods Timber) *SideBySide {
	if t.SideBySide == nil || goods.SideBySide == nil || !t.CutSideBySide() {
		return goods.SideBySide
	}
	own := *goods.SideBySide
	own.Layouts = t.SideBySide.Layouts
	if all, err := money.New(t.Cost.Minor()+t.labour(), t.Cost.Currency()); err == nil {
		own.Cost = all
	}
	return &own
}
