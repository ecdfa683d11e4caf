package buy

import (
	"errors"
	"slices"

	"ribband/pricing/money"
	"ribband/pricing/pack"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Share is what one need costs: its part of the boards or packs that serve it, by net measure.
type Share struct {
	// Line is the id of the need.
	Line string `json:"line"`
	// Kind and Item of what is bought for it; timber by species and grade.
	Kind sheet.Kind `json:"kind"`
	Item string     `json:"item"`
	// Species and Grade of timber, as the takeoff names them.
	Species string            `json:"species,omitempty"`
	Grade   string            `json:"grade,omitempty"`
	Driver  string            `json:"driver"`
	Member  boat.Member       `json:"member"`
	Part    string            `json:"part,omitempty"`
	Zone    string            `json:"zone,omitempty"`
	Remedy  boat.Remedy       `json:"remedy"`
	Net     quantity.Quantity `json:"net"`
	Gross   quantity.Quantity `json:"gross"`
	Cost    money.Money       `json:"cost"`
}

// planned plans every group and splits what each costs over its needs.
func (g groups) planned(from source, r Rules) (List, error) {
	timber, faults := g.allTimber(from, r)
	with := g
	if faults == nil {
		var err error
		if timber, err = g.besides(timber, from, r); err != nil {
			return List{}, err
		}
		if with, err = g.glued(timber, false, r, &List{}); err != nil {
			return List{}, err
		}
	}
	packs := []pack.Plan{}
	for _, n := range with.packs {
		p, err := with.packed(n, from)
		if err != nil {
			faults = errors.Join(faults, err)
			continue
		}
		packs = append(packs, p)
	}
	if faults != nil {
		return List{}, faults
	}
	return g.assemble(timber, packs, from, r)
}

// assemble is the list of groups that are planned, with the glue of the scarfs that they make among the packs. Groups that are cut side
// by side are one.
func (g groups) assemble(timber []Timber, packs []pack.Plan, from source, r Rules) (List, error) {
	c := from.sheet.Currency
	out := List{Currency: c, Timber: timber, Packs: packs, Cost: money.Zero(c), Bound: money.Zero(c)}
	if out.Timber == nil {
		out.Timber = []Timber{}
	}
	with, err := g.glued(timber, false, r, &out)
	if err != nil {
		return List{}, err
	}
	if !with.asListed(out) {
		return List{}, &NeedError{"", "the boards are not those of the needs"}
	}
	out.Shares = make([]Share, len(with.needs))
	for i, t := range with.timber {
		item := TimberItem(t.pieces.Species, t.pieces.Grade)
		if err := out.add(with, t.lines, sheet.Timber, item, timber[i].Cost, timber[i].Bound); err != nil {
			return List{}, err
		}
	}
	for i, n := range with.packs {
		if err := out.add(with, n.lines, packs[i].Kind, n.item, packs[i].Cost, packs[i].Bound); err != nil {
			return List{}, err
		}
	}
	if out.Bound, err = money.New(out.Bound.Minor()-lowered(timber), c); err != nil {
		return List{}, err
	}
	if !slices.ContainsFunc(out.Timber, func(t Timber) bool { return t.Scarfed != nil }) {
		return out, nil
	}
	if out.ScarfLabour, err = money.New(out.labour(), c); err != nil {
		return List{}, err
	}
	if out.scarfsSpared() {
		out.Bound, err = g.leastBound(timber, from, r)
	}
	return out, err
}

// leastBound is what no plan can cost less than, the glue of scarfs that need not be made left out of it.
func (g groups) leastBound(timber []Timber, from source, r Rules) (money.Money, error) {
	sum, err := money.New(-lowered(timber), from.sheet.Currency)
	if err != nil {
		return sum, err
	}
	for _, t := range timber {
		if sum, err = sum.Add(t.Bound); err != nil {
			return sum, err
		}
	}
	least, err := g.glued(timber, true, r, &List{})
	if err != nil {
		return sum, err
	}
	for _, n := range least.packs {
		p, err := least.packed(n, from)
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
