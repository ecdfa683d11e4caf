package hull

// OneMore is where one more point would tell most of the tightest bend of a section: a place at a section that was measured,
// which is its own or one of its neighbours'.
type OneMore struct {
	Station int     // that station's number, or -1 of a pattern and where patterns stand among the neighbours
	X       float64 // of the measured section, mm aft of station 0
	Along   float64 // mm along its girth from the rabbet
	Y, Z    float64 // half-breadth and height of its curve there, mm
}

// more is the place of one more point along a chain, mm, and where the curve runs there; not ok of one with knuckles, whose
// bends are looked for piece by piece, nor of a straight one.
func (c *Chain) more() (along float64, at Point, ok bool) {
	if len(c.pieces) != 1 || c.straight() {
		return 0, Point{}, false
	}
	p := &c.pieces[0]
	mid := p.quality.Least.Mid
	if !(mid > 0 && mid < c.girth) {
		return 0, Point{}, false
	}
	y, z, _, _ := p.curve.At(mid)
	return mid, Point{y, z}, true
}

// oneMore of the measured sections from first to last that do not show their bend, or not sharply: of those that do not
// show it, else of all, the one whose least radius has the widest range. near are their numbers, one of each, or fewer
// where some are patterns; x stands for a section without neighbours.
func (f *surface) oneMore(first, last int, near []int, x float64) (OneMore, bool) {
	best, hidden := -1, false
	for i := first; i <= last; i++ {
		c := f.curves[i]
		if _, _, ok := c.more(); !ok {
			continue
		}
		unshown := len(c.unshown(0)) > 0
		if !unshown && (c.sharp() || hidden) {
			continue
		}
		if best < 0 || unshown && !hidden || wider(c, f.curves[best]) {
			best, hidden = i, unshown
		}
	}
	if best < 0 {
		return OneMore{}, false
	}
	out := OneMore{Station: noStation, X: x}
	if len(near) == last-first+1 {
		out.Station = near[best-first]
	}
	if f.weights != nil {
		out.X = f.weights.x[best]
	}
	along, at, _ := f.curves[best].more()
	out.Along, out.Y, out.Z = along, at.Y, at.Z
	return out, true
}

// wider says that the range of c's least radius is, by the ratio of its ends.
func wider(c, than *Chain) bool {
	r, w := c.radius(ofLeast), than.radius(ofLeast)
	return r.High*w.Low > w.High*r.Low
}

// notShown are the pieces and fractions u of the bends which the points from first to last do not show.
func (f *surface) notShown(first, last int, put func(piece int, u float64)) {
	for i := first; i <= last; i++ {
		c := f.curves[i]
		for _, hidden := range c.unshown(0) {
			k := 0
			for k+1 < len(c.pieces) && hidden.Mid > c.pieces[k+1].before {
				k++
			}
			p := &c.pieces[k]
			put(k, f.grid.knots[k]+f.grid.width(k)*(hidden.Mid-p.before)/p.girth)
		}
	}
}

// OneMore is where one more point would tell most of the section's tightest bend; none where its points show every bend
// sharply, and of sections with knuckles.
func (s *Section) OneMore() (OneMore, bool) {
	return s.surface.oneMore(s.first, s.last, s.Near, s.X)
}

// NotShown are places along the section's own girth, mm from the rabbet, of the bends of Unshown: at the same fraction of
// the girth as at the station.
func (s *Section) NotShown() []float64 {
	var out []float64
	if s.one >= 0 {
		for _, u := range s.Unshown {
			out = append(out, u.Mid)
		}
		return out
	}
	s.surface.notShown(s.first, s.last, func(_ int, u float64) { out = append(out, s.along(u)) })
	return out
}

// OneMore is as of a Section.
func (l *Laid) OneMore() (OneMore, bool) {
	return l.surface.oneMore(l.first, l.last, l.Near, l.X)
}

// NotShown is as of a Section, along the line.
func (l *Laid) NotShown() []float64 {
	var out []float64
	l.surface.notShown(l.first, l.last, func(k int, u float64) { out = append(out, l.along(k, u)) })
	return out
}

// Tightest is as of a Section.
func (l *Laid) Tightest(moulded float64) (Bend, Reading, error) {
	s := Section{Straight: l.Straight, Bilge: l.Bilge, Hollow: l.Hollow}
	return s.Tightest(moulded)
}
