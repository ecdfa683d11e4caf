package fair

import "math"

// Curve is a fitted section. It is never changed after Fit returns it.
type Curve struct {
	line        line
	y, z        float64 // place of the first point, mm
	length      float64 // of the polygon through the points, mm
	first, last float64 // feet of the first and the last point, polygon lengths
	feet, miss  []float64
	settled     bool
}

// finish makes the curve from the workspace, or says that there is none.
func (w *Workspace) finish(c *Curve, pts []Point) (*Curve, error) {
	n := len(w.holds)
	c.line, c.y, c.z, c.length = w.line, pts[0].Y, pts[0].Z, w.length
	c.first, c.last = w.holds[0].s, w.holds[n-1].s
	both := make([]float64, 2*n)
	c.feet, c.miss = both[:n:n], both[n:]
	worst, top, back := 0, c.first, 0.0
	for i, h := range w.holds {
		top = max(top, h.s)
		back = max(back, top-h.s)
		c.feet[i], c.miss[i] = (h.s-c.first)*c.length, h.miss*c.length
		if math.Abs(c.miss[i]) > math.Abs(c.miss[worst]) {
			worst = i
		}
	}
	switch off := math.Abs(c.miss[worst]); {
	case !(c.last > c.first) || !c.line.finite():
		return nil, &OrderError{Index: -1}
	case off > worstMiss*c.length || back > worstBack:
		return nil, &OrderError{Index: worst, Miss: off}
	}
	return c, nil
}

// worstBack is how far a point's foot may lie before that of an earlier point,
// in the same measure. Points written side by side change places by a grain;
// on sections given in order it is under a thousandth.
const worstBack = 0.01

// worstMiss is the miss, as a share of the girth, at which the curve cannot be
// said to follow the points: 100 mm on 2 m.
const worstMiss = 0.05

// Girth is the length along the curve from the foot of the first point to that
// of the last, mm.
func (c *Curve) Girth() float64 { return (c.last - c.first) * c.length }

// At gives the place (mm), the tangent angle (radians from the y axis towards
// z, without jumps along the curve) and the signed curvature (1/mm, positive
// where the centre lies inboard) at the length s mm along the curve from the
// first foot. s outside 0 to Girth is taken to the nearer end.
func (c *Curve) At(s float64) (y, z, theta, kappa float64) {
	u := c.first + s/c.length
	u = max(c.first, min(c.last, u))
	y, z, theta, kappa = c.line.at(u)
	return c.y + y*c.length, c.z + z*c.length, theta, kappa / c.length
}

// Points is how many points the curve was fitted to.
func (c *Curve) Points() int { return len(c.feet) }

// Foot is the length along the curve from the first foot to that of point i,
// mm. It may be slightly negative, or beyond Girth, for a point beside an end.
func (c *Curve) Foot(i int) float64 { return c.feet[i] }

// Miss is how far point i lies from the curve along its normal, mm: positive
// towards the side of a positive centre of curvature, inboard.
func (c *Curve) Miss(i int) float64 { return c.miss[i] }

// Settled says that the last step of the fit changed the greatest curvature by
// no more than a thousandth. Where it is false a bend falls into a gap between
// points and could lie anywhere in it, or is tighter than the cells can follow:
// curvature read there is doubtful.
func (c *Curve) Settled() bool { return c.settled }
