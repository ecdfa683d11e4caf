package drawing

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"ribband/takeoff/draw"
	"ribband/takeoff/notation"
)

// RippingList is the boards of one kind of timber as the saw hand cuts them: every board with its strips below one
// another, every strip with its pieces from the left, longest first.
type RippingList struct {
	Sheet Sheet
	// Notation that lengths are written in.
	Notation notation.Notation
	// Timber says which: "White oak, FAS, strips 7.9 mm by 46 mm".
	Timber string
	// Kerf between pieces, mm.
	Kerf float64
	// StripThickness and StripWidth are what strips are ripped to, mm.
	StripThickness, StripWidth float64
	Boards                     []SawnBoard
}

// SawnBoard is boards cut alike.
type SawnBoard struct {
	// Name says which of the list, Size what is taken from the stack.
	Name, Size string
	Length     float64 // mm
	// EndTrim off each end, mm; 0 for a stretch that loses none.
	EndTrim float64
	// RandomWidth says that no two boards need be as wide; Strips are those of boards as wide as they are reckoned.
	RandomWidth bool
	// Lengths are set where each board is crosscut first, and its strips are ripped out of these.
	Lengths []SawnLength
	Strips  []SawnStrip
	// Resaw is how the board is sawn into layers first; nil where it is ripped as it comes. Flat says that strips lie flat in the
	// board, Across how wide they are ripped then, mm.
	Resaw  *Resaw
	Flat   bool
	Across float64
	// Rest is what stays of each board uncut.
	Rest []SawnRest
}

// Resaw is Off layers, Thick mm each with Kerf mm gone at each cut; All of the board, or with a rest. RipFirst says that the
// board is ripped before.
type Resaw struct {
	Off           int64
	Thick, Kerf   float64
	All, RipFirst bool
}

// SawnRest is Count parts of a board that are not cut, mm; Keep as of a strip.
type SawnRest struct {
	Count                    int64
	Thickness, Width, Length float64
	Keep                     *bool
}

// SawnLength is Count lengths of a board alike, mm.
type SawnLength struct {
	Count  int64
	Length float64
}

// SawnStrip is Count strips of a board cut alike.
type SawnStrip struct {
	Count int64
	// OfLength is which of the board's lengths it is ripped out of, from 1; 0 where the board is not crosscut first.
	OfLength int
	Pieces   []SawnPiece
	// Over is what is left in one length, mm; Keep whether it is kept, nil where the yard does not say.
	Over float64
	Keep *bool
	// Width is how wide it is ripped, mm, where strips of several widths lie side by side; 0 where all are alike.
	Width float64
}

// SawnPiece is Count pieces of a length, mm, for what Label names.
type SawnPiece struct {
	Label  string
	Count  int64
	Length float64
	// Width is how wide it is ripped once more, mm, where it is narrower than its strip; 0 where it is not.
	Width float64
	// Scarf is set for a half of a piece made of two.
	Scarf *SawnScarf
}

// SawnScarf is how a half is tapered, mm, at its far end where it is the First, and on which boards its other half lies.
type SawnScarf struct {
	Taper  float64
	First  bool
	Boards []int64
}

// where the other half lies, in words.
func (s SawnScarf) where() string {
	if len(s.Boards) == 0 {
		return "other half elsewhere"
	}
	out, last := "other half on board ", len(s.Boards)-1
	for i, n := range s.Boards {
		switch {
		case i == 0:
		case i == last:
			out += " or "
		default:
			out += ", "
		}
		out += strconv.FormatInt(n, 10)
	}
	return out
}

// named is what a piece is for, and of a half where its other one lies.
func (r RippingList) named(p SawnPiece) string {
	out := p.Label
	if p.Width > 0 {
		out += ", ripped to " + r.length(p.Width)
	}
	if p.Scarf != nil {
		out += ", " + p.Scarf.where()
	}
	return out
}

