package buy

import (
	"errors"
	"math/big"
	"strconv"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/cutting"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// taken is how many of each board were taken for groups before.
type taken map[string]int64

// id names a board and its supplier, and from which quantity on its price holds where the sheet has several; no two rows of a
// sheet are named alike.
func id(c sheet.Content, it sheet.Item) string {
	name := it.Label()
	if it.Supplier != "" {
		name += ", " + it.Supplier
	}
	if it.MinQty.Sign() > 0 && len(c.Breaks(it)) > 1 {
		name += ", from " + strconv.FormatInt(it.MinPieces(), 10)
	}
	return name
}

// Nanometres carry a sixty-fourth of an inch as a whole number. Where a length has a finer part, what is for sale is
// cut down and what is needed goes up, so that a plan always holds.
const nanoPlaces = 6

// millimetre in nanometres.
const millimetre = 1_000_000

func nanoUp(mm decimal.Decimal) int64   { return mm.Shift(nanoPlaces).Ceil().IntPart() }
func nanoDown(mm decimal.Decimal) int64 { return mm.Shift(nanoPlaces).Floor().IntPart() }
func nanoMM(n int64) decimal.Decimal    { return decimal.New(n, -nanoPlaces) }

// timberPlan is one group being planned.
type timberPlan struct {
	out    Timber
	boards map[string]board
	// scale multiplies prices in the cutting, so that boards that cost nothing still count, and scarfs that cost no whole number of
	// minor units do exactly; 1 where there are none.
	scale int64
	// joint is what one scarf costs in minor units, exact; nil where no piece may be made of two.
	joint *big.Rat
	// weighs says that pieces which boards give whole may be of two parts too, scarf how.
	weighs bool
	scarf  *cutting.Scarf
	steps  []string
	hours  decimal.Decimal
	// unpriced says that the sheet lacks a rate or the glue for it: then nothing is scarfed that a board of the sheet is long enough for.
	unpriced bool
	// longest that boards give whole, and ever those among them that other groups took before.
	longest, ever int64
}

func (g groups) planTimber(t *timberNeed, from source, r Rules, left taken) (Timber, error) {
	p := timberPlan{boards: map[string]board{}, scale: 1}
	net, gross, err := g.total(t.lines, quantity.Each)
	if err != nil {
		return Timber{}, err
	}
	p.out = Timber{
		Species: t.pieces.Species, Grade: t.pieces.Grade, Thickness: t.pieces.Thickness, Siding: t.pieces.Siding,
		Planing: t.pieces.Planing, Lines: g.ids(t.lines), Net: net, Gross: gross,
		Offers: []Offer{}, Boards: []Boards{}, Cuts: []Cut{}, LeftOver: []LeftOver{},
	}
	stock, err := p.stock(g, t, from, r, left)
	if err != nil {
		return Timber{}, err
	}
	var pieces []cutting.Piece
	for _, i := range t.lines {
		n := g.needs[i]
		qty, _ := n.Gross.Int()
		pieces = append(pieces, cutting.Piece{ID: n.ID, Length: nanoUp(millimetres(n.Pieces.Length)), Qty: qty})
	}
	saw := cutting.Rules{Kerf: nanoUp(r.Kerf), TrimEach: nanoUp(r.EndTrim)}
	if p.joint != nil {
		if p.longest, err = from.longestCut(t, r, left); err != nil {
			return Timber{}, err
		}
		if p.ever, err = from.longestCut(t, r, nil); err != nil {
			return Timber{}, err
		}
	}
	saw = p.mayScarf(g, t, stock, pieces, saw)
	plan, err := from.memo.strips(stock, pieces, saw)
	for tooMany(err) && p.fewer(pieces) {
		plan, err = from.memo.strips(stock, pieces, saw)
	}
	if err != nil {
		return Timber{}, p.explain(err)
	}
	plan = slid(cutting.OnGrids(plan, stock, pieces, saw), stock, pieces, saw, from.memo)
	if err := p.jointly(&plan, g.alone(t, stock, p.boards, r), stock, pieces, saw, from.memo); err != nil {
		return Timber{}, err
	}
	return p.take(plan, pieces, from.sheet.Currency, left)
}

// stock is the boards that serve, those on the rack first.
func (p *timberPlan) stock(g groups, t *timberNeed, from source, r Rules, left taken) ([]cutting.Stock, error) {
	all, err := from.boards(t.pieces, t.flat, r)
	if err != nil {
		return nil, err
	}
	for _, b := range all {
		if b.offer.Price.IsZero() {
			p.scale += b.avail
		}
	}
	p.weigh(g, t, from, r)
	var out []cutting.Stock
	for _, b := range all {
		least := max(0, b.least-left[b.offer.ID])
		if least > cutting.MaxPieces {
			continue
		}
		s := cutting.Stock{ID: b.offer.ID, Length: nanoDown(b.length), Price: max(1, b.offer.Price.Minor()*p.scale), Strips: b.offer.Strips, Avail: b.avail, Least: least}
		if b.untrimmed {
			s.Length += 2 * nanoUp(r.EndTrim)
		}
		if b.avail >= 0 {
			s.Avail = max(0, b.avail-left[b.offer.ID])
		}
		p.out.Offers = append(p.out.Offers, b.offer)
		p.boards[b.offer.ID] = b
		out = append(out, s)
	}
	return out, nil
}

// fixed shows an exact measure to 6 places.
func fixed(r *big.Rat) string { return money.HalfUp.RoundRat(r, 6).StringFixed(6) }

// explain turns what the cutting says in nanometres into millimetres.
func (p *timberPlan) explain(err error) error {
	var short *cutting.ShortError
	if !errors.As(err, &short) {
		return err
	}
	return &ShortBoardsError{
		Item: TimberItem(p.out.Species, p.out.Grade), Line: short.Piece.ID, Short: short.Short,
		PieceMM: nanoMM(short.Piece.Length), LongestMM: nanoMM(max(0, short.Longest)), BoardMM: nanoMM(short.NeedsLength),
		Offer: short.StockID, More: short.Boards,
	}
}

// take writes the plan down and counts its boards as taken.
func (p *timberPlan) take(plan cutting.Plan, pieces []cutting.Piece, c money.Currency, left taken) (Timber, error) {
	out := &p.out
	out.Method, out.Proof, out.Proven, out.Certificate = plan.Method, plan.Proof, plan.Proven(), plan.Certificate
	if p.scale > 1 {
		out.PriceScale = p.scale
	}
	var err error
	if err = p.scarfed(plan, pieces, c); err != nil {
		return Timber{}, err
	}
	if out.Cost, out.Bound, err = p.costs(plan, c); err != nil {
		return Timber{}, err
	}
	for _, l := range plan.Bought {
		b := p.boards[l.StockID]
		cost, err := money.New(l.Boards*b.offer.Price.Minor(), c)
		if err != nil {
			return Timber{}, err
		}
		out.Boards = append(out.Boards, Boards{
			Offer: l.StockID, Count: l.Boards, Strips: l.Strips, Used: l.Used, Price: b.offer.Price, Cost: cost,
			Measure: fixed(new(big.Rat).Mul(b.measure, big.NewRat(l.Boards, 1))),
		})
		left[l.StockID] += l.Boards
		if n := l.Strips - l.Used; n > 0 {
			length, err := metres(b.length)
			if err != nil {
				return Timber{}, err
			}
			p.leave(LeftOver{l.StockID, "strip", n, length})
		}
	}
	if err := p.cuts(plan); err != nil {
		return Timber{}, err
	}
	return p.out, nil
}

// costs are what the plan's boards cost and what no plan can be below, in the sheet's money. A board that costs nothing counts 1
// in the cutting and all others scale times their price, scale being above the number of all such boards: so the least sum is
// of the least money, and of the money a floor F leaves (F - (scale - 1)) / scale, up to a whole minor unit. Labour of scarfs is
// in the floor.
func (p *timberPlan) costs(plan cutting.Plan, c money.Currency) (cost, bound money.Money, err error) {
	paid := int64(0)
	for _, l := range plan.Bought {
		paid += l.Boards * p.boards[l.StockID].offer.Price.Minor()
	}
	if cost, err = money.New(paid, c); err != nil {
		return
	}
	all := paid + p.out.labour()
	floor := max(0, plan.Bound) / p.scale
	if plan.Bound == plan.Cost { // the labour that is shown is rounded
		floor = all
	}
	bound, err = money.New(min(all, floor), c)
	return
}

func (p *timberPlan) cuts(plan cutting.Plan) error {
	for _, cut := range plan.Cuts {
		offcut, err := metres(nanoMM(cut.Offcut))
		if err != nil {
			return err
		}
		c := Cut{Offer: cut.StockID, Strips: cut.N, Offcut: offcut, Pieces: make([]CutPiece, len(cut.Pieces))}
		for i, k := range cut.Pieces {
			c.Pieces[i] = CutPiece{Line: k.PieceID, Count: k.K}
			if k.Part > 0 {
				c.Pieces[i].PartMM = nanoMM(k.Part)
			}
		}
		p.out.Cuts = append(p.out.Cuts, c)
		if !offcut.IsZero() {
			p.leave(LeftOver{cut.StockID, "offcut", cut.N, offcut})
		}
	}
	return nil
}

// leave counts a left-over with those that are alike.
func (p *timberPlan) leave(l LeftOver) {
	for i, o := range p.out.LeftOver {
		if o.Offer == l.Offer && o.What == l.What && o.Length.Equal(l.Length) {
			p.out.LeftOver[i].Count += l.Count
			return
		}
	}
	p.out.LeftOver = append(p.out.LeftOver, l)
}

// metres is a length cut down to the whole millimetre: what is left over is never told longer than it is.
func metres(mm decimal.Decimal) (quantity.Quantity, error) {
	return quantity.Of(mm.Floor().Shift(-3), quantity.Metre)
}

// limit is a limit of the sheet, where -1 stands for none.
func limit(available int64) *int64 {
	if available < 0 {
		return nil
	}
	return &available
}
