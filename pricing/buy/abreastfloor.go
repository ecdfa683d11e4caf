package buy

import (
	"math/big"
	"slices"

	"ribband/takeoff/bill"
	"ribband/takeoff/cutting/flat"

	"github.com/shopspring/decimal"
)

// The floor of planks side by side stands over every way of cutting them, some groups side by side and others as if apart: boards that
// are resawn count as so many boards as they give layers, each at its part of the price and as thick as the whole; those of random width count as they are
// reckoned; and planks that may be scarfed count in slices no longer than the taper. Where a plank of two parts has its joint does
// not matter then: they hold together as many slices as the whole plank, because they are longer by the taper. Computed.

// outerBoard is a board as the floor counts it.
type outerBoard struct {
	board
	layers int64
}

// outer is all boards that serve any of the groups: each as wide, as cheap and of as many layers as it is for the group that it serves best.
func (l *abreast) outer(all []board, from source, r Rules) ([]outerBoard, error) {
	var out []outerBoard
	add := func(b board) {
		i := slices.IndexFunc(out, func(o outerBoard) bool { return o.offer.ID == b.offer.ID })
		if i < 0 {
			i = len(out)
			out = append(out, outerBoard{b, 1})
		}
		o := &out[i]
		o.width, o.layers = decimal.Max(o.width, b.width), max(o.layers, b.offer.Way.Layers)
		if b.offer.Price.Minor() < o.offer.Price.Minor() {
			o.offer.Price = b.offer.Price
		}
	}
	for _, b := range all {
		add(b)
	}
	pieces := []bill.Pieces{l.least()} // of the thinnest there are most layers
	for _, i := range l.of {
		pieces = append(pieces, l.g.timber[i].pieces)
	}
	for _, p := range pieces {
		own, err := from.boards(p, false, r)
		if err != nil {
			return nil, err
		}
		for _, b := range own {
			add(b)
		}
	}
	return out, nil
}

// leastOf finds what no plan of the planks costs less than, in minor units with the labour of scarfs that must be, and the list and the
// certificate that show it. Where the list is too long to be looked at, the planks' faces alone count, and nothing is shown.
func (l *abreast) leastOf(all []board, timber []Timber, from source, r Rules) (int64, error) {
	boards, err := l.outer(all, from, r)
	if err != nil {
		return 0, err
	}
	idle, parts, longest := int64(0), int64(1), int64(0) // boards that cost nothing, and into how many parts prices are divided
	for _, b := range boards {
		if b.offer.Price.IsZero() {
			idle += max(0, b.avail) * b.layers
		}
		parts = new(big.Int).Div(big.NewInt(parts*b.layers), new(big.Int).GCD(nil, nil, big.NewInt(parts), big.NewInt(b.layers))).Int64()
		if b.avail != 0 {
			longest = max(longest, l.clear(b.board))
		}
	}
	l.whole = slices.ContainsFunc(l.lines, func(i int) bool { return !l.mayScarf(i, timber, longest) })
	l.longest = longest
	l.told.Unit = nanoMM(l.units[0])
	scale, best := (idle+1)*parts, int64(-1)
	for _, unit := range l.units {
		list := l.outerList(boards, scale, unit, from)
		pieces, sliced := l.slices(timber, longest, list.Rules.Kerf, unit)
		list.Pieces = pieces
		plan, err := from.memo.boards(list, from.planksLimits())
		floor := int64(0)
		if shown := err == nil && sliced; shown {
			floor = max(0, plan.Certificate.Floor)
		} else {
			floor = byFace(list)
		}
		if floor <= best {
			continue
		}
		best = floor
		if l.told.Certificate, l.told.Counted, l.told.PriceScale = (flat.Certificate{}), nil, 0; err == nil && sliced {
			l.told.Certificate, l.told.Counted, l.told.Unit = plan.Certificate, &list, nanoMM(unit)
			if scale > 1 {
				l.told.PriceScale = scale
			}
		}
	}
	return max(0, best-idle+scale-1)/scale + l.mustLabour(timber, longest), nil
}

// clear is what a board's length gives between its ends, nanometres.
func (l *abreast) clear(b board) int64 {
	if b.untrimmed {
		return nanoDown(b.length)
	}
	return nanoDown(b.length) - 2*l.trim
}

// outerList is the boards as the floor counts them, up to whole units.
func (l *abreast) outerList(boards []outerBoard, scale, unit int64, from source) flat.List {
	list := flat.List{Rules: flat.Rules{First: flat.Either, Stages: 2, Kerf: nanoDown(l.kerf) / unit}}
	for _, b := range boards {
		price, ok := l.lowest(b, from)
		if !ok {
			continue
		}
		s := flat.Stock{ID: b.offer.ID, Width: (nanoDown(b.width) + unit - 1) / unit, Length: (l.clear(b.board) + unit - 1) / unit, Price: max(1, price*scale/b.layers), Avail: b.avail, Thickness: nanoUp(b.thickness)}
		if s.Avail > 0 {
			s.Avail *= b.layers
		}
		if s.Length > 0 && s.Width > 0 {
			list.Stock = append(list.Stock, s)
		}
	}
	return list
}

