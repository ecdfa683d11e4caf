package rules

import (
	"fmt"

	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// The steps that a thickness is set in at the saw: a thirty-second of an inch, or half a millimetre. Assumption: a yard
// may rip finer by writing the thickness into its rules.
var (
	inch        = decimal.RequireFromString("25.4")
	inchStep    = decimal.RequireFromString("0.79375") // 1/32 in
	metricStep  = decimal.RequireFromString("0.5")
	thinnestRip = decimal.RequireFromString("0.5") // mm; nothing thinner leaves a saw whole
)

// Shown is a thickness in millimetres as people are told it: in the rules' own notation, with the millimetres beside
// inches.
func (r Rules) Shown(mm decimal.Decimal) string {
	for _, rip := range r.Rips {
		if rip.Thickness.Equal(mm) && r.Notation == notation.Inches {
			return rip.Written + " in (" + mm.Round(2).String() + " mm)"
		}
	}
	if !r.inches() {
		return mm.Round(2).String() + " mm"
	}
	return fraction(mm) + " in (" + mm.Round(2).String() + " mm)"
}

// Rippable is the thickest practical thickness not above mm, as people are told it: the next thirty-second of an inch or
// half millimetre below. It is false where there is none.
func (r Rules) Rippable(mm decimal.Decimal) (string, bool) {
	thick := r.Below(mm)
	if thick.LessThan(thinnestRip) {
		return "", false
	}
	return r.Shown(thick), true
}

// Below is the next practical size not above mm: a thirty-second of an inch or half a millimetre.
func (r Rules) Below(mm decimal.Decimal) decimal.Decimal {
	step := metricStep
	if r.inches() {
		step = inchStep
	}
	return mm.DivRound(step, 9).Floor().Mul(step)
}

// ThickestOf the rips not above mm; false where there is none.
func (r Rules) ThickestOf(mm decimal.Decimal) (decimal.Decimal, bool) {
	best := decimal.Zero
	for _, rip := range r.Rips {
		if rip.Thickness.LessThanOrEqual(mm) && rip.Thickness.GreaterThan(best) {
			best = rip.Thickness
		}
	}
	return best, best.Sign() > 0
}

func (r Rules) inches() bool {
	return r.Notation == notation.Inches || r.Notation == notation.FeetInchesEighths
}

// fraction is millimetres in inches: a binary fraction where it is one of sixty-fourths, otherwise a decimal.
func fraction(mm decimal.Decimal) string {
	parts := mm.Mul(decimal.NewFromInt(64)).DivRound(inch, 9)
	if !parts.IsInteger() {
		return mm.DivRound(inch, 3).String()
	}
	n, d := parts.IntPart(), int64(64)
	whole := n / d
	n %= d
	for n > 0 && n%2 == 0 {
		n, d = n/2, d/2
	}
	switch {
	case n == 0:
		return fmt.Sprint(whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d", n, d)
	}
	return fmt.Sprintf("%d %d/%d", whole, n, d)
}
