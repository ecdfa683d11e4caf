package bend

import (
	"fmt"
	"math"
	"slices"
)

// Curve is a line in a plane by how it bends: Kappa is its curvature, 1/mm, so far along it from the heel, mm, positive
// where the centre lies to the left of the run from heel to head, which is inboard. Corners are places where the curvature
// jumps; panels of the integration end there.
type Curve struct {
	Length  float64
	Kappa   func(along float64) float64
	Corners []float64
}

// CurveError: a line that cannot be followed.
type CurveError struct{ Detail string }

func (e *CurveError) Error() string { return e.Detail }

// Bounds of a line: longer than any frame, and bent less than a spring.
const (
	mostLength = 1e6 // mm
	mostTurn   = 20  // radians in all
	panels     = 600
)

// Between is the stretch of the line from one place along it to another, mm.
func (c Curve) Between(from, to float64) Curve {
	out := Curve{Length: to - from, Kappa: func(along float64) float64 { return c.Kappa(from + along) }}
	if c.Kappa == nil {
		out.Kappa = nil
	}
	for _, k := range c.Corners {
		if from < k && k < to {
			out.Corners = append(out.Corners, k-from)
		}
	}
	return out
}

// course is a line beside c as it lies on a form: so deep inboard of c at the heel, deeper by slope for every millimetre along c,
// and bent by legs, of which the first begins at 0.
type course struct {
	depth, slope float64
	legs         []leg
}

// leg is a stretch of a course from a place along c: it turns tighter times as far as the frame's own line there, and is longer
// than that by grows, mm, for every radian that c turns. turned is what its direction is carried on by, so that the course
// has no corner where legs meet.
type leg struct{ from, tighter, grows, turned float64 }

// deep is how deep the course lies.
func (o course) deep(along float64) float64 { return o.depth + o.slope*along }

// skew is the angle of the frame's own line at that depth from c, radians, where c has a curvature; pace is how much of it goes
// with a millimetre of c.
func (o course) skew(along, kappa float64) float64 {
	if o.slope == 0 {
		return 0
	}
	return math.Atan2(o.slope, 1-kappa*o.deep(along))
}

func (o course) pace(along, kappa float64) float64 {
	if o.slope == 0 {
		return 1 - kappa*o.depth
	}
	return math.Hypot(1-kappa*o.deep(along), o.slope)
}

// leg that a place lies on.
func (o course) leg(along float64) leg {
	i := len(o.legs) - 1
	for i > 0 && o.legs[i].from > along {
		i--
	}
	return o.legs[i]
}

// spot is a place of a course: how far along the frame's faying line it was and how far along the course it is, how far the faying
// line has turned, times what it is bent tighter, which way the course runs, and where it is.
type spot struct{ along, length, turn, theta, x, y float64 }

// walk is a course drawn from the curvature of its line: spots close enough that one step of quadrature reaches any place
// between.
type walk struct {
	course
	kappa func(along float64) float64
	spots []spot
}

// draw integrates a line whose curvature is that of c times scale, from the origin along x, and which keeps its length.
func (c Curve) draw(scale float64) (*walk, error) {
	return c.bent(course{legs: []leg{{tighter: scale}}})
}

