package hull

import (
	"cmp"
	"math"
	"slices"
)

// EnclosingRectangle is the smallest rectangle, by area and lying in any direction, that holds a frame of the
// given moulded depth (mm) on this section: its faying face and its inner face, from rabbet to sheer. It is the
// stock from which the frame's pattern is cut. The faces are taken as straight between the cuts of the girth: on 2 m
// every 7 mm, where a bend of 300 mm radius stands a fiftieth of a millimetre proud. Length is the greater of its sides, width the less, mm. The
// depth must be a number from 0 up; a *DepthError otherwise.
func (s *Section) EnclosingRectangle(moulded float64) (length, width float64, err error) {
	if !(moulded >= 0) || math.IsInf(moulded, 0) {
		return 0, 0, &DepthError{Depth: moulded, Radius: s.Least().Radius().MM}
	}
	pts := make([]Point, 0, 2*len(s.row))
	for i := range s.row {
		pts = append(pts, Point{s.row[i].y, s.row[i].z}, s.row[i].inboard(moulded))
	}
	for _, k := range s.surface.grid.first[1:] {
		pts = append(pts, mitre(&s.row[k-1], &s.row[k], moulded))
	}
	r := SmallestRectangle(pts)
	return r.Length, r.Width, nil
}

// Faces are the faying face from rabbet to sheer at the cuts of the girth, and the inner face beside each, so deep inboard, mm.
func (s *Section) Faces(moulded float64) (faying, inner []Point) {
	faying, inner = make([]Point, len(s.row)), make([]Point, len(s.row))
	for i := range s.row {
		faying[i], inner[i] = Point{s.row[i].y, s.row[i].z}, s.row[i].inboard(moulded)
	}
	return faying, inner
}

// Rectangle is one that holds a shape: Length is the greater of its sides, Width the less, mm, and Along the unit vector
// in which the greater one runs.
type Rectangle struct {
	Length, Width float64
	Along         Point
}

// SmallestRectangle is the smallest, by area and lying in any direction, that holds all points. They are put into another
// order. Points that are all one have a rectangle of no length, which lies along the first axis.
func SmallestRectangle(pts []Point) Rectangle { return smallestRectangle(convex(pts)) }

// mitre is where the inner faces on either side of a knuckle meet.
func mitre(below, above *jet, depth float64) Point {
	v, w := below.speed(), above.speed()
	if v == 0 || w == 0 {
		return Point{above.y, above.z}
	}
	ay, az := below.yu/v+above.yu/w, below.zu/v+above.zu/w
	reach := 2 * depth / (ay*ay + az*az) // depth over the cosine of half the turn, along a unit vector
	if p := (Point{above.y - reach*az, above.z + reach*ay}); math.Hypot(p.Y-above.y, p.Z-above.z) <= 2*depth {
		return p
	}
	return Point{above.y, above.z} // the line doubles back
}

// convex is the convex hull of points, counter-clockwise, without points on its straight sides (Andrew's chain).
func convex(pts []Point) []Point {
	slices.SortFunc(pts, func(a, b Point) int { return cmp.Or(cmp.Compare(a.Y, b.Y), cmp.Compare(a.Z, b.Z)) })
	half := func(out []Point, p Point, floor int) []Point {
		for len(out) >= floor+2 && cross3(out[len(out)-2], out[len(out)-1], p) <= 0 {
			out = out[:len(out)-1]
		}
		return append(out, p)
	}
	var out []Point
	for _, p := range pts {
		out = half(out, p, 0)
	}
	floor := len(out) - 1
	for i := len(pts) - 2; i >= 0; i-- {
		out = half(out, pts[i], floor)
	}
	if len(out) > 1 {
		out = out[:len(out)-1]
	}
	return out
}

func cross3(a, b, c Point) float64 { return (b.Y-a.Y)*(c.Z-a.Z) - (b.Z-a.Z)*(c.Y-a.Y) }

// smallestRectangle of a convex outline has a side along one of its edges (Freeman and Shapira, Determining the
// minimum-area encasing rectangle for an arbitrary closed curve, Communications of the ACM 18, 1975, from memory).
// The points that touch the other three sides only move forward as the edge goes round, so one round finds it.
func smallestRectangle(c []Point) Rectangle {
	n := len(c)
	out := Rectangle{Along: Point{Y: 1}}
	if n < 3 {
		if n == 2 {
			if l := math.Hypot(c[1].Y-c[0].Y, c[1].Z-c[0].Z); l > 0 {
				out = Rectangle{l, 0, Point{(c[1].Y - c[0].Y) / l, (c[1].Z - c[0].Z) / l}}
			}
		}
		return out
	}
	best := math.Inf(1)
	far, top, near := 1, 1, 0
	for i := range c {
		a, b := c[i], c[(i+1)%n]
		l := math.Hypot(b.Y-a.Y, b.Z-a.Z)
		ey, ez := (b.Y-a.Y)/l, (b.Z-a.Z)/l
		run := func(k int) float64 { p := c[k%n]; return (p.Y-a.Y)*ey + (p.Z-a.Z)*ez }
		rise := func(k int) float64 { p := c[k%n]; return (p.Z-a.Z)*ey - (p.Y-a.Y)*ez }
		for far = max(far, i+1); run(far+1) > run(far); far++ {
		}
		for top = max(top, far); rise(top+1) > rise(top); top++ {
		}
		for near = max(near, top); run(near+1) < run(near); near++ {
		}
		w, h := run(far)-run(near), rise(top)
		if w*h < best {
			best = w * h
			out = Rectangle{w, h, Point{ey, ez}}
			if h > w {
				out = Rectangle{h, w, Point{-ez, ey}}
			}
		}
	}
	return out
}
