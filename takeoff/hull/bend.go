package hull

import (
	"fmt"
	"math"

	"ribband/takeoff/hull/fair"
)

// Reading is a measured figure with the range that is meant to hold the true one nine times in ten, all mm.
type Reading struct{ MM, Low, High float64 }

// Bend is the tightest place of a section that bends one way, at the faying face.
type Bend struct {
	Kappa float64 // 1/mm, never negative; 0 where the section nowhere bends that way; infinite at a cusp
	U     float64 // where it lies: fraction of the girth from the rabbet
	S     float64 // the same in mm along the girth
	// Hollow says that the centre of curvature lies outboard.
	Hollow bool

	radius fair.Range // mm; High is infinite where there may be no such bend
}

// Radius at the faying face; infinite where there is no such bend, and then Low still says how tight it is at most.
// High is infinite where the points do not tell the bend from none.
func (b Bend) Radius() Reading { return Reading{1 / b.Kappa, b.radius.Low, b.radius.High} }

// RadiusAt is the radius of a laminate at the given depth from the faying face, mm. In a bilge it is shorter by
// the depth, in a hollow longer. Where Low is 0 the true radius may be less than the depth. Where even the fitted
// radius is, no piece of that depth can exist and the error is a *DepthError.
func (b Bend) RadiusAt(depth float64) (Reading, error) {
	if math.IsNaN(depth) || depth < 0 {
		return Reading{}, &DepthError{Depth: depth, Radius: b.Radius().MM}
	}
	r := b.Radius()
	if b.Hollow {
		return Reading{r.MM + depth, r.Low + depth, r.High + depth}, nil
	}
	if !(r.MM > depth) {
		return Reading{}, &DepthError{Depth: depth, Radius: r.MM}
	}
	return Reading{r.MM - depth, max(0, r.Low-depth), r.High - depth}, nil
}

// DepthError: a depth from the faying face at which no piece can run, because the bend is tighter than it is deep.
type DepthError struct {
	Depth  float64 // mm
	Radius float64 // of the bend at the faying face, mm
}

func (e *DepthError) Error() string {
	if !(e.Depth >= 0) {
		return fmt.Sprintf("a depth of %v mm is not one: it is measured inboard from the faying face", e.Depth)
	}
	return fmt.Sprintf("a piece %.1f mm deep cannot follow a bend of radius %.1f mm: its inner face would have no length there", e.Depth, e.Radius)
}
