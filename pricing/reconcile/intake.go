package reconcile

import (
	"fmt"
	"math/big"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/notation"
)

// Unsplit is an entry on a line of which the difference splits, that has no part in the split: what it came to stays
// unsplit.
type Unsplit struct {
	// Entry is its name as Entry.ID has it.
	Entry string `json:"entry"`
	// Reason names the entry as its document does and says why.
	Reason string `json:"reason"`
}

// intake is what a line has had: so much in the line's unit for so much, and the entries that do not say how much.
type intake struct {
	some           bool // something was had whose quantity is known
	quantity, cost *big.Rat
	off            []money.Money // what the entries left came to
	left           []Unsplit
}

// had adds up the entries that say how much they are in a unit that converts. The others are left, with why.
func had(entries []Entry, u sheet.Unit) intake {
	s := intake{quantity: new(big.Rat), cost: new(big.Rat)}
	for _, e := range entries {
		q, ok := sheet.Convert(e.Quantity.Rat(), e.Unit, u)
		switch {
		case e.Quantity.IsZero():
			s.leave(e, "names no quantity")
		case !ok:
			s.leave(e, fmt.Sprintf("is counted in %s, which cannot be turned into %s", e.Unit, u))
		default:
			s.some = true
			s.quantity.Add(s.quantity, q)
			s.cost.Add(s.cost, e.Amount.Decimal().Rat())
		}
	}
	return s
}

func (s *intake) leave(e Entry, why string) {
	s.off = append(s.off, e.Amount)
	s.left = append(s.left, left(e, why))
}

func left(e Entry, why string) Unsplit {
	return Unsplit{e.ID(), fmt.Sprintf("line %s of document %s of %s %s", notation.Quote(e.Line), notation.Quote(e.Document), notation.Quote(e.Supplier), why)}
}

func leftAll(entries []Entry, why string) []Unsplit {
	var out []Unsplit
	for _, e := range entries {
		out = append(out, left(e, "is left out: "+why))
	}
	return out
}

// split is what the price and the entries left have of the difference; m is told what was had.
func (s intake) split(m *Measure, on standard, c money.Currency) (price, unsplit money.Money, err error) {
	m.Spent = shown(s.quantity)
	if s.quantity.Sign() != 0 {
		m.SpentPrice = shown(new(big.Rat).Quo(s.cost, s.quantity))
	}
	if price, err = money.RoundRat(PricePart(s.cost, s.quantity, on.price), c, money.HalfUp); err != nil {
		return price, unsplit, err
	}
	unsplit = money.Zero(c)
	for _, m := range s.off {
		if unsplit, err = unsplit.Add(m); err != nil {
			return price, unsplit, err
		}
	}
	return price, unsplit, nil
}
