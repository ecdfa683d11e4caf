package pack

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/cutting/flat"
	"ribband/takeoff/cutting/flat/pair"

	"github.com/shopspring/decimal"
)

// mostCorners of an outline that is laid into another; the takeoff's have 18. It keeps the search to some milliseconds.
const mostCorners = 40

// laidPair is what two needs are cut from together; a need that is cut with another, which stands for both, has second set.
type laidPair struct {
	with          int // into the needs
	width, length int64
	second        bool
	fit           pair.Fit
}

// mostFits is how many pieces are tried against each other, and nextFrames how far apart by number in the list of members the two
// may stand: neighbours' shapes are nearly alike and lie into each other well.
const (
	mostFits   = 200
	nextFrames = 1
)

// pairings are the ways of laying pieces two by two into each other that are weighed: both sides of a member, and whichever of
// those and of neighbouring members saves most. Each goes on a sheet for sale, list being the lone pieces; those that are no more than
// another are left out.
func (n Need) pairings(list flat.List, kerf decimal.Decimal) []map[int]laidPair {
	goes := func(two laidPair) bool {
		p := flat.Piece{Width: two.width, Length: two.length, Qty: 1, MayTurn: true}
		return slices.ContainsFunc(list.Stock, func(s flat.Stock) bool { return s.Takes(p, list.Rules) })
	}
	var all []fitted
	for _, two := range n.candidates(kerf) {
		if len(all) == mostFits {
			break
		}
		if laid, ok := laidTogether(n.Lines[two[0]].Rectangles, n.Lines[two[1]].Rectangles); ok && goes(laid) {
			all = append(all, fitted{two[0], two[1], laid})
		}
	}
	sides := n.matched(slices.DeleteFunc(slices.Clone(all), func(f fitted) bool { return n.Lines[f.a].Member.No != n.Lines[f.b].Member.No }))
	most := n.matched(all)
	switch {
	case len(most) == 0:
		return nil
	case len(sides) == 0 || samePairs(sides, most):
		return []map[int]laidPair{most}
	}
	return []map[int]laidPair{sides, most}
}

func samePairs(a, b map[int]laidPair) bool {
	return maps.EqualFunc(a, b, func(x, y laidPair) bool { return x.with == y.with })
}

// fitted are two needs, the one with the lesser id first, and how they lie together.
type fitted struct {
	a, b int
	two  laidPair
}

// candidates are needs that may be laid into each other: both sides of each member first, then neighbours of the same side and of
// the other. A saw that takes more than the room between the two parts none.
func (n Need) candidates(kerf decimal.Decimal) [][2]int {
	var pieces []int
	for i := range n.Lines {
		q := n.Lines[i].Rectangles
		if q != nil && q.Outline != nil && q.Count == 1 && q.MayTurn && len(q.Outline.Points) <= mostCorners && !kerf.GreaterThan(q.Outline.Room) {
			pieces = append(pieces, i)
		}
	}
	at := func(i int) boat.Member { return n.Lines[i].Member }
	slices.SortFunc(pieces, func(i, j int) int {
		return cmp.Or(cmp.Compare(at(i).Kind, at(j).Kind), cmp.Compare(at(i).No, at(j).No), cmp.Compare(at(i).Side, at(j).Side), cmp.Compare(n.Lines[i].ID, n.Lines[j].ID))
	})
	rank := make([]int, len(pieces)) // of members, in order
	for k := 1; k < len(pieces); k++ {
		rank[k] = rank[k-1]
		if at(pieces[k]).Kind != at(pieces[k-1]).Kind {
			rank[k] += nextFrames + 1
		} else if at(pieces[k]).No != at(pieces[k-1]).No {
			rank[k]++
		}
	}
	var out [][2]int
	for apart := 0; apart <= nextFrames; apart++ {
		for k := range pieces {
			for m := k + 1; m < len(pieces) && rank[m]-rank[k] <= apart; m++ {
				if rank[m]-rank[k] != apart || apart == 0 && at(pieces[k]).Side == at(pieces[m]).Side {
					continue
				}
				a, b := pieces[k], pieces[m]
				if n.Lines[b].ID < n.Lines[a].ID {
					a, b = b, a
				}
				out = append(out, [2]int{a, b})
			}
		}
	}
	return out
}

