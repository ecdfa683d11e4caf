package simpson

import "math"

// Rule names a way of summing.
type Rule string

// The rules.
const (
	First       Rule = "first rule"
	Second      Rule = "second rule"
	FiveEight   Rule = "5-8-minus-1 rule"
	Trapezoidal Rule = "trapezoidal rule"
)

// Factor is what the sum of products is multiplied with at the given interval: h/3, 3h/8, h/12, h/2.
func (r Rule) Factor(interval float64) float64 {
	switch r {
	case First:
		return interval / 3
	case Second:
		return 3 * interval / 8
	case FiveEight:
		return interval / 12
	}
	return interval / 2
}

// Halved says where the first rule's outermost whole interval is halved by one more ordinate, as is done where a
// curve turns quickly.
type Halved struct{ Forward, Aft bool }

func (h Halved) count() int {
	n := 0
	if h.Forward {
		n++
	}
	if h.Aft {
		n++
	}
	return n
}

// ByFirst sums evenly spaced ordinates by the first rule: 1 4 2 4 … 4 1 times a third of the interval. It is exact
// for a cubic. Errors are *CountError, *IntervalError, *OrdinateError and *SizeError.
func ByFirst(interval float64, ordinates []float64) (*Sum, error) {
	return ByFirstHalved(interval, ordinates, Halved{})
}

// ByFirstHalved is the first rule with a half interval twice at either end: 1/2 2 1 1/2 4 2 …; interval is the whole
// one. The whole intervals between the halved ones must be even in number. Errors as ByFirst.
func ByFirstHalved(interval float64, ordinates []float64, halved Halved) (*Sum, error) {
	inner := len(ordinates) - 1 - 2*halved.count()
	// Halved ends alone make a table too: the inner part may be empty then.
	if inner < 0 || inner%2 != 0 || len(ordinates) < 3 {
		return nil, countError(First, inner, 2, halved.count())
	}
	s := newSum(First, interval, len(ordinates))
	at, i := 0.0, 0
	if halved.Forward {
		at, i = s.piece(i, at, 0.5, first), i+2
	}
	for range inner / 2 {
		at, i = s.piece(i, at, 1, first), i+2
	}
	if halved.Aft {
		s.piece(i, at, 0.5, first)
	}
	return s.over(ordinates)
}

// BySecond sums evenly spaced ordinates by the second rule: 1 3 3 2 3 3 … 1 times three eighths of the interval. It is
// exact for a cubic. Errors as ByFirst.
func BySecond(interval float64, ordinates []float64) (*Sum, error) {
	n := len(ordinates) - 1
	if n < 3 || n%3 != 0 {
		return nil, countError(Second, n, 3, 0)
	}
	s := newSum(Second, interval, len(ordinates))
	at := 0.0
	for i := 0; i < n; i += 3 {
		at = s.piece(i, at, 1, second)
	}
	return s.over(ordinates)
}

// ByTrapezoids sums evenly spaced ordinates by the trapezoidal rule: straight from each to the next. Its moment is
// that of the multipliers at their levers. Errors as ByFirst.
func ByTrapezoids(interval float64, ordinates []float64) (*Sum, error) {
	n := len(ordinates) - 1
	if n < 1 {
		return nil, countError(Trapezoidal, n, 1, 0)
	}
	s := newSum(Trapezoidal, interval, len(ordinates))
	at := 0.0
	for i := range n {
		at = s.piece(i, at, 1, trapezoid)
	}
	return s.over(ordinates)
}

// ByFiveEight is the area of the first of two intervals, from their three ordinates: 5, 8, -1 times a twelfth of the
// interval; its moment about the first ordinate by 3, 10, -1 times a twenty-fourth of the interval squared, since
// 5, 8, -1 itself serves for no moment. Both are exact for a parabola and no more. Errors as ByFirst.
func ByFiveEight(interval float64, ordinates []float64) (*Sum, error) {
	if n := len(ordinates) - 1; n != 2 {
		return nil, &CountError{Rule: FiveEight, Intervals: max(0, n), Above: 2}
	}
	s := newSum(FiveEight, interval, 3)
	copy(s.Multipliers, []float64{5, 8, -1})
	copy(s.Levers, []float64{0, 1, 2})
	s, err := s.over(ordinates)
	if err != nil {
		return nil, err
	}
	s.MomentProducts = 3*ordinates[0] + 10*ordinates[1] - ordinates[2]
	s.Moment = interval * interval / 24 * s.MomentProducts
	if math.IsInf(s.Moment, 0) || math.IsNaN(s.Moment) {
		return nil, &SizeError{FiveEight}
	}
	return s, nil
}

// What one repeat of a rule multiplies its ordinates with.
var (
	first     = []float64{1, 4, 1}
	second    = []float64{1, 3, 3, 1}
	trapezoid = []float64{1, 1}
)

func countError(r Rule, intervals, step, halved int) *CountError {
	intervals = max(0, intervals)
	below := intervals / step * step
	return &CountError{Rule: r, Intervals: intervals, Below: below, Above: below + step, Halved: 2 * halved}
}
