// Package freight is what suppliers ask for bringing their goods: by the order, by measure and by weight. Where it is asked by the
// order it stands beside all that one supplier brings; where it goes by measure or weight each board and pack has its part.
package freight

import (
	"math/big"
	"slices"
	"strings"

	"ribband/pricing/money"
	"ribband/pricing/sheet"

	"github.com/shopspring/decimal"
)

// Charge is what one supplier asks for bringing its order.
type Charge struct {
	Supplier string      `json:"supplier,omitempty"`
	Lines    []Line      `json:"lines"`
	Cost     money.Money `json:"cost"`
	// Unknown are goods that freight by weight does not count, because their weight is not known.
	Unknown []string `json:"unknown,omitempty"`
	// Beyond is what is bought beyond what is needed, because the sum from which on freight is not asked is reached with it for less
	// than the freight.
	Beyond []Beyond `json:"beyond,omitempty"`
}

// Beyond is Count boards or packs.
type Beyond struct {
	What  string      `json:"what"`
	Count int64       `json:"count"`
	Cost  money.Money `json:"cost"`
}

// Line is one row of the sheet's freight: Quantity of Unit, exact to 6 places, at UnitPrice for Per, rounded once.
type Line struct {
	Quantity  string      `json:"quantity"`
	Unit      sheet.Unit  `json:"unit"`
	UnitPrice string      `json:"unit_price"`
	Per       string      `json:"per"`
	Cost      money.Money `json:"cost"`
	// FreeFrom is the sum of the supplier's goods from which on it is not asked; Free that it is not.
	FreeFrom string `json:"free_from,omitempty"`
	Free     bool   `json:"free,omitempty"`
}

// Charge is what the supplier asks for the load by its rows of freight; densities are of species, kg in a cubic metre.
func (l *Load) Charge(rows []sheet.Item, densities map[string]decimal.Decimal) (Charge, error) {
	c := l.Goods.Currency()
	f := Charge{Supplier: l.Supplier, Lines: []Line{}, Cost: money.Zero(c)}
	for _, it := range rows {
		n := big.NewRat(1, 1)
		switch it.Unit.Dimension() {
		case sheet.ByVolume:
			n.SetInt64(0)
			for _, m3 := range l.Volume {
				n.Add(n, m3)
			}
		case sheet.ByMass:
			n.Set(l.mass)
			f.Unknown = slices.Clone(l.unweighed)
			for species, m3 := range l.Volume {
				density, ok := densities[strings.ToLower(species)]
				if !ok {
					f.Unknown = append(f.Unknown, species)
				}
				n.Add(n, new(big.Rat).Mul(m3, density.Rat()))
			}
			slices.Sort(f.Unknown)
		}
		n.Quo(n, it.Unit.Factor())
		line := Line{Quantity: money.HalfUp.RoundRat(n, 6).StringFixed(6), Unit: it.Unit, UnitPrice: it.Price.String(), Per: it.BaseQuantity().String(), Cost: money.Zero(c)}
		if !it.FreeFrom.IsZero() {
			line.FreeFrom = it.FreeFrom.String()
			line.Free = !l.Goods.Decimal().LessThan(it.FreeFrom)
		}
		var err error
		if !line.Free {
			if line.Cost, err = money.RoundRat(n.Mul(n, it.UnitPrice()), c, money.HalfUp); err != nil {
				return Charge{}, err
			}
		}
		f.Lines = append(f.Lines, line)
		if f.Cost, err = f.Cost.Add(line.Cost); err != nil {
			return Charge{}, err
		}
	}
	return f, nil
}
