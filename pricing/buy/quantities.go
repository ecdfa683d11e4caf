package buy

import (
	"slices"

	"ribband/pricing/money"
	"ribband/pricing/sheet"

	"github.com/shopspring/decimal"
)

// pricedPlan is what is bought where of each board one price is taken.
type pricedPlan struct {
	chosen  map[string]bool
	planned []Timber
}

// cheapestOf is the cheapest of plans, each also at the prices of every choice that its numbers of boards come up to: groups that
// by themselves are too small for a price may reach it together with what they buy at another.
func cheapestOf(all, priced []pricedPlan, rows []sheet.Item, c sheet.Content) ([]Timber, error) {
	best := all[0].planned
	for _, of := range all {
		if cost, _ := totals(of.planned); cost < total(best) {
			best = of.planned
		}
	}
	for _, of := range all {
		for _, at := range priced {
			moved, ok, err := of.at(at, rows, c)
			if err != nil {
				return nil, err
			}
			if ok && total(moved) < total(best) {
				best = moved
			}
		}
	}
	return best, nil
}

// reached is the choice of the lowest prices that a plan's numbers of boards come up to; false where that is its own.
func (p pricedPlan) reached(rows []sheet.Item, c sheet.Content) (chosen map[string]bool, moved bool) {
	bought := map[string]int64{}
	for _, t := range p.planned {
		for _, b := range t.Boards {
			bought[b.Offer] += b.Count
		}
	}
	chosen = map[string]bool{}
	for _, it := range rows {
		own := id(c, it)
		if !p.chosen[own] {
			continue
		}
		least := it
		for _, o := range c.Breaks(it) {
			if o.MinPieces() <= bought[own] && (o.Available < 0 || bought[own] <= o.Available) && o.UnitPrice().Cmp(least.UnitPrice()) < 0 {
				least = o
			}
		}
		name := id(c, least)
		chosen[name], moved = true, moved || name != own
	}
	return chosen, moved
}

func total(planned []Timber) int64 {
	cost, _ := totals(planned)
	return cost
}

// at is what a plan buys at the prices of another; false where it buys too few boards for them, or more than are for sale so, or
// some that those do not have.
func (p pricedPlan) at(other pricedPlan, rows []sheet.Item, c sheet.Content) (out []Timber, ok bool, err error) {
	names, bought := map[string]string{}, map[string]int64{}
	for _, it := range rows {
		if !p.chosen[id(c, it)] {
			continue
		}
		for _, o := range rows {
			if o.Article() == it.Article() && other.chosen[id(c, o)] {
				names[id(c, it)] = id(c, o)
			}
		}
	}
	for _, t := range p.planned {
		for _, b := range t.Boards {
			if o, ok := t.Offer(b.Offer); ok && o.Rack != nil {
				names[b.Offer] = b.Offer
			}
			name, ok := names[b.Offer]
			if !ok {
				return nil, false, nil
			}
			bought[name] += b.Count
		}
	}
	for _, it := range rows {
		if n := bought[id(c, it)]; n > 0 && (n < it.MinPieces() || it.Available >= 0 && n > it.Available) {
			return nil, false, nil
		}
	}
	for i, t := range p.planned {
		one, ok, err := t.as(other.planned[i], names)
		if err != nil || !ok {
			return nil, false, err
		}
		out = append(out, one)
	}
	return out, true, nil
}

// as is what a group buys, by the names and prices of another plan of it; false where that has no such board.
func (t Timber) as(other Timber, names map[string]string) (Timber, bool, error) {
	out := other
	out.Boards, out.Cuts, out.LeftOver = slices.Clone(t.Boards), slices.Clone(t.Cuts), slices.Clone(t.LeftOver)
	out.Method, out.Scarfed, out.NotScarfed, out.Resawn, out.NotResawn, out.Cost = t.Method, t.Scarfed, t.NotScarfed, t.Resawn, t.NotResawn, money.Zero(t.Cost.Currency())
	for i := range out.Boards {
		b := &out.Boards[i]
		b.Offer = names[b.Offer]
		o, ok := other.Offer(b.Offer)
		if !ok {
			return Timber{}, false, nil
		}
		var err error
		b.Price = o.Price
		if b.Cost, err = b.Price.Times(decimal.NewFromInt(b.Count), money.HalfUp); err != nil {
			return Timber{}, false, err
		}
		if out.Cost, err = out.Cost.Add(b.Cost); err != nil {
			return Timber{}, false, err
		}
	}
	for i := range out.Cuts {
		out.Cuts[i].Offer = names[out.Cuts[i].Offer]
	}
	for i := range out.LeftOver {
		out.LeftOver[i].Offer = names[out.LeftOver[i].Offer]
	}
	return out.judged(), true, nil
}
