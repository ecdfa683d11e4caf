package buy

import (
	"errors"
	"fmt"
	"math/big"
	"slices"

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

// laying is the pieces of one item being laid out on sheets and rolls.
type laying struct {
	groups
	need  *packNeed
	packs []pack
	rows  []sized
	rules Rules
	// sold is all stock that is for sale, whoever sells it: a piece that goes on one of it is not joined.
	sold []flat.Stock
	// pairings are the ways of laying pieces into each other that are weighed.
	pairings []map[int]laidPair
	best     laidOut
	floors   []sheetFloor
}

// laidOut is a plan with what it buys: packs by their place, and what they cost.
type laidOut struct {
	list   flat.List
	plan   flat.Plan
	pairs  map[int]laidPair
	counts []int64
	cost   int64
	found  bool
}

// noSheetError: off some suppliers' goods alone pieces go on no sheet that go on one of all that are for sale.
type noSheetError struct{ item, why string }

func (e *noSheetError) Error() string { return e.item + ": " + e.why }

// laid lays the pieces of an item out on the sheets and rolls that the price sheet gives sizes for, and puts that into out; false
// where there are none, or where a piece has no known size or goes on none, which out then says. Whether it is laid out
// and which pieces are joined is decided by all that is for sale at the sheet's own prices. Where some suppliers' goods alone do not
// give what those of all do: a *noSheetError, or a *ShortPacksError where too few were found, which proves nothing.
func (g groups) laid(n *packNeed, packs []pack, out *Packs, from source, r Rules) (bool, error) {
	if from.whole == nil && from.laden == nil {
		laid, _, err := g.planSheets(n, packs, packs, out, from.sheet, r)
		return laid, err
	}
	all := from
	if all.laden = nil; all.whole != nil {
		all.sheet, all.whole = *all.whole, nil
	}
	whole, err := g.packed(n, all, r)
	if err != nil {
		return false, err
	}
	if whole.Sheets == nil {
		out.ByArea = whole.ByArea
		return false, nil
	}
	sold, err := packsOf(n, all)
	if err != nil {
		return false, err
	}
	laid, few, err := g.planSheets(n, packs, sold, out, from.sheet, r)
	if err != nil || laid {
		return laid, err
	}
	if few {
		return false, &ShortPacksError{n.item, out.Gross, out.Gross}
	}
	return false, &noSheetError{n.item, out.ByArea}
}

// planSheets lays pieces out off packs, of all that are sold; few says of what is not laid out that too few sheets were found.
func (g groups) planSheets(n *packNeed, packs, sold []pack, out *Packs, c sheet.Content, r Rules) (laid, few bool, err error) {
	rows := sizedRows(packs)
	if len(rows) == 0 {
		out.ByArea = g.misfit(n, packs)
		return false, false, nil
	}
	y := &laying{groups: g, need: n, packs: packs, rows: rows, rules: r}
	of := &laying{groups: g, packs: sold, rows: sizedRows(sold)}
	y.sold = of.lowest().stock
	lone, why := y.list(y.lowest(), nil, true)
	if why != "" {
		out.ByArea = why
		return false, false, nil
	}
	y.pairings = g.pairings(n, lone, r)
	err = y.weigh()
	if why := g.cannot(err); why != "" {
		var short *flat.ShortError
		out.ByArea = why
		return false, errors.As(err, &short), nil
	}
	if err != nil {
		return false, false, err
	}
	return true, false, y.tell(out, c)
}

// misfit says why pieces of known size cannot be laid out on rows that say sizes which are not those of their packs; empty where no
// row says any, or where pieces have none.
func (g groups) misfit(n *packNeed, packs []pack) string {
	if !slices.ContainsFunc(n.lines, func(i int) bool { return g.needs[i].Rectangles != nil }) {
		return ""
	}
	for _, p := range packs {
		it := p.item
		if _, ok := it.Sized(); ok || it.Width.Empty() || it.StockLength.Empty() || it.Unit.Dimension() != sheet.ByArea || p.avail == 0 {
			continue
		}
		one := new(big.Rat).Mul(it.Width.MM().Shift(-3).Rat(), it.StockLength.MM().Shift(-3).Rat())
		one.Quo(one, it.Unit.Factor())
		return fmt.Sprintf("a pack of %s %s is no sheet of %s x %s, which is %s; a pack_size of one sheet would do, or the sheets by the piece, in C62",
			it.PieceMeasure().FloatString(2), it.Unit.Name(), it.Width.Text(), it.StockLength.Text(), one.FloatString(2))
	}
	return ""
}

// tell puts the cheapest plan and what none can be below into out.
func (y *laying) tell(out *Packs, c sheet.Content) error {
	names := map[string]string{}
	for _, i := range y.need.lines {
		names[y.needs[i].ID] = y.needs[i].Member.String()
	}
	for i, two := range y.best.pairs {
		if !two.second {
			names[y.needs[i].ID] = y.called(i, two)
		}
	}
	least := slices.MinFunc(y.floors, func(a, b sheetFloor) int { return int(min(1, max(-1, a.floor-b.floor))) })
	var err error
	if out.Bound, err = money.New(min(least.floor, y.best.cost), c.Currency); err != nil {
		return err
	}
	out.Sheets = &Sheets{Kerf: decimal.NewFromInt(y.best.list.Rules.Kerf), Pairs: y.told(y.best.pairs),
		Layouts: flatcut.Layouts(y.best.list, y.best.plan, millimetre, c.Notation, func(id string) string { return names[id] })}
	if out.Sheets.Floor, err = least.shown(c.Currency); err != nil {
		return err
	}
	if laid := y.best.list; !sameList(laid, out.Sheets.Counted) {
		out.Sheets.Laid = &laid
	}
	for _, f := range y.floors {
		if other, err := f.shown(c.Currency); err != nil {
			return err
		} else if f.floor != least.floor || !sameList(f.list, least.list) {
			out.Sheets.Elsewise = append(out.Sheets.Elsewise, other)
		}
	}
	if err := out.fill(y.packs, y.best.counts, out.Net.Value().Rat()); err != nil {
		return err
	}
	if out.LeftOver.Value().IsNegative() {
		out.LeftOver = quantity.Zero(y.need.unit)
	}
	if out.Method = SeveralRows; len(out.Bought) == 1 {
		out.Method = OneRow
	}
	out.Proven = out.Bound == out.Cost
	return nil
}

func sameList(a, b flat.List) bool {
	return slices.Equal(a.Stock, b.Stock) && a.Rules == b.Rules && slices.EqualFunc(a.Pieces, b.Pieces, func(p, q flat.Piece) bool {
		return p.ID == q.ID && p.Width == q.Width && p.Length == q.Length && p.Qty == q.Qty && p.MayTurn == q.MayTurn &&
			(p.Pair == nil) == (q.Pair == nil) && (p.Pair == nil || *p.Pair == *q.Pair)
	})
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

// leastSheets are the rows of which fewer would do than are sold at once.
func (p Packs) leastSheets(c sheet.Content) ([]LeastRow, error) {
	list := p.Sheets.Counted
	if p.Sheets.Laid != nil {
		list = *p.Sheets.Laid
	}
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
		for _, s := range list.Stock {
			needed := (used[s.ID] + size.Each - 1) / size.Each
			if s.ID == sizedName(it, size) && needed > 0 && needed < lot.Count && !soldSingly(c, it, needed) {
				out = append(out, LeastRow{packLabel(p.Item, lot), it.Supplier, it.MinPieces(), needed})
				break
			}
		}
	}
	return out, nil
}
