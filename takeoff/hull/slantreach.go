package hull

import "math"

// meets is where the fore-and-aft line whose stations' places lie c aft of x0 in the plane passes through it: the x with
// x - x0 = sum w(x) c, by Newton's steps held between the end stations. It is taken to the nearer end where the line
// passes through the plane beyond; start may be anything.
func (w *weights) meets(x0 float64, c []float64, start float64) float64 {
	// lost, mm: below it the sum of the weighted offsets of a boat 100 m long is nothing but rounding.
	const lost, most = 1e-10, 100
	low, high := w.x[0], w.x[len(w.x)-1]
	if low-x0-c[0] >= 0 {
		return low
	}
	if high-x0-c[len(c)-1] <= 0 {
		return high
	}
	x := max(low, min(high, start))
	for range most {
		short, slope := x-x0, 1.0
		for i, o := range c {
			at, by := w.one(i, x)
			short -= at * o
			slope -= by * o
		}
		if short > 0 {
			high = x
		} else {
			low = x
		}
		next := x - short/slope
		if !(next >= low && next <= high) {
			next = (low + high) / 2
		}
		if math.Abs(next-x) <= lost {
			return next
		}
		x = next
	}
	return x
}

// reach gathers how far along the boat a plane's frame goes.
type reach struct{ ReachError }

func (s *slant) newReach() *reach {
	x := s.f.weights.x
	return &reach{ReachError{From: math.Inf(1), To: math.Inf(-1), Forward: x[0], Aft: x[len(x)-1]}}
}

// take notes that a line whose stations' places lie c aft of x0 passes through the plane at x; or where it would beyond
// the end stations, by the offset of the nearer one.
func (r *reach) take(x, x0 float64, c []float64) {
	if forward := x0 + c[0]; forward < r.Forward {
		x = forward
	} else if aft := x0 + c[len(c)-1]; aft > r.Aft {
		x = aft
	}
	r.From, r.To = min(r.From, x), max(r.To, x)
}

func (r *reach) err() error {
	if r.From < r.Forward-samePlace || r.To > r.Aft+samePlace {
		e := r.ReachError
		return &e
	}
	return nil
}
