package flatcut

import (
	"fmt"

	"ribband/pricing/money"
	"ribband/takeoff/cutting/flat"
)

// counted is a list in whole units.
type counted struct {
	list flat.List
	unit nanos
	// exact says that every size is a whole number of units.
	exact bool
}

// So many units of a side keep the tables small; with three stages they are tables over both sides.
const (
	mostUnits        = 25_000
	mostUnitsOfThree = 4_000
)

// Coarser units, where the greatest that divides every size is too fine: a tenth of a millimetre, and a millimetre.
var coarser = []nanos{100_000, 1_000_000}

// unitOf is what sizes are counted in, so that no side has more than most where a millimetre is fine enough: their greatest common divisor, or a
// coarser one; false where none is coarse enough.
func unitOf(sizes []nanos, most int64) (unit nanos, exact, ok bool) {
	longest := nanos(0)
	for _, n := range sizes {
		if n < 0 {
			n = -n
		}
		longest = max(longest, n)
		for n > 0 {
			unit, n = n, unit%n
		}
	}
	if unit == 0 {
		return 1, true, true
	}
	if longest/unit <= most {
		return unit, true, true
	}
	for _, u := range coarser {
		if longest/u <= most || u == coarser[len(coarser)-1] && longest/u <= flat.MaxFine {
			return u, false, true
		}
	}
	return 0, false, false
}

// count makes the list: where sizes are no whole numbers of the unit, pieces and saw go up and stock is cut down, so that
// a plan always holds.
func (r *reader) count() (counted, bool) {
	var sizes []nanos
	for i := range r.Stock {
		sizes = append(sizes, r.size("/stock/%d/width", i), r.size("/stock/%d/length", i))
	}
	for at, n := range r.sizes {
		if len(at) > 7 && at[:7] == "/pieces" || at[:6] == "/rules" {
			sizes = append(sizes, n)
		}
	}
	most := int64(mostUnits)
	if r.Rules.Stages == 3 {
		most = mostUnitsOfThree
	}
	unit, exact, ok := unitOf(sizes, most)
	if !ok {
		return counted{}, false
	}
	up := func(n nanos) int64 { return (n + unit - 1) / unit }
	c := counted{unit: unit, exact: exact, list: flat.List{Rules: flat.Rules{
		Kerf: up(r.sizes["/rules/kerf"]), TrimEach: up(r.sizes["/rules/trim_each"]), First: flat.Either, Stages: 2}}}
	if r.Rules.First != "" {
		c.list.Rules.First = r.Rules.First
	}
	if r.Rules.Stages != 0 {
		c.list.Rules.Stages = r.Rules.Stages
	}
	for i, row := range r.Stock {
		price, _ := money.Round(row.Price, r.Currency, money.HalfUp)
		s := flat.Stock{ID: row.ID, Width: r.size("/stock/%d/width", i) / unit, Length: r.size("/stock/%d/length", i) / unit, Price: price.Minor(), Avail: -1}
		if row.Avail != nil {
			s.Avail = *row.Avail
		}
		if row.Per != "" {
			if s.Per = max(1, r.size("/stock/%d/per", i)/unit); row.AvailLength != "" {
				s.Avail = r.size("/stock/%d/avail_length", i) / unit
			}
		}
		c.list.Stock = append(c.list.Stock, s)
	}
	for i, piece := range r.Pieces {
		p := flat.Piece{ID: piece.ID, Width: up(r.size("/pieces/%d/width", i)), Length: up(r.size("/pieces/%d/length", i)), Qty: piece.Qty, MayTurn: piece.MayTurn}
		if piece.Pair != nil {
			p.Pair = &flat.Size{Width: up(r.size("/pieces/%d/pair/width", i)), Length: up(r.size("/pieces/%d/pair/length", i))}
		}
		if piece.Outline != nil {
			r.outlined(i, unit, &p)
		}
		c.list.Pieces = append(c.list.Pieces, p)
	}
	return c, true
}

func (r *reader) size(format string, i int) nanos { return r.sizes[fmt.Sprintf(format, i)] }
