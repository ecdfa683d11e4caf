package buy

import (
	"cmp"
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
	l.told.Apart, l.told.ApartBound, l.told.Unit = l.apart, l.floor, nanoMM(l.unit)
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
		b := l.boards[lot.StockID]
		n := l.sold(lot.N, b)
		cost, err := money.New(n*b.offer.Price.Minor(), c)
		if err != nil {
			return err
		}
		l.out.Boards = append(l.out.Boards, Boards{Offer: lot.StockID, Count: n, Strips: n, Used: lot.N, Price: b.offer.Price, Cost: cost, Measure: fixed(new(big.Rat).Mul(b.measure, big.NewRat(n, 1)))})
		if l.out.Cost, err = l.out.Cost.Add(cost); err != nil {
			return err
		}
	}
	if l.out.Method = cutting.OneBoard; len(l.out.Boards) > 1 {
		l.out.Method = cutting.SeveralBoards
	}
	for _, y := range l.best.Layout {
		l.told.Layouts = append(l.told.Layouts, l.layout(y))
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

// layout reads one layout of boards, sizes back in mm.
func (l *abreast) layout(y flat.Layout) BoardLayout {
	mm := func(units int64) decimal.Decimal { return nanoMM(units * l.unit) }
	b := l.boards[y.StockID]
	out := BoardLayout{Offer: y.StockID, Boards: y.N}
	used := decimal.Zero
	for _, s := range y.Strips {
		strip := LaidStrip{Count: s.N, Over: mm(s.Offcut)} // as wide as its widest plank, which was counted up to a whole unit
		for _, k := range s.Stacks {
			for _, q := range k.Pieces {
				line, part := l.pieceOf(q.PieceID)
				p := l.need(line).Pieces
				strip.Width = decimal.Max(strip.Width, p.Thickness.Add(p.Planing))
				one := LaidPlank{Line: line, Count: k.N * q.K, Width: p.Thickness.Add(p.Planing), PartMM: part}
				if i := slices.IndexFunc(strip.Pieces, func(o LaidPlank) bool { return o.Line == line && o.PartMM.Equal(part) }); i >= 0 {
					strip.Pieces[i].Count += one.Count
				} else {
					strip.Pieces = append(strip.Pieces, one)
				}
			}
		}
		slices.SortStableFunc(strip.Pieces, func(a, b LaidPlank) int { return l.long(b).Cmp(l.long(a)) })
		out.Strips = append(out.Strips, strip)
		used = used.Add(strip.Width.Mul(decimal.NewFromInt(s.N)))
	}
	slices.SortStableFunc(out.Strips, func(a, b LaidStrip) int {
		return cmp.Or(l.long(b.Pieces[0]).Cmp(l.long(a.Pieces[0])), b.Width.Cmp(a.Width))
	})
	strips := int64(0)
	for _, s := range out.Strips {
		strips += s.Count
	}
	out.Rest = decimal.Max(decimal.Zero, b.width.Sub(used).Sub(l.kerf.Mul(decimal.NewFromInt(strips))))
	return out
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

// cuts are the strips of all layouts, those alike together.
func (l *abreast) cuts() error {
	for _, y := range l.told.Layouts {
		for _, s := range y.Strips {
			over, err := metres(s.Over)
			if err != nil {
				return err
			}
			cut := Cut{Offer: y.Offer, Strips: y.Boards * s.Count, WidthMM: s.Width, Offcut: over}
			for _, p := range s.Pieces {
				cut.Pieces = append(cut.Pieces, CutPiece{Line: p.Line, Count: p.Count, PartMM: p.PartMM})
			}
			i := slices.IndexFunc(l.out.Cuts, func(o Cut) bool {
				return o.Offer == cut.Offer && o.WidthMM.Equal(cut.WidthMM) && o.Offcut.Equal(cut.Offcut) && slices.EqualFunc(o.Pieces, cut.Pieces, func(a, b CutPiece) bool { return a.Line == b.Line && a.Count == b.Count && a.PartMM.Equal(b.PartMM) })
			})
			if i >= 0 {
				l.out.Cuts[i].Strips += cut.Strips
				continue
			}
			l.out.Cuts = append(l.out.Cuts, cut)
		}
	}
	return nil
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
