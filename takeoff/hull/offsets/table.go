package offsets

import (
	"math"

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
	// Surface is the face of the plank that was measured: Inside or Outside.
	Surface string
	// Stations from forward: numbers and x both rise.
	Stations []Station
	// Stem and Transom are the ends in profile, heights rising; empty where they were not measured.
	Stem, Transom []Profile
	// Diagonals as they were declared.
	Diagonals []Diagonal

	places *places // of the cells in the CSV, nil for a JSON document
}

// Profile is a place on the stem or the transom: at the height Z it stands X aft of station 0.
type Profile struct{ Z, X notation.Length }

// Diagonal is a plane that leaves the middle line at the height Z and runs down and outboard, Angle radians from the
// middle line.
type Diagonal struct {
	Name  string
	Z     notation.Length
	Angle float64
}

// along is the direction of the diagonal in the section, outboard and up.
func (d Diagonal) along() (y, z float64) { return math.Sin(d.Angle), -math.Cos(d.Angle) }

// Station is a transverse section at which the boat was measured.
type Station struct {
	No int
	X  notation.Length // aft from station 0
	// Port and Starboard are the points of each side in order from the rabbet to the sheer: first the rabbet,
	// then waterlines by height with the buttocks where they lengthen the line least, last the sheer.
	Port, Starboard []Mark
	// Thickness of the plank here; nothing where the table does not give it.
	Thickness notation.Length
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
	// Cell names it as the table does: "rabbet", "sheer", "wl:1-0-0", "buttock:0-6-0", "diagonal:A", "knuckle:chine".
	Cell string
	Y, Z notation.Length // half-breadth, height
	Kind fair.Kind       // which of the two was measured
	// DY, DZ is the direction a diagonal was measured along; nothing for other kinds.
	DY, DZ float64
	// Knuckle names the knuckle that the section has here; empty where it is fair.
	Knuckle string
	// Pointer is the JSON pointer to the measured cell of the Document.
	Pointer string
}
