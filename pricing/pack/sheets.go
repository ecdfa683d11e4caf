package pack

import (
	"errors"
	"fmt"
	"math/big"
	"slices"

	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/cutting/flat"

	"github.com/shopspring/decimal"
)

// sheetLimits keep a buy list quick: two hundred pieces take some tenths of a second, measured on 2026-11-28.
var sheetLimits = flat.Limits{Work: 60_000_000, Pivots: 10_000, Nodes: 4_000}

// What is counted in: millimetres, as nanometres.
const millimetre = 1_000_000

// laying is the pieces of one need being laid out on sheets and rolls.
type laying struct {
	need  Need
	packs []pack
	rows  []sized
	kerf  decimal.Decimal
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

// NoSheetError: off some suppliers' goods alone pieces go on no sheet that go on one of all that are for sale.
type NoSheetError struct{ Item, Why string }

func (e *NoSheetError) Error() string { return e.Item + ": " + e.Why }

// laid lays the pieces of an item out on the sheets and rolls that the price sheet gives sizes for, and puts that into out; false
// where there are none, or where a piece has no known size or goes on none, which out then says. Whether it is laid out
// and which pieces are joined is decided by all that is for sale at the sheet's own prices. Where some suppliers' goods alone do not
// give what those of all do: a *NoSheetError, or a *ShortError where too few were found, which proves nothing.
func (p *Planner) laid(n Need, packs []pack, out *Plan, from Source) (bool, error) {
	if from.Whole == nil && from.Price == nil {
		laid, _, err := n.planSheets(packs, packs, out, from.Sheet, p.kerf)
		return laid, err
	}
	all := Source{Sheet: from.Sheet}
	if from.Whole != nil {
		all.Sheet = *from.Whole
	}
	whole, err := p.Plan(n, all)
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
	laid, few, err := n.planSheets(packs, sold, out, from.Sheet, p.kerf)
	if err != nil || laid {
		return laid, err
	}
	if few {
		return false, &ShortError{n.Item, out.Gross, out.Gross}
	}
	return false, &NoSheetError{n.Item, out.ByArea}
}

// planSheets lays pieces out off packs, of all that are sold; few says of what is not laid out that too few sheets were found.
func (n Need) planSheets(packs, sold []pack, out *Plan, c sheet.Content, kerf decimal.Decimal) (laid, few bool, err error) {
	rows := sizedRows(packs)
	if len(rows) == 0 {
		out.ByArea = n.misfit(packs)
		return false, false, nil
	}
	y := &laying{need: n, packs: packs, rows: rows, kerf: kerf}
	of := &laying{need: n, packs: sold, rows: sizedRows(sold)}
	y.sold = of.lowest().stock
	lone, why := y.list(y.lowest(), nil, true)
	if why != "" {
		out.ByArea = why
		return false, false, nil
	}
	y.pairings = n.pairings(lone, kerf)
	err = y.weigh()
	if why := n.cannot(err); why != "" {
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
func (n Need) misfit(packs []pack) string {
	if !slices.ContainsFunc(n.Lines, func(l bill.Line) bool { return l.Rectangles != nil }) {
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

// cannot says why pieces do not go on the sheets for sale; empty for no error and for those of another kind.
func (n Need) cannot(err error) string {
	var large *flat.LargeError
	var short *flat.ShortError
	var refused *flat.RequestError
	size := func(p flat.Piece) string { return fmt.Sprintf("%s, %d x %d mm,", n.memberOf(p.ID), p.Width, p.Length) }
	switch {
	case errors.As(err, &large):
		return size(large.Piece) + " goes on no sheet for sale"
	case errors.As(err, &short):
		return fmt.Sprintf("no way was found to lay all on the sheets for sale: %s finds no room", size(short.Piece))
	case errors.As(err, &refused):
		return "the pieces cannot be laid out: " + refused.Reason
	}
	return ""
}

func (n Need) memberOf(id string) string {
	for _, l := range n.Lines {
		if l.ID == id {
			return l.Member.String()
		}
	}
	return id
}
