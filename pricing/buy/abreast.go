package buy

import (
	"slices"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
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
	kerf   decimal.Decimal
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

// lay plans some groups side by side; not ok where no board holds two of their planks so, or where that cannot be looked at.
func (g groups) lay(of []int, timber []Timber, from source, r Rules) (*abreast, bool, error) {
	l := &abreast{g: g, of: of, boards: map[string]board{}, scale: 1, trim: nanoUp(r.EndTrim), kerf: r.Kerf}
	var err error
	if err = l.planned(timber, from.sheet.Currency); err != nil {
		return nil, false, err
	}
	all, err := l.stock(from, r)
	if err != nil || !l.two(all, r) {
		return nil, false, err
	}
	if err = l.cheapest(all, timber, from, r); err != nil || l.best == nil {
		return nil, false, err
	}
	return l, true, l.settle(timber, from.sheet.Currency)
}

// cheapest lays the planks whole, and with the parts that the plans made apart cut some of them in, and keeps the cheaper plan and the
// lower floor of the two.
func (l *abreast) cheapest(all []board, timber []Timber, from source, r Rules) error {
	bound := int64(-1)
	for _, parts := range []bool{false, true} {
		pieces := l.pieces(timber, parts, false)
		if pieces == nil {
			continue
		}
		list, labour := l.list(all, pieces, timber, from, false), int64(0)
		plan, err := from.memo.boards(list)
		if err != nil {
			continue // longer than every board, or too few of them
		}
		if parts {
			labour = l.labour
		}
		floor := plan
		outer := l.list(all, l.pieces(timber, parts, true), timber, from, true)
		if !alikeLists(list, outer) {
			if floor, err = from.memo.boards(outer); err != nil {
				continue
			}
		}
		if f := max(0, floor.Certificate.Floor)/l.scale + labour; bound < 0 || f < bound {
			bound, l.told.Certificate, l.told.Counted = f, floor.Certificate, &outer
		}
		cost, err := money.New(l.cost(plan)+labour, from.sheet.Currency)
		if err != nil {
			return err
		}
		if l.best == nil || cost.Minor() < l.told.Cost.Minor() {
			l.best, l.counted, l.scarfed, l.told.Cost = &plan, list, parts, cost
		}
	}
	if l.best == nil {
		return nil
	}
	var err error
	l.told.Bound, err = money.New(min(bound, l.told.Cost.Minor()), from.sheet.Currency)
	return err
}

// planned adds up what the groups come to with boards of their own.
func (l *abreast) planned(timber []Timber, c money.Currency) (err error) {
	cost, bound := int64(0), int64(0)
	for _, i := range l.of {
		l.labour += timber[i].labour()
		cost, bound = cost+timber[i].Cost.Minor()+timber[i].labour(), bound+timber[i].Bound.Minor()
		l.lines = append(l.lines, l.g.timber[i].lines...)
		l.told.Lines = append(l.told.Lines, timber[i].Lines...)
	}
	if l.apart, err = money.New(cost, c); err != nil {
		return err
	}
	l.floor, err = money.New(bound, c)
	return err
}

// stock is the boards thick enough for every plank, and wide enough for the narrowest.
func (l *abreast) stock(from source, r Rules) ([]board, error) {
	p := l.g.timber[l.of[0]].pieces
	for _, i := range l.lines {
		q := l.g.needs[i].Pieces
		p.Thickness, p.Siding = decimal.Min(p.Thickness, q.Thickness), decimal.Max(p.Siding, q.Siding)
	}
	flatly := r
	flatly.Resaw = nil
	all, err := from.boards(p, false, flatly)
	all = slices.DeleteFunc(all, func(b board) bool { return b.offer.RandomWidth() }) // how many lie side by side in those nobody knows
	l.unit = tenth
	for _, b := range all {
		if b.offer.Price.IsZero() {
			l.scale += b.avail
		}
		if nanoDown(b.length) > tenth*flat.MaxSide {
			l.unit = millimetre
		}
	}
	return all, err
}

// two says that some board holds the two narrowest planks side by side.
func (l *abreast) two(all []board, r Rules) bool {
	var widths []decimal.Decimal
	for _, i := range l.lines {
		p := l.g.needs[i].Pieces
		widths = append(widths, p.Thickness.Add(p.Planing))
	}
	slices.SortFunc(widths, decimal.Decimal.Cmp)
	return len(widths) > 1 && slices.ContainsFunc(all, func(b board) bool { return !b.width.LessThan(widths[0].Add(widths[1]).Add(r.Kerf)) })
}

// pieces are the planks to be laid, whole, or where the plans made apart make them of two so; down counts their sizes down. Nil of
// parts where there are none.
func (l *abreast) pieces(timber []Timber, parts, down bool) []flat.Piece {
	size := func(mm decimal.Decimal) int64 {
		if down {
			return nanoDown(mm) / l.unit
		}
		return (nanoUp(mm) + l.unit - 1) / l.unit
	}
	joints := map[string][]Joint{}
	for _, i := range l.of {
		if s := timber[i].Scarfed; s != nil && parts {
			for _, j := range s.Joints {
				joints[j.Line] = append(joints[j.Line], j)
			}
		}
	}
	if parts && len(joints) == 0 {
		return nil
	}
	var out []flat.Piece
	for _, i := range l.lines {
		n := l.g.needs[i]
		qty, _ := n.Gross.Int()
		width := size(n.Pieces.Thickness.Add(n.Pieces.Planing))
		for _, j := range joints[n.ID] {
			qty -= j.Count
			for _, part := range []decimal.Decimal{j.First, j.Second} {
				out = append(out, flat.Piece{ID: partID(n.ID, part), Width: width, Length: size(part), Qty: j.Count})
			}
		}
		if qty > 0 {
			out = append(out, flat.Piece{ID: n.ID, Width: width, Length: size(millimetres(n.Pieces.Length)), Qty: qty})
		}
	}
	return merged(out)
}

// partID names a part of a need's pieces.
func partID(line string, part decimal.Decimal) string { return line + ofPart + part.String() }

const ofPart = ", part "

// merged are pieces of one id together: two halves of one length.
func merged(list []flat.Piece) []flat.Piece {
	var out []flat.Piece
	for _, p := range list {
		if i := slices.IndexFunc(out, func(o flat.Piece) bool { return o.ID == p.ID }); i >= 0 {
			out[i].Qty += p.Qty
			continue
		}
		out = append(out, p)
	}
	return out
}

// list counts boards down and pieces up to whole units, which gives plans; or with outer set the other way round and every board at
// its lowest price, which gives floors.
func (l *abreast) list(all []board, pieces []flat.Piece, timber []Timber, from source, outer bool) flat.List {
	out := flat.List{Pieces: pieces, Rules: flat.Rules{First: flat.Along, Stages: 2, Kerf: (nanoUp(l.kerf) + l.unit - 1) / l.unit}}
	if outer {
		out.Rules.Kerf = nanoDown(l.kerf) / l.unit
	}
	gone := l.elsewhere(timber)
	size := func(nano int64) int64 {
		if outer {
			return (nano + l.unit - 1) / l.unit
		}
		return nano / l.unit
	}
	rows := from.sheet.Boards(l.g.timber[l.of[0]].pieces.Species, l.g.timber[l.of[0]].pieces.Grade)
	for _, b := range all {
		price := b.offer.Price.Minor()
		if b.offer.Rack == nil {
			i := slices.IndexFunc(rows, func(it sheet.Item) bool { return id(from.sheet, it) == b.offer.ID })
			breaks := from.sheet.Breaks(rows[i])
			if slices.ContainsFunc(breaks, func(o sheet.Item) bool { return o.MinQty.LessThan(rows[i].MinQty) }) {
				continue // one board at its price for fewest
			}
			for _, o := range breaks {
				if p, err := from.price(o, b.offer.Way); outer && err == nil {
					price = min(price, p.Minor())
				}
			}
		}
		length := nanoDown(b.length)
		if !b.untrimmed {
			length -= 2 * l.trim
		}
		s := flat.Stock{ID: b.offer.ID, Width: size(nanoDown(b.width)), Length: size(length), Price: max(1, price*l.scale), Avail: b.avail}
		if s.Avail >= 0 && !outer {
			s.Avail = max(0, s.Avail-gone[b.offer.ID])
		}
		if s.Length > 0 && s.Width > 0 {
			l.boards[b.offer.ID] = b
			out.Stock = append(out.Stock, s)
		}
	}
	return out
}

// elsewhere are the boards that other groups cut.
func (l *abreast) elsewhere(timber []Timber) map[string]int64 {
	out := map[string]int64{}
	for i, t := range timber {
		if slices.Contains(l.of, i) {
			continue
		}
		for _, b := range t.Boards {
			out[b.Offer] += b.Count
		}
	}
	return out
}

func alikeLists(a, b flat.List) bool {
	return a.Rules == b.Rules && slices.Equal(a.Stock, b.Stock) && slices.Equal(a.Pieces, b.Pieces)
}

// cost of a plan in minor units, no fewer of a board bought than are sold.
func (l *abreast) cost(plan flat.Plan) int64 {
	sum := int64(0)
	for _, lot := range plan.Bought {
		b := l.boards[lot.StockID]
		sum += max(lot.N, b.least) * b.offer.Price.Minor()
	}
	return sum
}
