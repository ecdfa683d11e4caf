package hull

import "math"

// slant is the curve in which a plane that does not stand square across the boat meets one side. At each fraction u of
// the girth of the square sections, x is where the fore-and-aft line of that fraction passes through the plane; u is
// only the parameter of the curve, and its own girth is summed like that of any section.
type slant struct {
	upAndOut
	f   *surface
	xs  []float64 // x at every cut
	row row       // the curve in its plane at every cut
}

// newSlant finds the curve of a plane; errors are *PlaneError and *ReachError.
func newSlant(f *surface, p Plane) (*slant, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	s := &slant{upAndOut: axesOf(p.X, 0, math.Tan(p.Cant), 0), f: f, xs: make([]float64, f.grid.last()+1)}
	if p.Lean != 0 {
		if err := s.lean(p.Lean); err != nil {
			return nil, err
		}
	}
	reach := s.newReach()
	c := make([]float64, len(f.rows))
	for k := range s.xs {
		s.offsets(k, c)
		s.xs[k] = f.weights.meets(s.x0, c, s.xs[max(0, k-1)])
		reach.take(s.xs[k], s.x0, c)
	}
	if err := reach.err(); err != nil {
		return nil, err
	}
	return s, s.crosses()
}

// lean turns the plane about the level line at the heel so that it passes through the head run mm farther aft.
func (s *slant) lean(run float64) error {
	reach := s.newReach()
	end := func(k int, x0 float64) float64 { // the height of the plane's end at a cut
		c := make([]float64, len(s.f.rows))
		s.offsets(k, c)
		x, z := s.f.weights.meets(x0, c, x0), 0.0
		reach.take(x, x0, c)
		for i := range c {
			w, _ := s.f.weights.one(i, x)
			z += w * s.f.rows[i][k].z
		}
		return z
	}
	heel, head := end(0, s.x0), end(s.f.grid.last(), s.x0+run)
	if err := reach.err(); err != nil {
		return err
	}
	if !(head > heel) || math.Abs(run) > (head-heel)*math.Tan(MaxLean) {
		return &PlaneError{"a frame whose head is run so far along the boat lies along the planks rather than across them"}
	}
	s.upAndOut = axesOf(s.x0, heel, s.a, run/(head-heel))
	return nil
}

// offsets fills in how far aft of x0 the plane stands at the cut k of every station's own curve.
func (s *slant) offsets(k int, c []float64) {
	for i := range c {
		j := &s.f.rows[i][k]
		c[i] = s.ahead(j.y, j.z)
	}
}

// crosses draws the curve at every cut; it reports a plane that runs along the planks, or in which the curve breaks in
// two.
func (s *slant) crosses() error {
	along := &PlaneError{"the frame would lie along the planks rather than across them: its plane meets the boat's fore-and-aft lines at less than six degrees"}
	steep := math.Sqrt(1 + s.a*s.a + s.b*s.b)
	s.row = make(row, len(s.xs))
	for k, x := range s.xs {
		r := s.f.at(k, s.f.weights.counting(x))
		through := (1 - s.a*r.Yx - s.b*r.Zx) / (steep * math.Sqrt(1+r.Yx*r.Yx+r.Zx*r.Zx))
		if !(through > alongSine) {
			return along
		}
		s.row[k] = s.jet(r)
		g := s.f.grid
		piece := g.of(k)
		if k == g.first[piece] {
			continue
		}
		// A leap to another crossing is far longer than the curve's own speed on both sides of it lets it go.
		j, before := &s.row[k], &s.row[k-1]
		if math.Hypot(j.y-before.y, j.z-before.z) > 2*max(j.speed(), before.speed())*g.width(piece)/float64(g.n[piece])+samePlace {
			return along
		}
	}
	return nil
}

// jet in the plane of a place of the surface through which it passes. With x' the run along the boat to a unit of u,
// x' = a y' + b z' and y' = y_u + y_x x', so x' (1 - a y_x - b z_x) = a y_u + b z_u; and once more for x".
func (s *slant) jet(r place2) jet {
	through := 1 - s.a*r.Yx - s.b*r.Zx
	x1 := (s.a*r.Yu + s.b*r.Zu) / through
	y2 := r.Yuu + x1*(2*r.Yux+x1*r.Yxx)
	z2 := r.Zuu + x1*(2*r.Zux+x1*r.Zxx)
	x2 := (s.a*y2 + s.b*z2) / through
	y1, z1 := r.Yu+r.Yx*x1, r.Zu+r.Zx*x1
	y2, z2 = y2+r.Yx*x2, z2+r.Zx*x2
	return jet{
		s.across*r.Y + s.aslant*(r.Z-s.z0), s.z0 + s.rising*(r.Z-s.z0),
		s.across*y1 + s.aslant*z1, s.rising * z1,
		s.across*y2 + s.aslant*z2, s.rising * z2,
	}
}

// at the fraction u, taken in piece k: where along the boat the curve is, and its jet in the plane.
func (s *slant) at(k int, u float64) (float64, jet) {
	g := s.f.grid
	js := make([]jet, len(s.f.curves))
	c := make([]float64, len(js))
	for i, f := range s.f.curves {
		js[i] = g.jet(f, k, u)
		c[i] = s.ahead(js[i].y, js[i].z)
	}
	x := s.f.weights.meets(s.x0, c, s.xs[g.first[k]+int(math.Round((u-g.knots[k])/g.width(k)*float64(g.n[k])))])
	return x, s.jet(sum(s.f.weights.counting(x), func(i int) *jet { return &js[i] }))
}

// span is the first and the last station that the curve rests on.
func (s *slant) span() (first, last int) {
	low, high := s.xs[0], s.xs[0]
	for _, x := range s.xs {
		low, high = min(low, x), max(high, x)
	}
	first, _, _ = s.f.weights.near(low)
	_, last, _ = s.f.weights.near(high)
	return first, last
}
