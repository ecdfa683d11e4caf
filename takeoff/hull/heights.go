package hull

import (
	"fmt"
	"math"
)

// HeightError: a height that the section does not reach.
type HeightError struct{ Z, Low, High float64 } // mm

func (e *HeightError) Error() string {
	return fmt.Sprintf("the section runs from %.1f to %.1f mm above the baseline and does not reach a height of %.1f mm", e.Low, e.High, e.Z)
}

// AtHeight are the fractions of the girth at which the section passes the height z, mm, from the rabbet up: one as a
// rule, more where the section drops before it rises. A *HeightError where it nowhere does.
func (s *Section) AtHeight(z float64) ([]float64, error) {
	low, high := math.Inf(1), math.Inf(-1)
	for i := range s.row {
		low, high = min(low, s.row[i].z), max(high, s.row[i].z)
	}
	var out []float64
	above := func(i int) bool { return s.row[i].z >= z }
	for i := 1; i < len(s.row); i++ {
		switch {
		case s.row[i-1].z == z:
			out = append(out, float64(i-1)/cuts)
		case above(i-1) != above(i) && s.row[i].z != z:
			out = append(out, s.passes(z, i))
		}
	}
	if n := len(s.row) - 1; n >= 0 && s.row[n].z == z {
		out = append(out, 1)
	}
	if len(out) == 0 {
		return nil, &HeightError{z, low, high}
	}
	return out, nil
}

// passes is where between the cuts i-1 and i the section passes the height z, by halving.
func (s *Section) passes(z float64, i int) float64 {
	a, b := float64(i-1)/cuts, float64(i)/cuts
	rising := s.row[i].z > s.row[i-1].z
	for range 40 {
		mid := (a + b) / 2
		if j := s.jet(mid); j.z < z == rising {
			a = mid
		} else {
			b = mid
		}
	}
	return (a + b) / 2
}
