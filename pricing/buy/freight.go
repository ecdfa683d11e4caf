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
}

// FreightLine is one row of the sheet's freight: Quantity of Unit, exact to 6 places, at UnitPrice for Per, rounded once.
type FreightLine struct {
	Quantity  string      `json:"quantity"`
	Unit      sheet.Unit  `json:"unit"`
	UnitPrice string      `json:"unit_price"`
	Per       string      `json:"per"`
	Cost      money.Money `json:"cost"`
	// FreeFrom is the sum of goods from which on it is not asked; Free that it is not.
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

// mostSuppliers with freight of their own among which every set is tried; each set is planned afresh.
const mostSuppliers = 4

// delivered is the list that costs least with its freight. Every set of suppliers that ask for freight is tried, each with the
// goods that cost least off it: no plan that draws on just these can cost less than its goods' floor and what the suppliers ask
// by the order. With more suppliers than mostSuppliers goods alone decide.
func (g groups) delivered(from source, r Rules) (List, error) {
	best, err := g.withScarfs(from, r)
	if err != nil || !slices.ContainsFunc(from.sheet.Items, func(it sheet.Item) bool { return it.Kind == sheet.Freight }) {
		return best, err
	}
	if err := best.charge(from.sheet, r); err != nil {
		return List{}, err
	}
	carriers := g.carriers(from.sheet)
	if len(carriers) > mostSuppliers {
		best.TotalBound = best.Bound
		return best, nil
	}
	goods, least := best.Bound.Minor(), int64(-1)
	for set := range 1 << len(carriers) {
		var out, in []string
		for i, name := range carriers {
			if set>>i&1 == 0 {
				out = append(out, name)
			} else {
				in = append(in, name)
			}
		}
		some := from
		some.sheet = without(from.sheet, out)
		if missing, err := g.missing(some, r); err != nil || len(missing) > 0 {
			continue // nothing can be bought of these alone
		}
		floor := goods
		list, err := g.withScarfs(some, r)
		if err == nil {
			if err := list.charge(from.sheet, r); err != nil {
				return List{}, err
			}
			floor = list.Bound.Minor()
			if a, b := list.Total.Minor()+list.labour(), best.Total.Minor()+best.labour(); a < b || a == b && len(list.Freight) < len(best.Freight) {
				best = list
			}
		}
		if floor = floorWith(from.sheet, in, floor, best.Currency); least < 0 || floor < least {
			least = floor
		}
	}
	best.FreightChosen = true
	best.TotalBound, err = money.New(min(max(least, goods), best.Total.Minor()+best.labour()), best.Currency)
	return best, err
}

// carriers are the suppliers that ask for freight and sell something needed.
func (g groups) carriers(c sheet.Content) []string {
	var out []string
	add := func(rows []sheet.Item) {
		for _, it := range rows {
			if len(c.Freight(it.Supplier)) > 0 && !slices.ContainsFunc(out, func(name string) bool { return same(name, it.Supplier) }) {
				out = append(out, it.Supplier)
			}
		}
	}
	for _, t := range g.timber {
		add(c.Boards(t.pieces.Species, t.pieces.Grade))
	}
	for _, p := range g.packs {
		add(c.Item(p.item))
	}
	slices.Sort(out)
	return out
}

// without is a sheet without the goods of some suppliers.
func without(c sheet.Content, suppliers []string) sheet.Content {
	c.Items = slices.DeleteFunc(slices.Clone(c.Items), func(it sheet.Item) bool {
		return it.Kind.Goods() && slices.ContainsFunc(suppliers, func(name string) bool { return same(name, it.Supplier) })
	})
	return c
}

// floorWith is what goods with such a floor and the freight by the order of all these suppliers cannot cost less than together. A
// supplier that brings for nothing from a sum on asks nothing, and then the goods come to that sum at least; every choice of those
// that ask nothing is looked at.
func floorWith(c sheet.Content, suppliers []string, goods int64, currency money.Currency) int64 {
	type order struct{ asks, free int64 }
	var orders []order
	for _, name := range suppliers {
		for _, it := range c.Freight(name) {
			if it.Unit.Dimension() != sheet.ByCount {
				continue
			}
			asks, err := money.RoundRat(it.UnitPrice(), currency, money.HalfUp)
			if err != nil {
				continue
			}
			o := order{asks: asks.Minor(), free: -1}
			if free := it.FreeFrom.Shift(currency.Digits()); !it.FreeFrom.IsZero() {
				o.free = free.Floor().IntPart()
			}
			orders = append(orders, o)
		}
	}
	best := int64(-1)
	for set := range 1 << len(orders) {
		sum, asked, can := int64(0), int64(0), true
		for i, o := range orders {
			if set>>i&1 == 0 {
				asked += o.asks
				continue
			}
			sum, can = sum+o.free, can && o.free >= 0
		}
		if total := max(goods, sum) + asked; can && (best < 0 || total < best) {
			best = total
		}
	}
	return best
}
