package hull

import "math"

// corners are the knuckles that the line crosses.
func (l *Laid) corners() {
	g := l.surface.grid
	for i, name := range l.surface.curves[0].names {
		cut := g.first[i+1]
		x := l.X + l.Run*g.knots[i+1]
		count := l.surface.weights.counting(x)
		below, above := l.surface.at(cut-1, count), l.surface.at(cut, count)
		a, b := l.tangent(below), l.tangent(above)
		cos := a[0]*b[0] + a[1]*b[1] + a[2]*b[2]
		turn := math.Acos(max(-1, min(1, cos)))
		if below.Yu*above.Zu-below.Zu*above.Yu < 0 {
			turn = -turn
		}
		l.Knuckles = append(l.Knuckles, Knuckle{Name: name, U: g.knots[i+1], S: l.to(i + 1), Y: above.Y, Z: above.Z, Turn: turn})
	}
}

// tangent of the line at a place of the surface, along x, y and z; none where it stands still.
func (l *Laid) tangent(p place2) [3]float64 {
	t := [3]float64{l.Run, p.Yu + l.Run*p.Yx, p.Zu + l.Run*p.Zx}
	v := math.Sqrt(t[0]*t[0] + t[1]*t[1] + t[2]*t[2])
	if v > 0 {
		t[0], t[1], t[2] = t[0]/v, t[1]/v, t[2]/v
	}
	return t
}

// crease is the angle from the line to the knuckle's own line on the boat, that runs aft, at a cut on either side of it.
// Unrolling keeps it, so the line on the flat turns at a knuckle by how much the two sides differ.
func (l *Laid) crease(cut int) float64 {
	p := l.surface.at(cut, l.surface.weights.counting(l.X+l.Run*l.surface.grid.u(cut)))
	t := l.tangent(p)
	cos := (t[0] + t[1]*p.Yx + t[2]*p.Zx) / math.Sqrt(1+p.Yx*p.Yx+p.Zx*p.Zx)
	return math.Acos(max(-1, min(1, cos)))
}

// unroll turns up the faying face along the line, and lays the line flat with the curvature that it has in the planking.
func (l *Laid) unroll() {
	g := l.surface.grid
	for k := range g.pieces() {
		turns, apart := l.piece(k, func(s spot) float64 { return s.twist * s.speed })
		c := cumulated(turns, apart)
		l.Twist += c[len(c)-1]
	}
	pts, _ := l.drawn(func(s spot) float64 { return s.edge }, func(k int) float64 { return l.crease(g.first[k]-1) - l.crease(g.first[k]) })
	a, b := pts[0], pts[len(pts)-1]
	chord := math.Hypot(b.Y-a.Y, b.Z-a.Z)
	if chord == 0 {
		return
	}
	low, high := 0.0, 0.0
	for _, p := range pts {
		off := cross3(a, b, p) / chord
		low, high = min(low, off), max(high, off)
	}
	l.Sweep = high - low
}

// drawn is the plane curve with a curvature along the line, that turns besides at the start of each piece but the first,
// and its direction at each cut.
func (l *Laid) drawn(kappa func(spot) float64, turn func(k int) float64) (pts []Point, dirs []float64) {
	g := l.surface.grid
	at, dir := Point{}, 0.0
	for k := range g.pieces() {
		if k > 0 {
			dir += turn(k)
		}
		turns, apart := l.piece(k, func(s spot) float64 {
			if math.IsInf(s.bend, 0) {
				return 0 // how a cusp turns is not known
			}
			return kappa(s) * s.speed
		})
		speed, _ := l.piece(k, func(s spot) float64 { return s.speed })
		y, z := make([]float64, len(speed)), make([]float64, len(speed))
		turned := cumulated(turns, apart)
		for i, v := range speed {
			sin, cos := math.Sincos(dir + turned[i])
			y[i], z[i] = v*cos, v*sin
			dirs = append(dirs, dir+turned[i])
		}
		y, z = cumulated(y, apart), cumulated(z, apart)
		for i := range y {
			pts = append(pts, Point{at.Y + y[i], at.Z + z[i]})
		}
		at, dir = pts[len(pts)-1], dir+turned[len(turned)-1]
	}
	return pts, dirs
}

// EnclosingRectangle is the smallest rectangle that holds the frame, so deep moulded (mm), as it is bent on the form: in
// one plane, with the bends that it has on the planking and the twist still to come. Errors are those of the Section's.
func (l *Laid) EnclosingRectangle(moulded float64) (length, width float64, err error) {
	if !(moulded >= 0) || math.IsInf(moulded, 0) {
		return 0, 0, &DepthError{Depth: moulded, Radius: l.Least().Radius().MM}
	}
	pts, dirs := l.drawn(func(s spot) float64 { return s.bend }, func(k int) float64 { return l.Knuckles[k-1].Turn })
	for i := range dirs {
		pts = append(pts, Place{Y: pts[i].Y, Z: pts[i].Z, Theta: dirs[i]}.Inboard(moulded))
	}
	r := SmallestRectangle(pts)
	return r.Length, r.Width, nil
}
