package glue

import (
	"fmt"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Clamps along a blank: one at an end, and one more at every whole pitch from it. Both in the same unit. Decided on the
// snapped quotient, so that a length of whole pitches has its last clamp at its end.
func Clamps(length, pitch decimal.Decimal) (int64, error) {
	if length.Sign() <= 0 || pitch.Sign() <= 0 {
		return 0, &InputError{"pitch", fmt.Sprintf("clamps %s apart along %s", pitch, length), "a length and a pitch above 0"}
	}
	n := quantity.SnapDecimal(length.DivRound(pitch, 16)).Floor()
	if n.GreaterThan(decimal.NewFromInt(MaxClamps)) {
		return 0, &InputError{"pitch", fmt.Sprintf("%s clamps are more than a yard has", n), fmt.Sprintf("a pitch that asks for at most %d", MaxClamps)}
	}
	return n.IntPart() + 1, nil
}

// MaxClamps is more than any yard has.
const MaxClamps = 100_000
