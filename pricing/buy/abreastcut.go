package buy

import (
	"cmp"
	"slices"

	"ribband/takeoff/cutting/flat"

	"github.com/shopspring/decimal"
)

// ripped reads one layout of boards that are ripped first, sizes back in mm.
func (l *abreast) ripped(y flat.Layout) BoardLayout {
	out := BoardLayout{Offer: l.offerOf(y.StockID), Boards: y.N}
	for _, s := range y.Strips {
		strip := LaidStrip{Count: s.N, Over: nanoMM(s.Offcut * l.unit)} // as wide as its widest plank, which was counted up to a whole unit
		for _, k := range s.Stacks {
			strip.hold(l.plank(k))
		}
		slices.SortStableFunc(strip.Pieces, func(a, b LaidPlank) int { return l.long(b).Cmp(l.long(a)) })
		out.Strips = append(out.Strips, strip)
	}
	out.Strips, out.Rest = l.sideBySide(out.Strips, l.boards[y.StockID].width)
	return out
}

// crosscut reads one layout of boards that are crosscut first: each length as long as its longest plank.
func (l *abreast) crosscut(y flat.Layout) BoardLayout {
	b := l.boards[y.StockID]
	out := BoardLayout{Offer: l.offerOf(y.StockID), Boards: y.N, Strips: []LaidStrip{}, Rest: nanoMM(l.clear(b))}
	for _, s := range y.Strips {
		of := LaidLength{Count: s.N}
		for _, k := range s.Stacks {
			p := l.plank(k)
			of.Length = decimal.Max(of.Length, l.long(p))
			n := p.Count
			p.Count = 1
			of.Strips = append(of.Strips, LaidStrip{Count: n, Width: p.Width, Pieces: []LaidPlank{p}})
		}
		for i, strip := range of.Strips {
			of.Strips[i].Over = decimal.Max(decimal.Zero, of.Length.Sub(l.long(strip.Pieces[0])).Sub(l.kerf))
		}
		of.Strips, of.Rest = l.sideBySide(of.Strips, b.width)
		out.Lengths = append(out.Lengths, of)
		out.Rest = out.Rest.Sub(of.Length.Add(l.kerf).Mul(decimal.NewFromInt(of.Count)))
	}
	slices.SortStableFunc(out.Lengths, func(a, b LaidLength) int { return b.Length.Cmp(a.Length) })
	out.Rest = decimal.Max(decimal.Zero, out.Rest)
	return out
}

// plank reads a stack of one piece, which is all that there are in two stages.
func (l *abreast) plank(k flat.Stack) LaidPlank {
	q := k.Pieces[0]
	line, part := l.pieceOf(q.PieceID)
	p := l.need(line).Pieces
	return LaidPlank{Line: line, Count: k.N * q.K, Width: p.Thickness.Add(p.Planing), PartMM: part}
}

// hold puts planks into a strip, alike with alike.
func (s *LaidStrip) hold(p LaidPlank) {
	s.Width = decimal.Max(s.Width, p.Width)
	if i := slices.IndexFunc(s.Pieces, func(o LaidPlank) bool { return o.Line == p.Line && o.PartMM.Equal(p.PartMM) }); i >= 0 {
		s.Pieces[i].Count += p.Count
		return
	}
	s.Pieces = append(s.Pieces, p)
}

// sideBySide puts strips in the order in which they are ripped, and says what is left of the width.
func (l *abreast) sideBySide(strips []LaidStrip, width decimal.Decimal) ([]LaidStrip, decimal.Decimal) {
	slices.SortStableFunc(strips, func(a, b LaidStrip) int {
		return cmp.Or(l.long(b.Pieces[0]).Cmp(l.long(a.Pieces[0])), b.Width.Cmp(a.Width))
	})
	for _, s := range strips {
		width = width.Sub(s.Width.Add(l.kerf).Mul(decimal.NewFromInt(s.Count)))
	}
	return strips, decimal.Max(decimal.Zero, width)
}

// cuts are the strips of all layouts, those alike together.
func (l *abreast) cuts() error {
	for _, y := range l.told.Layouts {
		for _, s := range y.Strips {
			if err := l.cut(y.Offer, y.Boards, s); err != nil {
				return err
			}
		}
		for _, of := range y.Lengths {
			for _, s := range of.Strips {
				if err := l.cut(y.Offer, y.Boards*of.Count, s); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// cut counts a strip of so many boards or lengths.
func (l *abreast) cut(offer string, times int64, s LaidStrip) error {
	over, err := metres(s.Over)
	if err != nil {
		return err
	}
	cut := Cut{Offer: offer, Strips: times * s.Count, WidthMM: s.Width, Offcut: over}
	for _, p := range s.Pieces {
		cut.Pieces = append(cut.Pieces, CutPiece{Line: p.Line, Count: p.Count, PartMM: p.PartMM})
	}
	i := slices.IndexFunc(l.out.Cuts, func(o Cut) bool {
		return o.Offer == cut.Offer && o.WidthMM.Equal(cut.WidthMM) && o.Offcut.Equal(cut.Offcut) && slices.EqualFunc(o.Pieces, cut.Pieces, func(a, b CutPiece) bool { return a.Line == b.Line && a.Count == b.Count && a.PartMM.Equal(b.PartMM) })
	})
	if i >= 0 {
		l.out.Cuts[i].Strips += cut.Strips
		return nil
	}
	l.out.Cuts = append(l.out.Cuts, cut)
	return nil
}
