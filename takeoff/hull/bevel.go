package hull

import (
	"fmt"
	"math"
)

// Bevel is how far a frame's faying face departs from square to its moulding face at one place. The angle is positive
// where the angle inside the timber is wider than square and negative where it is sharper; sources conflict on which of
// the two is called standing, so the sign is the rule. Here positive is called standing, negative under, with Smyth (The
// Sailor's Word-Book: standing outside a square, under inside it); Knight (1875) has the two by the timber's outer and
// inner surface instead.
type Bevel struct {
	U     float64 // fraction of the girth from the rabbet
	Along float64 // the same in mm
	X     float64 // aft of station 0, mm
	Y, Z  float64 // half-breadth and height, mm, on the boat
	Angle float64 // radians
}

// Extra is what a piece sided so much, mm, must be moulded beyond its own depth so that the bevel can be cut: how far the
// faying face moves across the siding.
func (b Bevel) Extra(sided float64) float64 { return math.Abs(sided * math.Tan(b.Angle)) }

// Body is where a frame's timber lies from its moulding face.
type Body float64

// Abaft a forward moulding face, or before an after one.
const (
	Abaft  Body = 1
	Before Body = -1
)

// NoLinesError: something was asked along the boat of a section that stands alone, a pattern's.
type NoLinesError struct{}

func (*NoLinesError) Error() string {
	return "the section stands alone, so how the boat runs fore and aft of it is not known: measure stations, or patterns of the frames beside it"
}

// FractionError: a fraction of the girth that is no number.
type FractionError struct{ U float64 }

func (e *FractionError) Error() string {
	return fmt.Sprintf("%v is no fraction of the girth: from 0 at the rabbet to 1 at the sheer", e.U)
}

// BevelAt is the bevel at the fraction u of the girth, taken to the nearer end beyond 0 and 1: tan b = n . dr/dx with n the
// unit normal of the section in its plane, whatever parameter runs along the boat, and x square to the plane. It is
// standing where the boat widens towards the frame's body. At a knuckle it is that of the piece above; BevelsAt gives
// both. A *NoLinesError for a section without neighbours. A *FractionError where u is no number.
func (s *Section) BevelAt(u float64, body Body) (Bevel, error) {
	_, above, err := s.BevelsAt(u, body)
	return above, err
}

// BevelsAt are the bevels at u of the pieces below and above it: two at a knuckle, elsewhere one twice. Errors are those
// of BevelAt.
func (s *Section) BevelsAt(u float64, body Body) (below, above Bevel, err error) {
	if s.surface.weights == nil {
		return Bevel{}, Bevel{}, &NoLinesError{}
	}
	if math.IsNaN(u) {
		return Bevel{}, Bevel{}, &FractionError{u}
	}
	u = max(0, min(1, u))
	g := s.surface.grid
	above = s.bevelIn(g.piece(u), u, body)
	if below = above; g.below(u) != g.piece(u) {
		below = s.bevelIn(g.below(u), u, body)
	}
	return below, above, nil
}

// bevelIn is the bevel at u taken in piece k.
func (s *Section) bevelIn(k int, u float64, body Body) Bevel {
	x, tan := s.X, Jet.TanBevel
	if s.slant != nil {
		x, _ = s.slant.at(k, u)
		tan = s.slant.tanBevel
	}
	var j [1]Jet
	(&Surface{s.surface}).within(x, []int{k}, []float64{u}, j[:])
	return Bevel{u, s.along(u), x, j[0].Y, j[0].Z, float64(body) * math.Atan(tan(j[0]))}
}

// GreatestBevel is the bevel of the widest angle, of either sign, looked for at every cut of the girth and on either side
// of every knuckle: two sections of boats differ so little between cuts that the angle is missed by less than a hundredth
// of a degree. A *NoLinesError for a section without neighbours.
func (s *Section) GreatestBevel(body Body) (Bevel, error) {
	most, _, err := s.greatest(body)
	return most, err
}

// greatest is GreatestBevel with the piece that it is of.
func (s *Section) greatest(body Body) (Bevel, int, error) {
	if s.surface.weights == nil {
		return Bevel{}, 0, &NoLinesError{}
	}
	at, most := 0, -1.0
	w := s.surface.weights
	tan, count := Jet.TanBevel, w.counting(s.X)
	if s.slant != nil {
		tan = s.slant.tanBevel
	}
	for k := range s.row {
		if s.slant != nil {
			count = w.counting(s.slant.xs[k])
		}
		if t := math.Abs(tan(s.surface.at(k, count).Jet)); t > most {
			at, most = k, t
		}
	}
	g := s.surface.grid
	return s.bevelIn(g.of(at), g.u(at), body), g.of(at), nil
}

// OnBoat is where the fraction u of the girth lies: aft of station 0, half-breadth and height, mm.
func (s *Section) OnBoat(u float64) (x, y, z float64) {
	p := s.At(u)
	if s.slant != nil {
		return s.slant.onBoat(p.Y, p.Z)
	}
	return s.X, p.Y, p.Z
}
