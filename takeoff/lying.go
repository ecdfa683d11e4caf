package takeoff

import (
	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
)

// lie gives a frame that lies flat on the planking its shape, which is that of the lines; a pattern of it is a fault,
// because its points would have to lie in one plane.
func (b Basis) lie(s *stand) (*document.Fault, error) {
	m := s.frame.Member()
	if _, taken := b.Patterns.Section(m, s.laid.X); taken {
		return &document.Fault{Pointer: s.frame.Pointer, Detail: m.String() + ": it lies flat on the planking and twists with it, so no pattern in one plane tells its shape",
			Fix: "take its pattern away, or leave run out of its row"}, nil
	}
	var err error
	s.shape, err = laidShape(s.laid, s.frame)
	return nil, err
}

// laidShape is what a frame that lies flat sees of the hull: nothing is left to bevel.
func laidShape(l *hull.Laid, f frame.Frame) (frame.Shape, error) {
	length, width, err := l.EnclosingRectangle(f.Moulded.InexactFloat64())
	if err != nil {
		return frame.Shape{}, err
	}
	out := frame.Shape{
		Girth: l.Length.MM, GirthLow: l.Length.Low / l.Length.MM, GirthHigh: l.Length.High / l.Length.MM,
		Bilge: bend(l.Straight, l.Bilge), Hollow: bend(l.Straight, l.Hollow),
		Enclosing: length * width, Long: length, Broad: width, RestsOn: boat.OnStations, Points: l.Points, Doubtful: l.Doubtful,
		BevelKnown: true, Lie: &frame.Lie{Sweep: l.Sweep, Twist: l.Twist},
	}
	for _, k := range l.Knuckles {
		out.Knuckles = append(out.Knuckles, frame.Knuckle{Name: k.Name, At: k.S, Turn: k.Turn})
	}
	return out, nil
}
