package floor

import (
	"fmt"
	"math"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
)

// Lie is one side of the boat where a floor lies: its section, and how deep inside the section's face the floor's lower
// face is, mm: 0 on the planking, the frame's moulded depth over a frame.
type Lie struct {
	Section *hull.Section
	Depth   float64
}

// Outline is a floor in its plane. The two sides differ, so each arm is of its own side; mm and mm2. Half-breadths are
// positive to starboard, heights are the sections' own.
type Outline struct {
	// Left and Right, Low and High are the sides of the smallest level rectangle round it: port, starboard, keel and top.
	Left, Right, Low, High float64
	// Top is the height of its upper edge over the keel.
	Top float64
	// Area within it: between the lower face, the ends of the arms and straight lines from those to the top over the keel.
	Area float64
	// Along is the length of the lower face from the end of one arm over the keel to that of the other.
	Along float64
	// Port and Starboard are where the arms end on the lower face.
	Port, Starboard End
	// Turn is the angle, radians, that the lower face turns by over the keel from one arm to the other.
	Turn float64
	// Lower is the lower face from the end of the port arm over the keel to that of the starboard arm, Upper the upper edge back:
	// the starboard arm's end, the top over the keel, the port arm's end. Port is negative.
	Lower, Upper []hull.Point
	heel         int // of the port arm in Lower
}

// End of an arm: along the section's face from the rabbet, and where that is.
type End struct{ Girth, HalfBreadth, Height float64 }

// Across is the width of the level rectangle round the outline, Height that of its other side.
func (o Outline) Across() float64 { return o.Right - o.Left }

// Height of the rectangle.
func (o Outline) Height() float64 { return o.High - o.Low }

// Around is the rectangle round two outlines of one floor, at its two faces, with the greater of everything else.
func (o Outline) Around(p Outline) Outline {
	o.Left, o.Right = math.Min(o.Left, p.Left), math.Max(o.Right, p.Right)
	o.Low, o.High = math.Min(o.Low, p.Low), math.Max(o.High, p.High)
	o.Area, o.Along, o.Turn = math.Max(o.Area, p.Area), math.Max(o.Along, p.Along), math.Max(o.Turn, p.Turn)
	return o
}

// ReachError: an arm that reaches farther than the section does.
type ReachError struct {
	Side boat.Side
	// Girth of the section from rabbet to sheer, and Height of the sheer above the rabbet, mm.
	Girth, Height float64
}

func (e *ReachError) Error() string {
	return fmt.Sprintf("its %s arm reaches past the sheer, which lies %.0f mm along the girth from the rabbet and %.0f mm above it", e.Side, e.Girth, e.Height)
}

// looks along an arm: on 1.5 m of arm every 7.5 mm, where a chord on a radius of 300 mm lies 0.02 mm off. Each is a place
// on the surface, which is what a floor costs to draw.
const looks = 200

// Draw is the outline of a floor between two sides. top is the height of its upper edge over the keel; NaN takes depth over
// the keel from these sections, whose rabbets' mean height counts. Errors are *ReachError.
func Draw(f Floor, port, starboard Lie, top float64) (Outline, error) {
	seat, end := f.Seat.InexactFloat64(), f.ArmEnd.InexactFloat64()
	heels := (port.Section.At(0).Z + starboard.Section.At(0).Z) / 2
	if math.IsNaN(top) {
		top = heels + (port.Depth+starboard.Depth)/2 + seat + f.Depth.InexactFloat64()
	}
	a := arm{lie: port, side: boat.Port}
	b := arm{lie: starboard, side: boat.Starboard}
	for _, x := range []*arm{&a, &b} {
		if err := x.trace(f.Reach(x.side), end); err != nil {
			return Outline{}, err
		}
	}
	// round the outline from the end of the port arm over the keel to that of the starboard arm, and back over the top
	var round []hull.Point
	add := func(sign float64, pts ...hull.Point) {
		for _, p := range pts {
			round = append(round, hull.Point{Y: sign * p.Y, Z: p.Z})
		}
	}
	for i := len(a.face) - 1; i >= 0; i-- {
		add(-1, a.face[i])
	}
	if seat < 0 {
		add(-1, hull.Point{Y: a.face[0].Y, Z: a.face[0].Z + seat})
		add(1, hull.Point{Y: b.face[0].Y, Z: b.face[0].Z + seat})
	}
	add(1, b.face...)
	add(1, b.corner)
	add(1, hull.Point{Y: 0, Z: top})
	add(-1, a.corner)
	upper := len(round) - 3
	out := Outline{Lower: round[:upper:upper], Upper: round[upper:], heel: len(a.face) - 1, Left: math.Inf(1), Right: math.Inf(-1), Low: math.Inf(1), High: math.Inf(-1),
		Top: top, Port: a.end, Starboard: b.end, Turn: math.Abs(a.heel + b.heel),
		Along: a.along + b.along + math.Hypot(a.face[0].Y+b.face[0].Y, a.face[0].Z-b.face[0].Z)}
	for i, p := range round {
		out.Left, out.Right = math.Min(out.Left, p.Y), math.Max(out.Right, p.Y)
		out.Low, out.High = math.Min(out.Low, p.Z), math.Max(out.High, p.Z)
		q := round[(i+1)%len(round)]
		out.Area += (p.Y*q.Z - q.Y*p.Z) / 2
	}
	out.Area = math.Abs(out.Area)
	return out, nil
}

// arm is the lower face of one side, from the keel outboard.
type arm struct {
	lie    Lie
	side   boat.Side
	face   []hull.Point
	along  float64
	corner hull.Point // of its end, inboard
	end    End
	heel   float64 // direction at the keel, radians from level
}

func (a *arm) trace(r Reach, end float64) error {
	s := a.lie.Section
	girth := r.Girth.InexactFloat64()
	past := &ReachError{a.side, s.Girth.MM, s.At(1).Z - s.At(0).Z}
	if h := r.Height.InexactFloat64(); h > 0 {
		var ok bool
		if girth, ok = risen(s, h); !ok {
			return past
		}
	}
	if !(girth <= s.Girth.MM) {
		return past
	}
	u, theta := s.Share(girth/s.Girth.MM), 0.0
	for i := range looks + 1 {
		p := s.At(u * float64(i) / looks)
		q := p.Inboard(a.lie.Depth)
		if i == 0 {
			a.heel = p.Theta
		} else {
			last := a.face[len(a.face)-1]
			turn := p.Theta - theta // an arc is longer than its chord by the square of the turn over 24
			a.along += math.Hypot(q.Y-last.Y, q.Z-last.Z) * (1 + turn*turn/24)
		}
		theta = p.Theta
		a.face = append(a.face, q)
		a.corner = p.Inboard(a.lie.Depth + end)
		a.end = End{girth, p.Y, p.Z}
	}
	return nil
}

// risen is how far along the girth a section first stands so high above its rabbet; false where it never does.
func risen(s *hull.Section, height float64) (float64, bool) {
	up := func(along float64) float64 { return s.At(s.Share(along/s.Girth.MM)).Z - s.At(0).Z - height }
	for i := 1; i <= looks; i++ {
		low, high := s.Girth.MM*float64(i-1)/looks, s.Girth.MM*float64(i)/looks
		if up(high) < 0 {
			continue
		}
		for range 40 { // to a billionth of a millimetre
			if mid := (low + high) / 2; up(mid) < 0 {
				low = mid
			} else {
				high = mid
			}
		}
		return high, true
	}
	return 0, false
}
