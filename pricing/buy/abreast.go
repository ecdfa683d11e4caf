package buy

import (
	"slices"

	"ribband/pricing/money"
	"ribband/takeoff/cutting/flat"

	"github.com/shopspring/decimal"
)

// abreast is planks being laid side by side.
type abreast struct {
	g      groups
	of     []int
	lines  []int
	boards map[string]board
	// rows are the boards of one article, by the one that the list counts: at the price of each quantity
	rows   map[string][]board
	units  []int64 // nanometres that sizes are counted in, in turn
	unit   int64   // of the best plan
	scale  int64
	trim   int64
	labour int64
	apart  money.Money
	floor  money.Money
	// longest that any board gives, nanometres
	longest int64
	whole   bool // some plank may not be of two parts
	only    bool // there is no plan apart
	kerf    decimal.Decimal
	gone    map[string]int64 // boards that other groups cut
	// best is the cheapest plan, of the list counted, with the joints made apart or with whole planks alone.
	best    *flat.Plan
	counted flat.List
	scarfed bool
	told    SideBySide
	out     Timber
	taken   bool
}

// planksLimits keep a buy list quick: twenty planks take some tenths of a second, and lists of which many are weighed for one as long together.
var (
	planksLimits = flat.Limits{Work: 60_000_000, Pivots: 10_000, Nodes: 4_000}
	manyLimits   = flat.Limits{Work: 20_000_000, Pivots: 3_000, Nodes: 1_000}
)

// many says that a list is one of many that are weighed: of some suppliers' goods, or with their freight in prices.
func (s source) many() bool { return !s.thorough && (s.whole != nil || s.laden != nil) }

// thoroughly is the same where one list is planned again that was the cheapest of many.
func (s source) thoroughly() source {
	s.thorough = true
	return s
}

func (s source) planksLimits() flat.Limits {
	if s.many() {
		return manyLimits
	}
	return planksLimits
}

// lay plans some groups side by side; not ok where no board holds two of their planks so, or where that cannot be looked at. timber is
// how they were planned apart, now how they stand, some of them laid side by side already. Where the groups stand without boards there is no
// plan of them apart.
func (g groups) lay(of []int, timber, now []Timber, from source, r Rules) (*abreast, bool, error) {
	l := &abreast{g: g, of: of, boards: map[string]board{}, rows: map[string][]board{}, scale: 1, trim: nanoUp(r.EndTrim), kerf: r.Kerf, gone: elsewhere(now, of)}
	var err error
	if err = l.planned(timber, now, from.sheet.Currency); err != nil {
		return nil, false, err
	}
	all, err := l.stock(from, r)
	if err != nil || !l.two(all, from, r) {
		return nil, false, err
	}
	if err = l.cheapest(all, timber, from, r); err != nil {
		return nil, false, err
	}
	return l, true, l.settle(timber, from)
}

// cheapest lays the planks whole, and with the parts that the plans made apart cut some of them in, and keeps the cheaper plan. The
// floor stands whether a plan was found or not: none may be found because other groups took the boards first. Nothing is sought below it.
func (l *abreast) cheapest(all []board, timber []Timber, from source, r Rules) error {
	l.told.Cost = l.apart
	bound, err := l.leastOf(all, timber, from, r)
	if err != nil {
		return err
	}
	for _, w := range l.ways(timber, from.many()) {
		if (l.best != nil || !l.only) && l.told.Cost.Minor() <= bound {
			break
		}
		list := l.list(all, w, from)
		plan, err := from.memo.boards(list, from.planksLimits())
		if err != nil {
			continue // longer than every board, or too few of them
		}
		cost, err := money.New(l.cost(plan)+w.labour, from.sheet.Currency)
		if err != nil {
			return err
		}
		if l.best == nil || cost.Minor() < l.told.Cost.Minor() {
			l.best, l.counted, l.unit, l.scarfed, l.told.Cost = &plan, list, w.unit, w.parts, cost
		}
	}
	l.told.Bound, err = money.New(min(bound, l.told.Cost.Minor()), from.sheet.Currency)
	return err
}

// laying is one way to look for a plan: what sizes are counted in, whether boards may be crosscut first, and the pieces, whole or in parts with
// the labour of their joints.
type laying struct {
	unit   int64
	first  flat.First
	pieces []flat.Piece
	parts  bool
	labour int64
}

// ways are those looked at: boards ripped first, and then either way for each board. Planks that may be of two parts come out of boards that are
// ripped first: the floor of planks in slices does not stand over parts out of others.
func (l *abreast) ways(timber []Timber, many bool) (out []laying) {
	for _, unit := range l.units {
		for _, parts := range []bool{false, true} {
			pieces := l.pieces(timber, parts, unit)
			if pieces == nil {
				continue
			}
			w := laying{unit: unit, first: flat.Along, pieces: pieces, parts: parts}
			if parts {
				w.labour = l.labour
			}
			if !l.whole || !many { // which looks at boards ripped first as well
				out = append(out, w)
			}
			if l.whole {
				w.first = flat.Either
				out = append(out, w)
			}
		}
	}
	return out
}

// planned adds up what the groups come to as they stand.
func (l *abreast) planned(timber, now []Timber, c money.Currency) (err error) {
	cost, bound := int64(0), int64(0)
	l.only = !slices.ContainsFunc(l.of, func(i int) bool { return len(now[i].Boards) > 0 })
	for _, i := range l.of {
		l.labour += timber[i].labour()
		if t := now[i]; len(t.Lines) > 0 { // or it lies with another
			cost, bound = cost+t.Cost.Minor()+t.labour(), bound+t.Bound.Minor()
		}
		l.lines = append(l.lines, l.g.timber[i].lines...)
		l.told.Lines = append(l.told.Lines, timber[i].Lines...)
	}
	if l.apart, err = money.New(cost, c); err != nil {
		return err
	}
	l.floor, err = money.New(bound, c)
	return err
}
