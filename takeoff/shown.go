package takeoff

import (
	"errors"

	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/quantity"
)

// curved is the line of a frame, in its plane or flat on the planking.
type curved interface {
	Tightest(moulded float64) (hull.Bend, hull.Reading, error)
	NotShown() []float64
	OneMore() (hull.OneMore, bool)
}

// shown puts into a frame's measures how well its shape is known; a tape tells its range alone.
func (b Basis) shown(s stand, m *frame.Measures) error {
	var line curved
	var sharp bool
	var side boat.Side
	switch {
	case s.laid != nil:
		line, sharp, side = s.laid, s.laid.Sharp, s.laid.Side
	case s.target != nil:
		line, sharp, side = s.target, s.target.Sharp, s.target.Side
	default:
		return nil
	}
	m.Sharp = &sharp
	for _, at := range line.NotShown() {
		m.NotShownAtMM = append(m.NotShownAtMM, quantity.Thousandth(at))
	}
	if !m.Straight {
		bend, r, err := line.Tightest(s.frame.Moulded.InexactFloat64())
		var deep *hull.DepthError
		switch {
		case err == nil:
			m.Tightest(bend, r, nearlyStraight)
		case !errors.As(err, &deep): // that no piece so deep can follow it is told of what is built
			return err
		}
		if p, ok := line.OneMore(); ok {
			m.OneMorePoint = oneMore(p, side)
		}
	}
	if s.laid != nil || m.GreatestBevelDeg == nil {
		return nil
	}
	_, low, high, err := s.target.GreatestBevelRange(s.frame.Body(), b.grain(s.frame.Wanted() == frame.Faired))
	if err != nil {
		return err
	}
	m.Bevel(low, high, s.frame.Siding.InexactFloat64())
	return nil
}

func oneMore(p hull.OneMore, side boat.Side) *frame.OneMorePoint {
	out := &frame.OneMorePoint{Side: side, XMM: quantity.Thousandth(p.X), AtMM: quantity.Thousandth(p.Along),
		HalfBreadthMM: quantity.Thousandth(p.Y), HeightMM: quantity.Thousandth(p.Z)}
	if p.Station >= 0 {
		out.StationNo = &p.Station
	}
	return out
}

// grain is what the points are worth by which the boat runs fore and aft of a frame, mm: those of the lines, of a faired
// frame the worse read of lines and patterns, since it may rest on both.
func (b Basis) grain(faired bool) float64 {
	worst := 0.0
	if b.Hull != nil {
		worst = b.Hull.Grain()
	}
	if faired {
		worst = max(worst, b.Patterns.Coarsest())
	}
	return worst
}
