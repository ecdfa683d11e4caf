package buy

import (
	"math/big"
	"slices"
	"strings"

	"ribband/pricing/money"
	"ribband/takeoff/bill"
	"ribband/takeoff/cutting"
	"ribband/takeoff/cutting/flat"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// settle compares what the planks come to side by side with what they do apart, and writes down whichever it is.
func (l *abreast) settle(timber []Timber, from source) error {
	l.told.Apart, l.told.ApartBound = l.apart, l.floor
	if l.only {
		l.told.Apart, l.told.ApartBound = money.Money{}, money.Money{}
	}
	if l.best == nil || !l.only && l.told.Cost.Minor() >= l.apart.Minor() || !l.holds(from) {
		return nil
	}
	l.taken = true
	return l.write(timber, from.sheet.Currency)
}

// write makes one group of them, cut as the plan says.
func (l *abreast) write(timber []Timber, c money.Currency) (err error) {
	joined := l.g.joined(l.of).timber[l.of[0]]
	l.out = Timber{Species: joined.pieces.Species, Grade: joined.pieces.Grade, Thickness: joined.pieces.Thickness, Siding: joined.pieces.Siding, Planing: joined.pieces.Planing,
		Lines: l.g.ids(joined.lines), Offers: []Offer{}, Boards: []Boards{}, Cuts: []Cut{}, LeftOver: []LeftOver{}, Cost: money.Zero(c),
		Certificate: cutting.Certificate{Step: 1, Unit: 1, Scale: 1, Duals: []cutting.Dual{}}}
	if l.out.Net, l.out.Gross, err = l.g.total(joined.lines, quantity.Each); err != nil {
		return err
	}
	if l.scarfed {
		l.out.Scarfed = allScarfed(l.of, timber)
	}
	for _, s := range l.counted.Stock {
		l.out.Offers = append(l.out.Offers, l.boards[s.ID].offer)
	}
	for _, lot := range l.best.Bought {
		b, n := l.bought(lot)
		if b.offer.ID != lot.StockID {
			l.out.Offers = append(l.out.Offers, b.offer)
		}
		cost, err := money.New(n*b.offer.Price.Minor(), c)
		if err != nil {
			return err
		}
		l.out.Boards = append(l.out.Boards, Boards{Offer: b.offer.ID, Count: n, Strips: n, Used: lot.N, Price: b.offer.Price, Cost: cost, Measure: fixed(new(big.Rat).Mul(b.measure, big.NewRat(n, 1)))})
		if l.out.Cost, err = l.out.Cost.Add(cost); err != nil {
			return err
		}
	}
	if l.out.Method = cutting.OneBoard; len(l.out.Boards) > 1 {
		l.out.Method = cutting.SeveralBoards
	}
	for _, y := range l.best.Layout {
		if y.First == flat.Across {
			l.told.Layouts = append(l.told.Layouts, l.crosscut(y))
		} else {
			l.told.Layouts = append(l.told.Layouts, l.ripped(y))
		}
	}
	if err := l.cuts(); err != nil {
		return err
	}
	if l.out.Bound = l.told.Bound; !l.only && l.floor.Minor() < l.out.Bound.Minor() {
		l.out.Bound = l.floor
	}
	if l.out.Proof = cutting.Limit; l.out.Bound == l.told.Cost {
		l.out.Proof, l.out.Proven = cutting.Exhausted, true
	}
	l.out.SideBySide = &l.told
	return nil
}

// pieceOf is which need a piece laid is of, and how long a part.
func (l *abreast) pieceOf(id string) (line string, part decimal.Decimal) {
	line, mm, ok := strings.Cut(id, ofPart)
	if ok {
		part = decimal.RequireFromString(mm)
	}
	return line, part
}

func (l *abreast) need(line string) bill.Line {
	i := slices.IndexFunc(l.g.needs, func(n bill.Line) bool { return n.ID == line })
	return l.g.needs[i]
}

// long is how long a plank laid, or a part of one, is, mm.
func (l *abreast) long(p LaidPlank) decimal.Decimal {
	if p.PartMM.Sign() > 0 {
		return p.PartMM
	}
	return millimetres(l.need(p.Line).Pieces.Length)
}

// allScarfed are the joints of several groups; the taper of the longest.
func allScarfed(of []int, timber []Timber) *Scarfed {
	var out *Scarfed
	for _, i := range of {
		s := timber[i].Scarfed
		switch {
		case s == nil:
		case out == nil:
			one := *s
			one.Joints, one.Saves = slices.Clone(s.Joints), nil
			out = &one
		default:
			out.Joints = append(out.Joints, s.Joints...)
			out.Count, out.Must, out.Taper = out.Count+s.Count, out.Must+s.Must, decimal.Max(out.Taper, s.Taper)
			out.Labour, _ = out.Labour.Add(s.Labour)
		}
	}
	return out
}
