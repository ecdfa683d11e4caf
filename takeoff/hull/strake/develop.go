package strake

import (
	"math"

	"ribband/takeoff/hull"
)

const maxAlong = 400

type vertex struct{ x, y, z, nx, ny, nz, bend float64 }

// Shape is a strake laid out flat. Lengths are millimetres, Area square millimetres.
type Shape struct {
	Lower, Upper         []hull.Point // outline on the board, Y along it and Z across
	LengthLow, LengthUp  float64      // of the two edges
	WidthLeast, WidthMax float64      // over the surface, from edge to edge at one x
	Area                 float64
	RoundLow, RoundUp    float64 // how far each edge bows from its straight chord
	BoardLength          float64 // of the smallest rectangle that holds the strake
	BoardWidth           float64
	Spiling              float64 // (rectangle - strake) / rectangle: a loss, of what is bought
	Backing              float64 // greatest hollowing of the inner face
	Mismatch             float64 // greatest error of the diagonals not used; 0 where the strake is developable
}

// Develop lays out strake k, counted from 0 at the rabbet, in along steps from end to end.
func Develop(s Surface, e *Edges, k, along int) (*Shape, error) {
	if along < 2 || along > maxAlong {
		return nil, &CountError{"number of steps along", along, 2, maxAlong}
	}
	if k < 0 || k >= e.n {
		return nil, &CountError{"strake", k, 0, e.n - 1}
	}
	a, b := make([]vertex, along+1), make([]vertex, along+1)
	m := make([]vertex, along+1)
	x0, x1 := s.Reach()
	for i := range a {
		x := x0 + (x1-x0)*float64(i)/float64(along)
		lo, up := e.At(k, x), e.At(k+1, x)
		a[i], b[i], m[i] = vertexOf(s, lo, x), vertexOf(s, up, x), vertexOf(s, (lo+up)/2, x)
	}
	out := layOut(a, b)
	out.WidthLeast = math.Inf(1)
	for i := range a {
		w := arc(a[i], m[i]) + arc(m[i], b[i])
		out.WidthLeast, out.WidthMax = min(out.WidthLeast, w), max(out.WidthMax, w)
		out.Backing = max(out.Backing, Backing(w, max(a[i].bend, m[i].bend, b[i].bend)))
	}
	out.measure()
	if !(out.Area > 0) || math.IsInf(out.Area, 0) || math.IsNaN(out.Mismatch) {
		return nil, &LengthError{k}
	}
	return out, nil
}

func vertexOf(s Surface, u, x float64) vertex {
	j := s.Jet(u, x)
	nx, ny, nz := j.Normal()
	return vertex{x, j.Y, j.Z, nx, ny, nz, math.Abs(curvature(j))}
}

// arc is the length over the surface: chord c bent through the angle by which the normals lean along it.
func arc(a, b vertex) float64 {
	dx, dy, dz := b.x-a.x, b.y-a.y, b.z-a.z
	c := math.Sqrt(dx*dx + dy*dy + dz*dz)
	if c == 0 {
		return 0
	}
	sine := min(1, math.Abs((b.nx-a.nx)*dx+(b.ny-a.ny)*dy+(b.nz-a.nz)*dz)/(2*c))
	if sine < 1e-8 {
		return c // the bend is below the rounding of c
	}
	return c * math.Asin(sine) / sine
}

func layOut(a, b []vertex) *Shape {
	n := len(a)
	s := &Shape{Lower: make([]hull.Point, n), Upper: make([]hull.Point, n)}
	s.Upper[0].Z = arc(a[0], b[0])
	for i := range n - 1 {
		low, up := arc(a[i], a[i+1]), arc(b[i], b[i+1])
		s.LengthLow, s.LengthUp = s.LengthLow+low, s.LengthUp+up
		s.Lower[i+1] = apex(s.Upper[i], s.Lower[i], arc(b[i], a[i+1]), low)
		s.Upper[i+1] = apex(s.Upper[i], s.Lower[i+1], up, arc(a[i+1], b[i+1]))
		flat := math.Hypot(s.Upper[i+1].Y-s.Lower[i].Y, s.Upper[i+1].Z-s.Lower[i].Z)
		s.Mismatch = max(s.Mismatch, math.Abs(flat-arc(a[i], b[i+1])))
	}
	return s
}

// apex lies da from p and db from q, to the left of the way from p to q.
func apex(p, q hull.Point, da, db float64) hull.Point {
	dy, dz := q.Y-p.Y, q.Z-p.Z
	c2 := dy*dy + dz*dz
	if c2 == 0 {
		return hull.Point{Y: p.Y + da, Z: p.Z} // a strake that runs out to a point
	}
	t := (da*da - db*db + c2) / (2 * c2)
	h := math.Sqrt(max(0, da*da/c2-t*t))
	return hull.Point{Y: p.Y + t*dy - h*dz, Z: p.Z + t*dz + h*dy}
}
