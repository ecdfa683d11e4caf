package app

import (
	"errors"
	"math/big"

	"ribband/pricing/money"
	"ribband/pricing/quote"
	"ribband/pricing/sheet"
	"ribband/takeoff/step"
)

// tooDear says which prices carry an amount out of range, where err is that one does: as a *ComputeError. Every other
// error stays as it is.
func (e *estimated) tooDear(err error, c sheet.Content) error {
	var beyond *money.RangeError
	if !errors.As(err, &beyond) {
		return err
	}
	out := &ComputeError{}
	for i, w := range e.works {
		for _, s := range e.work(i, w) {
			it, ok := c.Labour(s.Trade)
			if !ok || carried(hoursCost(s, it), c.Currency) {
				continue
			}
			out.Faults.Add("", "look at the price of "+s.Trade+" on version "+itoa(int(e.draft.Version))+" of the price sheet",
				"option %s, %s: %s %s of %s at %s %s for %s come to more than is carried: %s", e.options[i].Name, s.Name, s.Hours, s.Hours.Unit(), s.Trade,
				it.Price, c.Currency, it.BaseQuantity(), beyond)
		}
	}
	if len(out.Faults) > 0 {
		return out
	}
	where := "what is bought"
	var of *quote.OptionError
	if errors.As(err, &of) {
		where = "option " + of.Name
	}
	out.Faults.Add("", "look at the dearest prices on version "+itoa(int(e.draft.Version))+" of the price sheet, and at markup and taxes",
		"%s comes to more than is carried: %s", where, beyond)
	return out
}

// hoursCost is the exact cost of a step's hours.
func hoursCost(s step.Work, it sheet.Item) *big.Rat {
	return new(big.Rat).Mul(s.Hours.Value().Rat(), it.UnitPrice())
}

// carried reports whether an amount is in range.
func carried(r *big.Rat, c money.Currency) bool {
	_, err := money.RoundRat(r, c, money.HalfUp)
	return err == nil
}
