package buy

import (
	"fmt"
	"math/big"
	"strings"

	"ribband/pricing/money"
	"ribband/pricing/rack"
	"ribband/pricing/sawing"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/cutting"

	"github.com/shopspring/decimal"
)

// source is where boards come from: what is for sale, and what the yard has in hand.
type source struct {
	sheet sheet.Content
	rack  rack.Rack
	// chosen are the boards of the sheet that may be bought; nil for all of them.
	chosen map[string]bool
	// single says that least orders do not count, but that boards of which fewer are for sale than that are not sold.
	single bool
	// unscarfed says that only what no board gives whole is scarfed.
	unscarfed bool
	// memo keeps plans made before; nil for none.
	memo *memo
	// laden is nil where boards and packs are planned by their prices alone.
	laden *laden
	// thorough says that a list is not planned for comparison only; see many.
	thorough bool
	// whole is the sheet of which this one has some suppliers' goods only; nil where it has all.
	whole *sheet.Content
}

// board is one kind of board that serves a group.
type board struct {
	offer            Offer
	thickness, width decimal.Decimal // mm
	length           decimal.Decimal // mm, of a marked stretch that of the stretch
	measure          *big.Rat        // of one, in the offer's unit
	avail            int64           // -1 for no limit
	least            int64
	untrimmed        bool // a stretch marked as clear, which loses no end
}

// boards that serve such pieces, those on the rack first.
func (s source) boards(p bill.Pieces, flat bool, r Rules) ([]board, error) {
	out, err := s.inHand(p, flat, r)
	if err != nil {
		return nil, err
	}
	for _, it := range s.sheet.Boards(p.Species, p.Grade) {
		it, w := reckoned(it, p, flat, r)
		n := w.Strips()
		if n < 1 || n > cutting.MaxStrips {
			continue
		}
		name := id(s.sheet, it)
		if s.chosen != nil && !s.chosen[name] || s.single && it.Available >= 0 && it.Available < it.MinPieces() {
			continue
		}
		price, err := s.price(it, w)
		if err != nil {
			return nil, err
		}
		if price.Sign() <= 0 {
			return nil, &NeedError{name, "the price of one such board rounds to nothing; a price that one board costs is needed"}
		}
		measure := it.PieceMeasure()
		var narrowest decimal.Decimal
		if it.RandomWidth() {
			narrowest = it.Width.MM()
		}
		out = append(out, board{
			offer: Offer{
				ID: name, Item: it.Item, Supplier: it.Supplier, Thickness: it.Thickness.Text(), Width: it.Width.Text(), Widest: it.Widest.Text(), NarrowestMM: narrowest, WidestMM: it.Widest.MM(),
				Length: it.StockLength.Text(), ThicknessMM: it.Thickness.MM(), WidthMM: it.Across(), LengthMM: it.StockLength.MM(), Strips: n, Way: w, Measure: fixed(measure), Unit: it.Unit,
				UnitPrice: it.Price.String(), Per: it.Per.String(), Price: price, Available: limit(it.Available),
			},
			thickness: it.Thickness.MM(), width: it.Across(), length: it.StockLength.MM(), measure: measure, avail: it.Available, least: s.least(it),
		})
	}
	return out, nil
}

// least is how many of a board are sold at least.
func (s source) least(it sheet.Item) int64 {
	if s.single {
		return 0
	}
	return it.MinPieces()
}

// inHand are the boards on the rack that serve, each clear stretch by itself: a board is crosscut at its faults, and what
// is not used goes back. Its worth is split over its stretches by length.
func (s source) inHand(p bill.Pieces, flat bool, r Rules) ([]board, error) {
	var out []board
	for _, b := range s.rack.Boards {
		w := sawing.Best(b.Thickness.MM(), b.Width.MM(), p, flat, r.Kerf, r.Resaw)
		n := w.Strips()
		if !same(b.Species, p.Species) || !same(b.Grade, p.Grade) || b.Count < 1 || n < 1 || n > cutting.MaxStrips {
			continue
		}
		worth, err := worths(b, s.sheet.Currency)
		if err != nil {
			return nil, err
		}
		if worth, err = s.worth(worth, b, w); err != nil {
			return nil, err
		}
		for k, c := range b.Clear {
			on := &OnRack{ID: b.ID, Place: b.Place}
			name := "rack: " + b.ID
			if b.Marked {
				on.FromMM, on.ToMM = &b.Clear[k].From, &b.Clear[k].To
				name += fmt.Sprintf(", clear %s to %s mm", c.From, c.To)
			}
			count := b.Count
			out = append(out, board{
				offer: Offer{
					ID: name, Thickness: b.Thickness.Text(), Width: b.Width.Text(), Length: b.Length.Text(), ThicknessMM: b.Thickness.MM(), WidthMM: b.Width.MM(), LengthMM: b.Length.MM(), Strips: n, Way: w, Measure: fixed(big.NewRat(1, 1)),
					Unit: "C62", UnitPrice: worth[k].String(), Per: "1", Price: worth[k], Available: &count, Rack: on,
				},
				thickness: b.Thickness.MM(), width: b.Width.MM(), length: c.Length(), measure: big.NewRat(1, 1), avail: b.Count, untrimmed: b.Marked,
			})
		}
	}
	return out, nil
}

// worths of a board's stretches in a currency.
func worths(b rack.Board, c money.Currency) ([]money.Money, error) {
	if b.Worth.IsZero() {
		out := make([]money.Money, len(b.Clear))
		for k := range out {
			out[k] = money.Zero(c)
		}
		return out, nil
	}
	if b.Worth.Currency() != c {
		return nil, &NeedError{"rack: " + b.ID, fmt.Sprintf("its worth is in %s and the prices are in %s; one currency is needed", b.Worth.Currency(), c)}
	}
	return b.Worths()
}

func same(a, b string) bool { return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) }
