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
	unit   int64 // nanometres
	scale  int64
	trim   int64
	labour int64
	apart  money.Money
	floor  money.Money
	only   bool // there is no plan apart
	kerf   decimal.Decimal
	gone   map[string]int64 // boards that other groups cut
	// best is the cheapest plan, of the list counted, with the joints made apart or with whole planks alone.
	best    *flat.Plan
	counted flat.List
	scarfed bool
	told    SideBySide
	out     Timber
	taken   bool
}

// What is counted in: tenths of a millimetre, or whole ones where boards are too long for that.
const tenth = millimetre / 10

// planksLimits keep a buy list quick: twenty planks take some tenths of a second.
var planksLimits = flat.Limits{Work: 60_000_000, Pivots: 10_000, Nodes: 4_000}

// lay plans some groups side by side; not ok where no board holds two of their planks so, or where that cannot be looked at. timber is
// how they were planned apart, now how they stand, some of them laid side by side already. Where the groups stand without boards there is no
// plan of them apart.
func (g groups) lay(of []int, timber, now []Timber, from source, r Rules) (*abreast, bool, error) {
	l := &abreast{g: g, of: of, boards: map[string]board{}, scale: 1, trim: nanoUp(r.EndTrim), kerf: r.Kerf, gone: elsewhere(now, of)}
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
// floor stands whether a plan was found or not: none may be found because other groups took the boards first.
func (l *abreast) cheapest(all []board, timber []Timber, from source, r Rules) error {
	l.told.Cost = l.apart
	for _, parts := range []bool{false, true} {
		pieces := l.pieces(timber, parts)
		if pieces == nil {
			continue
		}
		list, labour := l.list(all, pieces, from), int64(0)
		plan, err := from.memo.boards(list)
		if err != nil {
			continue // longer than every board, or too few of them
		}
		if parts {
			labour = l.labour
		}
		cost, err := money.New(l.cost(plan)+labour, from.sheet.Currency)
		if err != nil {
			return err
		}
		if l.best == nil || cost.Minor() < l.told.Cost.Minor() {
			l.best, l.counted, l.scarfed, l.told.Cost = &plan, list, parts, cost
		}
	}
	bound, err := l.leastOf(all, timber, from, r)
	if err != nil {
		return err
	}
	l.told.Bound, err = money.New(min(bound, l.told.Cost.Minor()), from.sheet.Currency)
	return err
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

// cost of a plan in minor units, no fewer of a board bought than are sold.
func (l *abreast) cost(plan flat.Plan) int64 {
	sum := int64(0)
	for _, lot := range plan.Bought {
		b := l.boards[lot.StockID]
		sum += l.sold(lot.N, b) * b.offer.Price.Minor()
	}
	return sum
}

// sold is how many of a board are bought where so many are cut, those that other groups buy filling a least order too.
func (l *abreast) sold(cut int64, b board) int64 {
	return max(cut, b.least-l.gone[b.offer.ID])
}

// holds says that what all groups buy is for sale, and in no fewer than are sold, with the plan in the place of the groups' own
// boards: those may have filled an order of another group, or have reached its price.
func (l *abreast) holds(from source) bool {
	bought := map[string]int64{}
	for id, n := range l.gone {
		bought[id] += n
	}
	for _, lot := range l.best.Bought {
		bought[lot.StockID] += l.sold(lot.N, l.boards[lot.StockID])
	}
	of := map[string]int64{}
	p := l.g.timber[l.of[0]].pieces
	for _, it := range from.sheet.Boards(p.Species, p.Grade) {
		n := bought[id(from.sheet, it)]
		if n == 0 {
			continue
		}
		of[it.Article()] += n
		if n < it.MinPieces() && !from.single || it.Available >= 0 && of[it.Article()] > it.Available {
			return false
		}
	}
	return true
}
