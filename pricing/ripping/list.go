// Package ripping is what becomes of the boards of a buy list: how the saw hand cuts each, what is left of them, and what the rack
// holds afterwards. It reads the finished list and prices nothing.
package ripping

import (
	"cmp"
	"slices"

	"ribband/pricing/buy"
	"ribband/pricing/sawing"
	"ribband/takeoff/bill"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// List is what the saw hand does with the boards of one group, board by board in the order they are taken up:
// those with the longest pieces first, so that a board spoilt early can still give something shorter.
type List struct {
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
	Boards    []Board         `json:"boards"`
}

// Board is boards number First to Last of the list, all cut alike.
type Board struct {
	First int64  `json:"first"`
	Last  int64  `json:"last"`
	Offer string `json:"offer"`
	// Thickness, Width and Length as the sheet writes them.
	Thickness string `json:"thickness"`
	Width     string `json:"width"`
	Length    string `json:"length"`
	// Widest is set of boards of random width. Strips are then what boards as wide as reckoned give: the saw hand rips each board as wide
	// as it comes and takes the strips in this order until all are cut; the rest of the board that the last one comes from goes on to the next
	// list off the same boards. What stays uncut is not known.
	Widest string `json:"widest,omitempty"`
	// Way is how strips come out of it.
	Way sawing.Way `json:"way"`
	// LengthMM is what may be cut from: of a marked stretch its own length.
	LengthMM decimal.Decimal `json:"length_mm"`
	// EndTrim comes off each end; nothing of a stretch marked as clear.
	EndTrim decimal.Decimal `json:"end_trim_mm"`
	// Rack says which board in hand it is; nil for one that is bought.
	Rack *buy.OnRack `json:"rack,omitempty"`
	// Lengths are set where each board is crosscut first: the strips are then ripped out of these.
	Lengths []Length `json:"lengths,omitempty"`
	Strips  []Strip  `json:"strips"`
	// LayersOff is how many layers are sawn off, 0 where nothing is resawn; RipFirst says that the board is too wide for the guide
	// and is ripped first. Rest is what stays of each board uncut, at its full length; of one that is crosscut first, what
	// is beside the strips of each length, and the end that is left.
	LayersOff int64  `json:"layers_off"`
	RipFirst  bool   `json:"rip_first"`
	Rest      []Rest `json:"rest"`
}

// Length is Count lengths of each board, out of which the same strips are ripped.
type Length struct {
	Count    int64           `json:"count"`
	LengthMM decimal.Decimal `json:"length_mm"`
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

// Strip is Count strips of a board crosscut alike, longest piece first; those without pieces are not cut, and stay in the
// board's rest.
type Strip struct {
	Count int64 `json:"count"`
	// OfLength is which of the board's lengths it is ripped out of, counted from 1; 0 where the board is not crosscut first.
	OfLength int `json:"of_length,omitempty"`
	// WidthMM is how wide it is ripped, where strips of several widths lie side by side.
	WidthMM decimal.Decimal `json:"width_mm,omitzero"`
	Pieces  []Piece         `json:"pieces"`
	// Over is what is left of each in one length, cut down to the millimetre.
	Over quantity.Quantity `json:"over"`
	// Keep says whether Over is long enough to be kept; nil where the yard says no least length, or nothing is left.
	Keep *bool `json:"keep,omitempty"`
}

// Piece is Count pieces for the need Line, or parts of such.
type Piece struct {
	Line   string            `json:"line"`
	Count  int64             `json:"count"`
	Length quantity.Quantity `json:"length"`
	// WidthMM is how wide it is ripped once more, where it is narrower than its strip.
	WidthMM decimal.Decimal `json:"width_mm,omitzero"`
	// Scarf is how a part is tapered and where its other half lies; nil for pieces cut whole.
	Scarf *Scarf `json:"scarf,omitempty"`
}

// Lists lays the cuts of a list out on its boards, one list for each kind of timber in the order of the list. Of strips cut alike as
// many whole boards are made as there are; what remains shares boards, so that few boards differ. The needs and the rules are those
// the list was made from; a *buy.NeedError where the list names a board that it does not offer.
func Lists(l buy.List, needs []bill.Line, r buy.Rules) ([]List, error) {
	length := map[string]quantity.Quantity{}
	for _, n := range needs {
		if n.Pieces != nil {
			length[n.ID] = n.Pieces.Length
		}
	}
	out := make([]List, len(l.Timber))
	for i, t := range l.Timber {
		var err error
		if out[i], err = listOf(t, length, r); err != nil {
			return nil, err
		}
	}
	return out, nil
}

func listOf(t buy.Timber, length map[string]quantity.Quantity, r buy.Rules) (List, error) {
	list := List{
		Species: t.Species, Grade: t.Grade, Kerf: r.Kerf, EndTrim: r.EndTrim,
		StripThickness: t.Thickness.Add(t.Planing), StripWidth: t.Siding.Add(t.Planing), Boards: []Board{},
	}
	for _, b := range t.Boards {
		offer, ok := t.Offer(b.Offer)
		if !ok || b.Count < 1 || b.Strips < b.Count {
			return List{}, &buy.NeedError{Line: b.Offer, Reason: "this board is not among those that the list was made from"}
		}
		boards, err := (&ripped{t, offer, length, r}).boards(b)
		if err != nil {
			return List{}, err
		}
		list.Boards = append(list.Boards, boards...)
	}
	slices.SortStableFunc(list.Boards, func(a, b Board) int {
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
	list.halves(t.Scarfed)
	return list, nil
}

// longest piece of a strip, mm; its pieces stand longest first.
func (s Strip) longest() decimal.Decimal {
	if len(s.Pieces) == 0 {
		return decimal.Zero
	}
	return millimetres(s.Pieces[0].Length)
}

func (b Board) longest() decimal.Decimal {
	most := decimal.Zero
	for _, s := range b.Strips {
		most = decimal.Max(most, s.longest())
	}
	return most
}
