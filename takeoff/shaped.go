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
		at[f.Member()] = i
		found, l, err := b.standing(f)
		if err != nil && !notGiven(err) {
			return frame.Frame{}, nil, nil, fmt.Errorf("%s: %w", f.Member(), err)
		}
		stands[i] = stand{frame: f, found: found, laid: l}
	}
	i, ok := at[m]
	if !ok {
		return frame.Frame{}, nil, nil, &UnshapedError{m, "there is no such frame", "the number of a frame of the job"}
	}
	s := &stands[i]
	if s.frame.Flat() {
		return frame.Frame{}, nil, nil, &UnshapedError{m, "it lies flat on the planking and twists with it, so it has no shape in one plane", "its measures, which tell length, bends, sweep and twist"}
	}
	others := map[boat.Side][]*hull.Section{m.Side: b.others(stands, m.Side)}
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

// plain is the detail of one member with the reach of the lines.
func (e *UnmeasuredError) plain(b Basis, m boat.Member) string {
	if b.Hull != nil {
		e.Forward, e.Aft = b.Hull.Reach()
	}
	return e.Detail(m)
}
