package fair

const (
	// exactError is what the cells can follow: exact points are held to this
	// share of the girth (0.02 mm on 2 m).
	exactError = 1e-5
	// leastShare of a point's error is always taken to lie along the normal,
	// also where a waterline crosses the curve at a glancing angle.
	leastShare = 0.3
)

// hold is a point as the present curve sees it.
type hold struct {
	foot
	miss float64 // from the curve to the point along the normal (-tz, ty)
	sd   float64 // standard deviation of the written error along that normal
}

// project drops every point onto the present curve.
func (w *Workspace) project() {
	for i := range w.pts {
		p, h := &w.pts[i], &w.holds[i]
		h.foot = w.line.foot(p.Y, p.Z, h.s)
		h.miss = (p.Z-h.z)*h.ty - (p.Y-h.y)*h.tz
		h.sd = w.sd * max(leastShare, p.share(h.ty, h.tz))
		if len(w.loose) > 0 {
			h.sd *= w.loose[i]
		}
	}
}
