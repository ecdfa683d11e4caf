package quote

import (
	"ribband/pricing/money"

	"github.com/shopspring/decimal"
)

// judgedDigits is how many significant digits the ends of a judged range are told in: cents of a judgement would be
// believed.
const judgedDigits = 3

// judged is the range that the yard judges a total to end in: less by the fraction low, more by the fraction high, each
// end rounded outward to judgedDigits. An end without a fraction is the total itself.
func judged(total money.Money, low, high decimal.Decimal) (from, to money.Money, err error) {
	from, to = total, total
	c := total.Currency()
	if low.Sign() > 0 {
		d := total.Decimal().Mul(one.Sub(low))
		if from, err = money.Exact(d.RoundFloor(outward(d, c)), c); err != nil {
			return from, to, err
		}
	}
	if high.Sign() > 0 {
		d := total.Decimal().Mul(one.Add(high))
		if to, err = money.Exact(d.RoundCeil(outward(d, c)), c); err != nil {
			return from, to, err
		}
	}
	return from, to, nil
}

// outward is the places that leave judgedDigits, and never more than the currency has.
func outward(d decimal.Decimal, c money.Currency) int32 {
	return min(judgedDigits-int32(d.NumDigits())-d.Exponent(), c.Digits())
}
