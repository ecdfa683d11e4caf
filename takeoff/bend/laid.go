package bend

import "fmt"

// Laid is how a stack lies on its form.
type Laid struct {
	// Face that the first laminate lies against.
	Face Face
	// Moulded depth of the frame and Stack, that of all laminates together, mm: what is over lies at the other face.
	Moulded, Stack float64
	// MouldedHead is the depth at the head of a frame that tapers evenly along its faying line, 0 of one that does not, and
	// RunsOut where its laminates end, from the heel. Those that end are laid last, so that they lie away from the form.
	MouldedHead float64
	RunsOut     []RunOut
	// Pitch of the ordinates, mm.
	Pitch float64
	// Marks are places along the frame's faying line, mm, to be told on the form.
	Marks []float64
}

// RunOut is what is left of a stack from a place along the frame's faying line on, mm: so many laminates, so deep together, and the
// share of its curvature that they lose.
type RunOut struct {
	From      float64
	Laminates int64
	Stack     float64
	Share     float64
}

// inboard is 1 where the stack lies outboard of the form's face and -1 where it lies inboard of that.
func (on Laid) inboard() float64 {
	if on.Face == Faying {
		return -1
	}
	return 1
}

// course of the form's face along a faying line so long.
//
// The middle of a stack lies half its depth from the face and keeps its length; the face on its inboard side is shorter by half the
// depth times the turn, and on the form that is more turn than in the frame.
func (on Laid) course(length float64, back Springback) (course, error) {
	o := course{}
	if on.Face == Inner {
		o.depth = on.Moulded
		if on.MouldedHead > 0 {
			o.slope = (on.MouldedHead - on.Moulded) / length
		}
	}
	add := func(from, stack, share float64) error {
		if !(share >= 0 && share <= mostShare) {
			return &RangeError{"springback", fmt.Sprint(share), fmt.Sprintf("from 0 to %g", mostShare)}
		}
		if !(stack >= 0 && stack <= mostLength) {
			return &RangeError{"depth of the laminates together, mm,", fmt.Sprint(stack), fmt.Sprintf("from 0 to %g", mostLength)}
		}
		tighter := Springback{Share: share}.tighter()
		o.legs = append(o.legs, leg{from: from, tighter: tighter, grows: -on.inboard() * stack / 2 * (tighter - 1)})
		return nil
	}
	if err := add(0, on.Stack, back.Share); err != nil {
		return course{}, err
	}
	for _, r := range on.RunsOut {
		if last := o.legs[len(o.legs)-1].from; !(r.From >= last) || !(r.From <= length) {
			return course{}, &RangeError{"place where a laminate ends, mm,", fmt.Sprint(r.From), fmt.Sprintf("from %g, where the one before ends, to %g", last, length)}
		}
		if err := add(r.From, r.Stack, r.Share); err != nil {
			return course{}, err
		}
	}
	return o, nil
}