// matched takes of what fits together what saves most, each need once.
func (n Need) matched(all []fitted) map[int]laidPair {
	saves := func(f fitted) int64 {
		return areaOf(n.Lines[f.a].Rectangles) + areaOf(n.Lines[f.b].Rectangles) - f.two.width*f.two.length
	}
	slices.SortStableFunc(all, func(x, y fitted) int {
		return cmp.Or(cmp.Compare(saves(y), saves(x)), cmp.Compare(n.Lines[x.a].ID, n.Lines[y.a].ID), cmp.Compare(n.Lines[x.b].ID, n.Lines[y.b].ID))
	})
	out := map[int]laidPair{}
	for _, f := range all {
		if _, taken := out[f.a]; taken {
			continue
		}
		if _, taken := out[f.b]; taken {
			continue
		}
		f.two.with = f.b
		out[f.a], out[f.b] = f.two, laidPair{with: f.a, second: true}
	}
	return out
}

func areaOf(r *bill.Rectangles) int64 { return r.Width.Ceil().IntPart() * r.Length.Ceil().IntPart() }

// laidTogether is the rectangle of two, no less than either's own in both directions; false where it is no less than those
// together, or where the outlines are none.
func laidTogether(a, b *bill.Rectangles) (laidPair, bool) {
	fit, err := pair.LeastOf(corners(a.Outline), corners(b.Outline))
	if err != nil {
		return laidPair{}, false
	}
	most := func(fit int64, a, b decimal.Decimal) int64 { return max(fit, a.Ceil().IntPart(), b.Ceil().IntPart()) }
	two := laidPair{fit: fit, width: most(fit.Size.Length, a.Width, b.Width), length: most(fit.Size.Width, a.Length, b.Length)}
	return two, two.width*two.length < areaOf(a)+areaOf(b)
}

// alongAcross undoes corners.
func alongAcross(outline []pair.Point) [][2]int64 {
	out := make([][2]int64, len(outline))
	for i, p := range outline {
		out[i] = [2]int64{p.X, p.Y}
	}
	return out
}

func corners(o *bill.Outline) []pair.Point {
	out := make([]pair.Point, len(o.Points))
	for i, p := range o.Points {
		out[i] = pair.Point{X: p[0], Y: p[1]}
	}
	return out
}

// called names two pieces that are cut out of one rectangle.
func (n Need) called(i int, two laidPair) string {
	a, b := n.Lines[i].Member, n.Lines[two.with].Member
	if a.Kind == b.Kind && a.No == b.No {
		return fmt.Sprintf("%s %d, both sides, laid into each other", a.Kind, a.No)
	}
	return fmt.Sprintf("%s and %s, laid into each other", a, b)
}

// told are the pairs, by the ids of their lines.
func (n Need) told(pairs map[int]laidPair) []Pair {
	var out []Pair
	for i, two := range pairs {
		if !two.second {
			a, b := n.Lines[i].Rectangles.Outline, n.Lines[two.with].Rectangles.Outline
			first, second := two.fit.Lie(corners(a), corners(b))
			out = append(out, Pair{First: n.Lines[i].ID, Second: n.Lines[two.with].ID, Called: n.called(i, two),
				Turned: two.fit.Turned, Room: decimal.Max(a.Room, b.Room), Outlines: [2][][2]int64{alongAcross(first), alongAcross(second)}})
		}
	}
	slices.SortFunc(out, func(a, b Pair) int { return cmp.Compare(a.First, b.First) })
	return out
}
