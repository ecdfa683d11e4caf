package buy

import (
	"slices"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
)

// Row is Count boards or packs of one row of the sheet, as one part of a list buys them. Of boards of random width the row is taken
// to be as wide as they are reckoned.
type Row struct {
	sheet.Item
	// What the list calls it: a board by its sizes, packs by their item, of PackSize each.
	What     string
	PackSize string
	Count    int64
	Each     money.Money
	Cost     money.Money
}

// Rows are those that a list buys, boards first, each as often as parts of the list buy of it; what is on the rack is not bought. The
// sheet is the one that the list was made from; a *NeedError when it is not.
func (l List) Rows(c sheet.Content) ([]Row, error) {
	var out []Row
	for _, t := range l.Timber {
		for _, b := range t.Boards {
			offer, ok := t.Offer(b.Offer)
			if !ok || offer.Rack != nil {
				continue
			}
			it, ok := offer.row(t, c)
			if !ok {
				return nil, &NeedError{b.Offer, "this board is not on the sheet that the list was made from"}
			}
			out = append(out, Row{Item: it, What: it.Label(), Count: b.Count, Each: b.Price, Cost: b.Cost})
		}
	}
	for _, p := range l.Packs {
		for _, lot := range p.Bought {
			it, ok := lot.Row(p.Item, c)
			if !ok {
				return nil, &NeedError{p.Item, "this pack is not on the sheet that the list was made from"}
			}
			out = append(out, Row{it, p.Item, lot.PackSize, lot.Count, lot.Price, lot.Cost})
		}
	}
	return out, nil
}

// row of the sheet that an offer is of, its boards reckoned as there; false for what is in hand.
func (o Offer) row(t Timber, c sheet.Content) (sheet.Item, bool) {
	it, ok := find(c.Boards(t.Species, t.Grade), func(it sheet.Item) bool { return id(c, it) == o.ID })
	return it.At(o.WidthMM), ok && o.Rack == nil
}

func find(items []sheet.Item, is func(sheet.Item) bool) (sheet.Item, bool) {
	if i := slices.IndexFunc(items, is); i >= 0 {
		return items[i], true
	}
	return sheet.Item{}, false
}
