package area

import "math"

// Window says what part of a side is measured: that which lies within all its bounds. Bounds beyond the side, infinite
// ones too, count as its own.
type Window struct {
	Forward, Aft  float64 // x, mm
	Rabbet, Sheer float64 // fractions of the girth: the one nearer the rabbet, the one nearer the sheer
	Low, High     float64 // heights, mm
}

// Everything is the whole side.
func Everything() Window {
	return Window{math.Inf(-1), math.Inf(1), 0, 1, math.Inf(-1), math.Inf(1)}
}

// Below is what lies below the height z, Above what lies above it.
func Below(z float64) Window { w := Everything(); w.High = z; return w }

// Above is what lies above the height z.
func Above(z float64) Window { w := Everything(); w.Low = z; return w }

// Between is the bay between two places along the boat.
func Between(forward, aft float64) Window {
	w := Everything()
	w.Forward, w.Aft = forward, aft
	return w
}

// within brings the window to the reach of a side; a *WindowError or an *OutsideError.
func (w Window) within(forward, aft float64) (Window, error) {
	for _, b := range []WindowError{{"x", w.Forward, w.Aft}, {"the fraction of the girth", w.Rabbet, w.Sheer}, {"heights", w.Low, w.High}} {
		if !(b.From <= b.To) {
			return w, &b
		}
	}
	if w.Aft < forward || w.Forward > aft {
		return w, &OutsideError{w.Forward, w.Aft, forward, aft}
	}
	w.Forward, w.Aft = max(forward, w.Forward), min(aft, w.Aft)
	w.Rabbet, w.Sheer = max(0, min(1, w.Rabbet)), max(0, min(1, w.Sheer))
	return w, nil
}

// unbounded reports that no height bounds the window.
func (w Window) unbounded() bool { return math.IsInf(w.Low, -1) && math.IsInf(w.High, 1) }
