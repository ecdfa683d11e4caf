package hull

import (
	"sort"

	"gonum.org/v1/gonum/interp"

	"ribband/takeoff/hull/offsets"
)

// weights say how much each station counts at a place between them. What runs along the boat runs by cubic splines
// in x whose end conditions are "not a knot" (with three stations that is the parabola through them). A spline is
// linear in what it runs through, so one set of weights serves every measure of the stations: places, and their
// derivatives along the girth.
type weights struct {
	x      []float64 // of the stations, mm, rising
	spline []*interp.NotAKnotCubic
	scale  float64
}

// newWeights needs three stations or more, x rising. The error is of the linear equations, for stations spaced so
// unevenly that they cannot be solved.
func newWeights(x []float64) (*weights, error) {
	w := &weights{x: x, scale: (x[len(x)-1] - x[0]) / float64(len(x)-1)}
	if len(x) == offsets.MinStations {
		return w, nil
	}
	at, one := make([]float64, len(x)), make([]float64, len(x))
	for i := range x {
		at[i] = w.in(x[i])
	}
	for i := range x {
		one[i] = 1
		s := &interp.NotAKnotCubic{}
		if err := s.Fit(at, one); err != nil {
			return nil, err
		}
		w.spline = append(w.spline, s)
		one[i] = 0
	}
	return w, nil
}

// in is x in mean spacings from the first station, so that the equations are of one size for any boat.
func (w *weights) in(x float64) float64 { return (x - w.x[0]) / w.scale }

// at is the weight of every station at x; they add up to one.
func (w *weights) at(x float64) []float64 {
	out := make([]float64, len(w.x))
	if w.spline == nil {
		for i := range out {
			out[i] = 1
			for j := range w.x {
				if j != i {
					out[i] *= (x - w.x[j]) / (w.x[i] - w.x[j])
				}
			}
		}
		return out
	}
	for i, s := range w.spline {
		out[i] = s.Predict(w.in(x))
	}
	return out
}

// samePlace is how near a place may be to a station, mm, to be that station: far below what can be measured, far
// above what a float64 loses between notations.
const samePlace = 1e-6

// near gives the station at x alone, or the two between which x lies; ok is false outside all of them.
func (w *weights) near(x float64) (first, last int, ok bool) {
	n := len(w.x)
	i := sort.SearchFloat64s(w.x, x)
	switch {
	case i < n && w.x[i]-x <= samePlace:
		return i, i, true
	case i > 0 && x-w.x[i-1] <= samePlace:
		return i - 1, i - 1, true
	case i == 0 || i == n:
		return 0, 0, false
	}
	return i - 1, i, true
}
