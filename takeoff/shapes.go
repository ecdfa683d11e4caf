package takeoff

import (
	"errors"
	"fmt"
	"strings"

	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
)

// UnmeasuredError: frames of which nothing was measured, all at once: no pattern, no tape, and no stations about them.
type UnmeasuredError struct {
	Members []boat.Member
	// At is where the frames' document has each member, as a pointer.
	At map[boat.Member]string
	// Why says of members that do not stand square across the boat why her lines do not give them: *hull.ReachError or
	// *hull.PlaneError.
	Why map[boat.Member]error
	// Lines says that the boat has lines; Forward and Aft are then their reach aft of station 0, as the job writes lengths.
	Lines        bool
	Forward, Aft string
}

// unmeasuredFix is the three measurements of which any would do.
const unmeasuredFix = "stations measured out to the frame, or its pattern (points from heel to head), or its tape (girth, and chord and rise over the bilge)"

// Fix says what would do, the same for every member.
func (e *UnmeasuredError) Fix() string { return unmeasuredFix }

// Detail says of one member what is wanting.
func (e *UnmeasuredError) Detail(m boat.Member) string {
	if why := e.Why[m]; why != nil {
		return fmt.Sprintf("%s has neither a pattern nor a tape, and the boat's lines do not give it: %v", m, why)
	}
	if e.Lines {
		return fmt.Sprintf("%s stands outside the measured length, which runs from %s to %s aft of station 0, and has neither a pattern nor a tape", m, e.Forward, e.Aft)
	}
	return fmt.Sprintf("%s has neither a pattern nor a tape, and the boat has no lines", m)
}

func (e *UnmeasuredError) Error() string {
	names := make([]string, len(e.Members))
	for i, m := range e.Members {
		names[i] = m.String()
	}
	if e.Lines {
		return fmt.Sprintf("outside the measured length, which runs from %s to %s aft of station 0, and without pattern or tape: %s; each needs %s",
			e.Forward, e.Aft, strings.Join(names, ", "), unmeasuredFix)
	}
	return fmt.Sprintf("without pattern or tape, and the boat has no lines: %s; each needs %s", strings.Join(names, ", "), unmeasuredFix)
}

// stand is one frame and side as it was found, and what it is to be.
type stand struct {
	frame frame.Frame
	// found is the section as it was found, nil where the frame was taped.
	found *hull.Section
	// laid is the line of a frame that lies flat on the planking, otherwise nil; it has no section.
	laid *hull.Laid
	// target is the section that it is to have, nil where that is a taped shape.
	target *hull.Section
	// shape is the target's.
	shape frame.Shape
	// difference of the target from what was found; nil where they are the same, or it cannot be known.
	difference *frame.Difference
	// offLines is how far a pattern lies off the lines, 0 where there is not both.
	offLines offLines
}

// stands of all frames, in their order.
func (b Basis) stands() ([]stand, error) {
	out, at := make([]stand, len(b.Frames)), map[boat.Member]int{}
	missing := &UnmeasuredError{At: map[boat.Member]string{}, Why: map[boat.Member]error{}}
	if b.Hull != nil {
		missing.Lines = true
		missing.Forward, missing.Aft = b.reach()
	}
	for i, f := range b.Frames {
		at[f.Member()] = i
		s, l, err := b.standing(f)
		if notGiven(err) {
			if !f.Square() {
				missing.Why[f.Member()] = err
			}
		} else if err != nil {
			return nil, fmt.Errorf("%s: %w", f.Member(), err)
		}
		if s == nil && l == nil && f.Tape == nil {
			missing.Members, missing.At[f.Member()] = append(missing.Members, f.Member()), f.Pointer
		}
		out[i] = stand{frame: f, found: s, laid: l}
	}
	if len(missing.Members) > 0 {
		return nil, missing
	}
	if err := b.aim(out, at); err != nil {
		return nil, err
	}
	return out, nil
}

// standing is a frame's section as it was found, or its line where it lies flat on the planking; errors are those of
// foundAs.
func (b Basis) standing(f frame.Frame) (*hull.Section, *hull.Laid, error) {
	if !f.Flat() {
		s, err := b.foundAs(f)
		return s, nil, err
	}
	if b.Hull == nil {
		return nil, nil, nil
	}
	l, err := b.Hull.Laid(f.X.InexactFloat64(), f.Run.InexactFloat64(), f.Side)
	return nil, l, err
}

// foundAs is a frame's section as it was found: its pattern's, else none where it was taped, else that of the stations
// about it, whose error may be one of notGiven; none where there are no lines.
func (b Basis) foundAs(f frame.Frame) (*hull.Section, error) {
	x := f.X.InexactFloat64()
	if s, ok := b.Patterns.Section(f.Member(), x); ok {
		return s, nil
	}
	if f.Tape != nil || b.Hull == nil {
		return nil, nil
	}
	return b.lines(f)
}

// lines is the section that the boat's lines have at a frame, in its plane; none where there are no lines, and an error
// of notGiven where they do not give it.
func (b Basis) lines(f frame.Frame) (*hull.Section, error) {
	if b.Hull == nil {
		return nil, nil
	}
	return b.Hull.SectionIn(f.Plane(), f.Side)
}

// notGiven reports an error by which stations do not give the section of a frame: it lies outside of them, leaves them, or
// stands so that it has none.
func notGiven(err error) bool {
	var outside *hull.OutsideError
	var beyond *hull.ReachError
	var plane *hull.PlaneError
	return errors.As(err, &outside) || errors.As(err, &beyond) || errors.As(err, &plane)
}

// measures of the shape that a frame is to have, with how well it is known and what it lies off what was found.
func (b Basis) measures(s stand) (frame.Measures, error) {
	m := s.shape.Measure(s.frame)
	if w := s.frame.Wanted(); w != frame.AsFound {
		m.Target, m.Difference = w, s.difference
	}
	err := b.shown(s, &m)
	return m, err
}
