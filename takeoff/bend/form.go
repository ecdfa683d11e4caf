package bend

import (
	"fmt"
	"math"

	"ribband/takeoff/quantity"
)

// Face of a frame that the first laminate lies against on the form.
type Face string

// Inner: the laminates are pulled round the form with their inner faces to it, and what is over the moulded depth lies at
// the faying face, where the bevel is dressed (common practice, no source). Faying: the form is outside.
const (
	Inner  Face = "inner"
	Faying Face = "faying"
)

// Form is the curve that the first laminate is laid against: bent tighter than the frame by what springs back, by
// ordinates from a straight base line through its two ends.
type Form struct {
	Face Face
	// Depth of that face from the faying face, and Keeps of the middle of the stack, which keeps its length when it is let
	// go, mm; of a frame that tapers both at its heel.
	Depth, Keeps float64
	Springback   Springback
	// Tighter is what its curvature is at the faying face of the frame's, of a stack whose laminates run out before they do.
	Tighter float64
	// RunsOut is where laminates of a frame that tapers end, from the heel, and Ends the same places on the form.
	RunsOut []RunOut
	Ends    []Ordinate
	// Length along the form's face and Chord between its ends, mm; FrameChord is that of the finished frame's same face, so
	// that the two tell how far the ends come apart on release.
	Length, Chord, FrameChord float64
	// Camber of the frame's own faying line: how far apart its farthest places lie either side of a straight through its
	// ends, mm.
	Camber float64
	// Greatest is the greatest ordinate either way.
	Greatest Ordinate
	// Marks are the places that were asked to be marked.
	Marks []Ordinate
	// AlongCurve says that the face passes above or below itself, so that the pitch is along the curve and not the base line.
	AlongCurve bool
	Pitch      float64
	Ordinates  []Ordinate
	// Line is the form's face at close places from end to end, as it is drawn: 601 and more.
	Line []Ordinate
}

// Ordinate is one place of the form: along the base line from the heel, square off it, positive on the outboard side of a
// bilge, along the form's face, and the direction of the face from the base line, radians.
type Ordinate struct{ Base, Off, Along, Direction float64 }

// Bounds of the pitch of ordinates and of how many are given.
const (
	LeastPitch    = 5.0 // mm
	MostOrdinates = 2000
)

// NewForm is the form of a frame whose faying face is the curve.
//
// The stack turns 1/(1 - springback) times as far as the frame all along, and the line in its middle keeps its length: let
// go, it bends back about that line, as a beam does whose wood is alike all through. (Were the faying line the one that
// keeps its length, a bilge of 75 degrees at 400 mm, 50 mm deep, would differ by half a millimetre: computed.) The inner face
// is the line everywhere square to the faying line at the moulded depth, which of a frame that tapers grows less along it. Errors
// are *CurveError where the form is deeper than its bend, and *RangeError.
//
// Where a laminate of a tapering stack ends those left spring back by their own share about their own middle. That the stack is
// faired there over a length is not counted: what turns within a step a foot long, by one laminate of ten more or less, is a
// ten-thousandth of a radian (computed).
func NewForm(faying Curve, on Laid, back Springback) (Form, error) {
	face, moulded, pitch := on.Face, on.Moulded, on.Pitch
	switch {
	case face != Inner && face != Faying:
		return Form{}, &RangeError{"face on the form", string(face), "inner or faying"}
	case !(moulded > 0) || math.IsInf(moulded, 0):
		return Form{}, &RangeError{"moulded depth, mm,", fmt.Sprint(moulded), "above 0"}
	case !(on.MouldedHead >= 0) || on.MouldedHead > moulded:
		return Form{}, &RangeError{"moulded depth at the head, mm,", fmt.Sprint(on.MouldedHead), fmt.Sprintf("not above that at the heel, %g", moulded)}
	case !(on.Stack >= 0) || on.Stack > mostLength:
		return Form{}, &RangeError{"depth of the laminates together, mm,", fmt.Sprint(on.Stack), fmt.Sprintf("from 0 to %g", mostLength)}
	case !(pitch >= LeastPitch) || math.IsInf(pitch, 0):
		return Form{}, &RangeError{"pitch of the ordinates, mm,", fmt.Sprint(pitch), fmt.Sprintf("at least %g", LeastPitch)}
	}
	o, err := on.course(faying.Length, back)
	if err != nil {
		return Form{}, err
	}
	w, err := faying.bent(o)
	if err != nil {
		return Form{}, err
	}
	if err := w.room(); err != nil {
		return Form{}, err
	}
	frame, err := faying.bent(course{depth: o.depth, slope: o.slope, legs: []leg{{tighter: 1}}})
	if err != nil {
		return Form{}, err
	}
	line, err := faying.draw(1)
	if err != nil {
		return Form{}, err
	}
	f := Form{Face: face, Depth: o.depth, Keeps: o.depth - on.inboard()*on.Stack/2, Springback: back, Tighter: back.tighter(), RunsOut: on.RunsOut, Pitch: pitch}
	f.FrameChord, f.Camber = newBase(frame).chord, newBase(line).camber()
	b := newBase(w)
	for _, at := range on.Marks {
		f.Marks = append(f.Marks, b.see(w.at(max(0, min(faying.Length, at)))))
	}
	for _, r := range on.RunsOut {
		f.Ends = append(f.Ends, b.see(w.at(r.From)))
	}
	return f, f.lay(b)
}

