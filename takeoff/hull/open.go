package hull

import "math"

// open is how far the spline through a value of each station and a parabola through three of them stand apart at x, in the
// value's own unit: what the stations leave open of how the boat runs between them. It is what the two differ by midway
// between two stations, the most of the bay where x lies and the two beside it; nothing at a station, and most midway, as
// the error of any curve through the stations is.
func (w *weights) open(x float64, of func(i int) float64) float64 {
	first, last, ok := w.near(x)
	if !ok || first == last {
		return 0
	}
	most := 0.0
	for i := max(0, first-1); i <= min(first+1, len(w.x)-2); i++ {
		most = max(most, w.swing((w.x[i]+w.x[i+1])/2, of))
	}
	t := (x - w.x[first]) / (w.x[last] - w.x[first])
	return most * 4 * t * (1 - t)
}

// swing is by how much the spline through the stations' values and the parabola through the three nearest to x differ
// there. Of three stations the surface is that parabola: a straight line from station to station is beside it.
func (w *weights) swing(x float64, of func(i int) float64) float64 {
	first := 0
	for first+3 < len(w.x) && x-w.x[first] > w.x[first+3]-x {
		first++
	}
	last := first + 3
	if len(w.x) == 3 {
		last = first + 2
		if x > w.x[1] {
			first, last = 1, 3
		}
	}
	swing := 0.0
	for i := range w.x {
		share, _ := w.one(i, x)
		if first <= i && i < last {
			part := 1.0
			for k := first; k < last; k++ {
				if k != i {
					part *= (x - w.x[k]) / (w.x[i] - w.x[k])
				}
			}
			share -= part
		}
		swing += share * of(i)
	}
	return math.Abs(swing)
}
