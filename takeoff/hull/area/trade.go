package area

import (
	"math"

	"ribband/takeoff/hull/simpson"
)

// Trade is a sum of ordinates at the stations by the trade's rules.
type Trade struct {
	// Rule in words: what took which stations.
	Rule string
	Sum  float64
	// Moment about station 0.
	Moment float64
}

// ByRule sums ordinates at the stations' places by the rule that they allow: Simpson's first rule where the stations are
// evenly spaced and their intervals even in number (the outermost may be halved), the second where they are a multiple of
// three, the first with the second over the last three intervals where they are any other odd number. Where the spacing
// changes, each evenly spaced stretch of two intervals or more is summed by itself so; where one stands alone, everything
// is summed by the trapezoidal rule. slack is by how much intervals may differ and still count as even. Errors are those
// of package simpson.
func ByRule(places, ordinates []float64, slack float64) (Trade, error) {
	if s, err := simpson.FirstAt(places, ordinates, slack); err == nil {
		return trade(string(simpson.First), places[0], s), nil
	}
	if t, ok := inPieces(places, ordinates, slack); ok {
		return t, nil
	}
	return ByTrapezoids(places, ordinates)
}

// ByTrapezoids sums them by the trapezoidal rule, which takes any places. Errors are those of package simpson.
func ByTrapezoids(places, ordinates []float64) (Trade, error) {
	s, err := simpson.TrapezoidsAt(places, ordinates)
	if err != nil {
		return Trade{}, err
	}
	return trade(string(simpson.Trapezoidal), places[0], s), nil
}

func trade(rule string, first float64, s *simpson.Sum) Trade {
	return Trade{rule, s.Area, s.Moment + first*s.Area}
}

// inPieces sums each evenly spaced stretch by itself; ok is false where one of them is a single interval.
func inPieces(places, ordinates []float64, slack float64) (out Trade, ok bool) {
	if len(places) != len(ordinates) || len(places) < 2 {
		return out, false
	}
	used := map[simpson.Rule]bool{}
	stretches := 0
	for from := 0; from+1 < len(places); stretches++ {
		to := from + 1
		for to+1 < len(places) && math.Abs(places[to+1]-places[to]-(places[from+1]-places[from])) <= slack+evenShare*(places[to]-places[from]) {
			to++
		}
		if !out.stretch(places[from:to+1], ordinates[from:to+1], used) {
			return out, false
		}
		from = to
	}
	switch {
	case used[simpson.First] && used[simpson.Second]:
		out.Rule = "first rule, and the second over three intervals"
	case used[simpson.Second]:
		out.Rule = string(simpson.Second)
	default:
		out.Rule = string(simpson.First)
	}
	if stretches > 1 {
		out.Rule += ", stretch by stretch as the spacing changes"
	}
	return out, true
}

// evenShare is what float64 may lose between two spacings that were written alike.
const evenShare = 1e-9

// stretch adds one evenly spaced stretch: the first rule as far as it goes, the second over the last three intervals of
// an odd number.
func (t *Trade) stretch(places, ordinates []float64, used map[simpson.Rule]bool) bool {
	n := len(places) - 1
	if n < 2 {
		return false
	}
	interval := (places[n] - places[0]) / float64(n)
	odd := 0
	if n%2 == 1 {
		odd = 3
	}
	if n%3 == 0 && odd > 0 {
		odd = n // the second rule takes them all
	}
	if first := n - odd; first > 0 {
		s, err := simpson.ByFirst(interval, ordinates[:first+1])
		if err != nil {
			return false
		}
		t.plus(simpson.First, places[0], s, used)
	}
	if odd > 0 {
		s, err := simpson.BySecond(interval, ordinates[n-odd:])
		if err != nil {
			return false
		}
		t.plus(simpson.Second, places[n-odd], s, used)
	}
	return true
}

func (t *Trade) plus(r simpson.Rule, first float64, s *simpson.Sum, used map[simpson.Rule]bool) {
	used[r] = true
	t.Sum += s.Area
	t.Moment += s.Moment + first*s.Area
}
