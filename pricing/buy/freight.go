package buy

import (
	"slices"
	"strings"

	"ribband/pricing/freight"
	"ribband/pricing/money"
	"ribband/pricing/sheet"
)

// charge puts the freight of a list's orders on it.
func (l *List) charge(c sheet.Content, r Rules) error {
	loads, err := l.loads(c)
	if err != nil {
		return err
	}
	l.Freight, l.FreightCost = nil, money.Zero(l.Currency)
	for _, o := range loads {
		rows := c.Freight(o.Supplier)
		if len(rows) == 0 {
			continue
		}
		f, err := o.Charge(rows, r.Densities)
		if err != nil {
			return err
		}
		l.Freight = append(l.Freight, f)
		if l.FreightCost, err = l.FreightCost.Add(f.Cost); err != nil {
			return err
		}
	}
	slices.SortFunc(l.Freight, func(a, b freight.Charge) int { return strings.Compare(a.Supplier, b.Supplier) })
	l.Total, err = l.Cost.Add(l.FreightCost)
	return err
}

// loads are what a list's suppliers bring, by what tells them apart.
func (l List) loads(c sheet.Content) (map[string]*freight.Load, error) {
	rows, err := l.Rows(c)
	if err != nil {
		return nil, err
	}
	out := map[string]*freight.Load{}
	for _, row := range rows {
		key := sheet.SupplierKey(row.Supplier)
		if out[key] == nil {
			out[key] = freight.NewLoad(row.Supplier, l.Currency)
		}
		if err := out[key].Add(row.Item, row.What, row.Count, row.Cost); err != nil {
			return nil, err
		}
	}
	return out, nil
}
