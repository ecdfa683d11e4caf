package buy

import (
	"slices"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
)

// weighed plans the groups with least orders left out first, because together they often fill them. Where they do not, the boards
// that are wanting are bought beyond the need, or each group fills orders of its own, whichever costs less.
func (g groups) weighed(from source, r Rules) ([]Timber, error) {
	rows := from.sheet.Boards(g.timber[0].pieces.Species, g.timber[0].pieces.Grade)
	if !slices.ContainsFunc(rows, func(it sheet.Item) bool { return it.MinPieces() > 1 }) {
		return g.inSomeOrder(from, r)
	}
	free := from
	free.single = true
	together, err := g.inSomeOrder(free, r)
	if err != nil {
		return g.inSomeOrder(from, r)
	}
	together, ok, more, err := filledUp(together, rows, from.sheet)
	if err != nil || ok && !more {
		return together, err
	}
	each, short := g.inSomeOrder(from, r)
	switch {
	case !ok:
		return each, short
	case short != nil:
		return together, nil //nolint:nilerr // together is a plan without orders of each group's own
	}
	was, _ := totals(together)
	if cost, _ := totals(each); cost <= was {
		return each, nil
	}
	for i, t := range together { // either's floor holds for both
		if o := each[i]; o.Bound.Minor() > t.Bound.Minor() {
			t.Bound, t.Certificate, t.PriceScale, t.JointGrid = o.Bound, o.Certificate, o.PriceScale, o.JointGrid
			together[i] = t.judged()
		}
	}
	return together, nil
}

// filledUp are groups planned without least orders, with the boards that are wanting bought of each row that they buy too few of, and
// left whole. False where so many are not for sale; more says that some were bought.
func filledUp(planned []Timber, rows []sheet.Item, c sheet.Content) (full []Timber, ok, more bool, err error) {
	full = slices.Clone(planned)
	bought := map[string]int64{}
	for _, t := range planned {
		for _, b := range t.Boards {
			bought[b.Offer] += b.Count
		}
	}
	for _, it := range rows {
		name := id(c, it)
		wanting := it.MinPieces() - bought[name]
		if bought[name] == 0 || wanting <= 0 {
			continue
		}
		if it.Available >= 0 && it.Available < it.MinPieces() {
			return nil, false, false, nil
		}
		for i, t := range full {
			k := slices.IndexFunc(t.Boards, func(b Boards) bool { return b.Offer == name })
			if k < 0 {
				continue
			}
			price := t.Boards[k].Price
			add, err := money.New(price.Minor()*wanting, price.Currency())
			if err != nil {
				return nil, false, false, err
			}
			if full[i], err = t.withMore(spare{timber: true, at: i, k: k, exact: it.PieceMeasure()}, wanting, add); err != nil {
				return nil, false, false, err
			}
			more = true
			break
		}
	}
	return full, true, more, nil
}

// apart plans each group as if no other drew on what is for sale and no least order held: only the floors are for use, of which no
// plan of all of them is below the sum. An error where one group has too few boards even so, for then no plan is.
func (g groups) apart(from source, r Rules) ([]Timber, error) {
	from.single = true
	out := make([]Timber, len(g.timber))
	for i, t := range g.timber {
		var err error
		if out[i], err = g.planTimber(t, from, r, taken{}); err != nil {
			return nil, err
		}
	}
	return out, nil
}
