package frame

import (
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
)

// Target is the shape that a new frame is to have. A pattern taken off a sagged side builds the sag in again.
type Target string

// As the frame was found; as a fair line through the others has it; as the boat's lines have it; or as the better side
// has it, mirrored.
const (
	AsFound            Target = "as_found"
	Faired             Target = "faired"
	FromLines          Target = "from_lines"
	BetterSideMirrored Target = "better_side_mirrored"
)

// Targets in the order they are offered.
var Targets = []Target{AsFound, Faired, FromLines, BetterSideMirrored}

// Known reports whether t is one of Targets.
func (t Target) Known() bool {
	for _, k := range Targets {
		if t == k {
			return true
		}
	}
	return false
}

// Wanted is the frame's target, AsFound where none was named and where the frame is on the better side itself.
func (f Frame) Wanted() Target {
	if f.Target == "" || f.Target == BetterSideMirrored && f.BetterSide == f.Side {
		return AsFound
	}
	return f.Target
}

// target reads the target of a row.
func (r *reader) target(p string, row Row) Target {
	if row.Target == "" {
		if row.BetterSide != "" {
			r.faults.Add(p+"/better_side", "leave it out, or say target better_side_mirrored", "a better side is named and nothing is mirrored")
		}
		return AsFound
	}
	if !row.Target.Known() {
		r.faults.Add(p+"/target", "as_found, faired, from_lines or better_side_mirrored", "the target %s is not known", notation.Quote(string(row.Target)))
		return AsFound
	}
	switch {
	case row.Target != BetterSideMirrored:
		if row.BetterSide != "" {
			r.faults.Add(p+"/better_side", "leave it out, or say target better_side_mirrored", "a better side is named and nothing is mirrored")
		}
	case row.BetterSide == "" && row.Side == boat.Both:
		r.faults.Add(p+"/better_side", "port or starboard: the side whose shape both get", "frame %d: both sides are to have the better one's shape, and none is named", row.No)
	case row.BetterSide != "" && !row.BetterSide.One():
		r.faults.Add(p+"/better_side", "port or starboard", "the better side %s is not one side", notation.Quote(string(row.BetterSide)))
	}
	return row.Target
}

// better is the side that a row's frame on this side is to be like.
func (row Row) better(side boat.Side) boat.Side {
	if row.Target != BetterSideMirrored {
		return ""
	}
	if row.BetterSide == "" {
		return side.Other()
	}
	return row.BetterSide
}
