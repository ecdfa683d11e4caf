package fair

import (
	"math"
	"slices"
)

// bends are the greatest curvatures of a number of curves: of either sign, of
// the bilge and of the hollow, in units of one over the girth, never negative.
type bends struct{ tightest, bilge, hollow [draws]float64 }

// see notes the curvature of curve i between the end feet.
func (b *bends) see(i int, k *[knots]float64, first, last float64) {
	most, _, least, _ := extremes(k, first, last)
	b.bilge[i], b.hollow[i] = max(0, most), max(0, -least)
	b.tightest[i] = max(b.bilge[i], b.hollow[i])
}

func (b *bends) sort() {
	for _, v := range [][]float64{b.tightest[:], b.bilge[:], b.hollow[:]} {
		slices.Sort(v)
	}
}

// trials are what a range is read from.
type trials struct {
	drawn, refitted bends
	girth           [draws]float64
	rough           [draws]float64 // roughness squared of every curve drawn
	movement        movement
	line            line
}

// draw draws curves from all those that the points allow, each as often as it
// is likely, in the linear problem about the present curve: the roughness by
// its likelihood, then a curve of the prior, corrected for what that curve
// leaves of the points under an error of their size.
func (w *Workspace) draw() {
	w.drawRoughness()
	tr, m := &w.trials, &w.trials.movement
	first, last := w.ends()
	for i := range draws {
		c, square := &theChances().curves[i], tr.rough[i]
		rho := math.Sqrt(square)
		for j := range knots {
			m.drive[j] = rho * c.drive[j]
		}
		for j := range w.left {
			w.weight[j] = dot(w.drives(j), m.drive[:])
		}
		w.tri.toTurned(w.weight, w.back)
		for j := range w.left {
			w.back[j] = w.turned[j] - w.back[j] - c.rows[j]
		}
		var asks [free]float64
		for j := range asks {
			asks[j] = w.rows[j*stride+asked] - c.first[j]
		}
		w.answer(square, &asks, m)
		tr.drawn.see(i, &m.k, first, last)
		tr.girth[i] = w.drawnGirth(c)
	}
	tr.drawn.sort()
	slices.Sort(tr.girth[:])
}

// drawRoughness shares the draws out over the values of the roughness by their
// likelihood.
func (w *Workspace) drawRoughness() {
	var share [roughTried]float64
	sum := 0.0
	if w.left == 0 {
		share[0], sum = 1, 1 // three points say nothing of it
	} else {
		best := slices.Min(w.costs[:])
		for i, v := range w.costs {
			share[i] = math.Exp((best - v) / 2)
			sum += share[i]
		}
	}
	i, upTo := 0, share[0]
	for d := range draws {
		for i < roughTried-1 && upTo < (float64(d)+.5)/draws*sum {
			i++
			upTo += share[i]
		}
		w.trials.rough[d] = roughSquares[i]
	}
}

// endError is the error of an end point along the curve over that of a written
// value; a little more than one, because both of its values count.
const endError = 1.1

// drawnGirth is the girth of the curve just drawn, between the feet of the end
// points, which have an error of their own along the curve.
func (w *Workspace) drawnGirth(c *chance) float64 {
	l, m := &w.trials.line, &w.trials.movement
	sin, cos := math.Sincos(w.line.th[0])
	l.k = m.k
	l.y[0], l.z[0], l.th[0] = w.line.y[0]-m.shift*sin, w.line.z[0]+m.shift*cos, w.line.th[0]+m.turn
	l.integrate()
	n := len(w.pts) - 1
	a := l.foot(w.pts[0].Y, w.pts[0].Z, w.holds[0].s).s
	b := l.foot(w.pts[n].Y, w.pts[n].Z, w.holds[n].s).s
	return b - a + endError*w.sd*(c.ends[1]-c.ends[0])
}

// ends are the feet of the first and the last point.
func (w *Workspace) ends() (first, last float64) {
	return w.holds[0].s, w.holds[len(w.holds)-1].s
}
