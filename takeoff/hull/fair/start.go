package fair

import "math"

// polygon is the first rough curve: the points, those close together averaged,
// joined by straight lines.
type polygon struct {
	y, z []float64
	s    []float64 // length along it, at its corners
	th   []float64 // angle of each side, without jumps of a whole turn
	mid  []float64 // length at the middle of each side
	own  []int     // the corner that stands for each point
}

// distinct is the share of the raw length below which two points are the same.
const distinct = 1e-6

// through lays the polygon through the points; points nearer than six grains
// are averaged, because the turning between two such points is mostly rounding.
// Points that leave fewer than three corners so are averaged less.
func (g *polygon) through(pts []Point, grain float64) error {
	raw := 0.0
	for i := 1; i < len(pts); i++ {
		raw += math.Hypot(pts[i].Y-pts[i-1].Y, pts[i].Z-pts[i-1].Z)
	}
	least := max(1e-9, distinct*raw)
	for near := max(6*grain, 1e-3*raw); ; near /= 2 {
		near = max(near, least)
		g.gather(pts, near)
		if len(g.y) >= 3 {
			break
		}
		if near == least {
			return &FewError{Distinct: len(g.y), Need: 3}
		}
	}
	g.measure()
	return nil
}

// gather averages neighbouring points within near of each other. The first and
// the last point keep their places, for the girth runs between them.
func (g *polygon) gather(pts []Point, near float64) {
	g.y, g.z, g.own = g.y[:0], g.z[:0], g.own[:0]
	count := 0.0
	for i, p := range pts {
		c := len(g.y) - 1
		if c < 0 || !(math.Hypot(p.Y-g.y[c], p.Z-g.z[c]) < near) {
			g.y, g.z, count = append(g.y, p.Y), append(g.z, p.Z), 1
			c++
		} else if c > 0 {
			count++
			if i == len(pts)-1 {
				g.y[c], g.z[c] = p.Y, p.Z
			} else {
				g.y[c] += (p.Y - g.y[c]) / count
				g.z[c] += (p.Z - g.z[c]) / count
			}
		}
		g.own = append(g.own, c)
	}
}

func (g *polygon) measure() {
	n := len(g.y)
	g.s, g.th, g.mid = append(g.s[:0], 0), g.th[:0], g.mid[:0]
	for i := 1; i < n; i++ {
		dy, dz := g.y[i]-g.y[i-1], g.z[i]-g.z[i-1]
		th, s := math.Atan2(dz, dy), g.s[i-1]
		if i > 1 {
			last := g.th[i-2]
			th = last + math.Remainder(th-last, 2*math.Pi)
		}
		side := math.Hypot(dy, dz)
		g.th, g.s, g.mid = append(g.th, th), append(g.s, s+side), append(g.mid, s+side/2)
	}
}

func (g *polygon) length() float64 { return g.s[len(g.s)-1] }

// corner is the greatest turn from one side to the next, radians.
func (g *polygon) corner() float64 {
	most := 0.0
	for i := 1; i < len(g.th); i++ {
		most = max(most, math.Abs(g.th[i]-g.th[i-1]))
	}
	return most
}

// shrink moves the polygon to origin (y, z) and unit length.
func (g *polygon) shrink(y, z, length float64) {
	for i := range g.y {
		g.y[i], g.z[i], g.s[i] = (g.y[i]-y)/length, (g.z[i]-z)/length, g.s[i]/length
	}
	for i := range g.mid {
		g.mid[i] /= length
	}
}

// angle at length s: that of each side at its middle, straight between.
func (g *polygon) angle(s float64) float64 {
	i := 1
	for i < len(g.mid)-1 && g.mid[i] < s {
		i++
	}
	return g.th[i-1] + (g.th[i]-g.th[i-1])*(s-g.mid[i-1])/(g.mid[i]-g.mid[i-1])
}

// bend gives the line the turning of the polygon, its kinks smoothed as far as
// the drives can follow, and lays it so that the corners are missed by nothing
// on average.
func (g *polygon) bend(l *line, drive *[knots]float64) {
	for j := range knots {
		s := from + float64(j)*cell
		l.k[j] = (g.angle(s+cell/2) - g.angle(s-cell/2)) / cell
	}
	drivesOf(&l.k, drive)
	curvature(l.k[0], drive, &l.k)
	l.th[0], l.y[0], l.z[0] = g.angle(from), 0, 0
	l.integrate()
	var my, mz float64
	for i := range g.y {
		y, z, _, _ := l.at(g.s[i])
		my, mz = my+g.y[i]-y, mz+g.z[i]-z
	}
	n := float64(len(g.y))
	l.y[0], l.z[0] = my/n, mz/n
	l.integrate()
}