// Draw is all boards of the list on one sheet. Lengths are to scale, heights are not.
func (r RippingList) Draw() Drawing {
	k := r.Sheet.look()
	list := &draw.List{Width: k.width, Title: "Ripping list for " + or(r.Sheet.Boat, "the boat")}
	f := foot{subject: "Ripping list, " + or(r.Timber, "timber"), units: unitsLine(r.Notation), notation: r.Notation}
	if len(r.Boards) == 0 {
		return empty(list, r.Sheet, k, f, "No boards are cut; there is nothing to draw.")
	}
	v := r.view(list, k)
	y := v.margin
	for _, b := range r.Boards {
		y = v.board(b, y)
	}
	f.key, f.notes = v.key(), r.remarks()
	if r.scarfed() {
		f.notes = append(f.notes, "A half of a scarfed piece is tapered to nothing across its thickness; the taper is drawn in the width of the strip. Both halves are tapered together, faces marked, before they are glued.")
	}
	list.Desc = fmt.Sprintf("%s of a ripping list, each with its strips and their pieces to scale, longest first. Every piece stands in the table of the same name.",
		plural(len(r.Boards), "kind of board", "kinds of board"))
	list.Height = math.Ceil(f.put(list, r.Sheet, k, y+line(k.text)))
	return Drawing{list, r.table(r.Boards)}
}

// Board is the i-th kind of board alone, without foot, for a page that says the rest.
func (r RippingList) Board(i int) Drawing {
	k := r.Sheet.look()
	b := r.Boards[i]
	list := &draw.List{Width: k.width, Title: b.Name + ", cut"}
	v := r.view(list, k)
	v.bare = true
	list.Height = math.Ceil(v.board(b, 0.4*k.text))
	list.Desc = fmt.Sprintf("%s with %s, pieces to scale, longest first; the steps beside it say the same in words.", b.Name, plural(len(b.Strips), "kind of strip", "kinds of strip"))
	return Drawing{list, r.table([]SawnBoard{b})}
}

// SawCaution stands wherever boards are told to be cut. Common practice, no source.
const SawCaution = "The saw and its dust hurt: guards, riving knife, push sticks, eye and ear protection and dust extraction as local rules ask; dust of oily and tropical timbers may also inflame skin and lungs."

func (r RippingList) remarks() []string {
	return []string{
		"Lengths are to scale, heights are not.",
		fmt.Sprintf("%s goes at each cut. Longest pieces first: what a check or a knot spoils may still give a shorter one.", r.length(r.Kerf)),
		SawCaution,
	}
}

// scarfed says that a piece of the list is made of two halves.
func (r RippingList) scarfed() bool {
	for _, b := range r.Boards {
		for _, s := range b.Strips {
			if slices.ContainsFunc(s.Pieces, func(p SawnPiece) bool { return p.Scarf != nil }) {
				return true
			}
		}
	}
	return false
}

// length is a length as a tape is read at the saw, its unit with it.
func (r RippingList) length(mm float64) string { return AsRead(r.Notation, mm) }

// Strip is the size of the strips in words.
func (r RippingList) Strip() string {
	return r.length(r.StripThickness) + " by " + r.length(r.StripWidth)
}

// table lists the pieces, strip by strip.
func (r RippingList) table(boards []SawnBoard) Table {
	t := Table{
		Caption: "Pieces of every board in the order they are cut",
		Head:    []string{"Boards", "Size", "Strips", "Pieces of each", "Length", "For", "Left of each", "What becomes of it"},
	}
	for _, b := range boards {
		for _, s := range b.Strips {
			left, becomes := r.left(s)
			if len(s.Pieces) == 0 {
				t.Rows = append(t.Rows, []string{b.Name, b.Size, strconv.FormatInt(s.Count, 10), "", "", "not cut into", left, becomes})
			}
			for _, p := range s.Pieces {
				t.Rows = append(t.Rows, []string{b.Name, b.Size, r.strips(b, s), strconv.FormatInt(p.Count, 10), r.length(p.Length), r.named(p), left, becomes})
			}
		}
	}
	return t
}

// strips is how many there are of a strip, with how wide where they differ and out of which length.
func (r RippingList) strips(b SawnBoard, s SawnStrip) string {
	out := strconv.FormatInt(s.Count, 10)
	if s.Width > 0 {
		out += ", " + r.length(s.Width) + " wide"
	}
	if s.OfLength > 0 {
		out += ", out of " + r.length(b.Lengths[s.OfLength-1].Length)
	}
	return out
}

// left is what is left of a strip, and what becomes of it.
func (r RippingList) left(s SawnStrip) (left, becomes string) {
	switch {
	case s.Over <= 0:
		return "", ""
	case s.Keep == nil:
		return r.length(s.Over), "not said"
	case *s.Keep:
		return r.length(s.Over), "kept"
	}
	return r.length(s.Over), "too short to keep"
}
