package pack

import (
	"math/big"
	"slices"

	"ribband/pricing/money"
	"ribband/pricing/sheet"

	"github.com/shopspring/decimal"
)

// Label names packs by their item, size and supplier.
func (b Lot) Label(item string) string {
	label := item + " " + b.PackSize + " " + b.Unit.Name()
	if b.Supplier != "" {
		label += ", " + b.Supplier
	}
	return label
}

// Row is the row of the sheet that packs were bought from.
func (b Lot) Row(item string, c sheet.Content) (sheet.Item, bool) {
	rows := c.Item(item)
	i := slices.IndexFunc(rows, func(it sheet.Item) bool {
		return it.Supplier == b.Supplier && it.Unit == b.Unit && it.Description == b.Description && it.Price.String() == b.UnitPrice &&
			(it.PackSize.String() == b.PackSize || it.PackSize.IsZero() && b.PackSize == "1") &&
			(b.Width == "" && b.StockLength == "" || it.Width.Text() == b.Width && it.StockLength.Text() == b.StockLength)
	})
	if i < 0 {
		return sheet.Item{}, false
	}
	return rows[i], true
}

// At is the same packs at the prices of a sheet, with nothing changed about what is proved; a *RowError where they are not on it.
func (p Plan) At(c sheet.Content) (Plan, error) {
	p.Bought, p.Cost = slices.Clone(p.Bought), money.Zero(c.Currency)
	for i := range p.Bought {
		lot := &p.Bought[i]
		it, ok := lot.Row(p.Item, c)
		if !ok {
			return Plan{}, &RowError{p.Item, "this pack is not on the sheet"}
		}
		var err error
		if lot.Price, err = it.PiecePrice(c.Currency); err != nil {
			return Plan{}, err
		}
		if lot.Cost, err = lot.Price.Times(decimal.NewFromInt(lot.Count), money.HalfUp); err != nil {
			return Plan{}, err
		}
		if p.Cost, err = p.Cost.Add(lot.Cost); err != nil {
			return Plan{}, err
		}
	}
	return p, nil
}

// Above is packs with the floor of others that were planned for the same, which holds whatever is bought.
func (p Plan) Above(goods Plan) Plan {
	p.Bound = goods.Bound
	if p.Bound.Minor() > p.Cost.Minor() {
		p.Bound = p.Cost
	}
	p.Proven = p.Bound == p.Cost
	if p.Sheets == nil || goods.Sheets == nil {
		return p
	}
	of := *p.Sheets
	laid := of.Counted
	if of.Laid != nil {
		laid = *of.Laid
	}
	of.Floor, of.Elsewise, of.Laid = goods.Sheets.Floor, goods.Sheets.Elsewise, nil
	if !sameList(laid, of.Counted) {
		of.Laid = &laid
	}
	p.Sheets = &of
	return p
}

// With is a plan with so many more packs of its k-th lot, each of which holds so much. What no plan costs less than stays.
func (p Plan) With(k int, count int64, holds *big.Rat) (Plan, error) {
	p.Bought = slices.Clone(p.Bought)
	lot := &p.Bought[k]
	add, err := lot.Price.Times(decimal.NewFromInt(count), money.HalfUp)
	if err != nil {
		return Plan{}, err
	}
	lot.Count += count
	if lot.Cost, err = lot.Cost.Add(add); err != nil {
		return Plan{}, err
	}
	if p.Cost, err = p.Cost.Add(add); err != nil {
		return Plan{}, err
	}
	more, err := down(new(big.Rat).Mul(holds, big.NewRat(count, 1)), p.LeftOver.Unit())
	if err != nil {
		return Plan{}, err
	}
	if p.LeftOver, err = p.LeftOver.Add(more); err != nil {
		return Plan{}, err
	}
	p.Proven = p.Bound == p.Cost
	return p, nil
}
