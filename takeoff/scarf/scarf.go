// Package scarf is the joint by which a new piece is let into an old frame: two tapers glued face to face.
//
// A feather scarf of slope s on a piece t deep is s x t long, its face t x sqrt(1 + s^2), its angle atan(1/s) (geometry).
// On a bent frame the taper is laid along the curve: at every place along the faying face the cut lies as deep as its
// share of the taper. A straight edge laid across a bent frame leaves the wood early: see Straight.
package scarf

import (
	"fmt"
	"math"
)

// Feather is a scarf that runs out to nothing at both ends.
type Feather struct {
	Slope float64 // length to one of depth
	Depth float64 // mm, of the frame from faying to inner face
}

// Bounds of a slope: a butt joins nothing, and nobody planes a taper of fifty.
const (
	LeastSlope = 1
	MostSlope  = 50
)

// RangeError: a number that makes no scarf.
type RangeError struct {
	What  string
	Value float64
	Right string
}

func (e *RangeError) Error() string {
	return fmt.Sprintf("the %s is %v; it is %s", e.What, e.Value, e.Right)
}

// Check refuses a slope or a depth out of bounds with a *RangeError.
func (f Feather) Check() error {
	if !(f.Slope >= LeastSlope && f.Slope <= MostSlope) {
		return &RangeError{"slope of the scarf", f.Slope, fmt.Sprintf("from %d to %d to one", LeastSlope, MostSlope)}
	}
	if !(f.Depth > 0) || math.IsInf(f.Depth, 0) {
		return &RangeError{"depth of the scarf, mm,", f.Depth, "above 0"}
	}
	return nil
}

// Length of the taper along the faying face, mm.
func (f Feather) Length() float64 { return f.Slope * f.Depth }

// Face is the length of the glued face, mm, of a straight piece.
func (f Feather) Face() float64 { return f.Depth * math.Hypot(1, f.Slope) }

// Angle of the cut from the faying face, radians.
func (f Feather) Angle() float64 { return math.Atan2(1, f.Slope) }
