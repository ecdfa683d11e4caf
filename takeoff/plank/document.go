// Package plank is the planks that an option renews: which pieces of which strakes come out, and what the new planks take.
// How long and wide a board they ask for comes from the strakes laid out flat, or from a tape.
package plank

import (
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// Document is the planks that an option renews, lengths as text in Notation.
type Document struct {
	Notation notation.Notation `json:"notation"`
	Planks   []Row             `json:"planks"`
}

// Row is a piece of a strake that is renewed, on one side or both, or the whole strake with all its planks. The piece runs
// from a frame to a frame, or from a place aft of station 0 to another; it comes out with the shortest plank that the rules of
// butts allow.
type Row struct {
	Strake    int       `json:"strake"`
	Side      boat.Side `json:"side"`
	Whole     bool      `json:"whole,omitempty"`
	FromFrame *int      `json:"from_frame,omitempty"`
	ToFrame   *int      `json:"to_frame,omitempty"`
	From      string    `json:"from,omitempty"`
	To        string    `json:"to,omitempty"`
	Species   string    `json:"species"`
	Grade     string    `json:"grade"`
	// Thickness of the finished plank, where it is not the planking's.
	Thickness string `json:"thickness,omitempty"`
	// ByHand is its size where that was taped off the plank: then nothing is found, and this is the plank.
	ByHand *ByHandRow `json:"by_hand,omitempty"`
}

// ByHandRow is the board that the plank asks for, its round in it: along it and across.
type ByHandRow struct {
	Length string `json:"length"`
	Width  string `json:"width"`
}

// Plank is a Row read, of one side. Lengths are exact mm.
type Plank struct {
	Row    int // of the document
	Strake int // from 1, the garboard
	Side   boat.Side
	Whole  bool
	// FromFrame and ToFrame are nil where From and To say where the piece is, or nothing does.
	FromFrame, ToFrame *int
	// Placed says that From and To hold, mm aft of station 0, those of frames too.
	Placed         bool
	From, To       decimal.Decimal
	Species, Grade string
	Thickness      decimal.Decimal // 0 where it is the planking's
	ByHand         *ByHand
}

// ByHand is ByHandRow read.
type ByHand struct{ Length, Width decimal.Decimal }

// Member is the strake that the plank is of.
func (p Plank) Member() boat.Member {
	return boat.Member{Kind: boat.Strake, No: p.Strake, Side: p.Side}
}

// Bounds of what is read, mm where lengths: more than any plank's, and less than a slip of the unit.
const (
	MaxPlanks    = 200
	MaxStrake    = 60
	MaxThickness = 200
	MaxWidth     = 1000
	MaxLength    = 30_000
)
