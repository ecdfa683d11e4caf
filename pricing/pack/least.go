package pack

import (
	"math/big"
	"slices"

	"ribband/pricing/sheet"
)

// LeastRow is a row of the sheet of which Needed would do and Least are the fewest sold.
type LeastRow struct {
	What, Supplier string
	Least, Needed  int64
}

// SoldSingly reports whether so few are sold too, at another price: then what is bought beyond them is bought for its lower price.
func SoldSingly(c sheet.Content, it sheet.Item, n int64) bool {
	return slices.ContainsFunc(c.Breaks(it), func(o sheet.Item) bool { return n > 0 && o.MinPieces() <= n })
}

// Least are the packs bought beyond what is needed of them beside the others.
func (p Plan) Least(c sheet.Content) ([]LeastRow, error) {
	if p.Sheets != nil {
		return p.leastSheets(c)
	}
	var out []LeastRow
	rows, holds, all := make([]sheet.Item, len(p.Bought)), make([]*big.Rat, len(p.Bought)), new(big.Rat)
	for i, lot := range p.Bought {
		it, ok := lot.Row(p.Item, c)
		if !ok {
			return nil, &RowError{p.Item, "this pack is not on the sheet that the list was made from"}
		}
		one, ok := it.Holds(sheet.UnitOf(p.Gross.Unit()))
		if !ok {
			return nil, &RowError{p.Item, "the sheet sells this pack in a unit that does not measure the need"}
		}
		rows[i], holds[i] = it, one
		all.Add(all, new(big.Rat).Mul(one, big.NewRat(lot.Count, 1)))
	}
	for i, lot := range p.Bought {
		others := new(big.Rat).Sub(all, new(big.Rat).Mul(holds[i], big.NewRat(lot.Count, 1)))
		left := new(big.Rat).Sub(p.Gross.Value().Rat(), others)
		needed := int64(0)
		if left.Sign() > 0 {
			needed = whole(left.Quo(left, holds[i]))
		}
		if needed < lot.Count && rows[i].MinPieces() > needed && !SoldSingly(c, rows[i], needed) {
			out = append(out, LeastRow{lot.Label(p.Item), rows[i].Supplier, rows[i].MinPieces(), needed})
		}
	}
	return out, nil
}

// leastSheets are the rows of which fewer would do than are sold at once.
func (p Plan) leastSheets(c sheet.Content) ([]LeastRow, error) {
	list := p.Sheets.Counted
	if p.Sheets.Laid != nil {
		list = *p.Sheets.Laid
	}
	used := map[string]int64{}
	for _, y := range p.Sheets.Layouts {
		used[y.StockID] += y.LastSheet - y.FirstSheet + 1
	}
	var out []LeastRow
	for _, lot := range p.Bought {
		it, ok := lot.Row(p.Item, c)
		if !ok {
			return nil, &RowError{p.Item, "this pack is not on the sheet that the list was made from"}
		}
		size, ok := it.Sized()
		if !ok || size.Roll() || it.MinPieces() < lot.Count {
			continue
		}
		for _, s := range list.Stock {
			needed := (used[s.ID] + size.Each - 1) / size.Each
			if s.ID == sizedName(it, size) && needed > 0 && needed < lot.Count && !SoldSingly(c, it, needed) {
				out = append(out, LeastRow{lot.Label(p.Item), it.Supplier, it.MinPieces(), needed})
				break
			}
		}
	}
	return out, nil
}
