// Package tally counts a supplier's list of boards: board feet by a named rule with its roundings told, cubic metres, what a
// grade promises of the faces, and what the boards weigh when they are lifted and carried.
//
// Sizes come in the writer's own units and are exact; nothing is rounded but where a rule rounds.
package tally

import (
	"ribband/takeoff/notation"
	"ribband/takeoff/timber"
)

// Rule is how a list is counted.
type Rule string

// The rules.
const (
	// SurfaceMeasure is rough hardwood's: each face rounded to the whole foot, the faces of a thickness added, times the
	// thickness, rounded.
	SurfaceMeasure Rule = "surface_measure"
	// Exact is thickness x width x length / 12 and no rounding: baulks and long timbers.
	Exact Rule = "exact"
	// NominalSoftwood is exact on nominal sizes; what the boards really measure is less.
	NominalSoftwood Rule = "nominal_softwood"
	// CubicMetre is metric stock's: the sides multiplied.
	CubicMetre Rule = "cubic_metre"
)

// Rules in the order they are offered.
var Rules = []Rule{SurfaceMeasure, Exact, NominalSoftwood, CubicMetre}

// Written is how the sizes are written: as suppliers of hardwood list them, or in one of the notations of lengths.
type Written string

// InchesAndFeet is thickness in quarters or inches, width in inches, length in feet.
const InchesAndFeet Written = "inches_and_feet"

// Ways in the order they are offered.
var Ways = []Written{InchesAndFeet, Written(notation.FeetInchesEighths), Written(notation.Inches), Written(notation.Millimetres), Written(notation.Metres)}

// Measured says in what state the boards were measured.
type Measured string

// Before drying, which makes a gross tally, or after it, a net one.
const (
	Green Measured = "green"
	Dry   Measured = "dry"
)

// Dressed is what was done to softwood that is sold by nominal size.
type Dressed string

// Its sizes are those of the standard for each.
const (
	SurfacedDry   Dressed = "surfaced_dry"
	SurfacedGreen Dressed = "surfaced_green"
	RoughDry      Dressed = "rough_dry"
)

// Document is a list of boards as a supplier writes it.
type Document struct {
	Rule    Rule    `json:"rule"`
	Written Written `json:"written"`
	// Measured green or dry.
	Measured Measured `json:"measured"`
	// HalfFoot is what a face of exactly half a foot counts; where it is left out, what the yard's rules say.
	HalfFoot timber.Tie `json:"half_foot,omitempty"`
	// Grade by which hardwood is bought.
	Grade string `json:"grade,omitempty"`
	// Dressed of nominal softwood.
	Dressed Dressed `json:"dressed,omitempty"`
	// Species by its code and MoisturePct in which the boards are weighed; both or neither.
	Species     string `json:"species,omitempty"`
	MoisturePct string `json:"moisture_pct,omitempty"`
	// StatedBoardFeet is what the supplier says that it comes to.
	StatedBoardFeet string `json:"stated_board_feet,omitempty"`
	Boards          []Row  `json:"boards"`
}

// Row is boards alike.
type Row struct {
	Count     int64  `json:"count"`
	Thickness string `json:"thickness"`
	Width     string `json:"width"`
	Length    string `json:"length"`
}

// What one list may hold, and how large a board may be, inches and feet: far beyond what is sawn.
const (
	MostRows      = 500
	MostBoards    = 20_000
	MostThickness = 36
	MostWidth     = 72
	MostLength    = 120
)