// bent integrates where a course beside c comes to lie.
//
// In 600 panels a bilge of 300 mm radius in 2 m of girth turns 0.011 radians a panel; Simpson's rule misses by the fourth
// power of that, less than a millionth of a millimetre over the whole (computed). What a course grows by is counted by the
// turn of c alone; the skew of a tapering frame turns by thousandths more, which makes a thousandth of a millimetre (computed).
func (c Curve) bent(o course) (*walk, error) {
	if !(c.Length > 0) || c.Length > mostLength || c.Kappa == nil {
		return nil, &CurveError{fmt.Sprintf("a line %v mm long: it is above 0 and at most %g mm", c.Length, mostLength)}
	}
	w := &walk{course: o, kappa: func(s float64) float64 { return c.Kappa(max(0, min(c.Length, s))) }}
	w.carryOn()
	first := w.legs[0]
	at := spot{theta: first.tighter * w.skew(0, w.kappa(0))}
	w.spots = append(w.spots, at)
	for _, end := range c.ends(w.legs) {
		if end <= at.along {
			continue
		}
		at = w.step(at, end)
		if math.IsNaN(at.x+at.y) || math.IsInf(at.theta, 0) || math.Abs(at.turn) > mostTurn {
			return nil, &CurveError{fmt.Sprintf("the line has no bend that timber could follow at %.0f mm along it", end)}
		}
		w.spots = append(w.spots, at)
	}
	return w, nil
}

// carryOn works out turned of every leg.
func (w *walk) carryOn() {
	for i := 1; i < len(w.legs); i++ {
		before := w.legs[i-1]
		skew := w.skew(w.legs[i].from, w.kappa(w.legs[i].from))
		w.legs[i].turned = before.turned + (before.tighter-w.legs[i].tighter)*skew
	}
}

// ends of the panels: equal steps, the corners, and where legs begin.
func (c Curve) ends(legs []leg) []float64 {
	var out []float64
	for i := 1; i <= panels; i++ {
		out = append(out, c.Length*float64(i)/panels)
	}
	for _, k := range c.Corners {
		if k > 0 && k < c.Length {
			out = append(out, k)
		}
	}
	for _, l := range legs {
		if l.from > 0 && l.from < c.Length {
			out = append(out, l.from)
		}
	}
	slices.Sort(out)
	return out
}

// step goes from a spot to a place ahead by Simpson's rule, for the direction and then for the place. The curvature, turn
// by length along the frame, is read a hair inside the panel, so that a jump at its end is not read from the far side.
func (w *walk) step(from spot, to float64) spot {
	h := to - from.along
	if h == 0 {
		return from
	}
	l := w.leg(from.along + h/2)
	var k, turn, g, sin, cos [5]float64
	for i := range k {
		k[i] = w.kappa(from.along + h*max(inside, min(1-inside, float64(i)/4)))
	}
	turn[0] = from.turn
	turn[2] = from.turn + l.tighter*h/12*(k[0]+4*k[1]+k[2])
	turn[4] = turn[2] + l.tighter*h/12*(k[2]+4*k[3]+k[4])
	// a quarter and three quarters along, from the cubic through direction and curvature at ends and middle
	turn[1] = (turn[0]+turn[2])/2 + l.tighter*h/16*(k[0]-k[2])
	turn[3] = (turn[2]+turn[4])/2 + l.tighter*h/16*(k[2]-k[4])
	theta := from.theta
	for i := range k {
		along := from.along + h*float64(i)/4
		theta = turn[i] + l.tighter*w.skew(along, k[i]) + l.turned
		sin[i], cos[i] = math.Sincos(theta)
		g[i] = w.pace(along, k[i]) + l.grows*k[i]
	}
	sum := func(of func(i int) float64) float64 { return h / 12 * (of(0) + 4*of(1) + 2*of(2) + 4*of(3) + of(4)) }
	return spot{to, from.length + sum(func(i int) float64 { return g[i] }), turn[4], theta,
		from.x + sum(func(i int) float64 { return g[i] * cos[i] }), from.y + sum(func(i int) float64 { return g[i] * sin[i] })}
}

// inside is how far, as a share of a panel, the curvature at an end is read within it.
const inside = 1e-9

// at is the spot so far along.
func (w *walk) at(along float64) spot {
	i, _ := slices.BinarySearchFunc(w.spots, along, func(s spot, t float64) int {
		switch {
		case s.along < t:
			return -1
		case s.along > t:
			return 1
		}
		return 0
	})
	if i > 0 {
		i--
	}
	return w.step(w.spots[i], along)
}
