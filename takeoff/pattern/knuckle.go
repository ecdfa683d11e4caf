package pattern

import (
	"fmt"
	"strconv"
	"strings"

	"ribband/takeoff/hull"
)

// knuckles names the points that are corners of the frame.
func (r *reader) knuckles(pts []Point, rows Rows, who, pointer string) {
	seen := map[string]int{}
	for i, p := range rows.Points {
		k := strings.TrimSpace(p.Knuckle)
		if p.Knuckle == "" {
			continue
		}
		at := pointer + "/points/" + strconv.Itoa(i) + "/knuckle"
		j, twice := seen[k]
		switch {
		case k == "" || len(k) > MaxKnuckleName:
			r.add(at, fmt.Sprintf("a name of 1 to %d bytes, or none where the point is no knuckle", MaxKnuckleName), "%s, point %d: the knuckle's name has %d bytes", who, p.N, len(k))
		case i == 0 || i == len(pts)-1:
			r.add(at, "a knuckle lies between heel and head: leave it out here", "%s, point %d: an end is no knuckle", who, p.N)
		case twice:
			r.add(at, "another name for this knuckle, or none", "%s, point %d: point %d is the knuckle of that name already", who, p.N, rows.Points[j].N)
		}
		seen[k] = i
		pts[i].Knuckle = k
	}
}

// corners of a pattern, for its fit.
func (p Pattern) corners() []hull.Corner { return cornersOf(p.Points) }

func cornersOf(pts []Point) (out []hull.Corner) {
	for i, q := range pts {
		if q.Knuckle != "" {
			out = append(out, hull.Corner{Name: q.Knuckle, At: i})
		}
	}
	return out
}

// fewest points that must differ: between knuckles two make a straight piece.
func fewest(pts []Point) int {
	if n := len(cornersOf(pts)); n > 0 {
		return n + 2
	}
	return MinPoints
}
