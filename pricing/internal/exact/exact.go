// Package exact writes exact values short in tests, and nowhere else: what is written wrong there ends them.
package exact

import (
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Dec is the number that text writes.
func Dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// Of is the quantity of as many units as text writes.
func Of(text string, unit quantity.Unit) quantity.Quantity {
	q, err := quantity.Of(Dec(text), unit)
	if err != nil {
		panic(err)
	}
	return q
}
