package takeoff

import (
	"fmt"

	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
)

// UnshapedError: a frame whose shape cannot be laid down, with what would change that.
type UnshapedError struct {
	Member      boat.Member
	Detail, Fix string
}

func (e *UnshapedError) Error() string { return fmt.Sprintf("%s: %s", e.Member, e.Detail) }

// Shaped is the section that one frame is to have: its target's, as Run has it. Other frames need not be measured.
// Errors are *UnshapedError.
func (b Basis) Shaped(m boat.Member) (frame.Frame, *hull.Section, error) {
	f, section, _, err := b.shaped(m)
	if err == nil && section == nil {
		err = &UnshapedError{m, "it was taken by a tape, which tells its bend and not its line", "its pattern, points from heel to head"}
	}
	return f, section, err
}

// shaped is a frame with the section that it is to have, or with its tape where that is all there is.
func (b Basis) shaped(m boat.Member) (frame.Frame, *hull.Section, *frame.Tape, error) {
	stands, at := make([]stand, len(b.Frames)), map[boat.Member]int{}
	for i, f := range b.Frames {
		at[f.Member()], stands[i] = i, stand{frame: f}
	}
	i, ok := at[m]
	if !ok {
		return frame.Frame{}, nil, nil, &UnshapedError{m, "there is no such frame", "the number of a frame of the job"}
	}
	s := &stands[i]
	if s.frame.Flat() {
		return frame.Frame{}, nil, nil, &UnshapedError{m, "it lies flat on the planking and twists with it, so it has no shape in one plane", "its measures, which tell length, bends, sweep and twist"}
	}
	for i := range stands {
		f := stands[i].frame
		if !looksAt(s.frame, f) {
			continue
		}
		found, l, err := b.standing(f)
		if err != nil && !notGiven(err) {
			return frame.Frame{}, nil, nil, fmt.Errorf("%s: %w", f.Member(), err)
		}
		stands[i].found, stands[i].laid = found, l
	}
	others := map[boat.Side][]*hull.Section{}
	if s.frame.Wanted() == frame.Faired {
		others[m.Side] = b.others(stands, m.Side)
	}
	tape, fault, err := b.target(s, stands, at, others)
	switch {
	case err != nil:
		return frame.Frame{}, nil, nil, fmt.Errorf("%s: %w", m, err)
	case fault != nil:
		return frame.Frame{}, nil, nil, &UnshapedError{m, fault.Detail, fault.Fix}
	case s.target == nil && tape == nil:
		return frame.Frame{}, nil, nil, &UnshapedError{m, (&UnmeasuredError{Lines: b.Hull != nil}).plain(b, m), "stations measured out to the frame, or its pattern"}
	}
	return s.frame, s.target, tape, nil
}

// looksAt says whether the shape that a frame is to have may depend on another's: on its own, on all of its side where it is
// faired, and on that of the better side where that is mirrored.
func looksAt(f, other frame.Frame) bool {
	switch f.Wanted() {
	case frame.Faired:
		return f.Side == other.Side
	case frame.BetterSideMirrored:
		return f.No == other.No
	}
	return f.Member() == other.Member()
}

// plain is the detail of one member with the reach of the lines.
func (e *UnmeasuredError) plain(b Basis, m boat.Member) string {
	if b.Hull != nil {
		e.Forward, e.Aft = b.reach()
	}
	return e.Detail(m)
}
