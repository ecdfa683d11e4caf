package buy

import (
	"cmp"
	"fmt"
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

// pairs are the needs, by their place, that may be cut two from one rectangle: pieces of both sides of one member, of which the
// one with the lesser id stands for both, where their rectangle is less than the two by themselves. A saw that takes more than
// the room between the two parts none.
func (g groups) pairs(n *packNeed, r Rules) map[int]laidPair {
	type sides struct {
		kind boat.Kind
		no   int
	}
	ports, out := map[sides]int{}, map[int]laidPair{}
	outlined := func(i int) bool {
		q := g.needs[i].Rectangles
		return q != nil && q.Outline != nil && q.Count == 1 && q.MayTurn && len(q.Outline.Points) <= mostCorners && !r.Kerf.GreaterThan(q.Outline.Room)
	}
	for _, i := range n.lines {
		if m := g.needs[i].Member; m.Side == boat.Port && outlined(i) {
			ports[sides{m.Kind, m.No}] = i
		}
	}
	for _, j := range n.lines {
		m := g.needs[j].Member
		i, ok := ports[sides{m.Kind, m.No}]
		if !ok || m.Side != boat.Starboard || !outlined(j) {
			continue
		}
		delete(ports, sides{m.Kind, m.No})
		a, b := i, j
		if g.needs[b].ID < g.needs[a].ID {
			a, b = b, a
		}
		if two, ok := laidTogether(g.needs[a].Rectangles, g.needs[b].Rectangles); ok {
			two.with = b
			out[a], out[b] = two, laidPair{with: a, second: true}
		}
	}
	return out
}

// laidTogether is the rectangle of two, no less than either's own in both directions; false where it is no less than those
// together, or where the outlines are none.
func laidTogether(a, b *bill.Rectangles) (laidPair, bool) {
	fit, err := pair.LeastOf(corners(a.Outline), corners(b.Outline))
	if err != nil {
		return laidPair{}, false
	}
	most := func(fit int64, a, b decimal.Decimal) int64 { return max(fit, a.Ceil().IntPart(), b.Ceil().IntPart()) }
	two := laidPair{fit: fit, width: most(fit.Size.Length, a.Width, b.Width), length: most(fit.Size.Width, a.Length, b.Length)}
	area := func(r *bill.Rectangles) int64 { return r.Width.Ceil().IntPart() * r.Length.Ceil().IntPart() }
	return two, two.width*two.length < area(a)+area(b)
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

// bothSides names the two sides of a member that are cut out of one rectangle.
func bothSides(m boat.Member) string {
	return fmt.Sprintf("%s %d, both sides, laid into each other", m.Kind, m.No)
}

// fitting are those pairs that go on a sheet for sale, list being the lone pieces.
func (g groups) fitting(n *packNeed, list flat.List, r Rules) map[int]laidPair {
	out := g.pairs(n, r)
	for i, two := range out {
		if two.second {
			continue
		}
		p := flat.Piece{Width: two.width, Length: two.length, Qty: 1, MayTurn: true}
		if !slices.ContainsFunc(list.Stock, func(s flat.Stock) bool { return s.Takes(p, list.Rules) }) {
			delete(out, i)
			delete(out, two.with)
		}
	}
	return out
}

// told are the pairs, by the ids of their lines.
func (g groups) told(pairs map[int]laidPair) []Pair {
	var out []Pair
	for i, two := range pairs {
		if !two.second {
			a, b := g.needs[i].Rectangles.Outline, g.needs[two.with].Rectangles.Outline
			first, second := two.fit.Lie(corners(a), corners(b))
			out = append(out, Pair{First: g.needs[i].ID, Second: g.needs[two.with].ID, Called: bothSides(g.needs[i].Member),
				Turned: two.fit.Turned, Room: decimal.Max(a.Room, b.Room), Outlines: [2][][2]int64{alongAcross(first), alongAcross(second)}})
		}
	}
	slices.SortFunc(out, func(a, b Pair) int { return cmp.Compare(a.First, b.First) })
	return out
}
