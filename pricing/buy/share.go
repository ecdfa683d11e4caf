package buy

import (
	"errors"
	"slices"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"

	"github.com/shopspring/decimal"
)

// planned plans every group and splits what each costs over its needs.
func (g groups) planned(from source, r Rules) (List, error) {
	c := from.sheet
	out := List{Currency: c.Currency, Timber: []Timber{}, Packs: []Packs{}, Cost: money.Zero(c.Currency), Bound: money.Zero(c.Currency)}
	timber, faults := g.allTimber(from, r)
	bare := g
	if faults == nil {
		var err error
		if g, err = bare.glued(timber, false, r, &out); err != nil {
			return List{}, err
		}
	}
	out.Shares = make([]Share, len(g.needs))
	for i, t := range g.timber {
		if faults != nil {
			break
		}
		out.Timber = append(out.Timber, timber[i])
		item := TimberItem(t.pieces.Species, t.pieces.Grade)
		if err := out.add(g, t.lines, sheet.Timber, item, timber[i].Cost, timber[i].Bound); err != nil {
			return List{}, err
		}
	}
	for _, n := range g.packs {
		p, err := g.planPacks(n, c, r)
		if err != nil {
			faults = errors.Join(faults, err)
			continue
		}
		out.Packs = append(out.Packs, p)
		if err := out.add(g, n.lines, p.Kind, n.item, p.Cost, p.Bound); err != nil {
			return List{}, err
		}
	}
	if faults != nil {
		return List{}, faults
	}
	if !slices.ContainsFunc(out.Timber, func(t Timber) bool { return t.Scarfed != nil }) {
		return out, nil
	}
	var err error
	if out.ScarfLabour, err = money.New(out.labour(), c.Currency); err != nil {
		return List{}, err
	}
	if out.scarfsChosen() {
		out.Bound, err = bare.leastBound(timber, c, r)
	}
	return out, err
}

// leastBound is what no plan can cost less than, the glue of scarfs that need not be made left out of it.
func (g groups) leastBound(timber []Timber, c sheet.Content, r Rules) (money.Money, error) {
	sum := money.Zero(c.Currency)
	for _, t := range timber {
		var err error
		if sum, err = sum.Add(t.Bound); err != nil {
			return sum, err
		}
	}
	least, err := g.glued(timber, true, r, &List{})
	if err != nil {
		return sum, err
	}
	for _, n := range least.packs {
		p, err := least.planPacks(n, c, r)
		if err != nil {
			continue // a floor without it is one
		}
		if sum, err = sum.Add(p.Bound); err != nil {
			return sum, err
		}
	}
	return sum, nil
}

// add splits the cost of one group over its needs by their net measure, and adds cost and bound to the totals.
func (l *List) add(g groups, lines []int, k sheet.Kind, item string, cost, bound money.Money) error {
	shares, err := split(g, lines, cost)
	if err != nil {
		return err
	}
	for j, i := range lines {
		n := g.needs[i]
		l.Shares[i] = Share{Line: n.ID, Kind: k, Item: item, Driver: n.Driver, Member: n.Member, Part: n.Part, Zone: n.Zone,
			Remedy: n.Remedy, Net: n.Net, Gross: n.Gross, Cost: shares[j]}
		if n.Material == bill.Timber {
			l.Shares[i].Species, l.Shares[i].Grade = n.Pieces.Species, n.Pieces.Grade
		}
	}
	if l.Cost, err = l.Cost.Add(cost); err != nil {
		return err
	}
	l.Bound, err = l.Bound.Add(bound)
	return err
}

// split divides a group's cost by net measure: of timber the length of all pieces, their section being one, of planks their face; of packs
// the net itself. Where every net is nothing, the gross takes its place.
func split(g groups, lines []int, cost money.Money) ([]money.Money, error) {
	var net, gross []decimal.Decimal
	some := false
	for _, i := range lines {
		n := g.needs[i]
		each := decimal.NewFromInt(1)
		if n.Material == bill.Timber {
			each = millimetres(n.Pieces.Length)
			if ofPlanking(n) { // put together though their widths differ
				each = each.Mul(n.Pieces.Thickness)
			}
		}
		net = append(net, n.Net.Value().Mul(each))
		gross = append(gross, n.Gross.Value().Mul(each))
		some = some || !n.Net.IsZero()
	}
	if cost.IsZero() {
		out := make([]money.Money, len(lines))
		for i := range out {
			out[i] = cost
		}
		return out, nil
	}
	if !some {
		net = gross
	}
	return cost.Split(net)
}
