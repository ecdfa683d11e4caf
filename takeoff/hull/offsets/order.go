package offsets

import (
	"math"
	"slices"
)

// inOrder puts the points of one side in order along the section: the rabbet, the waterlines by height, the
// sheer; then each knuckle, since the line has its corners there, each buttock, from the innermost, and each diagonal where
// it lengthens the line least, the first such place counting.
// The cells come ordered by line and place.
//
// A section may cross a buttock twice (tumblehome); its height tells which crossing was measured, and the least
// lengthening finds it, as long as the points are dense enough to draw the section by straight lines.
func inOrder(rabbet, sheer Mark, inner []cell, planes []Diagonal) []Mark {
	marks := make([]Mark, 0, len(inner)+2)
	marks = append(marks, rabbet)
	for _, c := range inner {
		if c.line == waterline {
			marks = append(marks, c.mark(planes))
		}
	}
	marks = append(marks, sheer)
	into := func(c cell) {
		m := c.mark(planes)
		marks = slices.Insert(marks, leastDetour(marks, m), m)
	}
	for _, c := range inner {
		if c.line == knuckleHeight {
			into(c)
		}
	}
	for _, c := range inner {
		if c.line == buttock || c.line == diagonal {
			into(c)
		}
	}
	return marks
}

// leastDetour is where in marks to insert m, never before the first or after the last.
func leastDetour(marks []Mark, m Mark) int {
	place, least := 1, math.Inf(1)
	for i := 1; i < len(marks); i++ {
		if d := detour(marks[i-1], m, marks[i]); d < least {
			place, least = i, d
		}
	}
	return place
}

// detour is how much longer it is from a to c by way of b, mm.
func detour(a, b, c Mark) float64 { return apart(a, b) + apart(b, c) - apart(a, c) }

// apart is the distance between two points, mm.
func apart(a, b Mark) float64 { return math.Hypot(b.Y.MM()-a.Y.MM(), b.Z.MM()-a.Z.MM()) }
