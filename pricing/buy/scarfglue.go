package buy

import (
	"slices"

	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// glued are the groups with the glue of the scarfs that a plan of the timber makes: in the place of what the bill has for those that
// it counts, and as needs of their own, which the list then adds; with least set only of those scarfs that must be. How much it is
// comes about as on the bill.
func (g groups) glued(timber []Timber, least bool, r Rules, into *List) (groups, error) {
	joints := List{Timber: timber}.joints(g.needs, least)
	needs, t, moved := slices.Clone(g.needs), derivation.NewTable(), false
	for _, n := range g.needs {
		if n.Pieces == nil || n.Pieces.Scarf == nil || joints[n.ID] == n.Pieces.Scarf.Counted {
			continue
		}
		of := n.Pieces.Scarf.Glue
		at := slices.IndexFunc(needs, func(o bill.Line) bool { return o.ID == of.Line })
		if at < 0 {
			if joints[n.ID] == 0 {
				continue
			}
			at = len(needs)
			needs = append(needs, bill.Line{ID: of.Line, Material: bill.Glue, Item: of.Item, Driver: n.Pieces.Scarf.Driver, Member: n.Member, Part: n.Part,
				Zone: n.Zone, Remedy: n.Remedy, Losses: of.Losses})
		}
		moved = true
		needs[at] = glueOf(needs[at], of, joints[n.ID], t)
	}
	if !moved {
		return g, nil
	}
	if err := t.Err(); err != nil {
		return groups{}, &NeedError{"", err.Error()}
	}
	again, err := group(needs, r)
	if err != nil {
		return groups{}, err
	}
	again.timber, again.whole = g.timber, g.whole
	into.Added, into.Figures = needs[len(g.needs):], t.Figures()
	return again, nil
}

// glueOf is the need of glue for so many joints.
func glueOf(n bill.Line, of bill.ScarfGlue, joints int64, t *derivation.Table) bill.Line {
	mm := func(symbol string, v decimal.Decimal) derivation.Input {
		return derivation.Given(symbol, n.ID, v, quantity.Millimetre)
	}
	area := n.ID + "_area_planned"
	t.Derive(area, "plank/scarf_area", []derivation.Input{derivation.Given("n", "buy-list/timber/scarfed/joints", decimal.NewFromInt(joints), quantity.Each), mm("F", of.Face), mm("W", of.Width)})
	formula := "glue/net"
	if of.PerFace {
		formula = "glue/net_faces"
	}
	n.NetFigure = n.ID + "_net_planned"
	t.Derive(n.NetFigure, formula, []derivation.Input{t.Ref("A", area)}, derivation.ByFactor("s", of.Spread, of.Source))
	n.ID, n.Losses = of.Line+"_planned", of.Losses
	n = bill.Need(t, n, "bill/gross_litres")
	n.ID = of.Line
	return n
}
