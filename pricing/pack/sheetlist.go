package pack

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strconv"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/cutting/flat"
)

// sized is a row of the sheet that pieces can be laid out on, at the prices it has at several quantities, least order first.
type sized struct {
	name   string
	size   sheet.Sized
	breaks []int // into packs
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
		if i, seen := at[p.article]; seen {
			out[i].breaks = append(out[i].breaks, k)
			continue
		}
		at[p.article] = len(out)
		out = append(out, sized{size: size, breaks: []int{k}})
	}
	for i := range out {
		slices.SortStableFunc(out[i].breaks, func(a, b int) int { return cmp.Compare(packs[a].least, packs[b].least) })
		out[i].name = sizedName(packs[out[i].breaks[0]].item, out[i].size)
	}
	for i := range out { // two suppliers' rolls in packs of two sizes, say
		if slices.ContainsFunc(out[:i], func(o sized) bool { return o.name == out[i].name }) {
			out[i].name += ", " + strconv.Itoa(i+1)
		}
	}
	return out
}

func sizedName(it sheet.Item, size sheet.Sized) string {
	name := it.Item + " " + it.Width.Text()
	if !size.Roll() {
		name += " x " + it.StockLength.Text()
	}
	if it.Supplier != "" {
		name += ", " + it.Supplier
	}
	return name
}

// rollLength of a pack is how many millimetres of the roll it is, exact.
func (s sized) rollLength(p pack) *big.Rat {
	long := new(big.Rat).Mul(p.item.PieceMeasure(), p.item.Unit.Factor())
	if p.item.Unit.Dimension() == sheet.ByLength {
		return long.Mul(long, big.NewRat(1_000, 1))
	}
	return long.Mul(long, big.NewRat(1_000_000, 1)).Quo(long, s.size.Width.MM().Rat())
}

// rollPer is the length that rolls are priced by, mm.
const rollPer = 1_000_000

// stock is a row as the cutting has it, its prices times scale, none above what it costs: whole packs of it up to avail, -1 for no
// limit. Sheets are counted down to whole millimetres, and rolls are priced by a common length.
func (y *laying) stock(s sized, p pack, price, avail, scale int64) flat.Stock {
	row := flat.Stock{ID: s.name, Width: s.size.Width.MM().Floor().IntPart(), Length: s.size.Length.MM().Floor().IntPart(), Avail: -1}
	of, parts := big.NewRat(s.size.Each, 1), new(big.Rat).SetInt(product(price, scale))
	if s.size.Roll() {
		of, row.Per = s.rollLength(p), rollPer
		parts.Mul(parts, big.NewRat(rollPer, 1))
	}
	row.Price = min(flat.MaxPrice+1, max(1, money.Down(parts.Quo(parts, of))))
	if avail >= 0 {
		row.Avail = money.Down(new(big.Rat).Mul(of, big.NewRat(avail, 1)))
	}
	return row
}

// list is what is to be cut at some prices: pieces counted up to whole millimetres, and where a roll is among it nothing lost to the
// saw, for cloth is cut with shears. Pairs are cut as one rectangle where tight is false; where it is true, each may be cut so or by itself, and
// a piece by itself counts as no larger than its partner, so that a floor of the list holds for both. Why is what stands in the way.
func (y *laying) list(at prices, pairs map[int]laidPair, tight bool) (list flat.List, why string) {
	list.Rules = flat.Rules{Kerf: y.kerf.Ceil().IntPart(), First: flat.Either, Stages: 2}
	list.Stock = at.stock
	for _, s := range list.Stock {
		if s.Roll() {
			list.Rules.Kerf = 0
		}
	}
	all, unsized := int64(0), 0
	for i := range y.need.Lines {
		q := y.need.Lines[i].Rectangles
		if q == nil {
			if !y.need.Lines[i].Net.IsZero() {
				unsized++
			}
			continue
		}
		p := flat.Piece{ID: y.need.Lines[i].ID, Width: q.Width.Ceil().IntPart(), Length: q.Length.Ceil().IntPart(), Qty: q.Count, MayTurn: q.MayTurn}
		if two, ok := pairs[i]; ok {
			if two.second {
				continue // it is cut with the other
			}
			if tight {
				other := y.need.Lines[two.with].Rectangles
				p.Width, p.Length, p.Qty = min(p.Width, other.Width.Ceil().IntPart()), min(p.Length, other.Length.Ceil().IntPart()), 2
				p.Pair = &flat.Size{Width: two.width, Length: two.length}
			} else {
				p.Width, p.Length = two.width, two.length
			}
		}
		p = y.joined(p, list.Rules)
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

// joined is a piece longer than any sheet for sale in equal lengths that each go on one: a long pattern is butted on a cleat. Common
// practice, no source.
func (y *laying) joined(p flat.Piece, r flat.Rules) flat.Piece {
	fits := func(p flat.Piece) bool {
		return slices.ContainsFunc(y.sold, func(s flat.Stock) bool { return s.Takes(p, r) })
	}
	if !p.MayTurn || !slices.ContainsFunc(y.sold, func(s flat.Stock) bool { return s.Length > 0 }) || fits(p) {
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

func product(a, b int64) *big.Int { return new(big.Int).Mul(big.NewInt(a), big.NewInt(b)) }
