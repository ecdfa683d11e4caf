package ripping

import (
	"slices"

	"ribband/pricing/buy"

	"github.com/shopspring/decimal"
)

// leastRest: what stays of a board beside its strips is kept from half as wide as it is thick; less is kindling. An assumption, no
// source.
const leastRest = 2

// layouts lays strips of several widths out on the boards of one offer, and those that are bought and not cut whole.
func (p *ripped) layouts(b buy.Boards, next Board) ([]Board, error) {
	thickness, length := p.offer.ThicknessMM, p.offer.Clear()
	full, err := metres(length)
	if err != nil {
		return nil, err
	}
	next.Way.Layers, next.Way.Across, next.Way.LayerMM = 1, 1, thickness
	var out []Board
	for _, y := range p.timber.SideBySide.Layouts {
		if y.Offer != b.Offer {
			continue
		}
		of := next
		of.Last, of.Strips, of.Rest = y.Boards, nil, []Rest{}
		if err := p.sideBySide(&of, y.Strips, 0, 1); err != nil {
			return nil, err
		}
		if len(y.Lengths) == 0 {
			of.stays(1, y.Rest, length, p.rules)
		}
		for i, part := range y.Lengths {
			of.Lengths = append(of.Lengths, Length{part.Count, part.Length})
			if err := p.sideBySide(&of, part.Strips, i+1, part.Count); err != nil {
				return nil, err
			}
			of.stays(part.Count, part.Rest, part.Length, p.rules)
		}
		if len(y.Lengths) > 0 {
			of.stays(1, p.offer.WidthMM, y.Rest, p.rules)
		}
		out = append(out, of)
	}
	if idle := b.Count - b.Used; idle > 0 {
		of := next
		of.Last, of.Rest = idle, []Rest{{1, thickness, p.offer.WidthMM, length, keepsLength(p.rules, length)}}
		of.Strips = []Strip{{Count: 1, Pieces: []Piece{}, Over: full, Keep: keeps(p.rules, full)}}
		out = append(out, of)
	}
	slices.SortStableFunc(out, func(x, y Board) int { return y.longest().Cmp(x.longest()) })
	return out, nil
}

// sideBySide adds the strips of a board, or of so many of its lengths alike.
func (p *ripped) sideBySide(of *Board, strips []buy.LaidStrip, length int, times int64) (err error) {
	for _, s := range strips {
		strip := Strip{Count: s.Count * times, OfLength: length, WidthMM: s.Width}
		if strip.Over, err = metres(s.Over); err != nil {
			return err
		}
		strip.Keep = keeps(p.rules, strip.Over)
		for _, q := range s.Pieces {
			one := p.piece(buy.CutPiece{Line: q.Line, Count: q.Count, PartMM: q.PartMM})
			if q.Width.LessThan(s.Width) {
				one.WidthMM = q.Width
			}
			strip.Pieces = append(strip.Pieces, one)
		}
		of.Strips = append(of.Strips, strip)
	}
	return nil
}

// stays adds what is not cut of a board: so many parts of a width and a length, as thick as the board.
func (b *Board) stays(count int64, width, length decimal.Decimal, r buy.Rules) {
	if width.Sign() <= 0 || length.Sign() <= 0 {
		return
	}
	rest := Rest{count, b.Way.LayerMM, width, length, keepsLength(r, length)}
	if rest.Keep != nil && width.Mul(decimal.NewFromInt(leastRest)).LessThan(b.Way.LayerMM) {
		rest.Keep = new(bool)
	}
	b.Rest = append(b.Rest, rest)
}
