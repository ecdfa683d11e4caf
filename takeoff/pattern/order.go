package pattern

import (
	"math"
	"strconv"
)

const (
	// Points nearer than so many grains may stand in any order by their rounding alone.
	nearGrains = 6
	// sharpest is the cosine of 120 degrees: no frame turns so at one point, but a figure misread by a foot does.
	sharpest = -0.5
	// A point counts as one of its own when it is more than this share of the line away from the one before.
	ownShare = 1e-5
)

// spot is a point on the board, mm, and its number in the pattern.
type spot struct {
	y, z float64
	n    int
}

func (a spot) to(b spot) float64 { return math.Hypot(b.y-a.y, b.z-a.z) }

// follows reports points, read to the grain, mm, that do not follow one line from heel to head: too few that differ, from
// head to heel, folding back, or crossing themselves.
func (r *reader) follows(pts []Point, grain float64, who, pointer string) bool {
	const fix = "check this point and its neighbours on the board"
	line := make([]spot, len(pts))
	length := 0.0
	for i, p := range pts {
		line[i] = spot{p.Y.MM(), p.Z.MM(), i + 1}
		if i > 0 {
			length += line[i-1].to(line[i])
		}
	}
	if n := len(apart(line, max(grain, ownShare*length))); n < fewest(pts) {
		r.add(pointer+"/points", "pick up more points, most of all in the tightest bend",
			"%s: %d points are given and %d of them differ; a pattern needs at least %d", who, len(pts), n, fewest(pts))
		return false
	}
	if !(pts[len(pts)-1].Z.Compare(pts[0].Z) > 0) {
		r.add(pointer+"/points", "give the points in order from the heel, at the rabbet, to the head, at the sheer",
			"%s: the last point, at %s, is not above the first, at %s", who, r.n.Said(pts[len(pts)-1].Z), r.n.Said(pts[0].Z))
		return false
	}
	line = apart(line, max(nearGrains*grain, ownShare*length))
	ok := true
	for i := 1; i+1 < len(line); i++ {
		if turn(line[i-1], line[i], line[i+1]) < sharpest {
			r.add(pointer+"/points/"+strconv.Itoa(line[i].n-1), fix, "%s, point %d: the line folds back here", who, line[i].n)
			ok = false
		}
	}
	for i := 0; ok && i+1 < len(line); i++ {
		for j := i + 2; j+1 < len(line); j++ {
			if cross(line[i], line[i+1], line[j], line[j+1]) {
				r.add(pointer+"/points/"+strconv.Itoa(line[j].n-1), fix, "%s, point %d: the line from point %d to point %d crosses that from point %d to point %d",
					who, line[j].n, line[i].n, line[i+1].n, line[j].n, line[j+1].n)
				return false
			}
		}
	}
	return ok
}

// apart leaves out points nearer than near to the one kept before; both ends stay.
func apart(line []spot, near float64) []spot {
	if len(line) < 2 {
		return line
	}
	last, kept := line[len(line)-1], []spot{line[0]}
	for _, p := range line[1 : len(line)-1] {
		if kept[len(kept)-1].to(p) >= near {
			kept = append(kept, p)
		}
	}
	for len(kept) > 1 && kept[len(kept)-1].to(last) < near {
		kept = kept[:len(kept)-1]
	}
	if len(kept) == 1 && kept[0].to(last) < near {
		return kept
	}
	return append(kept, last)
}

// turn is the cosine of the change of direction at b.
func turn(a, b, c spot) float64 {
	return ((b.y-a.y)*(c.y-b.y) + (b.z-a.z)*(c.z-b.z)) / (a.to(b) * b.to(c))
}

// cross reports whether the straight lines ab and cd pass through each other.
func cross(a, b, c, d spot) bool { return onBothSides(a, b, c, d) && onBothSides(c, d, a, b) }

func onBothSides(a, b, c, d spot) bool {
	side := func(p spot) float64 { return (b.y-a.y)*(p.z-a.z) - (b.z-a.z)*(p.y-a.y) }
	s, t := side(c), side(d)
	return s > 0 && t < 0 || s < 0 && t > 0
}
