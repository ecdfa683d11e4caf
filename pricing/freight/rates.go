package freight

import (
	"math/big"
	"slices"
	"strings"

	"ribband/pricing/money"
	"ribband/pricing/sheet"

	"github.com/shopspring/decimal"
)

// Rates are what is asked by measure and weight, in minor units.
type Rates struct {
	by        map[string]rate // of a supplier, by sheet.SupplierKey
	densities map[string]decimal.Decimal
}

// rate is for a cubic metre of timber and for a kilogram.
type rate struct{ m3, kg *big.Rat }

// RatesOf are those of freight rows, nil where none goes by measure or weight; densities are of species, kg in a cubic metre.
func RatesOf(rows []sheet.Item, c money.Currency, densities map[string]decimal.Decimal) *Rates {
	out := &Rates{by: map[string]rate{}, densities: densities}
	minor := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(c.Digits())), nil))
	for _, it := range rows {
		if it.Unit.Dimension() != sheet.ByVolume && it.Unit.Dimension() != sheet.ByMass {
			continue
		}
		name := sheet.SupplierKey(it.Supplier)
		asked, ok := out.by[name]
		if !ok {
			asked = rate{new(big.Rat), new(big.Rat)}
		}
		each := it.UnitPrice()
		each.Mul(each, minor).Quo(each, it.Unit.Factor())
		if it.Unit.Dimension() == sheet.ByVolume {
			asked.m3.Add(asked.m3, each)
		} else {
			asked.kg.Add(asked.kg, each)
		}
		out.by[name] = asked
	}
	if len(out.by) == 0 {
		return nil
	}
	return out
}

// Of is what one board or pack adds to the freight, minor units; no rates add nothing.
func (r *Rates) Of(it sheet.Item) *big.Rat {
	if r == nil {
		return new(big.Rat)
	}
	rate, ok := r.by[sheet.SupplierKey(it.Supplier)]
	if !ok {
		return new(big.Rat)
	}
	if it.Kind != sheet.Timber {
		kg, ok := sheet.Convert(it.PieceMeasure(), it.Unit, "KGM")
		if !ok {
			return new(big.Rat)
		}
		return kg.Mul(kg, rate.kg)
	}
	m3 := it.BoardVolume().Shift(-9).Rat()
	each := new(big.Rat).Mul(rate.kg, r.densities[strings.ToLower(it.Species)].Rat())
	return m3.Mul(m3, each.Add(each, rate.m3))
}

// Any reports whether some row adds to the freight.
func (r *Rates) Any(rows []sheet.Item) bool {
	return slices.ContainsFunc(rows, func(it sheet.Item) bool { return r.Of(it).Sign() > 0 })
}
