package timber

import (
	"strings"

	"github.com/shopspring/decimal"
)

// Scant is how much under its nominal size rough hardwood may be once it is kiln-dried, inches.
type Scant struct{ Thickness, Width decimal.Decimal }

// Thicknesses, inches, between and from which a tolerance holds, and the tolerances.
var (
	scantFrom  = decimal.RequireFromString("0.375")
	scantUpTo  = decimal.RequireFromString("1.75")
	scantThick = decimal.NewFromInt(2)
	sixteenth  = decimal.RequireFromString("0.0625")
	eighth     = decimal.RequireFromString("0.125")
	quarter    = decimal.RequireFromString("0.25")
)

// KilnDriedScant of a nominal thickness in inches: 1/16 from 3/8 to 1 3/4, 1/8 from 2 on, and widths 1/4; false for
// thicknesses that the rule does not name. National Hardwood Lumber Association, rules of 2023, p. 56, as quoted in
// "Kiln-dried rules and shrinkage allowances", nhla.com, 28 February 2025.
func KilnDriedScant(nominal decimal.Decimal) (Scant, bool) {
	switch {
	case nominal.LessThan(scantFrom), nominal.GreaterThan(scantUpTo) && nominal.LessThan(scantThick):
		return Scant{}, false
	case nominal.LessThan(scantThick):
		return Scant{sixteenth, quarter}, true
	}
	return Scant{eighth, quarter}, true
}

// Share of the footage that is lost from a gross tally, taken green, to a net one, taken dry, in the trade: a trade article of
// 1993 has 3 to 8 per cent or more, a rough mill's figures (Woodworking Network, on lumber yield, undated) 6 to 7.
var (
	DryingLossLow  = decimal.RequireFromString("0.03")
	DryingLossHigh = decimal.RequireFromString("0.08")
)

// SurfacedOf is what rough hardwood of so many inches keeps; false where the table has no such thickness.
func SurfacedOf(inches decimal.Decimal) (Quarter, bool) {
	for _, q := range quarters {
		if q.inches().Equal(inches) {
			return q, true
		}
	}
	return Quarter{}, false
}

// inches of a rough thickness such as 5/4, exact.
func (q Quarter) inches() decimal.Decimal {
	n, d, _ := strings.Cut(q.Rough, "/")
	num, err := decimal.NewFromString(n)
	if err != nil {
		return decimal.Zero
	}
	den, err := decimal.NewFromString(d)
	if err != nil || den.IsZero() {
		return decimal.Zero
	}
	return num.DivRound(den, 6) // halves to eighths end within three places
}
