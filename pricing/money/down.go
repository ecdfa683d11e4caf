package money

import (
	"math"
	"math/big"
)

// Down is the whole part of an exact sum of minor units, from 0, at most what an int64 holds.
func Down(r *big.Rat) int64 {
	q := new(big.Int).Quo(r.Num(), r.Denom())
	if !q.IsInt64() {
		return math.MaxInt64
	}
	return q.Int64()
}
