package strake

import (
	"math"

	"ribband/takeoff/hull"
)

// What the ranges hold. Each section's girth has a range, at a station from its own points, between two the wider of
// theirs. From it:
//
//   - a width, and the area, are as much narrower or wider as the girth is, everywhere at once;
//   - an edge may lie farther up or down at each station by as much as the girth there may be wrong, and at the next
//     the other way: that is the range of its length, by the run across, and of its round;
//   - a board is longer or shorter by no more than the less sure of the two edges, and wider or narrower by no more than
//     the greatest width and the less sure round together, never narrower than the least of the greatest width;
//   - the spiling loss is taken as if plank and board erred opposite ways, which they seldom do.
//
//   - beyond an end station length and area are open by how much they differ from those of a strake that runs straight to
//     where it ends, the area by a hundredth at least; and where edges land on the stem is taken midway
//     between two ways, as strakes share the girth and by the slope they leave the station with: by so much an edge may lie
//     off, a width differ, and a strake have of its neighbour's area.
//
// All stations at their worst together is more than chance does: the ranges are wide rather than narrow. What they do
// not hold is how the boat runs between stations, and that the surface is no plane: Mismatch tells of the latter.

// across is how far an edge may lie up or down at place i.
func (s *Shape) across(i int) float64 {
	return s.girth[i]*max(1-s.low[i], s.high[i]-1) + s.shift[i]
}

// slopes sets of every cell how much more or less an edge may run across in it: from station to station the two errors
// the opposite ways.
func (s *Shape) slopes(stations []float64) {
	most := func(x0, x1 float64) (e float64) {
		for i, x := range s.X {
			if x >= x0 && x <= x1 {
				e = max(e, s.across(i))
			}
		}
		return e
	}
	for k := 0; k+1 < len(stations); k++ {
		x0, x1 := stations[k], stations[k+1]
		if !(x1 > x0) {
			continue
		}
		slope := 2 * most(x0, x1) / (x1 - x0)
		for i := range s.cell {
			if s.X[i] < x1 && s.X[i+1] > x0 {
				s.cell[i].slope = max(s.cell[i].slope, slope)
			}
		}
	}
}

// lengths of the two edges from place i to place j.
func (s *Shape) lengths(i, j int) (lower, upper hull.Reading) {
	for k := i; k < j; k++ {
		c := s.cell[k]
		lengthen(&lower, c.lower, c.runLower, c.slope, c.openLower)
		lengthen(&upper, c.upper, c.runUpper, c.slope, c.openUpper)
	}
	return lower, upper
}

func lengthen(r *hull.Reading, l, dx, slope, open float64) {
	r.MM += l
	run, more := math.Sqrt(max(0, l*l-dx*dx)), slope*dx
	less := max(0, run-more)
	r.Low += max(0, min(l, math.Sqrt(dx*dx+less*less))-open)
	r.High += max(l, math.Sqrt(dx*dx+(run+more)*(run+more))) + open
}

// boardRanges sets those of the board and the loss from those of lengths, widths, rounds and area.
func (f *Figures) boardRanges() {
	below := func(rs ...hull.Reading) (d float64) {
		for _, r := range rs {
			d = max(d, r.MM-r.Low)
		}
		return d
	}
	above := func(rs ...hull.Reading) (d float64) {
		for _, r := range rs {
			d = max(d, r.High-r.MM)
		}
		return d
	}
	l, w := f.Board.Length, f.Board.Width
	f.BoardLength = hull.Reading{MM: l, Low: max(0, l-below(f.LengthLower, f.LengthUpper)), High: l + above(f.LengthLower, f.LengthUpper)}
	narrower, wider := below(f.WidthMost)+below(f.RoundLower, f.RoundUpper), above(f.WidthMost)+above(f.RoundLower, f.RoundUpper)
	f.BoardWidth = hull.Reading{MM: w, Low: min(w, max(f.WidthMost.Low, w-narrower)), High: w + wider}
	f.Loss = hull.Reading{MM: f.Spiling, Low: f.Spiling, High: f.Spiling}
	if r := f.BoardLength.Low * f.BoardWidth.Low; r > 0 {
		f.Loss.Low = max(0, min(f.Spiling, 1-f.Area.High/r))
	}
	if r := f.BoardLength.High * f.BoardWidth.High; r > 0 {
		f.Loss.High = max(f.Spiling, 1-f.Area.Low/r)
	}
}
