package buy

import (
	"errors"
	"math/big"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/cutting"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// strips is how many strips a board gives for such a piece: floor((W + k) / (t' + k)), where t' is the piece's
// thickness with its planing; 0 when the board is not thick enough for the siding with its planing.
func strips(it sheet.Item, p bill.Pieces, r Rules) int64 {
	if it.Thickness.MM().LessThan(p.Siding.Add(p.Planing)) {
		return 0
	}
	each := p.Thickness.Add(p.Planing).Add(r.Kerf)
	n, _ := it.Width.MM().Add(r.Kerf).QuoRem(each, 0)
	return n.IntPart()
}

// rack is what is still for sale of each board, and how many were bought for groups before.
type rack struct{ bought map[string]int64 }

// id names a board and its supplier; a sheet has no two alike.
func id(it sheet.Item) string {
	if it.Supplier == "" {
		return it.Label()
	}
	return it.Label() + ", " + it.Supplier
}

// Nanometres carry a sixty-fourth of an inch as a whole number. Where a length has a finer part, what is for sale is
// cut down and what is needed goes up, so that a plan always holds.
const nanoPlaces = 6

func nanoUp(mm decimal.Decimal) int64   { return mm.Shift(nanoPlaces).Ceil().IntPart() }
func nanoDown(mm decimal.Decimal) int64 { return mm.Shift(nanoPlaces).Floor().IntPart() }
func nanoMM(n int64) decimal.Decimal    { return decimal.New(n, -nanoPlaces) }

// timberPlan is one group being planned.
type timberPlan struct {
	out    Timber
	items  map[string]sheet.Item
	offers map[string]Offer
}

func (g groups) planTimber(t *timberNeed, c sheet.Content, r Rules, left rack) (Timber, error) {
	p := timberPlan{items: map[string]sheet.Item{}, offers: map[string]Offer{}}
	net, gross, err := g.total(t.lines, quantity.Each)
	if err != nil {
		return Timber{}, err
	}
	p.out = Timber{
		Species: t.pieces.Species, Grade: t.pieces.Grade, Thickness: t.pieces.Thickness, Siding: t.pieces.Siding,
		Planing: t.pieces.Planing, Lines: g.ids(t.lines), Net: net, Gross: gross,
		Offers: []Offer{}, Boards: []Boards{}, Cuts: []Cut{}, LeftOver: []LeftOver{},
	}
	stock, err := p.stock(t.pieces, c, r, left)
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
	plan, err := cutting.Solve(stock, pieces, saw)
	if err != nil {
		return Timber{}, p.explain(err)
	}
	if err := p.jointly(&plan, g.alone(t, stock, p.items, r), stock, pieces, saw); err != nil {
		return Timber{}, err
	}
	return p.take(plan, c.Currency, left)
}

// stock is the boards of the sheet that serve.
func (p *timberPlan) stock(pieces bill.Pieces, c sheet.Content, r Rules, left rack) ([]cutting.Stock, error) {
	var out []cutting.Stock
	for _, it := range c.Boards(pieces.Species, pieces.Grade) {
		n := strips(it, pieces, r)
		least := max(0, it.MinPieces()-left.bought[id(it)])
		if n < 1 || n > cutting.MaxStrips || least > cutting.MaxPieces {
			continue
		}
		price, err := it.PiecePrice(c.Currency)
		if err != nil {
			return nil, err
		}
		avail := it.Available
		if avail >= 0 {
			avail = max(0, avail-left.bought[id(it)])
		}
		o := Offer{
			ID: id(it), Item: it.Item, Supplier: it.Supplier, Thickness: it.Thickness.Text(), Width: it.Width.Text(),
			Length: it.StockLength.Text(), Strips: n, Measure: fixed(it.PieceMeasure()), Unit: it.Unit,
			UnitPrice: it.Price.String(), Per: it.Per.String(), Price: price, Available: limit(it.Available),
		}
		p.out.Offers = append(p.out.Offers, o)
		p.offers[o.ID], p.items[o.ID] = o, it
		out = append(out, cutting.Stock{ID: o.ID, Length: nanoDown(it.StockLength.MM()), Price: price.Minor(), Strips: n, Avail: avail, Least: least})
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

// take writes the plan down and counts its boards as bought.
func (p *timberPlan) take(plan cutting.Plan, c money.Currency, left rack) (Timber, error) {
	out := &p.out
	out.Method, out.Proof, out.Proven, out.Certificate = plan.Method, plan.Proof, plan.Proven(), plan.Certificate
	var err error
	if out.Cost, err = money.New(plan.Cost, c); err != nil {
		return Timber{}, err
	}
	if out.Bound, err = money.New(plan.Bound, c); err != nil {
		return Timber{}, err
	}
	for _, l := range plan.Bought {
		cost, err := money.New(l.Cost, c)
		if err != nil {
			return Timber{}, err
		}
		measure := p.items[l.StockID].PieceMeasure()
		out.Boards = append(out.Boards, Boards{
			Offer: l.StockID, Count: l.Boards, Strips: l.Strips, Used: l.Used, Price: p.offers[l.StockID].Price, Cost: cost,
			Measure: fixed(measure.Mul(measure, big.NewRat(l.Boards, 1))),
		})
		left.bought[l.StockID] += l.Boards
		if n := l.Strips - l.Used; n > 0 {
			length, err := metres(p.items[l.StockID].StockLength.MM())
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

func (p *timberPlan) cuts(plan cutting.Plan) error {
	for _, cut := range plan.Cuts {
		offcut, err := metres(nanoMM(cut.Offcut))
		if err != nil {
			return err
		}
		c := Cut{Offer: cut.StockID, Strips: cut.N, Offcut: offcut, Pieces: make([]CutPiece, len(cut.Pieces))}
		for i, k := range cut.Pieces {
			c.Pieces[i] = CutPiece{k.PieceID, k.K}
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
