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
		for _, s := range y.Strips {
			strip := Strip{Count: s.Count, WidthMM: s.Width}
			if strip.Over, err = metres(s.Over); err != nil {
				return nil, err
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
		if y.Rest.Sign() > 0 {
			rest := Rest{1, thickness, y.Rest, length, keepsLength(p.rules, length)}
			if rest.Keep != nil && y.Rest.Mul(decimal.NewFromInt(leastRest)).LessThan(thickness) {
				rest.Keep = new(bool)
			}
			of.Rest = append(of.Rest, rest)
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
