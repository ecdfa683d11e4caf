package takeoff

import (
	"errors"
	"fmt"
	"math"

	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
)

// TargetError: frames whose target cannot be known, all at once. The faults name frame and side in their detail, and
// point at the frame's row in its document.
type TargetError struct{ Faults document.Faults }

func (e *TargetError) Error() string { return "targets that cannot be known: " + e.Faults.Error() }

// oneStation, mm: a station nearer to a frame than this is a measure of that very frame's place, and is left out where
// the frame is faired by the others; beside a pattern it is the pattern, the newer, that counts. Lines run along the boat
// through places closer together would swing. Assumption: no frames stand closer.
const oneStation = 100.0

// aim gives every stand its target, the target's shape, and how far it lies off what was found.
func (b Basis) aim(stands []stand, at map[boat.Member]int) error {
	var wrong document.Faults
	others := map[boat.Side][]*hull.Section{}
	for _, side := range boat.Sides {
		others[side] = b.others(stands, side)
	}
	for i := range stands {
		s := &stands[i]
		if s.laid != nil {
			fault, err := b.lie(s)
			if err != nil {
				return fmt.Errorf("%s: %w", s.frame.Member(), err)
			}
			if fault != nil {
				wrong = append(wrong, *fault)
			}
			continue
		}
		tape, fault, err := b.target(s, stands, at, others)
		if err != nil {
			return fmt.Errorf("%s: %w", s.frame.Member(), err)
		}
		if fault != nil {
			fault.Pointer, fault.Detail = s.frame.Pointer, s.frame.Member().String()+": "+fault.Detail
			wrong = append(wrong, *fault)
			continue
		}
		if s.target == nil {
			s.shape = tape.Shape(s.frame.Moulded.InexactFloat64())
			continue
		}
		if s.shape, err = shape(s.target, s.frame); err != nil {
			return fmt.Errorf("%s: %w", s.frame.Member(), err)
		}
		if err := b.compare(s); err != nil {
			return fmt.Errorf("%s: %w", s.frame.Member(), err)
		}
	}
	if len(wrong) > 0 {
		return &TargetError{wrong}
	}
	return nil
}

// target puts the section that a stand is to have into it, or returns the tape that stands for one.
func (b Basis) target(s *stand, stands []stand, at map[boat.Member]int, others map[boat.Side][]*hull.Section) (*frame.Tape, *document.Fault, error) {
	f := s.frame
	var err error
	switch f.Wanted() {
	case frame.FromLines:
		if s.target, err = b.lines(f); notGiven(err) || err == nil && s.target == nil {
			detail := "it is to be as the lines have it, and there are none here"
			if err != nil && !f.Square() {
				detail += ": " + err.Error()
			}
			return nil, &document.Fault{Detail: detail, Fix: "measure stations out to this frame, or choose another target"}, nil
		}
		return nil, nil, err
	case frame.Faired:
		s.target, err = hull.AmongIn(besides(others[f.Side], f.X.InexactFloat64()), f.Plane(), f.Side)
		var few *hull.FewSectionsError
		var beyond *hull.OutsideError
		var unlike *hull.KnucklesError
		switch {
		case errors.As(err, &few):
			return nil, &document.Fault{Detail: "it cannot be faired: " + few.Error(), Fix: "measure more stations or take more patterns on this side, or choose another target"}, nil
		case errors.As(err, &unlike):
			return nil, &document.Fault{Detail: "it cannot be faired: " + unlike.Error(), Fix: "give the same knuckles at every station and pattern of this side, or choose another target"}, nil
		case errors.As(err, &beyond):
			return nil, &document.Fault{Detail: fmt.Sprintf("it cannot be faired: the other sections reach from %s to %s aft of station 0, not past it both ways", b.length(beyond.Forward), b.length(beyond.Aft)),
				Fix: "measure a station or take a pattern beyond this frame, or choose another target"}, nil
		case notGiven(err):
			return nil, &document.Fault{Detail: "it cannot be faired: " + err.Error(), Fix: "measure a station or take a pattern beyond this frame, or choose another target"}, nil
		}
		return nil, nil, err
	case frame.BetterSideMirrored:
		j, ok := at[boat.Member{Kind: boat.Frame, No: f.No, Side: f.BetterSide}]
		if !ok {
			return nil, &document.Fault{Detail: fmt.Sprintf("it is to be as the %s side has it, where there is no frame %d", f.BetterSide, f.No), Fix: "enter the frame of the better side, or choose another target"}, nil
		}
		s.target = stands[j].found
		return stands[j].frame.Tape, nil, nil
	}
	s.target = s.found
	return f.Tape, nil, nil
}

// others are the sections of one side that a fair line may run through: its patterns, and its stations away from them.
func (b Basis) others(stands []stand, side boat.Side) []*hull.Section {
	var out []*hull.Section
	for _, s := range stands {
		// A pattern of a frame that does not stand square across the boat is no section of hers.
		if s.frame.Side == side && s.frame.Square() && s.found != nil && s.found.RestsOn == boat.OnPattern {
			out = append(out, s.found)
		}
	}
	if b.Hull == nil {
		return out
	}
	patterns := out
	for _, m := range b.Hull.Measures() {
		if m.Section.Side == side && len(besides(patterns, m.X)) == len(patterns) {
			out = append(out, m.Section)
		}
	}
	return out
}

// besides leaves out the sections at x itself.
func besides(sections []*hull.Section, x float64) []*hull.Section {
	var out []*hull.Section
	for _, s := range sections {
		if math.Abs(s.X-x) >= oneStation {
			out = append(out, s)
		}
	}
	return out
}

// compare lays the target over what was found, and a pattern over the lines.
func (b Basis) compare(s *stand) error {
	if s.found == nil {
		return nil
	}
	if s.frame.Wanted() != frame.AsFound {
		d := differenceOf(s.found, s.target)
		d.Shored = b.beyond(d.Greatest)
		s.difference = &d
	}
	if s.found.RestsOn != boat.OnPattern {
		return nil
	}
	lines, err := b.lines(s.frame)
	if notGiven(err) {
		return nil
	}
	if err == nil && lines != nil {
		s.offLines = offLinesOf(s.found, lines, b.Patterns.Points(s.frame.Member()))
	}
	return err
}
