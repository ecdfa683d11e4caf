package buy

import (
	"math/big"
	"slices"
	"strings"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
)

// FreightCharge is what one supplier asks for bringing its order.
type FreightCharge struct {
	Supplier string        `json:"supplier,omitempty"`
	Lines    []FreightLine `json:"lines"`
	Cost     money.Money   `json:"cost"`
	// Unknown are goods that freight by weight does not count, because their weight is not known.
	Unknown []string `json:"unknown,omitempty"`
	// Beyond is what is bought beyond what is needed, because the sum from which on freight is not asked is reached with it for less
	// than the freight.
	Beyond []BeyondNeed `json:"beyond,omitempty"`
}

// BeyondNeed is Count boards or packs.
type BeyondNeed struct {
	What  string      `json:"what"`
	Count int64       `json:"count"`
	Cost  money.Money `json:"cost"`
}

// FreightLine is one row of the sheet's freight: Quantity of Unit, exact to 6 places, at UnitPrice for Per, rounded once.
type FreightLine struct {
	Quantity  string      `json:"quantity"`
	Unit      sheet.Unit  `json:"unit"`
	UnitPrice string      `json:"unit_price"`
	Per       string      `json:"per"`
	Cost      money.Money `json:"cost"`
	// FreeFrom is the sum of the supplier's goods from which on it is not asked; Free that it is not.
	FreeFrom string `json:"free_from,omitempty"`
	Free     bool   `json:"free,omitempty"`
}

// charge puts the freight of a list's orders on it.
func (l *List) charge(c sheet.Content, r Rules) error {
	orders, err := gather(*l, c)
	if err != nil {
		return err
	}
	l.Freight, l.FreightCost = nil, money.Zero(l.Currency)
	for _, o := range orders {
		rows := c.Freight(o.Supplier)
		if len(rows) == 0 {
			continue
		}
		f, err := o.freight(rows, l.Currency, r)
		if err != nil {
			return err
		}
		l.Freight = append(l.Freight, f)
		if l.FreightCost, err = l.FreightCost.Add(f.Cost); err != nil {
			return err
		}
	}
	slices.SortFunc(l.Freight, func(a, b FreightCharge) int { return strings.Compare(a.Supplier, b.Supplier) })
	l.Total, err = l.Cost.Add(l.FreightCost)
	return err
}

// freight is what the supplier asks for the order.
func (o *ordering) freight(rows []sheet.Item, c money.Currency, r Rules) (FreightCharge, error) {
	f := FreightCharge{Supplier: o.Supplier, Lines: []FreightLine{}, Cost: money.Zero(c)}
	for _, it := range rows {
		n := big.NewRat(1, 1)
		switch it.Unit.Dimension() {
		case sheet.ByVolume:
			n.SetInt64(0)
			for _, m3 := range o.volume {
				n.Add(n, m3)
			}
		case sheet.ByMass:
			n.Set(o.mass)
			f.Unknown = slices.Clone(o.unweighed)
			for species, m3 := range o.volume {
				density, ok := r.Densities[strings.ToLower(species)]
				if !ok {
					f.Unknown = append(f.Unknown, species)
				}
				n.Add(n, new(big.Rat).Mul(m3, density.Rat()))
			}
			slices.Sort(f.Unknown)
		}
		n.Quo(n, it.Unit.Factor())
		line := FreightLine{Quantity: fixed(n), Unit: it.Unit, UnitPrice: it.Price.String(), Per: it.BaseQuantity().String(), Cost: money.Zero(c)}
		if !it.FreeFrom.IsZero() {
			line.FreeFrom = it.FreeFrom.String()
			line.Free = !o.Cost.Decimal().LessThan(it.FreeFrom)
		}
		var err error
		if !line.Free {
			if line.Cost, err = money.RoundRat(n.Mul(n, it.UnitPrice()), c, money.HalfUp); err != nil {
				return FreightCharge{}, err
			}
		}
		f.Lines = append(f.Lines, line)
		if f.Cost, err = f.Cost.Add(line.Cost); err != nil {
			return FreightCharge{}, err
		}
	}
	return f, nil
}
