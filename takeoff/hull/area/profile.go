package area

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/interp"
)

// LineError: a stem's or a transom's line that is none.
type LineError struct{ Detail string }

func (e *LineError) Error() string { return e.Detail }

// Line is a line of x by height: straight through two places, a parabola through three, a spline through more; beyond
// its ends it runs on straight.
type Line struct {
	z, x   []float64
	spline *interp.NotAKnotCubic
}

// NewLine runs through the places, which rise, two at least; a *LineError otherwise.
func NewLine(line []Profile) (*Line, error) {
	if len(line) < 2 {
		return nil, &LineError{"the line has fewer than two places: measure its foot and its head at least"}
	}
	p := &Line{}
	for i, at := range line {
		if math.IsNaN(at.Z+at.X) || math.IsInf(at.Z+at.X, 0) {
			return nil, &LineError{fmt.Sprintf("place %d of the line is no number", i)}
		}
		if i > 0 && !(at.Z > line[i-1].Z) {
			return nil, &LineError{fmt.Sprintf("place %d of the line, at the height %v mm, does not lie above the one before: its places must rise", i, at.Z)}
		}
		p.z, p.x = append(p.z, at.Z), append(p.x, at.X)
	}
	if len(line) > 3 {
		p.spline = &interp.NotAKnotCubic{}
		if err := p.spline.Fit(p.z, p.x); err != nil {
			return nil, &LineError{"no fair line runs through the places: " + err.Error()}
		}
	}
	return p, nil
}

// At is x at the height z, and its slope.
func (p *Line) At(z float64) (x, slope float64) {
	held := max(p.z[0], min(p.z[len(p.z)-1], z))
	x, slope = p.within(held)
	return x + slope*(z-held), slope
}

func (p *Line) within(z float64) (x, slope float64) {
	if p.spline != nil {
		return p.spline.Predict(z), p.spline.PredictDerivative(z)
	}
	slope = (p.x[1] - p.x[0]) / (p.z[1] - p.z[0])
	x = p.x[0] + slope*(z-p.z[0])
	if len(p.z) == 3 {
		bend := ((p.x[2]-p.x[1])/(p.z[2]-p.z[1]) - slope) / (p.z[2] - p.z[0])
		x += bend * (z - p.z[0]) * (z - p.z[1])
		slope += bend * (2*z - p.z[0] - p.z[1])
	}
	return x, slope
}
