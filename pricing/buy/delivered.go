package buy

import (
	"errors"
	"slices"
	"strings"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
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
		for set := range 1 << len(carriers) {
			var out, in []string
			for i, name := range carriers {
				if set>>i&1 == 0 {
					out = append(out, name)
				} else {
					in = append(in, name)
				}
			}
			floor, serves, err := d.set(in, out, goods)
			if err != nil {
				return List{}, err
			}
			if serves {
				lower(floor)
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
		alone, err := with.packed(n, d.from, d.rules)
		if err != nil {
			return err
		}
		d.best.Packs[i] = d.best.Packs[i].above(alone)
	}
	if all := d.best.Cost.Minor() + d.best.labour(); d.best.Bound.Minor() > all {
		d.best.Bound, err = money.New(all, goods.Currency)
	}
	return err
}

// set weighs lists that draw on some of the suppliers that ask for freight and on all others. Floor is what no plan that draws on
// each of them costs less than; false where nothing can be bought of these alone.
func (d *delivering) set(in, out []string, goods List) (floor int64, serves bool, err error) {
	some := d.from
	some.sheet = without(d.sheet, out)
	if missing, err := d.missing(some, d.rules); err != nil || len(missing) > 0 {
		return 0, false, err
	}
	list, err := d.withScarfs(some, d.rules)
	switch {
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
	var packs *ShortPacksError
	return errors.As(err, &boards) || errors.As(err, &packs)
}

// looseFloor is a floor whoever brings the goods: of what is asked by measure and weight whatever the sum is.
func (d *delivering) looseFloor(carriers []string, goods List) (int64, error) {
	floor := goods.Bound.Minor()
	var always []sheet.Item
	for _, it := range d.rows(carriers) {
		if it.FreeFrom.IsZero() {
			always = append(always, it)
		}
	}
	by := loadedBy(always, d.sheet.Currency, d.rules)
	if by == nil {
		return floor, nil
	}
	if delivered, least, err := d.atLaden(d.from, by, goods, d.rules); err == nil {
		return max(floor, d.unparted(least, always)), d.take(delivered)
	}
	return floor, nil
}

// unparted is what a sum of goods and freight in parts comes to at least once the freight of each row is rounded by itself. Where
// every board and pack adds a whole number of minor units to a row, nothing is rounded.
func (d *delivering) unparted(parts int64, rows []sheet.Item) int64 {
	for _, row := range rows {
		by := loadedBy([]sheet.Item{row}, d.sheet.Currency, d.rules)
		if by == nil {
			continue
		}
		if slices.ContainsFunc(d.sheet.Items, func(it sheet.Item) bool { return it.Kind.Goods() && d.wants(it) && !by.load(it).IsInt() }) {
			parts -= ladenParts / 2
		}
	}
	return (parts + ladenParts - 1) / ladenParts
}

// wants reports whether a row is one of something needed.
func (g groups) wants(it sheet.Item) bool {
	if it.Kind == sheet.Timber {
		return slices.ContainsFunc(g.timber, func(t *timberNeed) bool { return same(t.pieces.Species, it.Species) && same(t.pieces.Grade, it.Grade) })
	}
	return slices.ContainsFunc(g.packs, func(p *packNeed) bool { return same(p.item, it.Item) })
}

// rows of freight of some suppliers.
func (d *delivering) rows(suppliers []string) []sheet.Item {
	var out []sheet.Item
	for _, name := range suppliers {
		out = append(out, d.sheet.Freight(name)...)
	}
	return out
}

// mostFree is up to how many rows of freight of a set may be asked or not for which every choice is looked at; beyond that they are
// taken as not asked, in the floor alone.
const mostFree = 4

// asked are the choices of freight rows of some suppliers that are asked, by which rows with a sum are free.
func (d *delivering) asked(suppliers []string) [][]sheet.Item {
	var always, free []sheet.Item
	for _, it := range d.rows(suppliers) {
		if it.FreeFrom.IsZero() {
			always = append(always, it)
		} else {
			free = append(free, it)
		}
	}
	if len(free) > mostFree {
		return [][]sheet.Item{always}
	}
	var out [][]sheet.Item
	seen := map[string]bool{}
	for set := range 1 << len(free) {
		rows := slices.Clone(always)
		for i, it := range free {
			if set>>i&1 == 0 {
				rows = append(rows, it)
			}
		}
		if name := names(rows); !seen[name] {
			seen[name] = true
			out = append(out, rows)
		}
	}
	return out
}

// names of the rows that go by measure or weight, in an order of their own.
func names(rows []sheet.Item) string {
	var out []string
	for _, it := range rows {
		if it.Unit.Dimension() != sheet.ByCount {
			out = append(out, it.Article())
		}
	}
	slices.Sort(out)
	return strings.Join(out, "\x00\x00")
}

// floor is what goods with a list's floors, off a sheet of just these and others' goods, and the freight of all these suppliers cannot cost
// less than together; loads are the floors at laden prices by which rows are asked. A supplier that brings for nothing from a sum on asks
// nothing, and then its goods come to that sum at least, and to what only others sell beside it; every choice of the rows that are not
// asked is looked at.
func (d *delivering) floor(suppliers []string, goods List, c sheet.Content, loads map[string]int64) int64 {
	best := int64(-1)
	rows := d.rows(suppliers)
	free := 0
	for _, it := range rows {
		if !it.FreeFrom.IsZero() {
			free++
		}
	}
	for set := range 1 << min(free, mostFree+1) {
		reached, fixed, k := map[string]int64{}, int64(0), 0
		var asked []sheet.Item
		for _, it := range rows {
			if !it.FreeFrom.IsZero() {
				k++
				if free > mostFree { // taken as not asked
					continue
				}
				if set>>(k-1)&1 == 1 {
					sum := it.FreeFrom.Shift(d.sheet.Currency.Digits()).Ceil().IntPart()
					who := strings.ToLower(strings.TrimSpace(it.Supplier))
					reached[who] = max(reached[who], sum)
					continue
				}
			}
			asked = append(asked, it)
			if it.Unit.Dimension() != sheet.ByCount {
				continue
			}
			if m, err := money.RoundRat(it.UnitPrice(), d.sheet.Currency, money.HalfUp); err == nil {
				fixed += m.Minor()
			}
		}
		least, sums := goods.Bound.Minor(), int64(0)
		if parts, ok := loads[names(asked)]; ok {
			least = max(least, d.unparted(parts, asked))
		}
		for _, sum := range reached {
			sums += sum
		}
		if len(reached) > 0 {
			sums += d.fromOthers(goods, c, reached)
		}
		if total := max(least, sums) + fixed; best < 0 || total < best {
			best = total
		}
	}
	return best
}

// fromOthers is the floor of the groups of a list of which no supplier named sells anything. Where scarfs may be
// made, only boards without count: labour stands in the floor of others, and how much glue is needed is the plan's.
func (d *delivering) fromOthers(l List, c sheet.Content, named map[string]int64) int64 {
	sells := func(rows []sheet.Item) bool {
		return slices.ContainsFunc(rows, func(it sheet.Item) bool {
			_, ok := named[strings.ToLower(strings.TrimSpace(it.Supplier))]
			return ok
		})
	}
	sum := -lowered(l.Timber)
	for _, t := range l.Timber {
		if t.Scarfed == nil && !sells(c.Boards(t.Species, t.Grade)) {
			sum += t.Bound.Minor()
		}
	}
	if slices.ContainsFunc(d.needs, func(n bill.Line) bool { return n.Pieces != nil && n.Pieces.Scarf != nil }) {
		return max(0, sum)
	}
	for i, p := range d.packs {
		if !sells(c.Item(p.item)) {
			sum += l.Packs[i].Bound.Minor()
		}
	}
	return max(0, sum)
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
