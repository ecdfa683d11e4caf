package buy

import (
	"errors"
	"slices"

	"ribband/pricing/money"
	"ribband/pricing/pack"
	"ribband/pricing/sheet"
)

// mostSuppliers with freight of their own among which every set is tried; each set is planned afresh.
const mostSuppliers = 4

// delivered is the list that costs least with its freight. Every set of suppliers that ask for freight is tried, each with the goods
// that cost least off it, and with those that cost least with what is asked by measure and weight; each is then filled up to sums
// from which on freight is not asked, where that costs less. With more suppliers than mostSuppliers they are not chosen by what they ask by
// the order.
func (g groups) delivered(from source, r Rules) (List, error) {
	goods, err := g.withScarfs(from, r)
	if err != nil {
		return goods, err
	}
	d := delivering{groups: g, from: from, rules: r, sheet: from.sheet}
	if err := d.takeAll(from, goods); err != nil {
		return List{}, err
	}
	if !slices.ContainsFunc(from.sheet.Items, func(it sheet.Item) bool { return it.Kind == sheet.Freight }) {
		d.best.FreightCost, d.best.Total = money.Money{}, money.Money{}
		if err := d.settle(goods); err != nil {
			return List{}, err
		}
		return d.best, nil
	}
	carriers := g.carriers(from.sheet)
	least := int64(-1)
	lower := func(floor int64) {
		if least < 0 || floor < least {
			least = floor
		}
	}
	if len(carriers) > mostSuppliers {
		if least, err = d.looseFloor(carriers, goods); err != nil {
			return List{}, err
		}
	} else {
		cheapest := -1
		for set := range 1 << len(carriers) {
			in, out := chosenOf(carriers, set)
			was := d.best.weighed()
			floor, serves, err := d.set(d.from, in, out, goods)
			if err != nil {
				return List{}, err
			}
			if serves {
				lower(floor)
			}
			if d.best.weighed() < was {
				cheapest = set
			}
		}
		if cheapest >= 0 && slices.ContainsFunc(d.best.Timber, func(t Timber) bool { return t.SideBySide != nil }) {
			in, out := chosenOf(carriers, cheapest)
			if _, _, err := d.set(d.from.thoroughly(), in, out, goods); err != nil {
				return List{}, err
			}
		}
		d.best.FreightChosen = true
	}
	if err := d.settle(goods); err != nil {
		return List{}, err
	}
	d.best.TotalBound, err = money.New(min(max(least, goods.Bound.Minor()), d.best.Total.Minor()+d.best.labour()), goods.Currency)
	return d.best, err
}

// chosenOf are the suppliers of a set and the others.
func chosenOf(carriers []string, set int) (in, out []string) {
	for i, name := range carriers {
		if set>>i&1 == 0 {
			out = append(out, name)
		} else {
			in = append(in, name)
		}
	}
	return in, out
}

// delivering is the search for it.
type delivering struct {
	groups
	from  source
	rules Rules
	sheet sheet.Content
	best  List
	found bool
}

// within gives a group whose planks lie side by side otherwise than in another list a floor that holds with that list's: of the groups
// there that are all in it, less what laying planks side by side lowers there.
func (t Timber) within(goods List) (Timber, error) {
	sum := -lowered(goods.Timber)
	for _, o := range goods.Timber {
		if !slices.ContainsFunc(o.Lines, func(id string) bool { return !slices.Contains(t.Lines, id) }) {
			sum += o.Bound.Minor()
		}
	}
	var err error
	if sum < t.Bound.Minor() {
		t.Bound, err = money.New(max(0, sum), goods.Currency)
	}
	return t.judged(), err
}

// takeAll weighs a list by prices alone, and those beside it where the hours at the saw count.
func (d *delivering) takeAll(from source, goods List) error {
	if err := d.take(goods); err != nil {
		return err
	}
	others, err := d.otherwise(from, goods)
	for _, l := range others {
		if err == nil {
			err = d.take(l)
		}
	}
	return err
}

// take weighs a list as it is, and filled up to what is brought for nothing.
func (d *delivering) take(l List) error {
	l, err := d.resawn(l)
	if err != nil {
		return err
	}
	if err := l.charge(d.sheet, d.rules); err != nil {
		return err
	}
	full, err := d.filled(l)
	if err != nil {
		return err
	}
	for _, l := range []List{l, full} {
		if a, b := l.weighed(), d.best.weighed(); !d.found || a < b || a == b && len(l.Freight) < len(d.best.Freight) {
			d.best, d.found = l, true
		}
	}
	return nil
}

// weighed is what lists are chosen by: goods, freight and the hours that the choice moves.
func (l List) weighed() int64 { return l.Total.Minor() + l.labour() + l.ResawLabour.Minor() }

// settle gives the goods of the best list the floors that hold whoever sells them.
func (d *delivering) settle(goods List) error {
	d.best.Timber, d.best.Packs, d.best.Bound = slices.Clone(d.best.Timber), slices.Clone(d.best.Packs), goods.Bound
	with, err := d.glued(d.best.Timber, false, d.rules, &List{})
	if err != nil {
		return err
	}
	for i := range d.best.Timber {
		t := &d.best.Timber[i]
		if k := slices.IndexFunc(goods.Timber, func(o Timber) bool { return slices.Equal(o.Lines, t.Lines) }); k >= 0 {
			if *t, err = t.unladen(goods.Timber[k], d.from, false); err != nil {
				return err
			}
		} else if *t, err = t.within(goods); err != nil {
			return err
		}
	}
	for i, n := range with.packs {
		alone, err := with.packed(n, d.from)
		if err != nil {
			return err
		}
		d.best.Packs[i] = d.best.Packs[i].Above(alone)
	}
	if all := d.best.Cost.Minor() + d.best.labour(); d.best.Bound.Minor() > all {
		d.best.Bound, err = money.New(all, goods.Currency)
	}
	return err
}

// set weighs lists that draw on some of the suppliers that ask for freight and on all others. Floor is what no plan that draws on
// each of them costs less than; false where nothing can be bought of these alone.
func (d *delivering) set(some source, in, out []string, goods List) (floor int64, serves bool, err error) {
	some.sheet, some.whole = without(d.sheet, out), &d.sheet
	if missing, err := d.missing(some, d.rules); err != nil || len(missing) > 0 {
		return 0, false, err
	}
	list, err := d.withScarfs(some, d.rules)
	var none *pack.NoSheetError
	switch {
	case errors.As(err, &none):
		return 0, false, nil
	case tooLittle(err): // was found, which proves nothing
		return d.floor(in, goods, some.sheet, nil), true, nil
	case err != nil:
		return 0, false, err
	}
	if err := d.takeAll(some, list); err != nil {
		return 0, false, err
	}
	loads := map[string]int64{}
	for _, rows := range d.asked(in) {
		by := loadedBy(rows, d.sheet.Currency, d.rules)
		if by == nil {
			continue
		}
		delivered, least, err := d.atLaden(some, by, list, d.rules)
		if err != nil {
			continue
		}
		if err := d.take(delivered); err != nil {
			return 0, false, err
		}
		loads[names(rows)] = least
	}
	return d.floor(in, list, some.sheet, loads), true, nil
}

// tooLittle reports a fault that is of what is for sale.
func tooLittle(err error) bool {
	var boards *ShortBoardsError
	var packs *pack.ShortError
	return errors.As(err, &boards) || errors.As(err, &packs)
}
