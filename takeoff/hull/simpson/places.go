package simpson

import "math"

// FirstAt is the first rule for ordinates at the places given, which must be evenly spaced but for a halved interval at
// either end. slack is by how much an interval may differ and still count as even, in the unit of the places: the grain
// they were written to. Errors are those of ByFirst, *LengthError and *SpacingError.
func FirstAt(places, ordinates []float64, slack float64) (*Sum, error) {
	gaps, err := gapsOf(places, ordinates)
	if err != nil {
		return nil, err
	}
	n := len(gaps)
	whole := wholeOf(gaps, slack)
	even := func(g, should float64) bool { return math.Abs(g-should) <= slack+1e-9*whole }
	// Halving is told by both halves together; with two intervals alone there is no telling, and no need.
	var h Halved
	h.Forward = n > 2 && even(gaps[0], whole/2) && even(gaps[1], whole/2)
	h.Aft = n > 2 && even(gaps[n-1], whole/2) && even(gaps[n-2], whole/2)
	for i, g := range gaps {
		should := whole
		if h.Forward && i < 2 || h.Aft && i >= n-2 {
			should = whole / 2
		}
		if !even(g, should) {
			return nil, &SpacingError{First, i, g, whole}
		}
	}
	// The mean interval, so that what the grain took from one and gave to the next is not counted.
	wholes := float64(n)
	wholes -= float64(h.count())
	return ByFirstHalved((places[n]-places[0])/wholes, ordinates, h)
}

// TrapezoidsAt is the trapezoidal rule for ordinates at any rising places. Multipliers are in mean intervals, so that
// the table reads as for even spacing; levers too. Errors as FirstAt.
func TrapezoidsAt(places, ordinates []float64) (*Sum, error) {
	gaps, err := gapsOf(places, ordinates)
	if err != nil {
		return nil, err
	}
	mean := (places[len(gaps)] - places[0]) / float64(len(gaps))
	s := newSum(Trapezoidal, mean, len(ordinates))
	at := 0.0
	for i, g := range gaps {
		at = s.piece(i, at, g/mean, trapezoid)
	}
	return s.over(ordinates)
}

func gapsOf(places, ordinates []float64) ([]float64, error) {
	if len(places) != len(ordinates) {
		return nil, &LengthError{len(places), len(ordinates)}
	}
	if len(places) < 2 {
		return nil, countError(Trapezoidal, 0, 1, 0)
	}
	gaps := make([]float64, len(places)-1)
	for i, x := range places {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return nil, &OrdinateError{i, x}
		}
		if i == 0 {
			continue
		}
		gaps[i-1] = x - places[i-1]
		if !(gaps[i-1] > 0) {
			return nil, &SpacingError{Trapezoidal, i - 1, gaps[i-1], gaps[i-1]}
		}
	}
	if math.IsInf(places[len(places)-1]-places[0], 0) {
		return nil, &SizeError{Trapezoidal}
	}
	return gaps, nil
}

// wholeOf is the interval that most of them agree with, counting those half as long; of several the longest, since halved
// ones are the smaller.
func wholeOf(gaps []float64, slack float64) float64 {
	best, most := 0.0, 0
	for _, g := range gaps {
		n := 0
		for _, o := range gaps {
			if math.Abs(o-g) <= slack+1e-9*g || math.Abs(o-g/2) <= slack+1e-9*g {
				n++
			}
		}
		if n > most || n == most && g > best {
			best, most = g, n
		}
	}
	return best
}
