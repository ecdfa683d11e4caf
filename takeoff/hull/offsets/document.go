package offsets

import (
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
)

// The face of the plank that offsets are to.
const (
	Inside  = "inside"
	Outside = "outside"
)

// Document is a table of offsets as it was written: every cell is the text on paper, in the table's one notation.
// An empty or absent cell was not measured; it is never nothing or zero.
type Document struct {
	Notation notation.Notation `json:"notation"`
	// Grain is what the lengths were written to, in Notation ("0-0-1" for an eighth of an inch); empty takes the
	// notation's own, zero says that they are exact, as computed ones are.
	Grain string `json:"grain,omitempty"`
	// GrainAssumed says that nobody declared Grain and the notation's own was written there.
	GrainAssumed bool `json:"grain_assumed,omitempty"`
	// Surface says which face the offsets are to: Inside or Outside.
	Surface string `json:"surface"`
	// PlankThickness is that of the plank everywhere but at stations that give their own.
	PlankThickness string `json:"plank_thickness,omitempty"`
	// Diagonals are the planes that cells of stations may name.
	Diagonals []DiagonalPlane `json:"diagonals,omitempty"`
	// Stem and Transom are the ends of the boat in profile, from the lowest height up.
	Stem    []ProfileOffsets `json:"stem,omitempty"`
	Transom []ProfileOffsets `json:"transom,omitempty"`
	// Stations from forward, by number and by x.
	Stations []StationOffsets `json:"stations"`
}

// DiagonalPlane is a plane that runs down and outboard from the middle line. AngleDeg is the angle between it and the
// middle line below the height where it leaves it: 90 would be level, 45 halves the corner. Distances along it are
// measured from the middle line (the angle to the middle line: D. Kemp, 1880, as quoted of sailing canoes; distances
// from the middle line: from memory).
type DiagonalPlane struct {
	Name     string `json:"name"`
	Height   string `json:"height"`
	AngleDeg string `json:"angle_deg"`
}

// ProfileOffsets is where the stem or the transom stands at a height.
type ProfileOffsets struct {
	Height string `json:"height"`
	X      string `json:"x,omitempty"` // aft from station 0; forward of it with a leading minus
}

// StationOffsets is one station of a table.
type StationOffsets struct {
	No int    `json:"no"`
	X  string `json:"x"` // aft from station 0
	// PlankThickness of this station, where it differs from the table's.
	PlankThickness string        `json:"plank_thickness,omitempty"`
	Sides          []SideOffsets `json:"sides"`
}

// SideOffsets are the cells of one side at one station, or of both where they are alike. Cells under Both count
// for each side beside its own; the same cell twice is a fault.
type SideOffsets struct {
	Side       boat.Side          `json:"side"`
	Rabbet     *EndOffsets        `json:"rabbet,omitempty"`
	Sheer      *EndOffsets        `json:"sheer,omitempty"`
	Waterlines []WaterlineOffsets `json:"waterlines,omitempty"`
	Buttocks   []ButtockOffsets   `json:"buttocks,omitempty"`
	Diagonals  []DiagonalOffsets  `json:"diagonals,omitempty"`
	// Knuckles at which the section has a corner. Each is given at every station of the side or at none: where the
	// section is fair there, as the point that the knuckle's line runs through.
	Knuckles []KnuckleOffsets `json:"knuckles,omitempty"`
}

// KnuckleOffsets is the point of a knuckle, both its measures written.
type KnuckleOffsets struct {
	Name        string `json:"name"`
	Height      string `json:"height,omitempty"`
	HalfBreadth string `json:"half_breadth,omitempty"`
}

// EndOffsets is a point at an end of the section, both its measures written.
type EndOffsets struct {
	Height      string `json:"height,omitempty"`       // above the baseline; below it with a leading minus
	HalfBreadth string `json:"half_breadth,omitempty"` // from the centreline
}

// WaterlineOffsets is the half-breadth at a given height.
type WaterlineOffsets struct {
	Height      string `json:"height"`
	HalfBreadth string `json:"half_breadth,omitempty"`
}

// ButtockOffsets is the height at a given half-breadth.
type ButtockOffsets struct {
	HalfBreadth string `json:"half_breadth"`
	Height      string `json:"height,omitempty"`
}

// DiagonalOffsets is the distance along a diagonal from the middle line, the diagonal by its name.
type DiagonalOffsets struct {
	Name     string `json:"name"`
	Distance string `json:"distance,omitempty"`
}
