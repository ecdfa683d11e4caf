package strake

import "fmt"

// CountError says that a count of strakes or of steps along them is outside what is taken.
type CountError struct {
	What          string
	Got, Min, Max int
}

func (e *CountError) Error() string {
	return fmt.Sprintf("%s is %d; it must be %d to %d", e.What, e.Got, e.Min, e.Max)
}

// EdgeError says where given edges do not rise from the rabbet to the sheer: Edge counts from 0 at the rabbet,
// X is the place in millimetres, Below and At are the fractions of the edge underneath and of this one.
type EdgeError struct {
	Edge      int
	X         float64
	Below, At float64
}

func (e *EdgeError) Error() string {
	return fmt.Sprintf("edge %d at x %g mm lies at %g of the girth and the one below it at %g; edges must rise from 0 to 1",
		e.Edge, e.X, e.At, e.Below)
}

// ShapeError says that given edges are not one row of fractions for each station.
type ShapeError struct{ Row, Want, Got int }

func (e *ShapeError) Error() string {
	return fmt.Sprintf("edges, row %d: %d values where %d belong", e.Row, e.Got, e.Want)
}

// LengthError says that the surface gave no number, or no length, for a strake.
type LengthError struct{ Strake int }

func (e *LengthError) Error() string {
	return fmt.Sprintf("strake %d has no shape: the surface gives no length there", e.Strake)
}

// PlaceError says that a place to lay out at does not rise within the surface: At counts from 0, lengths are millimetres.
type PlaceError struct {
	At              int
	X, Forward, Aft float64
}

func (e *PlaceError) Error() string {
	return fmt.Sprintf("place %d is at %g mm; places must rise from %g to %g mm", e.At, e.X, e.Forward, e.Aft)
}

// ReachError says that edges are given for less than the whole surface; x is in millimetres.
type ReachError struct{ From, To, Forward, Aft float64 }

func (e *ReachError) Error() string {
	return fmt.Sprintf("edges are given from %g to %g mm, the surface reaches from %g to %g; give them at both its ends", e.From, e.To, e.Forward, e.Aft)
}

// KnuckleError says that a strake lies across a knuckle: Strake counts from 0 at the rabbet, Knuckle from 1, At is the
// knuckle's u, X the place in millimetres and Row the row of edges there, -1 where it is none of those given.
type KnuckleError struct {
	Strake, Knuckle int
	At              float64
	Row             int
	X               float64
}

func (e *KnuckleError) Error() string {
	return fmt.Sprintf("strake %d lies across knuckle %d at x %g mm, or its edge leaves the knuckle there; a knuckle is a seam all along", e.Strake+1, e.Knuckle, e.X)
}
