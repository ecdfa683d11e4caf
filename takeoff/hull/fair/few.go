package fair

import "math"

// What is reckoned with between the points of a piece that has too few for a
// range of its own to be read from draws and refits. Both are the house's, no
// source; TestFewPointsOfAPanel measures what they hold.
const (
	// panelTurn, radians, is the most that a fair panel is taken to turn from
	// one knuckle to the next beyond what its points show, where only its ends
	// are known: a rise of a sixteenth of its breadth. Every point more leaves a
	// quarter of it less.
	panelTurn = 0.5
	// panelEnds is how many standard deviations of an end point's error the
	// girth may be out by at each end.
	panelEnds = 1.65
)

// Piece fits a piece between two knuckles, or between one and an end of the
// section. From five points on it is Judge. Three or four are drawn by Fit and
// two joined by a straight line; their ranges are wide, and assume that the
// piece turns no more than half a radian beyond what the points show (Few
// says how many there were). Errors are those of Judge, and a *FewError for
// less than two points that differ.
func (w *Workspace) Piece(pts []Point, grain float64) (*Curve, *Quality, error) {
	if len(pts) >= rangeFrom {
		return w.Judge(pts, grain)
	}
	c, err := w.few(pts, grain)
	if err != nil {
		return nil, nil, err
	}
	q := &Quality{Few: len(pts)}
	bilge, hollow := c.Peaks()
	g, sd := c.Girth(), grain/math.Sqrt(12)
	more := panelTurn * float64(6-len(pts)) / 4 / g
	rise := lost * grain * 8 / (g * g) // of the points' rounding
	q.Bilge = Shown{Radius: panelRadius(bilge.Kappa, more+rise), Gap: c.gapAt(bilge)}
	q.Hollow = Shown{Radius: panelRadius(hollow.Kappa, more+rise), Gap: c.gapAt(hollow)}
	q.Least = q.Bilge
	if hollow.Kappa > bilge.Kappa {
		q.Least = q.Hollow
	}
	ends := panelEnds * endError * math.Sqrt2 * sd
	q.Girth = Range{max(0, g-ends), g + more*more*g*g*g/24 + ends}
	q.NearlyStraight = math.IsInf(q.Least.Radius.High, 1)
	return c, q, nil
}

// few draws the curve of less than five points.
func (w *Workspace) few(pts []Point, grain float64) (*Curve, error) {
	if len(pts) != 2 {
		return w.Fit(pts, grain)
	}
	if !(grain >= 0 && grain <= coordinateLimit) {
		return nil, &GrainError{grain}
	}
	for i, p := range pts {
		if _, err := p.checked(i); err != nil {
			return nil, err
		}
	}
	return straightFrom(pts[0], pts[1])
}

// straightFrom is the straight line from a to b.
func straightFrom(a, b Point) (*Curve, error) {
	length := math.Hypot(b.Y-a.Y, b.Z-a.Z)
	if !(length > 0) {
		return nil, &FewError{Distinct: 1, Need: 2}
	}
	c := &Curve{y: a.Y, z: a.Z, length: length, last: 1, feet: []float64{0, length}, miss: []float64{0, 0}, settled: true}
	sin, cos := (b.Z-a.Z)/length, (b.Y-a.Y)/length
	c.line.th[0], c.line.y[0], c.line.z[0] = math.Atan2(b.Z-a.Z, b.Y-a.Y), from*cos, from*sin
	c.line.integrate()
	return c, nil
}

// panelRadius is the range of the radius of a bend of curvature k that may be
// so much more or less.
func panelRadius(k, more float64) Range {
	r := Range{1 / (k + more), math.Inf(1)}
	if k > more {
		r.High = 1 / (k - more)
	}
	return r
}
