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

// spot is a place of a line: where it is, which way it runs there, and how far along the frame's faying line it was.
type spot struct{ along, theta, x, y float64 }

// walk is a line drawn from its curvature: spots close enough that one step of quadrature reaches any place between.
// longer is by how much the line is longer than along at a turn of a radian.
type walk struct {
	kappa  func(along float64) float64
	longer float64
	spots  []spot
}

// draw integrates a line whose curvature is that of c times scale, from the origin along x, and which keeps its length.
func (c Curve) draw(scale float64) (*walk, error) { return c.bent(scale, 0) }

// bent integrates where the line c comes to lie when the stack that it is the faying line of turns scale times as far
// everywhere, while the line at the depth keeps from it, inboard, keeps its length.
//
// That line is shorter than c by keeps times the turn, and c comes to be longer than that by keeps times the new turn: it
// grows by (scale - 1) keeps times the frame's own turn.
//
// In 600 panels a bilge of 300 mm radius in 2 m of girth turns 0.011 radians a panel; Simpson's rule misses by the fourth
// power of that, less than a millionth of a millimetre over the whole (computed).
func (c Curve) bent(scale, keeps float64) (*walk, error) {
	if !(c.Length > 0) || c.Length > mostLength || c.Kappa == nil {
		return nil, &CurveError{fmt.Sprintf("a line %v mm long: it is above 0 and at most %g mm", c.Length, mostLength)}
	}
	w := &walk{kappa: func(s float64) float64 { return scale * c.Kappa(max(0, min(c.Length, s))) }, longer: keeps * (scale - 1) / scale}
	at := spot{}
	w.spots = append(w.spots, at)
	for _, end := range c.ends() {
		if end <= at.along {
			continue
		}
		at = w.step(at, end)
		if math.IsNaN(at.x+at.y) || math.IsInf(at.theta, 0) || math.Abs(at.theta) > mostTurn {
			return nil, &CurveError{fmt.Sprintf("the line has no bend that timber could follow at %.0f mm along it", end)}
		}
		w.spots = append(w.spots, at)
	}
	return w, nil
}

// ends of the panels: equal steps, and the corners.
func (c Curve) ends() []float64 {
	var out []float64
	for i := 1; i <= panels; i++ {
		out = append(out, c.Length*float64(i)/panels)
	}
	for _, k := range c.Corners {
		if k > 0 && k < c.Length {
			out = append(out, k)
		}
	}
	slices.Sort(out)
	return out
}

// length of the line itself at a spot.
func (w *walk) length(s spot) float64 { return s.along + w.longer*s.theta }

// step goes from a spot to a place ahead by Simpson's rule, for the direction and then for the place. The curvature, turn
// by length along the frame, is read a hair inside the panel, so that a jump at its end is not read from the far side.
func (w *walk) step(from spot, to float64) spot {
	h := to - from.along
	if h == 0 {
		return from
	}
	k := func(share float64) float64 { return w.kappa(from.along + h*max(inside, min(1-inside, share))) }
	k0, k1, k2, k3, k4 := k(0), k(.25), k(.5), k(.75), k(1)
	mid := from.theta + h/12*(k0+4*k1+k2)
	end := mid + h/12*(k2+4*k3+k4)
	// a quarter and three quarters along, from the cubic through direction and curvature at ends and middle
	q1 := (from.theta+mid)/2 + h/16*(k0-k2)
	q3 := (mid+end)/2 + h/16*(k2-k4)
	s0, c0 := math.Sincos(from.theta)
	s1, c1 := math.Sincos(q1)
	s2, c2 := math.Sincos(mid)
	s3, c3 := math.Sincos(q3)
	s4, c4 := math.Sincos(end)
	g0, g1, g2, g3, g4 := 1+w.longer*k0, 1+w.longer*k1, 1+w.longer*k2, 1+w.longer*k3, 1+w.longer*k4
	return spot{to, end, from.x + h/12*(g0*c0+4*g1*c1+2*g2*c2+4*g3*c3+g4*c4), from.y + h/12*(g0*s0+4*g1*s1+2*g2*s2+4*g3*s3+g4*s4)}
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
