package buy

import (
	"errors"
	"fmt"
	"math/big"
	"slices"
	"strconv"

	"ribband/pricing/flatcut"
	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/cutting/flat"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// sheetLimits keep a buy list quick: two hundred pieces take some tenths of a second, measured on 2026-11-28.
var sheetLimits = flat.Limits{Work: 60_000_000, Pivots: 10_000, Nodes: 4_000}

// What is counted in: millimetres, as nanometres.
const millimetre = 1_000_000

// sized is a row of the sheet that pieces can be laid out on, at the prices it has at several quantities, least order first.
type sized struct {
	name   string
	size   sheet.Sized
	breaks []int // into packs
}

// planSheets lays the pieces of an item out on the sheets and rolls that the price sheet gives sizes for, and puts that into
// out; false where there are none, or where a piece has no known size or goes on none, which out then says.
func (g groups) planSheets(n *packNeed, packs []pack, out *Packs, c sheet.Content, r Rules) (bool, error) {
	rows := sizedRows(packs)
	if len(rows) == 0 {
		return false, nil
	}
	list, why := g.sheetList(n, packs, rows, r, nil)
	if why != "" {
		out.ByArea = why
		return false, nil
	}
	plan, err := flat.SolveWithin(list, sheetLimits)
	var pairs map[int]laidPair
	if two := g.fitting(n, list, r); len(two) > 0 {
		paired, why := g.sheetList(n, packs, rows, r, two)
		if why == "" {
			if p, failed := flat.SolveWithin(paired, sheetLimits); failed == nil && (err != nil || p.Cost < plan.Cost) {
				list, plan, err, pairs = paired, p, nil, two
			}
		}
	}
	if why := g.cannot(err); why != "" {
		out.ByArea = why
		return false, nil
	}
	if err != nil {
		return false, err
	}
	names := map[string]string{}
	for _, i := range n.lines {
		names[g.needs[i].ID] = g.needs[i].Member.String()
	}
	for i, two := range pairs {
		if !two.second {
			names[g.needs[i].ID] = bothSides(g.needs[i].Member)
		}
	}
	out.Sheets = &Sheets{Kerf: decimal.NewFromInt(list.Rules.Kerf), Certificate: plan.Certificate, Counted: list, Pairs: g.told(pairs),
		Layouts: flatcut.Layouts(list, plan, millimetre, c.Notation, func(id string) string { return names[id] })}
	counts := countSheets(plan, packs, rows)
	if err := out.fill(packs, counts, out.Net.Value().Rat()); err != nil {
		return false, err
	}
	if out.LeftOver.Value().IsNegative() {
		out.LeftOver = quantity.Zero(n.unit)
	}
	if out.Method = SeveralRows; len(out.Bought) == 1 {
		out.Method = OneRow
	}
	if out.Bound, err = g.sheetBound(plan, packs, rows, c.Currency); err != nil {
		return false, err
	}
	if out.Bound.Minor() > out.Cost.Minor() {
		out.Bound = out.Cost
	}
	out.Proven = out.Bound == out.Cost
	return true, nil
}

// sizedRows are the rows with sizes, one for each thing that is sold at several quantities.
func sizedRows(packs []pack) []sized {
	var out []sized
	at := map[string]int{}
	for k, p := range packs {
		size, ok := p.item.Sized()
		if !ok || p.avail == 0 || p.avail > 0 && p.avail < p.least {
			continue
		}
		key := p.article + "\x00" + size.Width.MM().String() + "\x00" + size.Length.MM().String()
		if i, seen := at[key]; seen {
			out[i].breaks = append(out[i].breaks, k)
			continue
		}
		at[key] = len(out)
		out = append(out, sized{size: size, breaks: []int{k}})
	}
	for i := range out {
		slices.SortStableFunc(out[i].breaks, func(a, b int) int { return int(min(1, max(-1, packs[a].least-packs[b].least))) })
		p := packs[out[i].breaks[0]].item
		out[i].name = p.Item + " " + p.Width.Text()
		if !out[i].size.Roll() {
			out[i].name += " x " + p.StockLength.Text()
		}
		if p.Supplier != "" {
			out[i].name += ", " + p.Supplier
		}
	}
	for i := range out { // two suppliers' rolls in packs of two sizes, say
		if slices.ContainsFunc(out[:i], func(o sized) bool { return o.name == out[i].name }) {
			out[i].name += ", " + strconv.Itoa(i+1)
		}
	}
	return out
}

// lowest price of a pack of a row at any quantity.
func (s sized) lowest(packs []pack) int64 {
	least := packs[s.breaks[0]].price.Minor()
	for _, k := range s.breaks {
		least = min(least, packs[k].price.Minor())
	}
	return least
}

// rollLength of a pack is how many millimetres of the roll it is, exact.
func (s sized) rollLength(p pack) *big.Rat {
	m2 := new(big.Rat).Mul(p.item.PieceMeasure(), p.item.Unit.Factor())
	return m2.Mul(m2, big.NewRat(1_000_000, 1)).Quo(m2, s.size.Width.MM().Rat())
}

// sheetList counts pieces up and sheets down to whole millimetres; why is what stands in the way. Prices are the lowest at any
// quantity, so that the floor holds for whatever is bought.
func (g groups) sheetList(n *packNeed, packs []pack, rows []sized, r Rules, pairs map[int]laidPair) (list flat.List, why string) {
	list.Rules = flat.Rules{Kerf: r.Kerf.Ceil().IntPart(), First: flat.Either, Stages: 2}
	all, unsized := int64(0), 0
	for _, s := range rows {
		p := packs[s.breaks[0]]
		row := flat.Stock{ID: s.name, Width: s.size.Width.MM().Floor().IntPart(), Length: s.size.Length.MM().Floor().IntPart(), Price: s.lowest(packs), Avail: p.avail}
		if s.size.Roll() {
			// rolls are counted by a common length, at no more than their price
			length := s.rollLength(p)
			row.Per = rollPer
			per := new(big.Int).Quo(new(big.Int).Mul(product(row.Price, rollPer), length.Denom()), length.Num())
			if row.Price = flat.MaxPrice + 1; per.IsInt64() {
				row.Price = max(1, per.Int64())
			}
			if p.avail >= 0 {
				row.Avail = down64(new(big.Rat).Mul(length, big.NewRat(p.avail, 1)))
			}
			list.Rules.Kerf = 0 // cloth is cut with shears
		}
		list.Stock = append(list.Stock, row)
	}
	longest := int64(0)
	for _, s := range list.Stock {
		longest = max(longest, s.Length)
	}
	for _, i := range n.lines {
		q := g.needs[i].Rectangles
		if q == nil {
			if !g.needs[i].Net.IsZero() {
				unsized++
			}
			continue
		}
		p := flat.Piece{ID: g.needs[i].ID, Width: q.Width.Ceil().IntPart(), Length: q.Length.Ceil().IntPart(), Qty: q.Count, MayTurn: q.MayTurn}
		if two, ok := pairs[i]; ok {
			if two.second {
				continue // it is cut with the other
			}
			p.Width, p.Length = two.width, two.length
		}
		p = joined(p, list, longest)
		if all += p.Qty; p.Qty < 0 || all > flat.MaxPieces {
			return list, "there are too many pieces to lay out"
		}
		list.Pieces = append(list.Pieces, p)
	}
	switch {
	case unsized > 0:
		return list, fmt.Sprintf("of %d of its needs only the area is known", unsized)
	case len(list.Pieces) > flat.MaxKinds || len(list.Stock) > flat.MaxStock:
		return list, "there are too many pieces to lay out"
	}
	return list, ""
}

// rollPer is the length that rolls are priced by, mm.
const rollPer = 1_000_000

// joined is a piece longer than any sheet in equal lengths that each go on one: a long pattern is butted on a cleat. Common
// practice, no source.
func joined(p flat.Piece, l flat.List, longest int64) flat.Piece {
	fits := func(p flat.Piece) bool {
		return slices.ContainsFunc(l.Stock, func(s flat.Stock) bool { return s.Takes(p, l.Rules) })
	}
	if !p.MayTurn || longest == 0 || fits(p) {
		return p
	}
	side := max(p.Width, p.Length)
	for n := int64(2); n <= 10; n++ {
		part := p
		part.Qty, part.Length, part.Width = n*p.Qty, (side+n-1)/n, min(p.Width, p.Length)
		if fits(part) {
			return part
		}
	}
	return p
}

// cannot says why pieces do not go on the sheets for sale; empty for no error and for those of another kind.
func (g groups) cannot(err error) string {
	var large *flat.LargeError
	var short *flat.ShortError
	var refused *flat.RequestError
	size := func(p flat.Piece) string { return fmt.Sprintf("%s, %d x %d mm,", g.memberOf(p.ID), p.Width, p.Length) }
	switch {
	case errors.As(err, &large):
		return size(large.Piece) + " goes on no sheet for sale"
	case errors.As(err, &short):
		return fmt.Sprintf("too few sheets are for sale: %s finds no room", size(short.Piece))
	case errors.As(err, &refused):
		return "the pieces cannot be laid out: " + refused.Reason
	}
	return ""
}

func (g groups) memberOf(id string) string {
	for _, n := range g.needs {
		if n.ID == id {
			return n.Member.String()
		}
	}
	return id
}

// countSheets is how many packs of each row the plan buys: no fewer than are sold at once, at the lowest price that holds for so
// many.
func countSheets(plan flat.Plan, packs []pack, rows []sized) []int64 {
	counts := make([]int64, len(packs))
	for _, lot := range plan.Bought {
		i := slices.IndexFunc(rows, func(s sized) bool { return s.name == lot.StockID })
		s := rows[i]
		count := lot.N
		if lot.Length > 0 {
			count = whole(new(big.Rat).Quo(big.NewRat(lot.Length, 1), s.rollLength(packs[s.breaks[0]])))
		}
		best, most := -1, int64(0)
		for _, k := range s.breaks {
			n := max(count, packs[k].least)
			if packs[k].avail >= 0 && n > packs[k].avail {
				continue
			}
			if cost := n * packs[k].price.Minor(); best < 0 || cost < most {
				best, most = k, cost
			}
		}
		counts[best] = max(count, packs[best].least)
	}
	return counts
}

// sheetBound is the plan's floor; where one row alone serves, up to whole packs of it.
func (g groups) sheetBound(plan flat.Plan, packs []pack, rows []sized, c money.Currency) (money.Money, error) {
	bound := plan.Bound
	if len(rows) == 1 && rows[0].size.Roll() {
		price := rows[0].lowest(packs)
		bound = (bound + price - 1) / price * price
	}
	return money.New(bound, c)
}

// leastSheets are the rows of which fewer would do than are sold at once.
func (p Packs) leastSheets(c sheet.Content) ([]LeastRow, error) {
	used := map[string]int64{}
	for _, y := range p.Sheets.Layouts {
		used[y.StockID] += y.LastSheet - y.FirstSheet + 1
	}
	var out []LeastRow
	for _, lot := range p.Bought {
		it, ok := lot.row(p.Item, c)
		if !ok {
			return nil, &NeedError{p.Item, "this pack is not on the sheet that the list was made from"}
		}
		size, ok := it.Sized()
		if !ok || size.Roll() || it.MinPieces() < lot.Count {
			continue
		}
		for _, s := range p.Sheets.Counted.Stock {
			if s.Width == it.Width.MM().Floor().IntPart() && s.Length == it.StockLength.MM().Floor().IntPart() && used[s.ID] > 0 && used[s.ID] < lot.Count {
				out = append(out, LeastRow{packLabel(p.Item, lot), it.Supplier, it.MinPieces(), used[s.ID]})
				break
			}
		}
	}
	return out, nil
}

func product(a, b int64) *big.Int { return new(big.Int).Mul(big.NewInt(a), big.NewInt(b)) }

func down64(r *big.Rat) int64 {
	q := new(big.Int).Quo(r.Num(), r.Denom())
	if !q.IsInt64() {
		return -1
	}
	return q.Int64()
}
