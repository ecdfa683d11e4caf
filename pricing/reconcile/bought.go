package reconcile

import (
	"math/big"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/quote"
	"ribband/pricing/sheet"

	"github.com/shopspring/decimal"
)

// standard is what a line was quoted on: so many units at so much each, both exact.
type standard struct {
	unit     sheet.Unit
	quantity *big.Rat
	price    *big.Rat
}

// lot is what one group of a buy list holds and costs.
type lot struct {
	unit     sheet.Unit
	quantity *big.Rat
	cost     money.Money
}

// standards are the quoted quantities and unit prices of lines, by key, where they are known.
//
// Labour is hours at the sheet's rate. A material is taken as it was to be bought, whole boards and packs in the
// unit they are sold in, and not as the takeoff counts it: laminates have no price, and the cost of a line includes
// what is left over. A line's part of what is bought is its part of the cost.
func standards(o quote.Option, bought buy.List) map[string]standard {
	lots := lotsOf(bought)
	shares := map[string]money.Money{}
	for _, s := range bought.Shares {
		shares[s.Line] = s.Cost
	}
	out := map[string]standard{}
	for _, l := range o.Lines {
		s, ok := labour(l)
		if l.Kind != sheet.Labour {
			s, ok = material(l, lots, shares)
		}
		if ok {
			out[l.Key] = s
		}
	}
	return out
}

func labour(l quote.Line) (standard, bool) {
	rate, err := decimal.NewFromString(l.Rate)
	if err != nil || l.Quantity.IsZero() {
		return standard{}, false
	}
	per, err := decimal.NewFromString(l.RatePer)
	if err != nil || per.Sign() <= 0 {
		return standard{}, false
	}
	return standard{sheet.UnitOf(l.Quantity.Unit()), l.Quantity.Value().Rat(), new(big.Rat).Quo(rate.Rat(), per.Rat())}, true
}

// material adds up the line's part of every group that serves it. Where these are sold in units that measure
// different things, or the costs are not those of the line, its quantity is not known.
func material(l quote.Line, lots map[string]lot, shares map[string]money.Money) (standard, bool) {
	s := standard{quantity: new(big.Rat)}
	cost := money.Zero(l.Cost.Currency())
	for _, need := range l.Needs {
		group, ok := lots[need]
		share, known := shares[need]
		if !ok || !known || group.cost.IsZero() {
			return standard{}, false
		}
		if s.unit == "" {
			s.unit = group.unit
		}
		q, ok := sheet.Convert(group.quantity, group.unit, s.unit)
		if !ok {
			return standard{}, false
		}
		q.Mul(q, big.NewRat(share.Minor(), group.cost.Minor()))
		s.quantity.Add(s.quantity, q)
		var err error
		if cost, err = cost.Add(share); err != nil {
			return standard{}, false
		}
	}
	if s.quantity.Sign() <= 0 || cost != l.Cost {
		return standard{}, false
	}
	s.price = new(big.Rat).Quo(l.Cost.Decimal().Rat(), s.quantity)
	return s, true
}

// lotsOf is the group of each need. One whose boards or packs are sold in units that do not convert is left out.
func lotsOf(bought buy.List) map[string]lot {
	out := map[string]lot{}
	put := func(lines []string, l lot, ok bool) {
		for _, id := range lines {
			if ok {
				out[id] = l
			}
		}
	}
	for _, t := range bought.Timber {
		units := map[string]sheet.Unit{}
		for _, o := range t.Offers {
			units[o.ID] = o.Unit
		}
		l, ok := lot{cost: t.Cost, quantity: new(big.Rat)}, true
		for _, b := range t.Boards {
			measure, err := decimal.NewFromString(b.Measure)
			ok = ok && err == nil && l.hold(measure.Rat(), units[b.Offer])
		}
		put(t.Lines, l, ok)
	}
	for _, p := range bought.Packs {
		l, ok := lot{cost: p.Cost, quantity: new(big.Rat)}, true
		for _, b := range p.Bought {
			size, err := decimal.NewFromString(b.PackSize)
			ok = ok && err == nil && l.hold(new(big.Rat).Mul(size.Rat(), big.NewRat(b.Count, 1)), b.Unit)
		}
		put(p.Lines, l, ok)
	}
	return out
}

// hold adds so much of a unit to the lot, which keeps the unit of what came first.
func (l *lot) hold(q *big.Rat, u sheet.Unit) bool {
	if l.unit == "" {
		l.unit = u
	}
	x, ok := sheet.Convert(q, u, l.unit)
	if ok {
		l.quantity.Add(l.quantity, x)
	}
	return ok
}
