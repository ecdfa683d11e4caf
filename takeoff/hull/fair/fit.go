package fair

import "math"

// Workspace holds the arrays of a fit, to be used again for the next: once
// they have grown to the largest section, Fit allocates nothing but the Curve
// it returns. The zero value is ready. One goroutine at a time may use it.
//
// After a fit it still holds the linear problem of the last step, in its
// reduced form, and the cost of every roughness tried.
type Workspace struct {
	pts    []Point // about the first point, in units of the polygon's length
	grain  float64 // mm
	sd     float64 // of the written error, in units of the polygon's length
	length float64 // of the polygon, mm
	poly   polygon
	line   line
	holds  []hold

	rows   []float64 // one row of stride a point
	lever  [knots]float64
	sums   [stride]float64
	left   int // reduced rows that know only of the prior
	tri    tridiagonal
	turned []float64 // what those rows ask for, in the tridiagonal frame
	costs  [roughTried]float64

	loose   []float64 // times its written error that a point counts with; empty for 1
	without without

	back, pivot, weight []float64
	fitted              []float64 // what the rows would ask for without error
	trials              trials
	movement            movement
	drive               [knots]float64 // of the present curve
	kept                struct {
		line  line
		drive [knots]float64
		holds []hold
	}
}

// Fit fits the fair curve to the points of a section, in order from rabbet to
// sheer, written to the given grain in millimetres (1/8 in is 3.175; 0 means
// exact). The points must be split at knuckles beforehand.
//
// Errors are *FewError (fewer than three distinct points), *PointError (a
// value that is no number or out of range), *GrainError and *OrderError.
func Fit(pts []Point, grain float64) (*Curve, error) {
	return new(Workspace).Fit(pts, grain)
}

const (
	mostSteps = 12
	// enough is the change of the greatest curvature at which the steps stop.
	enough = 1e-3
)

// Fit is the package's Fit in this workspace.
func (w *Workspace) Fit(pts []Point, grain float64) (*Curve, error) {
	w.loose = w.loose[:0]
	return w.fit(pts, grain)
}

func (w *Workspace) fit(pts []Point, grain float64) (*Curve, error) {
	if err := w.take(pts, grain); err != nil {
		return nil, err
	}
	w.poly.bend(&w.line, &w.drive)
	for i := range w.holds {
		w.holds[i].s = w.poly.s[w.poly.own[i]]
	}
	w.project()
	c := &Curve{}
	old := math.Inf(1)
	for step := 0; step < mostSteps && !c.settled; step++ {
		w.relay()
		if !w.pose() {
			return nil, &OrderError{Index: -1}
		}
		square := w.rough()
		w.solve(square, &w.movement)
		part := w.descend(square)
		now := w.line.greatest(w.holds[0].s, w.holds[len(w.holds)-1].s)
		c.settled = part == 1 && math.Abs(now-old) <= enough*max(now, straight)
		old = now
	}
	return w.finish(c, pts)
}

// pose sets up the linear problem about the present curve in its reduced form.
// It reports whether the points hold the three free movements at all.
func (w *Workspace) pose() bool {
	w.linear()
	if !w.reduce() {
		return false
	}
	w.gram()
	w.tri.reduce()
	w.ask()
	return true
}

// take checks the points and brings them to the unit of their polygon.
func (w *Workspace) take(pts []Point, grain float64) error {
	if !(grain >= 0 && grain <= coordinateLimit) {
		return &GrainError{grain}
	}
	n := len(pts)
	if n < 3 {
		return &FewError{Distinct: n, Need: 3}
	}
	w.pts = w.pts[:0]
	for i, p := range pts {
		p, err := p.checked(i)
		if err != nil {
			return err
		}
		w.pts = append(w.pts, p)
	}
	if err := w.poly.through(w.pts, grain); err != nil {
		return err
	}
	w.length = w.poly.length()
	y, z := pts[0].Y, pts[0].Z
	w.poly.shrink(y, z, w.length)
	for i := range w.pts {
		p := &w.pts[i]
		p.Y, p.Z = (p.Y-y)/w.length, (p.Z-z)/w.length
	}
	w.grain = grain
	w.sd = w.written()
	w.size(n)
	return nil
}

// written is the standard deviation of a point written to the grain, which is
// even over the grain's width, but never less than the cells can follow.
func (w *Workspace) written() float64 {
	return max(w.grain/math.Sqrt(12)/w.length, exactError)
}

func (w *Workspace) size(n int) {
	if cap(w.holds) < n {
		w.holds, w.kept.holds = make([]hold, n), make([]hold, n)
	}
	w.kept.holds = w.kept.holds[:n]
	w.holds = w.holds[:n]
	w.rows = sized(w.rows, n*stride)
	left := min(n-free, knots)
	for _, s := range []*[]float64{&w.turned, &w.back, &w.pivot, &w.weight, &w.fitted} {
		*s = sized(*s, left)
	}
}

// ask brings what the reduced rows ask for into the tridiagonal frame.
func (w *Workspace) ask() {
	for i := range w.left {
		w.back[i] = w.rows[(free+i)*stride+asked]
	}
	w.tri.toTurned(w.back, w.turned)
}
