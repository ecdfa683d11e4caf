package offsets

import (
	"ribband/takeoff/boat"
	"ribband/takeoff/hull/fair"
	"ribband/takeoff/notation"
)

// Table is a table of offsets that has been read and checked. It is not changed after Read.
type Table struct {
	Notation notation.Notation
	// Grain is what the lengths were written to; zero for exact ones.
	Grain notation.Length
	// GrainAssumed says that the table did not declare its grain and the notation's own was taken.
	GrainAssumed bool
	// Stations from forward: numbers and x both rise.
	Stations []Station

	places *places // of the cells in the CSV, nil for a JSON document
}

// Station is a transverse section at which the boat was measured.
type Station struct {
	No int
	X  notation.Length // aft from station 0
	// Port and Starboard are the points of each side in order from the rabbet to the sheer: first the rabbet,
	// then waterlines by height with the buttocks where they lengthen the line least, last the sheer.
	Port, Starboard []Mark
	// Mirrored says that the two sides were written as one.
	Mirrored bool

	// Pointer is the JSON pointer to the station in the Document.
	Pointer string
}

// Marks of one side, which must be Port or Starboard; nil otherwise.
func (s *Station) Marks(side boat.Side) []Mark {
	switch side {
	case boat.Port:
		return s.Port
	case boat.Starboard:
		return s.Starboard
	}
	return nil
}

// Mark is one point of a section.
type Mark struct {
	// Cell names it as the table does: "rabbet", "sheer", "wl:1-0-0", "buttock:0-6-0".
	Cell string
	Y, Z notation.Length // half-breadth, height
	Kind fair.Kind       // which of the two was measured
	// Pointer is the JSON pointer to the measured cell of the Document.
	Pointer string
}
