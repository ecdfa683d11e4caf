package buy

import (
	"errors"

	"ribband/pricing/money"
	"ribband/pricing/pack"
	"ribband/pricing/sawing"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"

	"github.com/shopspring/decimal"
)

// packed plans an item. Where suppliers ask something for its packs by measure or weight that is in their prices, and cost and bound
// are in parts of a minor unit.
func (g groups) packed(n *packNeed, from source) (pack.Plan, error) {
	need := pack.Need{Item: n.item, Unit: n.unit, Lines: make([]bill.Line, len(n.lines))}
	for k, i := range n.lines {
		need.Lines[k] = g.needs[i]
	}
	off := pack.Source{Sheet: from.sheet, Whole: from.whole}
	if from.laden != nil && from.laden.rates.Any(from.sheet.Item(n.item)) {
		off.Price = func(it sheet.Item) (money.Money, error) { return from.price(it, sawing.Way{}) }
		return g.whole.Plan(need, off)
	}
	p, err := g.whole.Plan(need, off)
	if err != nil || from.laden == nil {
		return p, err
	}
	if p.Cost, err = p.Cost.Times(decimal.NewFromInt(ladenParts), money.HalfUp); err == nil {
		p.Bound, err = p.Bound.Times(decimal.NewFromInt(ladenParts), money.HalfUp)
	}
	return p, err
}

// unladenPacks is what a plan buys, at the sheet's prices, with the floor of the goods.
func unladenPacks(p, goods pack.Plan, from source) (pack.Plan, error) {
	p, err := p.At(from.sheet)
	if err != nil {
		return p, asNeed(err)
	}
	return p.Above(goods), nil
}

// asNeed tells of packs that are on no row as of the need for them.
func asNeed(err error) error {
	var gone *pack.RowError
	if errors.As(err, &gone) {
		return &NeedError{gone.Item, gone.Reason}
	}
	return err
}
