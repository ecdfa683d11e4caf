// Package finding is what was found when the boat's members were sounded: which stretches are sound, broken or decayed.
// What was not looked at is not known, and is never taken for sound.
package finding

import (
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
)

// State of a stretch of a member.
type State string

// The states. Unknown is written where somebody looked and could not tell; a member without any finding is unknown too.
const (
	Sound   State = "sound"
	Broken  State = "broken"
	Decayed State = "decayed"
	Unknown State = "unknown"
)

// Known reports whether s is one of the states.
func (s State) Known() bool { return s == Sound || s == Broken || s == Decayed || s == Unknown }

// Document is the findings as they are written, lengths as text in Notation.
type Document struct {
	Notation notation.Notation `json:"notation"`
	Findings []Row             `json:"findings"`
}

// Row is one finding: a stretch of a member, or of a run of them up to ThroughNo, on one side or both.
type Row struct {
	Member    boat.Member `json:"member"`
	ThroughNo int         `json:"through_no,omitempty"`
	State     State       `json:"state"`
	// From and To are places along the girth from the rabbet. Empty From stands for the heel and empty To for the head; a
	// row with neither is for whatever no other row of the member tells of.
	From string `json:"from,omitempty"`
	To   string `json:"to,omitempty"`
	Note string `json:"note,omitempty"`
}

// Bounds of what is read.
const (
	MaxRows    = 4000
	MaxNo      = 800
	MaxNote    = 400
	maxLength  = 100_000 // mm along the girth, more than any boat's
	mostFaults = 100
)
