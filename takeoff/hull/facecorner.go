package hull

import (
	"math"

	"ribband/takeoff/hull/offsets"
)

// layingAt lays off the marks of one side of one station, at x, of a plank so thick, mm.
type layingAt struct {
	*laying
	surface *Surface
	station int
	x, t    float64
}

// laidMark is by how much a mark moves, mm; gone says that there is no such place on the other face, beyond a corner. It is
// not ok where the plank is too thick.
type laidMark struct {
	dy, dz   float64
	gone, ok bool
}

// mark at u in piece k.
func (l *layingAt) mark(k int, u float64) laidMark {
	from, _, to, ok := l.step(l.surface, k, u, l.x, l.t)
	return laidMark{dy: to.Y - from.Y, dz: to.Z - from.Z, ok: ok}
}

// chain lays off marks of a section with knuckles.
func (l *layingAt) chain(marks []offsets.Mark) []laidMark {
	g := l.surface.of.grid
	corners := make([]corner, g.pieces()+1)
	corners[0], corners[g.pieces()] = corner{above: 0}, corner{below: 1}
	for k := 1; k < g.pieces(); k++ {
		corners[k] = l.corner(k)
	}
	out, k := make([]laidMark, len(marks)), 0
	for i, m := range marks {
		if m.Knuckle != "" && k+1 < g.pieces() {
			k++
			out[i] = corners[k].mark
			continue
		}
		u := l.foot(k, m)
		out[i] = l.mark(k, u)
		switch end := i == 0 || i == len(marks)-1; {
		case u >= corners[k].above && u <= corners[k+1].below:
		case end:
			out[i].ok = false
		default:
			out[i].gone = true
		}
	}
	return out
}

// foot is the u in piece k of the place of the section nearest to a mark.
func (l *layingAt) foot(k int, m offsets.Mark) float64 {
	const steps = 64
	g, c := l.surface.of.grid, l.surface.of.curves[l.station]
	near := func(u float64) float64 {
		j := g.jet(c, k, u)
		return -math.Hypot(j.y-m.Y.MM(), j.z-m.Z.MM())
	}
	at := func(i int) float64 { return g.knots[k] + g.width(k)*float64(max(0, min(steps, i)))/steps }
	best := 0
	for i := range steps + 1 {
		if near(at(i)) > near(at(best)) {
			best = i
		}
	}
	u, v := peak(near, at(best-1), at(best+1))
	if near(at(best)) >= v {
		return at(best)
	}
	return u
}

// corner is where the other faces of two panels meet: how the knuckle's mark moves, and up to where on the panels below
// and above, by u, the other face reaches.
type corner struct {
	mark         laidMark
	below, above float64
}

const (
	cornerings = 60   // steps in search of a corner; one is enough between flat panels
	cornerNear = 1e-9 // mm, as laidNear
	// noTurn is the sine of a turn so slight that where the faces cross is lost in rounding; halfway between is then as good,
	// to a tenth of a millionth of the thickness.
	noTurn = 1e-4
)

// corner at the knuckle under piece k: the panels' faces are followed by their tangents until they meet. Where the faces
// draw apart, as outside of a corner they do, each panel is carried on straight.
func (l *layingAt) corner(k int) corner {
	g := l.surface.of.grid
	knot := g.knots[k]
	out := corner{below: knot, above: knot}
	at := Point{}
	for range cornerings {
		_, below, p, ok := l.step(l.surface, k-1, out.below, l.x, l.t)
		_, above, q, fine := l.step(l.surface, k, out.above, l.x, l.t)
		v, w := math.Hypot(below.Yu, below.Zu), math.Hypot(above.Yu, above.Zu)
		if !ok || !fine || v == 0 || w == 0 {
			return out
		}
		a, b := Point{below.Yu / v, below.Zu / v}, Point{above.Yu / w, above.Zu / w}
		turn := a.Y*b.Z - a.Z*b.Y
		on, back := 0.0, 0.0 // from p along a, and from q along b
		if math.Abs(turn) > noTurn {
			on = ((q.Y-p.Y)*b.Z - (q.Z-p.Z)*b.Y) / turn
			back = ((q.Y-p.Y)*a.Z - (q.Z-p.Z)*a.Y) / turn
		}
		meet := Point{(p.Y + on*a.Y + q.Y + back*b.Y) / 2, (p.Z + on*a.Z + q.Z + back*b.Z) / 2}
		moved := math.Hypot(meet.Y-at.Y, meet.Z-at.Z)
		at = meet
		if moved <= cornerNear {
			knuckle := g.jet(l.surface.of.curves[l.station], k-1, knot)
			out.mark = laidMark{dy: at.Y - knuckle.y, dz: at.Z - knuckle.z, ok: true}
			return out
		}
		out.below = min(knot, out.below+on/v)
		out.above = max(knot, out.above+back/w)
		if out.below < g.knots[k-1] || out.above > g.knots[k+1] {
			return corner{below: knot, above: knot} // the panel is narrower than the plank is thick
		}
	}
	return corner{below: knot, above: knot}
}
