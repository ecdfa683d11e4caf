package offsets

import (
	"fmt"

	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
)

const (
	// Points nearer than so many grains may stand in any order by their rounding alone: they are taken as one
	// before the line through them is looked at. The fair curve does the same.
	nearGrains = 6
	// sharpest is the cosine of 120 degrees, the sharpest turn at one point: a hard chine turns by less than a
	// right angle, a figure misread by a foot makes a spike.
	sharpest = -0.5
	// OwnShare: a point counts as one of its own when it is more than this share of the line away from the one before.
	OwnShare = 1e-5
)

// follows reports points that do not follow one line from rabbet to sheer: a spike, a crossing, or too few that
// differ.
func (r *reader) follows(marks []Mark, grain float64, no string, side boat.Side, pointer string) bool {
	if n := Differing(marks, grain); n < MinMarks && len(namesOf(marks)) == 0 {
		r.add(Fault{Pointer: pointer, Station: no, Side: side,
			Detail: fmt.Sprintf("only %d of its %d points differ; a side needs at least %d", n, len(marks), MinMarks),
			Fix:    "measure more waterlines, buttocks or diagonals, away from those given"})
		return false
	}
	line := apartBy(marks, max(nearGrains*grain, OwnShare*span(marks)))
	ok := true
	for i := 1; i+1 < len(line); i++ {
		if turn(line[i-1], line[i], line[i+1]) < sharpest {
			ok = false
			r.outOfLine(line, i, no, side, "the line doubles back here")
		}
	}
	if !ok {
		return false
	}
	for i := 0; i+1 < len(line); i++ {
		for j := i + 2; j+1 < len(line); j++ {
			if cross(line[i], line[i+1], line[j], line[j+1]) {
				r.crossed(line, i, j, no, side)
				return false
			}
		}
	}
	return true
}

// Differing is how many points of one side differ by more than their rounding to the grain, mm.
func Differing(marks []Mark, grain float64) int {
	if len(marks) == 0 {
		return 0
	}
	return len(apartBy(marks, max(grain, OwnShare*span(marks))))
}

// span is the length of the straight lines from point to point, mm.
func span(marks []Mark) float64 {
	length := 0.0
	for i := range marks[1:] {
		length += apart(marks[i], marks[i+1])
	}
	return length
}

// apartBy leaves out points nearer than near to the one kept before; both ends stay.
func apartBy(marks []Mark, near float64) []Mark {
	kept := []Mark{marks[0]}
	last := marks[len(marks)-1]
	for _, m := range marks[1 : len(marks)-1] {
		if apart(kept[len(kept)-1], m) >= near {
			kept = append(kept, m)
		}
	}
	for len(kept) > 1 && apart(kept[len(kept)-1], last) < near {
		kept = kept[:len(kept)-1]
	}
	return append(kept, last)
}

// turn is the cosine of the change of direction at b.
func turn(a, b, c Mark) float64 {
	uy, uz := b.Y.MM()-a.Y.MM(), b.Z.MM()-a.Z.MM()
	vy, vz := c.Y.MM()-b.Y.MM(), c.Z.MM()-b.Z.MM()
	return (uy*vy + uz*vz) / (apart(a, b) * apart(b, c))
}

// cross reports whether the straight lines ab and cd pass through each other.
func cross(a, b, c, d Mark) bool {
	return onBothSides(a, b, c, d) && onBothSides(c, d, a, b)
}

// onBothSides reports whether c and d lie on different sides of the line through a and b.
func onBothSides(a, b, c, d Mark) bool {
	side := func(p Mark) float64 {
		return (b.Y.MM()-a.Y.MM())*(p.Z.MM()-a.Z.MM()) - (b.Z.MM()-a.Z.MM())*(p.Y.MM()-a.Y.MM())
	}
	s, t := side(c), side(d)
	return s > 0 && t < 0 || s < 0 && t > 0
}

// crossed reports the crossing of the lines from i and from j at the point most out of line of the four.
func (r *reader) crossed(line []Mark, i, j int, no string, side boat.Side) {
	worst, most := -1, -1.0
	for _, k := range [4]int{i, i + 1, j, j + 1} {
		if k == 0 || k == len(line)-1 {
			continue
		}
		if d := detour(line[k-1], line[k], line[k+1]); d > most {
			worst, most = k, d
		}
	}
	r.outOfLine(line, worst, no, side, fmt.Sprintf("the line from %s to %s crosses that from %s to %s",
		line[i].Cell, line[i+1].Cell, line[j].Cell, line[j+1].Cell))
}

// said is a length as the table writes it.
func (r *reader) said(l notation.Length) string { return r.doc.Notation.Said(l) }

func (r *reader) outOfLine(line []Mark, i int, no string, side boat.Side, why string) {
	m := line[i]
	r.add(Fault{Pointer: m.Pointer, Station: no, Side: side, Cell: m.Cell,
		Detail: fmt.Sprintf("%s; half-breadth %s, height %s, between %s and %s", why, r.said(m.Y), r.said(m.Z), line[i-1].Cell, line[i+1].Cell),
		Fix:    "check this figure and its neighbours against the boat or the paper"})
}
