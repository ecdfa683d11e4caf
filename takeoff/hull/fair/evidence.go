package fair

import "math"

// The roughness rho is the change of curvature over the girth, in units of one
// over the girth, that the prior holds likely. It is searched for over a range
// that runs from a batten as stiff as a bar to one that follows every point.
const (
	roughLow   = -3.0 // natural logarithms
	roughHigh  = 5.0
	roughStep  = 0.5
	roughTried = int((roughHigh-roughLow)/roughStep) + 1
)

var roughSquares = func() (r [roughTried]float64) {
	for i := range r {
		r[i] = math.Exp(2 * (roughLow + roughStep*float64(i)))
	}
	return r
}()

// cost is -2 log of the likelihood of what the free movements leave of the
// points, for roughness squared (restricted maximum likelihood), but for terms
// that do not depend on the roughness.
func (w *Workspace) cost(square float64) float64 {
	spread, misfit := w.parts(square)
	return spread + misfit
}

// parts are the two parts of the cost: how widely a batten of that roughness
// would spread the points, and how far from that they lie, squared.
func (w *Workspace) parts(square float64) (spread, misfit float64) {
	t := &w.tri
	factor := 1.0
	u, pivot := 0.0, 1.0
	for i := range t.n {
		d := 1 + square*t.diag[i]
		v := w.turned[i]
		if i > 0 {
			f := square * t.off[i-1] / pivot
			d -= f * square * t.off[i-1]
			v -= f * u
		}
		d = max(d, 1e-60) // at least 1 but for rounding
		factor *= d
		if i&3 == 3 { // one logarithm for four factors
			spread += math.Log(factor)
			factor = 1
		}
		misfit += v * v / d
		u, pivot = v, d
	}
	return spread + math.Log(factor), misfit
}

// rough finds the likeliest roughness, and keeps the cost of every one tried.
// It returns its square.
func (w *Workspace) rough() float64 {
	if w.left == 0 {
		return roughSquares[0] // three points: an arc, whatever the stiffness
	}
	best := 0
	for i, square := range roughSquares {
		w.costs[i] = w.cost(square)
		if w.costs[i] < w.costs[best] {
			best = i
		}
	}
	x := roughLow + roughStep*float64(best)
	if best > 0 && best < roughTried-1 {
		a, b, c := w.costs[best-1], w.costs[best], w.costs[best+1]
		if bow := a - 2*b + c; bow > 0 {
			x += roughStep / 2 * (a - c) / bow
		}
	}
	return math.Exp(2 * x)
}
