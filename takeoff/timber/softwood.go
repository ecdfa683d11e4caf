package timber

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// Softwood is what a nominal size of softwood measures, inches: surfaced dry, surfaced green, and rough dry at the least. Empty
// where no figure was seen.
type Softwood struct{ Nominal, Dry, Green, RoughDry string }

// softwoods: Tenn. Comp. R. & Regs. 0080-07-07-.06, Table 4, which has the figures of American Softwood Lumber Standard
// PS 20.
var softwoods = [...]Softwood{
	{"2", "1 1/2", "1 9/16", "1 5/8"},
	{"3", "2 1/2", "2 9/16", "2 5/8"},
	{"4", "3 1/2", "3 9/16", "3 5/8"},
	{"6", "5 1/2", "5 5/8", "5 5/8"},
	{"8", "7 1/4", "7 1/2", "7 3/8"},
	{"10", "9 1/4", "9 1/2", "9 3/8"},
	{"12", "11 1/4", "11 1/2", "11 3/8"},
	{"14", "13 1/4", "", ""},
	{"16", "15 1/4", "", ""},
}

// SoftwoodSize of a nominal inch figure such as "6".
func SoftwoodSize(nominal string) (Softwood, error) {
	for _, s := range softwoods {
		if s.Nominal == nominal {
			return s, nil
		}
	}
	return Softwood{}, &BoardError{fmt.Sprintf("the nominal size %s is not in the table of softwood", nominal), "one of 2, 3, 4, 6, 8, 10, 12, 14, 16 inches"}
}

// SoftwoodShrinkage is what softwood but redwood and cedar loses in width and thickness from green (28 per cent) to a moisture
// content between 8 and 19 per cent, per cent of the green size: 6.031 - 0.215 M and 5.062 - 0.181 M. D. W. Green, FPL-RP-489,
// USDA Forest Products Laboratory. A *BoardError outside of that.
func SoftwoodShrinkage(moisture decimal.Decimal) (width, thickness decimal.Decimal, err error) {
	if moisture.LessThan(decimal.NewFromInt(8)) || moisture.GreaterThan(decimal.NewFromInt(19)) {
		return decimal.Zero, decimal.Zero, &BoardError{fmt.Sprintf("softwood's shrinkage to %s %% moisture is not known", moisture), "a moisture content from 8 to 19 %"}
	}
	line := func(a, b string) decimal.Decimal {
		return decimal.RequireFromString(a).Sub(decimal.RequireFromString(b).Mul(moisture))
	}
	return line("6.031", "0.215"), line("5.062", "0.181"), nil
}
