package area

import "fmt"

// WindowError: a part of the side that is none: its bounds are no numbers, or run the wrong way.
type WindowError struct {
	Of       string // what it bounds: "x", "fraction of the girth", "height"
	From, To float64
}

func (e *WindowError) Error() string {
	return fmt.Sprintf("from %v to %v is no stretch of %s: two numbers are needed, the lesser first", e.From, e.To, e.Of)
}

// OutsideError: a stretch that nowhere meets the measured stations.
type OutsideError struct{ From, To, Forward, Aft float64 } // mm

func (e *OutsideError) Error() string {
	return fmt.Sprintf("nothing was measured between x %v and %v mm: the stations reach from %v to %v mm", e.From, e.To, e.Forward, e.Aft)
}

func (e *CountError) Error() string {
	return fmt.Sprintf("%d girths for %d stations: each station needs its own", e.Girths, e.Stations)
}
