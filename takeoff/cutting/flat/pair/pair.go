// Package pair lays an outline and the same outline again against each other, for cutting both out of one rectangle:
// curved floors and sawn frames of both sides, which are one outline turned over.
//
// All in whole units, tenths of a millimetre as a rule, exactly: the rectangle is the least of all in which the second
// outline lies as the first or turned by half a turn, and slid by whole units, sides along the grain and across it. A saw
// between the two needs room: grow the outline by half of what it takes.
package pair

import (
	"math"

	"ribband/takeoff/cutting/flat"
)

// Limits that keep every product inside int64.
const (
	MaxSide   = 100_000 // of an outline, 10 m in tenths of a millimetre
	MaxPoints = 500
)

// Point of an outline in whole units, X across the grain and Y along it.
type Point struct{ X, Y int64 }

// Outline makes points of an outline in millimetres, each rounded to the nearest of so many units to the millimetre: it
// moves by half a unit at most. An *OutlineError when a figure is none or too large.
func Outline(mm [][2]float64, perMillimetre int64) ([]Point, error) {
	out := make([]Point, len(mm))
	for i, p := range mm {
		x, y := math.Round(p[0]*float64(perMillimetre)), math.Round(p[1]*float64(perMillimetre))
		if !(math.Abs(x) <= 1<<40 && math.Abs(y) <= 1<<40) {
			return nil, &OutlineError{Points: []int{i}, Reason: "its figures are none, or out of all range"}
		}
		out[i] = Point{int64(x), int64(y)}
	}
	return out, nil
}

// Bounds is the bounding rectangle. An *OutlineError when the points make no outline.
func Bounds(outline []Point) (flat.Size, error) {
	s, err := read(outline)
	if err != nil {
		return flat.Size{}, err
	}
	return s.size, nil
}

// Fit is how two lie in a rectangle of Size: one as it is, the other, Turned by half a turn within its bounding rectangle
// or not, slid by DX and DY. What lies left of or below the first is negative.
type Fit struct {
	Size   flat.Size
	Turned bool
	DX, DY int64
}

// Least is the rectangle of least area for the pair; of several the one slid least along Y, then turned, then upwards.
// An *OutlineError when the points make no outline.
//
// For each slide along Y the slides along X at which the two overlap are open intervals between whole heights, so that
// the least that is left over is found without trying any. Slides along Y are tried from 0 outwards until the rectangle
// of the slide alone is no smaller than the best.
func Least(outline []Point) (Fit, error) {
	s, err := read(outline)
	if err != nil {
		return Fit{}, err
	}
	w, h := s.size.Width, s.size.Length
	best := Fit{Size: flat.Size{Width: 2 * w, Length: h}, DX: w}
	area := 2 * w * h
	turned := s.turned()
	try := func(second []slab, isTurned bool, dy int64) {
		dx := s.slide(second, dy)
		if size := (flat.Size{Width: w + max(dx, -dx), Length: h + max(dy, -dy)}); size.Width*size.Length < area {
			area, best = size.Width*size.Length, Fit{size, isTurned, dx, dy}
		}
	}
	for up := int64(0); up <= h && w*(h+up) < area; up++ {
		try(turned, true, up)
		if up > 0 {
			try(turned, true, -up)
		}
		try(s.slabs, false, up) // slid down, the two change places
	}
	return best, nil
}
