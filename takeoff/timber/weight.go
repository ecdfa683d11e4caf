package timber

import (
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// DensityAt is the density at a moisture content, per cent from 0 to 200, kg/m3: rho = 1000 G (1 + m/100) with the specific
// gravity on the volume at that moisture (D. R. Larsen, forestry functions, University of Missouri, after Wood Handbook,
// FPL-GTR-190, 2010, ch. 4). Known at 12 per cent, G is brought to m by the volume's shrinkage, taken as even between 30 per
// cent and none (as Coefficient takes it); at 12 per cent no shrinkage is needed. To six places. A *MissingValueError where
// the species lacks gravity, or volumetric shrinkage away from 12 per cent.
func (s Species) DensityAt(moisture decimal.Decimal) (decimal.Decimal, error) {
	if moisture.Sign() < 0 || moisture.GreaterThan(decimal.NewFromInt(200)) {
		return decimal.Zero, &WetnessError{moisture}
	}
	if s.GravityAt12.Number == "" {
		return decimal.Zero, &MissingValueError{s.Code, "specific gravity at 12 %"}
	}
	g, err := quantity.ParseDecimal(s.GravityAt12.Number)
	if err != nil {
		return decimal.Zero, err
	}
	mass := g.Mul(decimal.NewFromInt(1000)).Mul(one.Add(moisture.Shift(-2)))
	if moisture.Equal(at12) {
		return mass, nil
	}
	if s.ShrinkageV.Number == "" {
		return decimal.Zero, &MissingValueError{s.Code, "volumetric shrinkage"}
	}
	pct, err := quantity.ParseDecimal(s.ShrinkageV.Number)
	if err != nil {
		return decimal.Zero, err
	}
	// of the green volume, in three thousandths: 3000 - S (30 - m), m no more than 30
	left := func(m decimal.Decimal) decimal.Decimal {
		return decimal.NewFromInt(3000).Sub(pct.Mul(thirty.Sub(decimal.Min(m, thirty))))
	}
	return mass.Mul(left(at12)).DivRound(left(moisture), 6), nil
}

// WetnessError: a moisture content that no timber has.
type WetnessError struct{ Moisture decimal.Decimal }

func (e *WetnessError) Error() string {
	return "a moisture content of " + e.Moisture.String() + " % is none that timber has: from 0 to 200 %"
}
