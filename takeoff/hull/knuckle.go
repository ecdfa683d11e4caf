package hull

import (
	"math"
	"sort"
)

// Knuckle is a declared corner of a section.
type Knuckle struct {
	Name string
	U    float64 // as Section.At takes it
	S    float64 // mm along the girth from the rabbet
	Y, Z float64 // half-breadth and height, mm
	// Turn is the angle by which the section changes direction, radians: positive where it turns inboard as a bilge
	// does, negative in a reverse.
	Turn float64
}

// Knuckles of the section from the rabbet.
func (s *Section) Knuckles() []Knuckle {
	g := s.surface.grid
	var out []Knuckle
	for i, name := range s.surface.curves[0].names {
		cut := g.first[i+1]
		below, above := s.row[cut-1].place(), s.row[cut].place()
		out = append(out, Knuckle{Name: name, U: g.knots[i+1], S: s.before(i + 1), Y: above.Y, Z: above.Z,
			Turn: math.Remainder(above.Theta-below.Theta, 2*math.Pi)})
	}
	return out
}

// Either is the place at u as the pieces below and above have it: at a knuckle they differ in direction and curvature,
// elsewhere in nothing.
func (s *Section) Either(u float64) (below, above Place) {
	u = max(0, min(1, u))
	j, k := s.jetIn(s.surface.grid.below(u), u), s.jet(u)
	return j.place(), k.place()
}

// Share is the u at which the section has passed a share of its own girth. Without knuckles that is the share itself:
// so sections are divided along the boat. With them the pieces of a section are longer and shorter than the mean that u
// goes by. A share that is no number is none here either.
func (s *Section) Share(share float64) float64 {
	g := s.surface.grid
	share = max(0, min(1, share))
	if g.pieces() == 1 || !(share > 0 && share < 1) {
		return share
	}
	want := share * s.Girth.MM
	k := sort.Search(g.pieces()-1, func(k int) bool { return s.before(k+1) >= want })
	low, high := g.knots[k], g.knots[k+1]
	for range 50 {
		mid := (low + high) / 2
		if s.along(mid) < want {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}
