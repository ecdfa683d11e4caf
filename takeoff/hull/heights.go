package hull

import (
	"errors"
	"fmt"
	"math"

	"ribband/takeoff/quantity"
)

// HeightError: a height that the section does not reach.
type HeightError struct{ Z, Low, High float64 } // mm

func (e *HeightError) Error() string {
	return fmt.Sprintf("the section runs from %.1f to %.1f mm above the baseline and does not reach a height of %.1f mm", e.Low, e.High, e.Z)
}

// AtHeight are the fractions of the girth at which the section passes the height z, mm, from the rabbet up: one as a
// rule, more where the section drops before it rises. The curve ends at the foot of the written end, up to some grain short
// of it or beyond, so a height no farther than slack from an end counts as that end where the curve passes it nowhere
// near; slack is the grain of the table, and never less than a thousandth of a millimetre. A *HeightError where the section
// nowhere comes to z. Heights are the boat's also of a section that leans.
func (s *Section) AtHeight(z, slack float64) ([]float64, error) {
	if p := s.slant; p != nil {
		us, err := s.atUp(p.z0+p.rising*(z-p.z0), max(slack, shownApart)*p.rising)
		var none *HeightError
		if errors.As(err, &none) {
			return nil, &HeightError{z, p.z0 + (none.Low-p.z0)/p.rising, p.z0 + (none.High-p.z0)/p.rising}
		}
		return us, err
	}
	return s.atUp(z, max(slack, shownApart))
}

// atUp is AtHeight in the section's own plane.
func (s *Section) atUp(z, slack float64) ([]float64, error) {
	last := len(s.row) - 1
	low, high := math.Inf(1), math.Inf(-1)
	for i := range s.row {
		low, high = min(low, s.row[i].z), max(high, s.row[i].z)
	}
	var out []float64
	above := func(i int) bool { return s.row[i].z >= z }
	for i := 1; i <= last; i++ {
		if above(i-1) != above(i) {
			out = append(out, s.passes(z, i))
		}
	}
	reaches := func(end int) bool { return quantity.Snap(math.Abs(s.row[end].z-z)) <= slack }
	if reaches(0) && (len(out) == 0 || out[0] > besideEnd) {
		out = append([]float64{0}, out...)
	}
	if reaches(last) && (len(out) == 0 || out[len(out)-1] < 1-besideEnd) {
		out = append(out, 1)
	}
	if len(out) == 0 {
		return nil, &HeightError{z, low, high}
	}
	return out, nil
}

const (
	shownApart = 0.001     // mm: heights nearer than this are shown alike
	besideEnd  = 4. / cuts // of the girth: a crossing so near an end is that end's
)

// passes is where between the cuts i-1 and i the section passes the height z, by halving.
func (s *Section) passes(z float64, i int) float64 {
	g := s.surface.grid
	in := g.of(i)
	a, b := g.u(i-1), g.u(i) // on either side of a knuckle these are one
	rising := s.row[i].z > s.row[i-1].z
	for range 40 {
		mid := (a + b) / 2
		if j := s.jetIn(in, mid); j.z < z == rising {
			a = mid
		} else {
			b = mid
		}
	}
	return (a + b) / 2
}
