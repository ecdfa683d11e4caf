package bend

import (
	"fmt"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// RangeError: a number that nothing can be bent by.
type RangeError struct {
	What  string
	Value string
	Right string
}

func (e *RangeError) Error() string {
	return fmt.Sprintf("the %s is %s; it is %s", e.What, e.Value, e.Right)
}

// At is the curvature, 1/mm, of a laminate at a depth, mm, inboard of a faying face of curvature k: k/(1 - k d), for
// laminates lie side by side and share their centre. In a bilge (k > 0) the inboard laminate is the tightest, in a hollow
// the outboard one. ok is false where no laminate can lie so deep, because it would turn on itself.
func At(k, depth float64) (curvature float64, ok bool) {
	left := quantity.Snap(1 - k*depth)
	if !(left > 0) {
		return 0, false
	}
	return k / (1 - k*depth), true
}

// divisionPlaces is how many places a quotient keeps before it is snapped.
const divisionPlaces = 16

// StrainRatio is the least radius over thickness at which a laminate, bent dry, is strained no more than a share of what
// ruptures its wood. The outer fibre is strained by t/(2R), and wood ruptures at about MOR/MOE, so R/t is
// MOE/(2 x share x MOR). Both moduli are in one unit. Errors are *RangeError.
func StrainRatio(rupture, elasticity, share decimal.Decimal) (decimal.Decimal, error) {
	for _, v := range []struct {
		what string
		d    decimal.Decimal
	}{{"modulus of rupture", rupture}, {"modulus of elasticity", elasticity}, {"share of the strain at rupture", share}} {
		if v.d.Sign() <= 0 {
			return decimal.Zero, &RangeError{v.what, v.d.String(), "above 0"}
		}
	}
	return elasticity.DivRound(decimal.NewFromInt(2).Mul(share).Mul(rupture), divisionPlaces), nil
}

// Laminates is how many of a thickness make up a depth, both mm: the quotient snapped to twelve digits and rounded up, so
// that exactly twelve are twelve in whatever unit they were written. 0 where either is not above 0.
func Laminates(depth, thickness decimal.Decimal) int64 {
	if depth.Sign() <= 0 || thickness.Sign() <= 0 {
		return 0
	}
	return quantity.SnapDecimal(depth.DivRound(thickness, divisionPlaces)).Ceil().IntPart()
}
