package money

import (
	"math/big"

	"github.com/shopspring/decimal"
)

// Mode says what becomes of exactly half a unit. Law differs between countries, so it is a setting that stands in
// the document, never an assumption.
type Mode string

// The modes.
const (
	// HalfUp takes exactly half away from zero: 365.125 to 365.13, and -365.125 to -365.13.
	HalfUp Mode = "half_up"
	// HalfEven takes exactly half to the even neighbour: 365.125 to 365.12.
	HalfEven Mode = "half_even"
)

// Known reports whether m is one of the modes.
func (m Mode) Known() bool { return m == HalfUp || m == HalfEven }

// Round rounds d to so many decimal places, once. An unknown mode rounds as HalfUp.
func (m Mode) Round(d decimal.Decimal, places int32) decimal.Decimal {
	if m == HalfEven {
		return d.RoundBank(places)
	}
	return d.Round(places)
}

// RoundRat rounds an exact fraction to so many decimal places, once: a quotient such as "per 12" is never cut off
// before it is rounded. Places run from 0 to 18.
func (m Mode) RoundRat(r *big.Rat, places int32) decimal.Decimal {
	scaled := new(big.Int).Mul(r.Num(), power10(places))
	return decimal.NewFromBigInt(m.quotient(scaled, r.Denom()), -places)
}

// quotient is num/den, den > 0, rounded to a whole number.
func (m Mode) quotient(num, den *big.Int) *big.Int {
	q, rest := new(big.Int).QuoRem(num, den, new(big.Int))
	twice := rest.Abs(rest).Lsh(rest, 1)
	c := twice.Cmp(den)
	if c < 0 || c == 0 && m == HalfEven && q.Bit(0) == 0 {
		return q
	}
	return q.Add(q, big.NewInt(int64(num.Sign())))
}

func power10(n int32) *big.Int { return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil) }
