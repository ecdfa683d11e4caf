// Package frame is the ribs of the boat: where they stand, how heavy they are, and what replacing one takes.
package frame

import (
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// Document is the frames as they are written, lengths as text in Notation.
type Document struct {
	Notation notation.Notation `json:"notation"`
	// MouldingFace is the face that a frame's place is measured to and its shape is taken at: forward or aft. A row may
	// say otherwise for its frame, as the fore and the after body often do.
	MouldingFace Face `json:"moulding_face"`
	// Grain is what taped lengths were read to, in Notation; empty takes the notation's own, zero says that they are
	// exact. A tape may say its own.
	Grain string `json:"grain,omitempty"`
	// Spacing stands for a run of frames alike; Frames are single ones, and override those of the run: a row of a frame
	// of the run may leave out x, siding and moulded, at the head too, which are then the run's.
	Spacing *Spacing `json:"spacing,omitempty"`
	// Planking that the frames carry; with it and the yard's rule of fastenings these are counted.
	Planking *PlankingDocument `json:"planking,omitempty"`
	Frames   []Row             `json:"frames,omitempty"`
}

// Face is one of a frame's two sided faces.
type Face string

// The face towards the bow, and the one towards the stern.
const (
	Forward Face = "forward"
	Aft     Face = "aft"
)

// Spacing is a run of frames: Count of them from FirstNo on, the first at FirstX, Spacing apart, both sides alike.
type Spacing struct {
	FirstNo int    `json:"first_no"`
	Count   int    `json:"count"`
	FirstX  string `json:"first_x"`
	Spacing string `json:"spacing"`
	Siding  string `json:"siding"`
	Moulded string `json:"moulded"`
	// SidingHead and MouldedHead where frames taper: siding and moulded are then those at the heel.
	SidingHead  string `json:"siding_head,omitempty"`
	MouldedHead string `json:"moulded_head,omitempty"`
	// Species is the code of the wood that the frames are of; empty where nobody knows.
	Species string `json:"species,omitempty"`
}

// Row is one frame, on one side or both.
type Row struct {
	No      int       `json:"no"`
	Side    boat.Side `json:"side"`
	X       string    `json:"x,omitempty"`
	Siding  string    `json:"siding,omitempty"`
	Moulded string    `json:"moulded,omitempty"`
	// SidingHead and MouldedHead of a frame that tapers: siding and moulded are then those at the heel.
	SidingHead  string `json:"siding_head,omitempty"`
	MouldedHead string `json:"moulded_head,omitempty"`
	// MouldingFace where it is not the document's.
	MouldingFace Face `json:"moulding_face,omitempty"`
	// CantDeg is how many degrees the frame is turned from square across the boat about the plumb line at its x, a plain
	// decimal: positive where it runs aft as it goes outboard, on either side. Lean is how far its head stands abaft of
	// where it would upright, along the boat; negative before. Empty stands for none.
	CantDeg string `json:"cant_deg,omitempty"`
	Lean    string `json:"lean,omitempty"`
	// Run is given of a bent frame that lies flat on the planking: how far its head stands aft of its heel, which is at x;
	// negative forward. Zero says that it lies flat with its head square above its heel.
	Run string `json:"run,omitempty"`
	// Tape where the frame was taken by a tape.
	Tape *TapeRow `json:"tape,omitempty"`
	// Target is the shape that the new frame is given; empty is as_found. BetterSide is the side that is mirrored.
	Target     Target    `json:"target,omitempty"`
	BetterSide boat.Side `json:"better_side,omitempty"`
	// Species is the code of the wood that the frame is of; empty takes that of its run, and is unknown where that has none.
	Species string `json:"species,omitempty"`
}

// Frame is one rib on one side. X is the place of its moulding face aft of station 0, of one that does not stand square
// across the boat where its plane meets the centreline at the heel; lengths are exact millimetres.
type Frame struct {
	No      int
	Side    boat.Side
	X       decimal.Decimal
	Siding  decimal.Decimal
	Moulded decimal.Decimal
	// SidingHead and MouldedHead of a frame that tapers, evenly from the rabbet to the sheer; 0 for what it is at the heel, and
	// never more than that.
	SidingHead, MouldedHead decimal.Decimal
	// Cant, degrees, and Lean, mm, are how the frame stands: see Row.
	Cant, Lean decimal.Decimal
	// Run, mm, of a frame that lies flat on the planking, in no plane; otherwise nil.
	Run *decimal.Decimal
	// MouldingFace decides the sign of the frame's bevel.
	MouldingFace Face
	// Tape is nil where the frame was not taken by one.
	Tape *Tape
	// Target is the shape that the new frame is given; empty stands for AsFound. BetterSide is the side whose shape it
	// is where that is the better side mirrored: this frame's own side is then found as it should be.
	Target     Target
	BetterSide boat.Side
	// Planking that the frame carries; nil where the document does not say.
	Planking *Planking
	// Pointer is where the document has it: its row, or the run it is of.
	Pointer string
	// Species is the code of the wood that the frame is of as it stands; empty where nobody wrote it down.
	Species string
}

// Member is the frame as a member of the boat.
func (f Frame) Member() boat.Member { return boat.Member{Kind: boat.Frame, No: f.No, Side: f.Side} }

// MaxFrames is how many frames a side may have.
const MaxFrames = 400

// MaxScantling, mm, is the greatest siding or moulded depth that is taken: more than any boat's, and less than a slip of
// the unit.
const MaxScantling = 1000
