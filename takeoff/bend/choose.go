package bend

import (
	"slices"

	"github.com/shopspring/decimal"
)

// Need is one piece to be glued up of laminates.
type Need struct {
	// Depth of its blank, mm.
	Depth decimal.Decimal
	// Thickest laminate that its tightest bend takes, mm; 0 where it takes none. Not looked at where the piece is Straight,
	// which takes any.
	Thickest decimal.Decimal
	Straight bool
}

// takes reports whether laminates of a thickness lie to the piece's bends.
func (n Need) takes(thickness decimal.Decimal) bool {
	return n.Straight || thickness.LessThanOrEqual(n.Thickest)
}

// Plan is the choice of thicknesses over a boat.
type Plan struct {
	// Thicknesses that are ripped for her, thinnest first.
	Thicknesses []decimal.Decimal
	// Laminates in all.
	Laminates int64
	// Pieces in the order of the needs.
	Pieces []Piece
}

// Piece is what one need is glued up of.
type Piece struct {
	Thickness decimal.Decimal
	Laminates int64
	// Bends is false where nothing that is ripped lies to the piece's bends: it is left out of the choice, and told of by
	// itself.
	Bends bool
	// Thinner and Thicker are what the next thicknesses that the yard rips would have meant; nil where it rips none.
	Thinner, Thicker *Instead
}

// Instead is a piece glued up of another thickness.
type Instead struct {
	Thickness decimal.Decimal
	Laminates int64
	// Bends is false where it does not lie to this piece's bends.
	Bends bool
}

// Choose picks, of the thicknesses that are ripped, so few different ones that there are no fewer, and among as many the
// ones by which there are fewest laminates in all. A need that no thickness is thin enough for decides nothing.
//
// Since what takes a bend takes it thinner too, the fewest different is one; which, is the thickest that every bend takes,
// for a thicker laminate never makes more of them. ChooseAmong allows more different ones for fewer laminates. A
// *RangeError where no thickness above 0 is given.
func Choose(needs []Need, rips []decimal.Decimal) (Plan, error) { return ChooseAmong(needs, rips, 1) }

// ChooseAmong picks at most so many different thicknesses by which there are fewest laminates in all; among those the
// fewest different ones, then those that leave least to dress off, then the thinner. A need that no thickness is thin
// enough for is left out of the choice, and takes the thinnest chosen: pulling all the others down to the thinnest would not
// make it bend. Where that is so of every need the thinnest is chosen. A *RangeError where no thickness above 0 is given, or most is not above 0.
//
// Each need takes the thickest chosen that its bends take. So the chosen thicknesses cut the needs, in the order of what
// they take, into runs that share one, and the best choice is a shortest way along the thicknesses: exact, whatever their
// number.
func ChooseAmong(needs []Need, rips []decimal.Decimal, most int) (Plan, error) {
	if most < 1 {
		return Plan{}, &RangeError{"number of thicknesses for a boat", decimal.NewFromInt(int64(most)).String(), "above 0"}
	}
	rips = ordered(rips)
	if len(rips) == 0 || rips[0].Sign() <= 0 {
		return Plan{}, &RangeError{"thinnest laminate that is ripped", "not above 0", "above 0 mm"}
	}
	takes := make([]int, len(needs))
	var decide []Need
	var theirs []int
	for i, n := range needs {
		for takes[i] = len(rips) - 1; takes[i] > 0 && !n.takes(rips[takes[i]]); takes[i]-- {
		}
		if n.takes(rips[takes[i]]) {
			decide, theirs = append(decide, n), append(theirs, takes[i])
		}
	}
	out := Plan{Pieces: make([]Piece, len(needs))}
	chosen := []int{0}
	if len(decide) > 0 || len(needs) == 0 {
		chosen = fewest(decide, theirs, rips, most)
	}
	for _, r := range chosen {
		out.Thicknesses = append(out.Thicknesses, rips[r])
	}
	for i, n := range needs {
		at := chosen[0]
		for _, r := range chosen {
			if r <= takes[i] {
				at = r
			}
		}
		p := Piece{Thickness: rips[at], Laminates: Laminates(n.Depth, rips[at]), Bends: n.takes(rips[at])}
		if at > 0 {
			p.Thinner = n.instead(rips[at-1])
		}
		if at+1 < len(rips) {
			p.Thicker = n.instead(rips[at+1])
		}
		out.Pieces[i] = p
		out.Laminates += p.Laminates
	}
	return out, nil
}

func (n Need) instead(thickness decimal.Decimal) *Instead {
	return &Instead{thickness, Laminates(n.Depth, thickness), n.takes(thickness)}
}

// ordered is the thicknesses from the thinnest, each once.
func ordered(rips []decimal.Decimal) []decimal.Decimal {
	out := slices.Clone(rips)
	slices.SortFunc(out, decimal.Decimal.Cmp)
	return slices.CompactFunc(out, decimal.Decimal.Equal)
}

// cost of laminates: what is compared first stands first.
type cost struct {
	laminates int64
	kinds     int
	depth     decimal.Decimal // glued up in all, mm
}

func (c cost) less(o cost) bool {
	switch {
	case c.laminates != o.laminates:
		return c.laminates < o.laminates
	case c.kinds != o.kinds:
		return c.kinds < o.kinds
	}
	return c.depth.LessThan(o.depth)
}

// fewest is the indexes of the rips that are chosen, thinnest first. takes is the thickest rip that each need takes; the
// thinnest chosen must suit them all, and every need from there to the next chosen shares it.
func fewest(needs []Need, takes []int, rips []decimal.Decimal, most int) []int {
	least := len(rips) - 1
	for _, t := range takes {
		least = min(least, t)
	}
	n := least + 1 // above least the thinnest chosen would suit not all
	run := func(at, next int) cost {
		c := cost{kinds: 1}
		for i, need := range needs {
			if takes[i] >= at && takes[i] < next {
				l := Laminates(need.Depth, rips[at])
				c.laminates += l
				c.depth = c.depth.Add(rips[at].Mul(decimal.NewFromInt(l)))
			}
		}
		return c
	}
	type way struct {
		cost
		next int
	}
	// best[k][at] is the best from rip at to the thickest with at most k chosen, at among them.
	best := make([][]way, min(most, len(rips))+1)
	for k := 1; k < len(best); k++ {
		best[k] = make([]way, len(rips))
		for at := range rips {
			best[k][at] = way{run(at, len(rips)), len(rips)}
			if k == 1 {
				continue
			}
			for next := at + 1; next < len(rips); next++ {
				c, rest := run(at, next), best[k-1][next]
				c = cost{c.laminates + rest.laminates, c.kinds + rest.kinds, c.depth.Add(rest.depth)}
				if c.less(best[k][at].cost) {
					best[k][at] = way{c, next}
				}
			}
		}
	}
	k, at := len(best)-1, 0
	for first := 1; first < n; first++ {
		if best[k][first].less(best[k][at].cost) {
			at = first
		}
	}
	var out []int
	for ; at < len(rips); k-- {
		out = append(out, at)
		at = best[k][at].next
	}
	return out
}