// camber is how far apart the farthest places lie either side of the base line.
func (b *base) camber() float64 {
	low, high := 0.0, 0.0
	for _, s := range b.walk.spots {
		off := b.see(s).Off
		low, high = min(low, off), max(high, off)
	}
	return high - low
}

// room refuses a face at a depth where the line's own bend leaves none.
func (w *walk) room() error {
	for _, s := range w.spots {
		k := w.kappa(s.along)
		if left := 1 - k*w.deep(s.along) + w.leg(s.along).grows*k; !(quantity.Snap(left) > 0) {
			return &CurveError{fmt.Sprintf("%.1f mm deep the inner face would turn on itself at %.0f mm along: the bend is tighter than the frame is deep", w.deep(s.along), s.along)}
		}
	}
	return nil
}

// base is a face of a line seen from the straight through its ends.
type base struct {
	walk     *walk
	sin, cos float64 // of the base line
	theta    float64
	chord    float64
	last     spot
	single   bool
}

func newBase(w *walk) *base {
	b := &base{walk: w, last: w.spots[len(w.spots)-1]}
	b.chord = math.Hypot(b.last.x, b.last.y)
	b.theta = math.Atan2(b.last.y, b.last.x)
	b.sin, b.cos = math.Sincos(b.theta)
	b.single = b.chord > 0
	for i := 1; i < len(w.spots); i++ {
		if b.see(w.spots[i]).Base <= b.see(w.spots[i-1]).Base {
			b.single = false
		}
	}
	return b
}

// see is a spot as an ordinate. The centre of a bilge lies to the left of the run, so outboard is to the right.
func (b *base) see(s spot) Ordinate {
	return Ordinate{s.x*b.cos + s.y*b.sin, s.x*b.sin - s.y*b.cos, s.length, b.theta - s.theta}
}

// lay puts the ordinates in: both ends, and every pitch from the heel's.
func (f *Form) lay(b *base) error {
	f.Length, f.Chord, f.AlongCurve = b.last.length, b.chord, !b.single
	of, whole := func(o Ordinate) float64 { return o.Base }, b.chord
	if f.AlongCurve {
		of, whole = func(o Ordinate) float64 { return o.Along }, b.last.length
	}
	if whole/f.Pitch > MostOrdinates {
		return &RangeError{"pitch of the ordinates, mm,", fmt.Sprint(f.Pitch), fmt.Sprintf("at least %.0f for this frame", math.Ceil(whole/MostOrdinates))}
	}
	for i := 0; ; i++ {
		at := f.Pitch * float64(i)
		if quantity.Snap(at+nearEnd) >= quantity.Snap(whole) {
			break
		}
		f.Ordinates = append(f.Ordinates, b.find(at, of))
	}
	f.Ordinates = append(f.Ordinates, b.see(b.last))
	for _, s := range b.walk.spots {
		f.Line = append(f.Line, b.see(s))
		if o := b.see(s); math.Abs(o.Off) > math.Abs(f.Greatest.Off) {
			f.Greatest = o
		}
	}
	return nil
}

// nearEnd, mm: an ordinate nearer to the end than this is the end's.
const nearEnd = 0.5

// find is the place whose measure, which grows along the line, is at.
func (b *base) find(at float64, of func(Ordinate) float64) Ordinate {
	low, high := 0.0, b.last.along
	for range 60 {
		mid := (low + high) / 2
		if of(b.see(b.walk.at(mid))) < at {
			low = mid
		} else {
			high = mid
		}
	}
	return b.see(b.walk.at((low + high) / 2))
}
