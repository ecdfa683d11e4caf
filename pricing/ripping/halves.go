package ripping

import (
	"slices"

	"ribband/pricing/buy"

	"github.com/shopspring/decimal"
)

// Scarf is one half of a piece of two parts: its last Taper is cut away to nothing, and lies over the other half's.
type Scarf struct {
	Taper decimal.Decimal `json:"taper_mm"`
	// First half from the piece's beginning, with the taper at its far end; otherwise the second, with it at the near one. Halves of
	// one length are both told as the first.
	First bool `json:"first"`
	// Other is how long the other half is, Boards which of the list it is cut from.
	Other  decimal.Decimal `json:"other_mm"`
	Boards []int64         `json:"boards"`

	part decimal.Decimal
}

// halves says of every part of a piece of two where its other half lies.
func (l *List) halves(of *buy.Scarfed) {
	each := func(do func(b *Board, p *Piece)) {
		for i := range l.Boards {
			for k := range l.Boards[i].Strips {
				for m := range l.Boards[i].Strips[k].Pieces {
					do(&l.Boards[i], &l.Boards[i].Strips[k].Pieces[m])
				}
			}
		}
	}
	each(func(_ *Board, p *Piece) {
		s := p.Scarf
		if s == nil || of == nil {
			return
		}
		s.Other, s.First = other(of, p.Line, s.part)
		s.Taper, s.Boards = of.Taper, []int64{}
		alone := p.Count == 1
		each(func(b *Board, o *Piece) {
			if o.Line != p.Line || o.Scarf == nil || !o.Scarf.part.Equal(s.Other) || o == p && alone {
				return
			}
			for n := b.First; n <= b.Last && len(s.Boards) < mostHalves; n++ {
				if !slices.Contains(s.Boards, n) {
					s.Boards = append(s.Boards, n)
				}
			}
		})
	})
}

// mostHalves is how many boards of other halves are named: of pieces alike one does as well as another.
const mostHalves = 12

// other is how long the other half of a part of a need's piece is, and whether the part is the first.
func other(s *buy.Scarfed, line string, part decimal.Decimal) (other decimal.Decimal, first bool) {
	for _, j := range s.Joints {
		switch {
		case j.Line != line:
		case j.First.Equal(part):
			return j.Second, true
		case j.Second.Equal(part):
			return j.First, false
		}
	}
	return decimal.Zero, true
}
