package offsets

import (
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
)

// Inside is the only surface taken: offsets to the inside of plank. Outside is recognised and refused.
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
	// Surface says which face the offsets are to: Inside.
	Surface string `json:"surface"`
	// Stations from forward, by number and by x.
	Stations []StationOffsets `json:"stations"`
}

// StationOffsets is one station of a table.
type StationOffsets struct {
	No    int           `json:"no"`
	X     string        `json:"x"` // aft from station 0
	Sides []SideOffsets `json:"sides"`
}

// SideOffsets are the cells of one side at one station, or of both where they are alike. Cells under Both count
// for each side beside its own; the same cell twice is a fault.
type SideOffsets struct {
	Side       boat.Side          `json:"side"`
	Rabbet     *EndOffsets        `json:"rabbet,omitempty"`
	Sheer      *EndOffsets        `json:"sheer,omitempty"`
	Waterlines []WaterlineOffsets `json:"waterlines,omitempty"`
	Buttocks   []ButtockOffsets   `json:"buttocks,omitempty"`
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
