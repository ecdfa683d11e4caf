// Package money holds exact amounts of one currency.
//
// An amount is a whole number of the currency's minor unit; no float ever touches one. Currencies never mix,
// nothing wraps round, and splitting an amount neither loses nor makes a cent. Out of scope: rates of exchange.
package money

import (
	"fmt"
	"math/big"

	"github.com/shopspring/decimal"
)

// Amounts stay below a million million currency units either way, which is what exact input allows and what an
// int64 of minor units carries with ease even at four places.
const maxUnits int64 = 1_000_000_000_000

// Money is an exact amount of one currency. The zero value is no amount: it has no currency. Amounts compare
// with ==.
type Money struct {
	minor    int64
	currency Currency
}

// MixedError: two currencies in one sum.
type MixedError struct{ Left, Right Currency }

func (e *MixedError) Error() string {
	return fmt.Sprintf("%s and %s cannot be put in one sum: one currency is needed", name(e.Left), name(e.Right))
}

// RangeError: an amount beyond what is carried.
type RangeError struct{ Currency Currency }

func (e *RangeError) Error() string {
	return fmt.Sprintf("an amount of %s is out of range: it must stay below 1000000000000 either way", name(e.Currency))
}

func name(c Currency) string {
	if c == "" {
		return "no currency"
	}
	return string(c)
}

// New is so many minor units (cents) of c; a *CurrencyError or a *RangeError otherwise.
func New(minor int64, c Currency) (Money, error) {
	if !c.Known() {
		return Money{}, &CurrencyError{c}
	}
	if limit := maxUnits * power10(c.Digits()).Int64(); minor >= limit || minor <= -limit {
		return Money{}, &RangeError{c}
	}
	return Money{minor, c}, nil
}

// Zero is nothing, in c. An unknown currency gives an amount that adds to none.
func Zero(c Currency) Money { return Money{0, c} }

// Round is d rounded once to the currency's minor unit; a *CurrencyError or a *RangeError otherwise.
func Round(d decimal.Decimal, c Currency, m Mode) (Money, error) {
	r, ok := bounded(d)
	if !ok {
		return Money{}, &RangeError{c}
	}
	return RoundRat(r, c, m)
}

// RoundRat is an exact fraction of currency units rounded once to the minor unit; errors as Round.
func RoundRat(r *big.Rat, c Currency, m Mode) (Money, error) {
	if !c.Known() {
		return Money{}, &CurrencyError{c}
	}
	minor := m.quotient(new(big.Int).Mul(r.Num(), power10(c.Digits())), r.Denom())
	if !minor.IsInt64() {
		return Money{}, &RangeError{c}
	}
	return New(minor.Int64(), c)
}

// The exponents and size of a decimal that is looked at: beyond them arithmetic would cost time and memory for a
// number that is no amount.
const (
	leastExponent = -64
	mostExponent  = 18
	mostBits      = 512
)

// bounded is d as an exact fraction; ok is false when d is so long or so large that it is not even looked at.
func bounded(d decimal.Decimal) (*big.Rat, bool) {
	if d.Exponent() < leastExponent || d.Exponent() > mostExponent || d.Coefficient().BitLen() > mostBits {
		return nil, false
	}
	return d.Rat(), true
}

// Minor is the amount in minor units (cents).
func (m Money) Minor() int64 { return m.minor }

// Currency of the amount.
func (m Money) Currency() Currency { return m.currency }

// Decimal is the amount in currency units, exact.
func (m Money) Decimal() decimal.Decimal { return decimal.New(m.minor, -m.currency.Digits()) }

// String is the amount with the currency's places, without the currency: "1240.50".
func (m Money) String() string { return m.Decimal().StringFixed(m.currency.Digits()) }

// IsZero reports an amount of nothing.
func (m Money) IsZero() bool { return m.minor == 0 }

// Sign is -1, 0 or 1.
func (m Money) Sign() int {
	switch {
	case m.minor < 0:
		return -1
	case m.minor > 0:
		return 1
	}
	return 0
}

// Equal reports the same amount of the same currency.
func (m Money) Equal(o Money) bool { return m == o }

// Add is m + o; a *MixedError when the currencies differ, a *RangeError when the sum is out of range.
func (m Money) Add(o Money) (Money, error) {
	if m.currency != o.currency {
		return Money{}, &MixedError{m.currency, o.currency}
	}
	return New(m.minor+o.minor, m.currency) // both are far inside int64
}

// Sub is m - o; errors as Add.
func (m Money) Sub(o Money) (Money, error) { return m.Add(o.Neg()) }

// Neg is -m.
func (m Money) Neg() Money { return Money{-m.minor, m.currency} }

// Times is m x factor, rounded once; a *RangeError when it is out of range.
func (m Money) Times(factor decimal.Decimal, mode Mode) (Money, error) {
	r, ok := bounded(factor)
	if !ok {
		return Money{}, &RangeError{m.currency}
	}
	return RoundRat(r.Mul(r, m.Decimal().Rat()), m.currency, mode)
}

// Sum adds amounts of c; errors as Add.
func Sum(c Currency, amounts ...Money) (Money, error) {
	total, err := New(0, c)
	if err != nil {
		return Money{}, err
	}
	for _, a := range amounts {
		if total, err = total.Add(a); err != nil {
			return Money{}, err
		}
	}
	return total, nil
}
