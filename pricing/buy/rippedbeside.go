package buy

import (
	"slices"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// cutSideBySide says that a group's planks lie side by side with one another.
func (t Timber) cutSideBySide() bool { return t.SideBySide != nil && len(t.SideBySide.Layouts) > 0 }

// narrowest plank of a group, what its boards must hold at least, mm without planing.
func (t Timber) narrowest() decimal.Decimal {
	least := t.Thickness
	if !t.cutSideBySide() {
		return least
	}
	for _, y := range t.SideBySide.Layouts {
		for _, s := range y.Strips {
			for _, p := range s.Pieces {
				least = decimal.Min(least, p.Width.Sub(t.Planing))
			}
		}
	}
	return least
}

// leastRest: what stays of a board beside its strips is kept from half as wide as it is thick; less is kindling. An assumption, no
// source.
const leastRest = 2

// ripLayouts lays strips of several widths out on the boards of one offer, and those that are bought and not cut whole.
func (t Timber) ripLayouts(b Boards, next RippedBoard, it board, length map[string]quantity.Quantity, r Rules) ([]RippedBoard, error) {
	full, err := metres(it.length)
	if err != nil {
		return nil, err
	}
	next.Way.Layers, next.Way.Across, next.Way.LayerMM = 1, 1, it.thickness
	var out []RippedBoard
	for _, y := range t.SideBySide.Layouts {
		if y.Offer != b.Offer {
			continue
		}
		of := next
		of.Last, of.Strips, of.Rest = y.Boards, nil, []Rest{}
		for _, s := range y.Strips {
			strip := RippedStrip{Count: s.Count, WidthMM: s.Width}
			if strip.Over, err = metres(s.Over); err != nil {
				return nil, err
			}
			strip.Keep = r.keeps(strip.Over)
			for _, p := range s.Pieces {
				one := ripped(CutPiece{Line: p.Line, Count: p.Count, PartMM: p.PartMM}, length)
				if p.Width.LessThan(s.Width) {
					one.WidthMM = p.Width
				}
				strip.Pieces = append(strip.Pieces, one)
			}
			of.Strips = append(of.Strips, strip)
		}
		if y.Rest.Sign() > 0 {
			rest := Rest{1, it.thickness, y.Rest, it.length, r.keepsLength(it.length)}
			if rest.Keep != nil && y.Rest.Mul(decimal.NewFromInt(leastRest)).LessThan(it.thickness) {
				rest.Keep = new(bool)
			}
			of.Rest = append(of.Rest, rest)
		}
		out = append(out, of)
	}
	if idle := b.Count - b.Used; idle > 0 {
		of := next
		of.Last, of.Rest = idle, []Rest{{1, it.thickness, it.width, it.length, r.keepsLength(it.length)}}
		of.Strips = []RippedStrip{{Count: 1, Pieces: []RippedPiece{}, Over: full, Keep: r.keeps(full)}}
		out = append(out, of)
	}
	slices.SortStableFunc(out, func(x, y RippedBoard) int { return y.longest().Cmp(x.longest()) })
	return out, nil
}

// ripped is pieces of one need as they are cut.
func ripped(p CutPiece, length map[string]quantity.Quantity) RippedPiece {
	out := RippedPiece{Line: p.Line, Count: p.Count, Length: length[p.Line]}
	if p.PartMM.Sign() > 0 { // down to the millimetre, for which the taper has one to spare
		out.Length, _ = metres(p.PartMM)
		out.Scarf = &RippedScarf{part: p.PartMM}
	}
	return out
}
