package timber

import (
	"fmt"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Grain is the way a width lies to the growth rings.
type Grain string

// Across the rays (flatsawn width) and along them (quartersawn width, or the thickness of a flatsawn board).
const (
	Tangential Grain = "tangential"
	Radial     Grain = "radial"
)

var (
	thirty = decimal.NewFromInt(30)
	ten    = decimal.NewFromInt(10)
	// between these moisture contents, per cent, wood moves by a coefficient
	dryEnd, wetEnd = decimal.NewFromInt(6), decimal.NewFromInt(14)
)

// MoistureError: a moisture content outside of what the formula holds for.
type MoistureError struct{ Moisture decimal.Decimal }

func (e *MoistureError) Error() string {
	return fmt.Sprintf("a moisture content of %s %% is outside of what movement is known for: from 0 to 30 %%, where wood stops moving", e.Moisture)
}

// Coefficient is the change of a width for one per cent of moisture, as a share of it, between 6 and 14 per cent:
// (S/F)/(1 - S (F - 10)/F), S the shrinkage from green to oven-dry as a share and F the moisture at which shrinking begins,
// 30 where the species does not say another. It gives the coefficients printed in Wood Handbook, FPL-GTR-190, USDA Forest
// Products Laboratory, 2010, Table 13-5; to ten places. A *MissingValueError where the species has no such shrinkage.
func (s Species) Coefficient(g Grain) (decimal.Decimal, error) {
	pct, err := s.shrinkage(g)
	if err != nil {
		return decimal.Zero, err
	}
	f := thirty
	if s.ShrinksFrom.Number != "" {
		if f, err = quantity.ParseDecimal(s.ShrinksFrom.Number); err != nil {
			return decimal.Zero, err
		}
	}
	share := pct.Shift(-2)
	// multiplied through by F, so that one division is rounded
	return share.DivRound(f.Sub(share.Mul(f.Sub(ten))), 10), nil
}

func (s Species) shrinkage(g Grain) (decimal.Decimal, error) {
	v, name := s.ShrinkageT, "tangential shrinkage"
	if g == Radial {
		v, name = s.ShrinkageR, "radial shrinkage"
	}
	if v.Number == "" {
		return decimal.Zero, &MissingValueError{s.Code, name}
	}
	return quantity.ParseDecimal(v.Number)
}

// MovementHolds is between which moisture contents, per cent, the formula holds that Movement takes for a change from one to
// another, and whether it is that of the coefficient, which is linear.
func MovementHolds(from, to decimal.Decimal) (low, high decimal.Decimal, linear bool) {
	within := func(m decimal.Decimal) bool { return !m.LessThan(dryEnd) && !m.GreaterThan(wetEnd) }
	if within(from) && within(to) {
		return dryEnd, wetEnd, true
	}
	return decimal.Zero, thirty, false
}

// Movement is how much a width changes, in the width's own unit, when its moisture content goes from one per cent to
// another: positive where it swells. Between 6 and 14 per cent by the coefficient (equation 13-2 of the Wood Handbook);
// beyond, up to 30, by the formula of two limits, width (to - from)/(30 x 100/S - 30 + from), S per cent, whose form is from
// memory (equation 13-3). A *MoistureError outside 0 to 30, a *MissingValueError where the species has no shrinkage.
func (s Species) Movement(width decimal.Decimal, g Grain, from, to decimal.Decimal) (decimal.Decimal, error) {
	for _, m := range []decimal.Decimal{from, to} {
		if m.Sign() < 0 || m.GreaterThan(thirty) {
			return decimal.Zero, &MoistureError{m}
		}
	}
	if _, _, linear := MovementHolds(from, to); linear {
		c, err := s.Coefficient(g)
		if err != nil {
			return decimal.Zero, err
		}
		return width.Mul(c).Mul(to.Sub(from)), nil
	}
	pct, err := s.shrinkage(g)
	if err != nil {
		return decimal.Zero, err
	}
	// multiplied through by S, so that one division is rounded
	return width.Mul(to.Sub(from)).Mul(pct).DivRound(decimal.NewFromInt(3000).Sub(pct.Mul(thirty.Sub(from))), 10), nil
}
