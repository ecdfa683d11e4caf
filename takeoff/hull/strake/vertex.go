package strake

import (
	"math"

	"ribband/takeoff/hull"
)

// vertex is a place of the surface, its unit normal, and how much the section bends there, 1/mm.
type vertex struct{ x, y, z, nx, ny, nz, bend float64 }

func vertexOf(j hull.Jet, x float64) vertex {
	nx, ny, nz := j.Normal()
	return vertex{x, j.Y, j.Z, nx, ny, nz, math.Abs(curvature(j))}
}

// flat is how far two unit normals may be apart and the surface between count as flat: the bend is then below what a
// float64 holds of the chord.
const flat = 1e-8

// arc is the length over the surface between two places. Only the part of the chord along which the normals lean, s, is
// bent; it becomes as long as an arc that turns as far as they do, and what runs across it stays. So a helix on a
// cylinder has its length exactly, and on any surface the first term beyond the chord is right: c + k² c³ / 24, k the
// curvature along the chord. Bending the whole chord instead makes a diagonal wrong by a share of its square, which
// shears every cell the same way: the outline then drifts by a length of the order of one step.
func arc(a, b vertex) float64 {
	dx, dy, dz := b.x-a.x, b.y-a.y, b.z-a.z
	ex, ey, ez := b.nx-a.nx, b.ny-a.ny, b.nz-a.nz
	c2 := dx*dx + dy*dy + dz*dz
	lean := math.Sqrt(ex*ex + ey*ey + ez*ez)
	if lean < flat {
		return math.Sqrt(c2)
	}
	s := (ex*dx + ey*dy + ez*dz) / lean
	half := min(1, lean/2)
	longer := math.Asin(half) / half
	return math.Sqrt(c2 + s*s*(longer*longer-1))
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
