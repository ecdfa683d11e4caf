package simpson

import "fmt"

// CountError: a number of intervals that the rule does not take.
type CountError struct {
	Rule      Rule
	Intervals int
	// Below and Above are the nearest numbers of whole intervals that it takes; Below is 0 where there is none.
	Below, Above int
	// Halved is how many of the whole intervals are halved; each adds an ordinate.
	Halved int
}

func (e *CountError) Error() string {
	takes := map[Rule]string{
		First: "an even number of intervals", Second: "a multiple of three intervals", FiveEight: "two intervals, three ordinates",
		Trapezoidal: "one interval or more",
	}[e.Rule]
	if e.Halved > 0 {
		takes += " between the halved ones"
	}
	right := fmt.Sprintf("%d intervals (%d ordinates)", e.Above, e.Above+1+e.Halved)
	if e.Below > 0 && e.Below != e.Above {
		right = fmt.Sprintf("%d intervals (%d ordinates) or %s", e.Below, e.Below+1+e.Halved, right)
	}
	return fmt.Sprintf("the %s takes %s, not %d: %s would be right", e.Rule, takes, e.Intervals, right)
}

// IntervalError: a spacing of the ordinates that is no length, or no number.
type IntervalError struct{ Interval float64 }

func (e *IntervalError) Error() string {
	return fmt.Sprintf("an interval of %v is no spacing: it must be a number above 0", e.Interval)
}

// OrdinateError: an ordinate or its place that is no number, the first being number 0.
type OrdinateError struct {
	Number int
	Value  float64
}

func (e *OrdinateError) Error() string {
	return fmt.Sprintf("ordinate %d is %v: a number is needed", e.Number, e.Value)
}

// SizeError: ordinates so great that their sum is no number any more.
type SizeError struct{ Rule Rule }

func (e *SizeError) Error() string {
	return fmt.Sprintf("the ordinates are too great to be summed by the %s", e.Rule)
}

// SpacingError: places of ordinates that the rule cannot take, because they are not evenly spaced.
type SpacingError struct {
	Rule       Rule
	Number     int     // of the interval that differs, the first being 0
	Is, Should float64 // that interval, and what the others have; equal for places that do not rise
}

func (e *SpacingError) Error() string {
	if e.Is <= 0 {
		return fmt.Sprintf("interval %d is %v long: the places must rise", e.Number, e.Is)
	}
	return fmt.Sprintf("the %s takes evenly spaced ordinates, but interval %d is %v and the others are %v: ordinates %v apart, or half of that next to the ends, would be right",
		e.Rule, e.Number, e.Is, e.Should, e.Should)
}

// LengthError: as many places as ordinates are needed.
type LengthError struct{ Places, Ordinates int }

func (e *LengthError) Error() string {
	return fmt.Sprintf("%d places for %d ordinates: each ordinate needs its place", e.Places, e.Ordinates)
}