// lowest is the lowest price of a board at any quantity, minor units; false for a row beside that at which fewest are sold.
func (l *abreast) lowest(b outerBoard, from source) (int64, bool) {
	price := b.offer.Price.Minor()
	if b.offer.Rack != nil {
		return price, true
	}
	for _, it := range from.sheet.Boards(l.g.timber[l.of[0]].pieces.Species, l.g.timber[l.of[0]].pieces.Grade) {
		if id(from.sheet, it) != b.offer.ID {
			continue
		}
		for _, o := range from.sheet.Breaks(it) {
			if o.MinQty.LessThan(it.MinQty) {
				return 0, false
			}
			if o.RandomWidth() {
				o = o.At(b.offer.WidthMM)
			}
			if p, err := from.price(o, b.offer.Way); err == nil {
				price = min(price, p.Minor())
			}
		}
	}
	return price, true
}

// slices are the planks as the floor counts them, sizes down to whole units: those that may be scarfed in slices. False where a taper
// is too short to be sliced by.
func (l *abreast) slices(timber []Timber, longest, kerf, unit int64) (out []flat.Piece, ok bool) {
	ok = true
	for _, i := range l.lines {
		n := l.g.needs[i]
		qty, _ := n.Gross.Int()
		long := nanoDown(millimetres(n.Pieces.Length))
		p := flat.Piece{ID: n.ID, Width: nanoDown(n.Pieces.Thickness.Add(n.Pieces.Planing)) / unit, Length: long / unit, Qty: qty, Thickness: nanoDown(n.Pieces.Siding.Add(n.Pieces.Planing))}
		if p.AlongOnly = l.mayScarf(i, timber, longest); p.AlongOnly {
			taper := nanoDown(n.Pieces.Scarf.Taper) / unit
			if taper <= kerf {
				out, ok = append(out, p), false
				continue
			}
			many := (p.Length + kerf + taper - 1) / taper
			each := (p.Length + kerf) / max(1, many)
			if ok = ok && each > kerf; ok {
				p.Length, p.Qty = each-kerf, qty*many
			}
		}
		out = append(out, p)
	}
	return out, ok
}

// mayScarf says that a need's planks may be of two parts.
func (l *abreast) mayScarf(line int, timber []Timber, longest int64) bool {
	n := l.g.needs[line]
	s := n.Pieces.Scarf
	return s != nil && (nanoDown(millimetres(n.Pieces.Length)) > longest || !s.OnlyLonger && !l.notScarfed(timber, n.ID))
}

// notScarfed says that a need's planks are cut whole wherever a board is long enough, and why is told.
func (l *abreast) notScarfed(timber []Timber, line string) bool {
	return slices.ContainsFunc(l.of, func(i int) bool { return timber[i].NotScarfed != "" && slices.Contains(timber[i].Lines, line) })
}

// mustLabour is what the joints of planks longer than every board cost at least, minor units.
func (l *abreast) mustLabour(timber []Timber, longest int64) (sum int64) {
	for _, i := range l.of {
		s, must := timber[i].Scarfed, int64(0)
		if s == nil {
			continue
		}
		for _, k := range l.g.timber[i].lines {
			if n := l.g.needs[k]; nanoUp(millimetres(n.Pieces.Length)) > longest {
				qty, _ := n.Gross.Int()
				must += qty
			}
		}
		if must = min(must, s.Count); must == s.Count {
			sum += s.Labour.Minor()
		} else {
			sum += max(0, s.Labour.Minor()*must/s.Count-1) // the labour of all is rounded
		}
	}
	return sum
}

// byFace is what boards cost that have as much face as the pieces, those that give most for their price first and the last in part.
func byFace(list flat.List) int64 {
	left, cost := new(big.Rat), new(big.Rat)
	for _, p := range list.Pieces {
		left.Add(left, new(big.Rat).SetInt(new(big.Int).Mul(big.NewInt(p.Width*p.Length), big.NewInt(p.Qty))))
	}
	per := func(s flat.Stock) *big.Rat { return big.NewRat(s.Price, s.Width*s.Length) }
	stock := slices.Clone(list.Stock)
	slices.SortStableFunc(stock, func(a, b flat.Stock) int { return per(a).Cmp(per(b)) })
	for _, s := range stock {
		take := new(big.Rat).Set(left)
		if has := big.NewRat(s.Width*s.Length, 1); s.Avail >= 0 {
			if has.Mul(has, big.NewRat(s.Avail, 1)); has.Cmp(take) < 0 {
				take = has
			}
		}
		left.Sub(left, take)
		cost.Add(cost, take.Mul(take, per(s)))
	}
	q := new(big.Int).Quo(cost.Num(), cost.Denom())
	if !q.IsInt64() {
		return 0
	}
	return q.Int64()
}
