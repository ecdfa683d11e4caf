// Package floor is the floors of the boat: the timbers, or straps of metal, that cross the keel and join the frames of the
// two sides. Where one stands, how heavy it is and how far its arms reach is written down; its outline comes from the
// boat's sections.
package floor

import (
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// Document is the floors as they are written, lengths as text in Notation.
type Document struct {
	Notation notation.Notation `json:"notation"`
	Floors   []Row             `json:"floors"`
}

// Stands is where a floor lies beside the frames of its number, or over them.
type Stands string

// Before the frames or abaft of them, on the planking; or over them, on their inner faces.
const (
	Forward Stands = "forward"
	Aft     Stands = "aft"
	Over    Stands = "over"
)

// Row is one floor. It stands at the frames of its number unless X says where its forward face is, aft of station 0.
type Row struct {
	No     int    `json:"no"`
	Stands Stands `json:"stands,omitempty"`
	X      string `json:"x,omitempty"`
	// Siding is its thickness along the boat, Depth how deep it is over the keel, in the middle.
	Siding string `json:"siding"`
	Depth  string `json:"depth"`
	// Seat is how far the top of the keel lies above the rabbet, negative below it; empty for level with it.
	Seat string `json:"seat,omitempty"`
	// ArmEnd is how deep its arms are at their ends, square to the planking; empty where they run out to nothing.
	ArmEnd string `json:"arm_end,omitempty"`
	// Arm is how far both arms reach, Port and Starboard one where they differ.
	Arm       *ArmRow `json:"arm,omitempty"`
	Port      *ArmRow `json:"port,omitempty"`
	Starboard *ArmRow `json:"starboard,omitempty"`
	// ThroatRadius is the radius of the lower face over the keel of a floor that is bent, laid on a chock.
	ThroatRadius string `json:"throat_radius,omitempty"`
	// ByHand is its size where that was measured off the floor: it goes before what the sections give.
	ByHand *ByHandRow `json:"by_hand,omitempty"`
}

// ArmRow is how far an arm reaches, one of two: along the planking from the rabbet, or in height above the rabbet.
type ArmRow struct {
	Girth  string `json:"girth,omitempty"`
	Height string `json:"height,omitempty"`
}

// ByHandRow is the level rectangle round a floor: how wide it is from arm to arm, and how high. Along is its length along
// the lower face from end to end, asked for of one that is bent.
type ByHandRow struct {
	Across string `json:"across"`
	Height string `json:"height"`
	Along  string `json:"along,omitempty"`
}

// Floor is a Row read: exact mm.
type Floor struct {
	No     int
	Stands Stands
	// X is nil for a floor at the frames of its number.
	X                           *decimal.Decimal
	Siding, Depth, Seat, ArmEnd decimal.Decimal
	Port, Starboard             Reach
	// ThroatRadius is 0 where none is given, ByHand nil.
	ThroatRadius decimal.Decimal
	ByHand       *ByHand
}

// Reach of an arm: one of the two is above 0; neither of a floor that was measured by hand without.
type Reach struct{ Girth, Height decimal.Decimal }

// ByHand is ByHandRow read; Along is 0 where it is not given.
type ByHand struct{ Across, Height, Along decimal.Decimal }

// Member is the floor as a member of the boat: it is of neither side.
func (f Floor) Member() boat.Member { return boat.Member{Kind: boat.Floor, No: f.No} }

// Reach of an arm on one side.
func (f Floor) Reach(side boat.Side) Reach {
	if side == boat.Port {
		return f.Port
	}
	return f.Starboard
}

// Bounds of what is read, mm: more than any floor's, and less than a slip of the unit.
const (
	MaxFloors    = 400
	MaxNo        = 800
	MaxScantling = 1000
	MaxReach     = 10_000
)
