package ripping

import (
	"slices"

	"ribband/pricing/buy"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// ripped is boards of one offer being laid out.
type ripped struct {
	timber buy.Timber
	offer  buy.Offer
	length map[string]quantity.Quantity
	rules  buy.Rules
}

// boards lays the cuts of the offer out on its boards, numbered from 1.
func (p *ripped) boards(b buy.Boards) ([]Board, error) {
	each := b.Strips / b.Count
	full, err := metres(p.offer.Clear())
	if err != nil {
		return nil, err
	}
	var strips []Strip
	for _, c := range p.timber.Cuts {
		if c.Offer == b.Offer {
			strips = append(strips, p.strip(c))
		}
	}
	slices.SortStableFunc(strips, func(x, y Strip) int { return y.longest().Cmp(x.longest()) })
	if over := b.Strips - b.Used; over > 0 {
		strips = append(strips, Strip{Count: over, Pieces: []Piece{}, Over: full, Keep: keeps(p.rules, full)})
	}
	next := Board{First: 1, Offer: b.Offer, Thickness: p.offer.Thickness, Width: p.offer.Width, Widest: p.offer.Widest, Length: p.offer.Length,
		Rack: p.offer.Rack, LengthMM: p.offer.Clear(), EndTrim: p.rules.EndTrim, Way: p.offer.Way, Rest: []Rest{}}
	if p.offer.Marked() {
		next.EndTrim = decimal.Zero
	}
	if p.timber.CutSideBySide() {
		return p.layouts(b, next)
	}
	var out []Board
	add := func(boards int64, strips []Strip) {
		next.Last, next.Strips = boards, strips
		if next.part(p.offer, p.rules); p.offer.RandomWidth() {
			next.Rest = []Rest{}
		}
		out = append(out, next)
	}
	var shared []Strip
	for _, s := range strips {
		if whole := s.Count / each; whole > 0 {
			alike := s
			alike.Count = each
			add(whole, []Strip{alike})
		}
		if s.Count %= each; s.Count > 0 {
			shared = append(shared, s)
		}
	}
	for len(shared) > 0 {
		var on []Strip
		for free := each; free > 0 && len(shared) > 0; {
			s := shared[0]
			s.Count = min(free, s.Count)
			free -= s.Count
			on = append(on, s)
			if shared[0].Count -= s.Count; shared[0].Count == 0 {
				shared = shared[1:]
			}
		}
		add(1, on)
	}
	return out, nil
}

func (p *ripped) strip(c buy.Cut) Strip {
	s := Strip{Count: c.Strips, Pieces: make([]Piece, len(c.Pieces)), Over: c.Offcut, Keep: keeps(p.rules, c.Offcut)}
	for i, of := range c.Pieces {
		s.Pieces[i] = p.piece(of)
	}
	return s
}

// piece is pieces of one need as they are cut.
func (p *ripped) piece(c buy.CutPiece) Piece {
	out := Piece{Line: c.Line, Count: c.Count, Length: p.length[c.Line]}
	if c.PartMM.Sign() > 0 { // down to the millimetre, for which the taper has one to spare
		out.Length, _ = metres(c.PartMM)
		out.Scarf = &Scarf{part: c.PartMM}
	}
	return out
}
