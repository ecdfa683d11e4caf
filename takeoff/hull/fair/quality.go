package fair

import "math"

// Shown says how well the points show a bend.
type Shown struct {
	// Radius is the range of its radius, mm. A High of +Inf means no tighter
	// than Low: the bend, if there is one, is lost in the grain.
	Radius Range
	// Blunt is the share by which the batten's own stiffness lowers the greatest
	// curvature.
	Blunt float64
	// Gap is the widest span beside it.
	Gap
}

// Unresolved says that the points do not show the bend at all: it is drawn by
// the batten, and may be tighter or easier than its range.
func (s *Shown) Unresolved() bool { return s.Turn > Unresolved }

// Quality says how sure a fitted section is.
type Quality struct {
	// Least is the tightest bend of either way.
	Least Shown
	// Bilge and Hollow are the tightest with the centre inboard and outboard, as
	// Peaks gives them. That of the two which is the tightest of all is Least.
	// The other has a range of its own from the same draws and refits, but never
	// a narrower one, as ratios, than the tightest has: its own alone was too
	// narrow. Where there is no such bend in truth, a fit may still swing into
	// one and give it a range; that errs on the side of care.
	Bilge, Hollow Shown
	// Girth is the range of the girth, mm.
	Girth Range
	// Sharp says that the least radius is good to a tenth, in 95 cases of a
	// hundred. Most that are not lie in a slack V, whose bend ends in no arc.
	Sharp bool
	// NearlyStraight says that a curve bent as tightly as this one all along
	// would still rise less than two grains over its girth: the section is no
	// tighter than Least.Radius.Low.
	NearlyStraight bool
	// Few is the number of points where they were too few to judge by draws and
	// refits, from two to four; 0 otherwise. Piece says what the ranges then
	// assume.
	Few int

	scatter scatter
	corner  float64 // the greatest of the polygon through the points, radians
}

const (
	// sharpFrom is the number of points from which a fit can be sharp,
	// sharpWithin the ratio of the ends of its range, and sharpTurn the most it
	// turns over the widest span: a hard bilge that falls between points looks
	// surer than it is.
	sharpFrom   = 7
	sharpWithin = 1.25
	sharpTurn   = 0.5
	// rangeFrom is the number of points from which a range can be stated.
	rangeFrom = 5
)

// Judge fits the points as Fit does, and says how sure the result is. Under
// five points the error is a *RangeError.
func Judge(pts []Point, grain float64) (*Curve, *Quality, error) {
	return new(Workspace).Judge(pts, grain)
}

// Judge is the package's Judge in this workspace.
func (w *Workspace) Judge(pts []Point, grain float64) (*Curve, *Quality, error) {
	c, err := w.Fit(pts, grain)
	if err != nil {
		return nil, nil, err
	}
	if len(pts) < rangeFrom {
		return nil, nil, &RangeError{len(pts)}
	}
	if !w.pose() {
		return nil, nil, &OrderError{Index: -1}
	}
	return c, w.judge(c), nil
}

// judge reads the quality of the present curve from draws and refits.
func (w *Workspace) judge(c *Curve) *Quality {
	blunted := w.refit(w.rough())
	w.draw()
	tr := &w.trials
	bilge, hollow := c.Peaks()
	tightest := bilge
	if hollow.Kappa > bilge.Kappa {
		tightest = hollow
	}
	q := &Quality{scatter: w.scatter(), corner: w.poly.corner(), NearlyStraight: w.flat(tightest.Kappa * c.length)}
	q.Least = w.shown(c, tightest, blunted.tightest, &tr.drawn.tightest, &tr.refitted.tightest, byRatio)
	q.Bilge, q.Hollow = q.Least, q.Least
	other, of := hollow, &q.Hollow
	if tightest == bilge {
		q.Hollow = w.shown(c, hollow, blunted.hollow, &tr.drawn.hollow, &tr.refitted.hollow, byDifference)
	} else {
		other, of = bilge, &q.Bilge
		q.Bilge = w.shown(c, bilge, blunted.bilge, &tr.drawn.bilge, &tr.refitted.bilge, byDifference)
	}
	if !w.flat(other.Kappa * c.length) {
		of.Radius = of.Radius.wider(q.Least.Radius.times(tightest.Kappa / other.Kappa))
	}
	q.Girth = girthRange(w.girth(), q.Least.span/c.length, q.Least.Turn, &tr.girth).times(c.length)
	q.Sharp = len(c.apart()) >= sharpFrom && c.Settled() && q.Least.Turn <= sharpTurn &&
		q.Least.Radius.High <= sharpWithin*q.Least.Radius.Low
	return q
}

// shown judges a bend by the curvatures drawn and refitted in its stead.
func (w *Workspace) shown(c *Curve, p Peak, blunted float64, drawn, refitted *[draws]float64, by func(k float64, refitted *[draws]float64) Range) Shown {
	k := p.Kappa * c.length
	s := Shown{Gap: c.gapAt(p)}
	if w.flat(k) {
		s.Radius = flatRange(k, drawn, refitted).times(c.length)
		return s
	}
	s.Blunt = max(0, 1-blunted/k)
	s.Radius = radiusRange(k, s.Blunt, s.Turn, drawn, by(k, refitted)).times(c.length)
	return s
}

// lost is the rise over the girth, in grains, up to which a bend is lost in
// them: a straight line written to the grain may seem to wave by one either way.
const lost = 2

// flat says that a bend of curvature k, were it so all along, would rise less
// than that.
func (w *Workspace) flat(k float64) bool { return k/8 < lost*w.sd*math.Sqrt(12) }

func (w *Workspace) girth() float64 {
	first, last := w.ends()
	return last - first
}
