package dxf

import "fmt"

// Point in millimetres.
type Point struct{ X, Y, Z float64 }

// Drawing is layers of lines and words.
type Drawing struct {
	// Notes stand as comments at the head of the file.
	Notes  []string
	Layers []Layer
}

// Layer is what belongs together. A name is capital letters, figures and _, at most 31 of them.
type Layer struct {
	Name string
	// Colour is the number of a pen, 1 to 255; 7 is black on white paper.
	Colour int
	Lines  []Line
	Texts  []Text
}

// Line is straight pieces through points, of which there are at least two. One of two points is written as LINE.
type Line struct {
	Points []Point
	// Space: the points differ in Z. Without it they lie in the plane and their Z is not written.
	Space bool
}

// Text is one line of writing that starts at its place.
type Text struct {
	At     Point
	Height float64 // of capital letters, mm
	String string
	// Across: it stands upright in the plane square to X, to be read by whoever looks along X from its lower end: Y runs
	// to the reader's left, Z up.
	Across bool
}

// NameError: a layer's name that cannot be written, or that stands twice.
type NameError struct{ Name string }

func (e *NameError) Error() string {
	return fmt.Sprintf("the layer %q: a name is capital letters, figures and _, at most 31, and stands once", e.Name)
}

// NumberError: a number that no drawing can hold.
type NumberError struct {
	Layer string
	Value float64
}

func (e *NumberError) Error() string {
	return fmt.Sprintf("layer %s: %v mm is not a place on a drawing; numbers are finite and at most %d mm", e.Layer, e.Value, int(farthest))
}

// farthest, mm: a kilometre is longer than every boat.
const farthest = 1e6

// ShortError: a line without two points.
type ShortError struct{ Layer string }

func (e *ShortError) Error() string { return "layer " + e.Layer + ": a line has at least two points" }
