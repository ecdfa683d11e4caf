package pattern

import (
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
)

// Document is the patterns of a boat as they were written: every length is the text on the board, in one notation.
type Document struct {
	Notation notation.Notation `json:"notation"`
	// Grain is what the points were read to, in Notation; empty takes the notation's own, zero says that they are exact.
	Grain string `json:"grain,omitempty"`
	// GrainAssumed says that nobody declared Grain and the notation's own was written there.
	GrainAssumed bool `json:"grain_assumed,omitempty"`
	// Surface is the face that the points lie at: inside, of the plank, which is the frame's faying face.
	Surface  string `json:"surface"`
	Patterns []Rows `json:"patterns"`
}

// Rows are the points of one frame on one side, or on both where they are alike, from heel to head.
type Rows struct {
	FrameNo int       `json:"frame_no"`
	Side    boat.Side `json:"side"`
	// Grain is what these points were read to where it is not what the document's were, in its notation; empty takes the
	// document's, zero says that they are exact.
	Grain  string `json:"grain,omitempty"`
	Points []Row  `json:"points"`
}

// Row is one point: its number in the pattern, counted from 1 at the heel, its distance from the centreline and its
// height above the baseline (below it with a leading minus).
type Row struct {
	N int    `json:"n"`
	Y string `json:"y"`
	Z string `json:"z"`
	// Knuckle is the name of the corner that the point is, where it is one.
	Knuckle string `json:"knuckle,omitempty"`
}

// Limits of one document. Assumption: all of them are the house's; use may move them.
const (
	MaxTableBytes = 4 << 20 // of a CSV
	MaxTableRows  = 20_000  // of a CSV below the header
	MaxRowBytes   = 500     // of one line of a CSV
	MaxPatterns   = 800
	MaxPoints     = 100 // of one pattern
	MaxFrameNo    = 800
	MaxFaults     = 1000
	// MinPoints that differ where there is no knuckle: below that no range can be stated of a bend.
	MinPoints = 5
	// MaxKnuckleName, bytes.
	MaxKnuckleName = 40
)

// maxGrain, mm: nobody picks up points to the nearest two inches.
const maxGrain = 50
