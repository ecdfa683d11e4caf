package buy

import (
	"cmp"
	"slices"

	"ribband/pricing/rack"
	"ribband/pricing/sawing"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// RippingList is what the saw hand does with the boards of one group, board by board in the order they are taken up:
// those with the longest pieces first, so that a board spoilt early can still give something shorter.
type RippingList struct {
	Species string `json:"species"`
	Grade   string `json:"grade"`
	// StripThickness and StripWidth are what a strip is ripped to, its planing on it; Kerf is what each cut takes, and
	// EndTrim comes off each end of a board that is bought.
	StripThickness decimal.Decimal `json:"strip_thickness_mm"`
	StripWidth     decimal.Decimal `json:"strip_width_mm"`
	Kerf           decimal.Decimal `json:"kerf_mm"`
	EndTrim        decimal.Decimal `json:"end_trim_mm"`
	// ResawKerf is what each cut of the bandsaw takes; nothing where no board is resawn.
	ResawKerf decimal.Decimal `json:"resaw_kerf_mm,omitzero"`
	Boards    []RippedBoard   `json:"boards"`
}

// RippedBoard is boards number First to Last of the list, all cut alike.
type RippedBoard struct {
	First int64  `json:"first"`
	Last  int64  `json:"last"`
	Offer string `json:"offer"`
	// Thickness, Width and Length as the sheet writes them.
	Thickness string `json:"thickness"`
	Width     string `json:"width"`
	Length    string `json:"length"`
	// Widest is set of boards of random width. Strips are then what boards as wide as reckoned give: the saw hand rips each board as wide
	// as it comes and takes the strips in this order until all are cut. What stays uncut is not known.
	Widest string `json:"widest,omitempty"`
	// Way is how strips come out of it.
	Way sawing.Way `json:"way"`
	// LengthMM is what may be cut from: of a marked stretch its own length.
	LengthMM decimal.Decimal `json:"length_mm"`
	// EndTrim comes off each end; nothing of a stretch marked as clear.
	EndTrim decimal.Decimal `json:"end_trim_mm"`
	// Rack says which board in hand it is; nil for one that is bought.
	Rack   *OnRack       `json:"rack,omitempty"`
	Strips []RippedStrip `json:"strips"`
	// LayersOff is how many layers are sawn off, 0 where nothing is resawn; RipFirst says that the board is too wide for the guide
	// and is ripped first. Rest is what stays of each board uncut, at its full length.
	LayersOff int64  `json:"layers_off"`
	RipFirst  bool   `json:"rip_first"`
	Rest      []Rest `json:"rest"`
}

// Rest is Count parts of each board that are not cut into, rough.
type Rest struct {
	Count       int64           `json:"count"`
	ThicknessMM decimal.Decimal `json:"thickness_mm"`
	WidthMM     decimal.Decimal `json:"width_mm"`
	LengthMM    decimal.Decimal `json:"length_mm"`
	// Keep says whether it is long enough to be kept; nil where the yard says no least length.
	Keep *bool `json:"keep,omitempty"`
}

// RippedStrip is Count strips of a board crosscut alike, longest piece first; those without pieces are not cut, and stay in the
// board's rest.
type RippedStrip struct {
	Count int64 `json:"count"`
	// WidthMM is how wide it is ripped, where strips of several widths lie side by side.
	WidthMM decimal.Decimal `json:"width_mm,omitzero"`
	Pieces  []RippedPiece   `json:"pieces"`
	// Over is what is left of each in one length, cut down to the millimetre.
	Over quantity.Quantity `json:"over"`
	// Keep says whether Over is long enough to be kept; nil where the yard says no least length, or nothing is left.
	Keep *bool `json:"keep,omitempty"`
}

// RippedPiece is Count pieces for the need Line, or parts of such.
type RippedPiece struct {
	Line   string            `json:"line"`
	Count  int64             `json:"count"`
	Length quantity.Quantity `json:"length"`
	// WidthMM is how wide it is ripped once more, where it is narrower than its strip.
	WidthMM decimal.Decimal `json:"width_mm,omitzero"`
	// Scarf is how a part is tapered and where its other half lies; nil for pieces cut whole.
	Scarf *RippedScarf `json:"scarf,omitempty"`
}

// RippedScarf is one half of a piece of two parts: its last Taper is cut away to nothing, and lies over the other half's.
type RippedScarf struct {
	Taper decimal.Decimal `json:"taper_mm"`
	// First half from the piece's beginning, with the taper at its far end; otherwise the second, with it at the near one. Halves of
	// one length are both told as the first.
	First bool `json:"first"`
	// Other is how long the other half is, Boards which of the list it is cut from.
	Other  decimal.Decimal `json:"other_mm"`
	Boards []int64         `json:"boards"`

	part decimal.Decimal
}

// Ripping lays the cuts of a list out on its boards. Of strips cut alike as many whole boards are made as there are; what
// remains shares boards, so that few boards differ. The needs, the sheet, the rack and the rules are those the list was made
// from; a *NeedError when they are not.
func Ripping(l List, needs []bill.Line, c sheet.Content, inHand rack.Rack, r Rules) ([]RippingList, error) {
	length := map[string]quantity.Quantity{}
	for _, n := range needs {
		if n.Pieces != nil {
			length[n.ID] = n.Pieces.Length
		}
	}
	out := []RippingList{}
	for _, t := range l.Timber {
		list := RippingList{
			Species: t.Species, Grade: t.Grade, Kerf: r.Kerf, EndTrim: r.EndTrim,
			StripThickness: t.Thickness.Add(t.Planing), StripWidth: t.Siding.Add(t.Planing), Boards: []RippedBoard{},
		}
		from, err := source{sheet: c, rack: inHand}.boards(bill.Pieces{Species: t.Species, Grade: t.Grade, Thickness: t.narrowest(), Siding: t.Siding, Planing: t.Planing}, true, r)
		if err != nil {
			return nil, err
		}
		for _, b := range t.Boards {
			boards, err := t.rip(b, length, from, r)
			if err != nil {
				return nil, err
			}
			list.Boards = append(list.Boards, boards...)
		}
		slices.SortStableFunc(list.Boards, func(a, b RippedBoard) int {
			return cmp.Or(b.longest().Cmp(a.longest()), cmp.Compare(a.Offer, b.Offer))
		})
		next := int64(1)
		for i := range list.Boards {
			b := &list.Boards[i]
			if b.Way.Layers > 1 {
				list.ResawKerf = r.Resaw.OrNone().Kerf
			}
			n := b.Last - b.First
			b.First, b.Last = next, next+n
			next += n + 1
		}
		t.halves(&list)
		out = append(out, list)
	}
	return out, nil
}

// halves says of every part of a piece of two where its other half lies.
func (t Timber) halves(list *RippingList) {
	each := func(do func(b *RippedBoard, p *RippedPiece)) {
		for i := range list.Boards {
			for k := range list.Boards[i].Strips {
				for m := range list.Boards[i].Strips[k].Pieces {
					do(&list.Boards[i], &list.Boards[i].Strips[k].Pieces[m])
				}
			}
		}
	}
	each(func(_ *RippedBoard, p *RippedPiece) {
		s := p.Scarf
		if s == nil {
			return
		}
		s.Other, s.First = t.Scarfed.other(p.Line, s.part)
		s.Taper, s.Boards = t.Scarfed.Taper, []int64{}
		alone := p.Count == 1
		each(func(b *RippedBoard, o *RippedPiece) {
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
func (s *Scarfed) other(line string, part decimal.Decimal) (other decimal.Decimal, first bool) {
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

// rip lays the cuts of one offer out on its boards, numbered from 1.
func (t Timber) rip(b Boards, length map[string]quantity.Quantity, from []board, r Rules) ([]RippedBoard, error) {
	i := slices.IndexFunc(from, func(f board) bool { return f.offer.ID == b.Offer })
	if i < 0 || b.Count < 1 {
		return nil, &NeedError{b.Offer, "this board is not among those that the list was made from"}
	}
	o := slices.IndexFunc(t.Offers, func(o Offer) bool { return o.ID == b.Offer })
	if o < 0 {
		return nil, &NeedError{b.Offer, "this board is not among those that the list was made from"}
	}
	it, each := from[i], b.Strips/b.Count
	full, err := metres(it.length)
	if err != nil {
		return nil, err
	}
	var strips []RippedStrip
	for _, c := range t.Cuts {
		if c.Offer == b.Offer {
			strips = append(strips, stripOf(c, length, r))
		}
	}
	slices.SortStableFunc(strips, func(x, y RippedStrip) int { return y.longest().Cmp(x.longest()) })
	if over := b.Strips - b.Used; over > 0 {
		strips = append(strips, RippedStrip{Count: over, Pieces: []RippedPiece{}, Over: full, Keep: r.keeps(full)})
	}
	next := RippedBoard{First: 1, Offer: b.Offer, Thickness: it.offer.Thickness, Width: it.offer.Width, Widest: it.offer.Widest, Length: it.offer.Length,
		Rack: it.offer.Rack, LengthMM: it.length, EndTrim: r.EndTrim, Way: t.Offers[o].Way, Rest: []Rest{}}
	if it.untrimmed {
		next.EndTrim = decimal.Zero
	}
	if t.cutSideBySide() {
		return t.ripLayouts(b, next, it, length, r)
	}
	var out []RippedBoard
	add := func(boards int64, strips []RippedStrip) {
		next.Last, next.Strips = boards, strips
		if next.part(it, r); it.offer.RandomWidth() {
			next.Rest = []Rest{}
		}
		out = append(out, next)
	}
	var shared []RippedStrip
	for _, s := range strips {
		if whole := s.Count / each; whole > 0 {
			alike := s
			alike.Count = each
			add(whole, []RippedStrip{alike})
		}
		if s.Count %= each; s.Count > 0 {
			shared = append(shared, s)
		}
	}
	for len(shared) > 0 {
		var on []RippedStrip
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

func stripOf(c Cut, length map[string]quantity.Quantity, r Rules) RippedStrip {
	s := RippedStrip{Count: c.Strips, Pieces: make([]RippedPiece, len(c.Pieces)), Over: c.Offcut, Keep: r.keeps(c.Offcut)}
	for i, p := range c.Pieces {
		s.Pieces[i] = ripped(p, length)
	}
	return s
}

// keeps says whether a left-over is kept; nil where that is not said or nothing is left.
func (r Rules) keeps(over quantity.Quantity) *bool {
	return r.keepsLength(millimetres(over))
}

func (r Rules) keepsLength(mm decimal.Decimal) *bool {
	if r.LeastShort.Sign() <= 0 || mm.IsZero() {
		return nil
	}
	keep := !mm.LessThan(r.LeastShort)
	return &keep
}

// longest piece of a strip, mm; its pieces stand longest first.
func (s RippedStrip) longest() decimal.Decimal {
	if len(s.Pieces) == 0 {
		return decimal.Zero
	}
	return millimetres(s.Pieces[0].Length)
}

func (b RippedBoard) longest() decimal.Decimal {
	most := decimal.Zero
	for _, s := range b.Strips {
		most = decimal.Max(most, s.longest())
	}
	return most
}
