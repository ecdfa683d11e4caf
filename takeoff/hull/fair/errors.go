package fair

import "fmt"

// FewError says that the points are too few, or too few of them distinct, to
// draw a curve through.
type FewError struct {
	Distinct int // points that differ by more than a millionth of the girth
	Need     int
}

func (e *FewError) Error() string {
	return fmt.Sprintf("%d distinct points; a section needs at least %d: measure more points between rabbet and sheer", e.Distinct, e.Need)
}

// PointError says which value of which point cannot be used.
type PointError struct {
	Index  int    // place in the points given, from 0
	Field  string // "y", "z", "kind" or "direction"
	Value  float64
	Reason string // what is allowed
}

func (e *PointError) Error() string {
	return fmt.Sprintf("point %d: %s is %v; %s", e.Index+1, e.Field, e.Value, e.Reason)
}

// GrainError says that the grain is not a length the points can be written to.
type GrainError struct{ Grain float64 }

func (e *GrainError) Error() string {
	return fmt.Sprintf("grain is %v mm; it must lie between 0 (exact points) and %.0f mm", e.Grain, coordinateLimit)
}

// OrderError says that the points, taken in the order given, do not follow one
// curve: they double back on themselves, one is badly misread, or they are
// scattered.
type OrderError struct {
	Index int     // the point farthest from the curve, from 0; -1 where no curve was found at all
	Miss  float64 // how far, mm
}

func (e *OrderError) Error() string {
	where := "the points do not follow one curve in the order given"
	if e.Index >= 0 {
		where = fmt.Sprintf("the points do not follow one curve in the order given: point %d lies %.0f mm off the fairest one", e.Index+1, e.Miss)
	}
	return where + "; give them in order from rabbet to sheer, check what was read there, and split the section at its knuckles"
}

// RangeError says that a section has too few points for any range to be
// stated of its least radius.
type RangeError struct{ Points int }

func (e *RangeError) Error() string {
	return fmt.Sprintf("%d points; a range of the least radius needs at least %d: measure more points in the tightest bend", e.Points, rangeFrom)
}
