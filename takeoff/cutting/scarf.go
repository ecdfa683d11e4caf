package cutting

import (
	"fmt"
	"slices"
)

// Scarf is how a piece that may be scarfed is made of two parts lying over each other where they are glued.
//
// The joint comes at places that can be counted: one of the parts is a whole number of Step long, or as long as some board
// gives, or Least. A plan is proved cheapest against every plan whose joints are at such places, in pieces of one or of two
// parts; joints elsewhere, and pieces of three, are not looked at.
type Scarf struct {
	// Price is what making one joint costs, in minor units.
	Price int64 `json:"price"`
	// Length that the parts lie over each other: the slope times the thickness. A piece takes so much more in two parts.
	Length int64 `json:"length"`
	// Least is how long a part must be at least; longer than the joint.
	Least int64 `json:"least"`
	// Step in which the places of joints are counted; in a Document a fiftieth of the longest piece where it is left out.
	Step int64 `json:"step,omitempty"`
}

// Joint is N pieces of one kind made of two parts each: the joint runs from Piece - Second to First along the piece.
type Joint struct {
	PieceID string `json:"piece_id"`
	N       int64  `json:"n"`
	First   int64  `json:"first"`
	Second  int64  `json:"second"`
	// From and To are where the parts lie over each other, from the end of the first part.
	From int64 `json:"from"`
	To   int64 `json:"to"`
	Cost int64 `json:"cost"`
}

// jointOf is n pieces of a length made of two parts, the first of which is given.
func (s *Scarf) jointOf(id string, n, length, first int64) Joint {
	second := length + s.Length - first
	return Joint{id, n, first, second, length - second, first, n * s.Price}
}

// MostParts is how many different parts are looked at for one list: measured, lists of up to fourteen kinds of plank with so many
// are proved within the usual limits.
const MostParts = 400

// places are the longer parts of every way to make a length of two, longest first, where no part is longer than longest.
func (s *Scarf) places(length, longest int64, gives []int64) []int64 {
	both := length + s.Length
	var out []int64
	put := func(a int64) {
		if b := both - a; min(a, b) >= s.Least && max(a, b) <= longest {
			out = append(out, max(a, b))
		}
	}
	put(s.Least)
	for _, a := range gives {
		put(a)
	}
	first := max(s.Least, both-longest)
	for a := (first + s.Step - 1) / s.Step * s.Step; a <= min(longest, both-s.Least); a += s.Step {
		put(a)
	}
	slices.Sort(out)
	out = slices.Compact(out)
	slices.Reverse(out)
	return out
}

// given are the lengths of piece that boards give.
func given(stock []Stock, r Rules) []int64 {
	var out []int64
	for _, s := range stock {
		if l := s.room(r) - r.Kerf; l > 0 {
			out = append(out, l)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// check refuses a scarf that makes no joint, and a step so fine that the parts are too many.
func (s *Scarf) check(stock []Stock, pieces []Piece, r Rules) error {
	wrong := func(format string, args ...any) error {
		return &RequestError{"scarf", "", fmt.Sprintf(format, args...)}
	}
	switch {
	case s.Price < 0 || s.Price > MaxPrice:
		return wrong("the price of a joint runs from 0 to %d", int64(MaxPrice))
	case s.Length < 0 || s.Length > MaxLength:
		return wrong("the length of a joint runs from 0 to %d", int64(MaxLength))
	case s.Least <= s.Length || s.Least > MaxLength:
		return wrong("the least part is longer than the joint, %d, and at most %d", s.Length, int64(MaxLength))
	case s.Step < 1 || s.Step > MaxLength:
		return wrong("the step runs from 1 to %d", int64(MaxLength))
	}
	if n := s.parts(stock, pieces, r); n > MostParts {
		coarser := *s
		for coarser.Step *= 2; coarser.Step < MaxLength && coarser.parts(stock, pieces, r) > MostParts; {
			coarser.Step *= 2
		}
		if coarser.parts(stock, pieces, r) > MostParts {
			return wrong("more than %d different parts could be cut: fewer kinds of piece that may be scarfed", MostParts)
		}
		return wrong("more than %d different parts could be cut: a step of %d would do", MostParts, coarser.Step)
	}
	return nil
}

// parts is how many different parts could be cut; more than MostParts when it is more.
func (s *Scarf) parts(stock []Stock, pieces []Piece, r Rules) int {
	gives := given(stock, r)
	seen := map[int64]bool{}
	for _, p := range pieces {
		if !p.MayScarf || p.Qty == 0 || len(gives) == 0 {
			continue
		}
		longest := gives[len(gives)-1]
		// counted without making them all
		if span := min(longest, p.Length+s.Length-s.Least) - max(s.Least, p.Length+s.Length-longest); span/s.Step > 2*MostParts {
			return MostParts + 1
		}
		for _, a := range s.places(p.Length, longest, gives) {
			seen[a], seen[p.Length+s.Length-a] = true, true
		}
	}
	return len(seen)
}

// split is one way to make pieces of an item of two others.
type split struct {
	item, long, short int
}

// lump is pieces of one length to be laid, whole ones, or parts of so many pieces.
type lump struct {
	Piece
	part int64
}

// lumps are pieces as they are laid without a search: whole, and of two parts by choose so many as two says and those that no board
// for sale gives whole.
func lumps(stock []Stock, pieces []Piece, r Rules, choose func(places []int64) int64, two map[string]int64) (out []lump, joints []Joint) {
	gives, sold := given(stock, r), slices.DeleteFunc(slices.Clone(stock), func(s Stock) bool { return !s.sold() })
	for _, p := range pieces {
		if sortOf(p, r) == scarfed {
			most := longest(sold, r)
			places := r.Scarf.places(p.Length, most, gives)
			if len(places) == 0 { // then it takes a board of which too few are for sale
				most = longest(stock, r)
				places = r.Scarf.places(p.Length, most, gives)
			}
			n := two[p.ID]
			if p.Length > most {
				n = p.Qty
			}
			if n > 0 && len(places) > 0 {
				j := r.Scarf.jointOf(p.ID, n, p.Length, choose(places))
				joints = append(joints, j)
				out = append(out, lump{Piece{p.ID, j.First, n, true}, j.First}, lump{Piece{p.ID, j.Second, n, true}, j.Second})
				p.Qty -= n
			}
		}
		if p.Qty > 0 {
			out = append(out, lump{p, 0})
		}
	}
	slices.SortStableFunc(out, func(a, b lump) int { return int(max(-1, min(1, b.Length-a.Length))) })
	return out, joints
}
