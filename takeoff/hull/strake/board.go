package strake

import (
	"math"

	"ribband/takeoff/hull"
)

// figures of the part from place i to place j.
func (s *Shape) figures(i, j int) Figures {
	var f Figures
	f.LengthLower, f.LengthUpper = s.lengths(i, j)
	f.WidthLeast, f.WidthMost = s.Width(i), s.Width(i)
	for k := i; k <= j; k++ {
		w := s.Width(k)
		if w.MM < f.WidthLeast.MM {
			f.WidthLeast = w
		}
		if w.MM > f.WidthMost.MM {
			f.WidthMost = w
		}
		f.Backing = max(f.Backing, s.backing[k])
	}
	for k := i; k < j; k++ {
		c := s.cell[k]
		f.Area.MM += c.area
		f.Area.Low += c.area*min(s.low[k], s.low[k+1]) - c.openArea - c.shared
		f.Area.High += c.area*max(s.high[k], s.high[k+1]) + c.openArea + c.shared
		f.Shared += c.shared
		f.Mismatch = max(f.Mismatch, c.mismatch)
	}
	f.Area.Low = max(0, f.Area.Low)
	f.RoundLower, f.RoundUpper = s.round(s.Lower, i, j), s.round(s.Upper, i, j)
	ring := make([]hull.Point, 0, 2*(j-i+1))
	f.Board = hull.SmallestRectangle(append(append(ring, s.Lower[i:j+1]...), s.Upper[i:j+1]...))
	if r := f.Board.Length * f.Board.Width; r > 0 {
		f.Spiling = max(0, (r-f.Area.MM)/r)
	}
	f.boardRanges()
	return f
}

// bow is how far a point r lies left of the way from p to q, and at what part of that way.
func bow(p, q, r hull.Point) (off, at float64) {
	dy, dz := q.Y-p.Y, q.Z-p.Z
	c := math.Hypot(dy, dz)
	if c == 0 {
		return 0, 0
	}
	ry, rz := r.Y-p.Y, r.Z-p.Z
	return (dy*rz - dz*ry) / c, (dy*ry + dz*rz) / (c * c)
}

// round of an edge from place i to place j. The edge bows most between two places as a rule: the parabola through the
// three about the farthest says how far.
func (s *Shape) round(edge []hull.Point, i, j int) hull.Reading {
	p, q := edge[i], edge[j]
	var out hull.Reading
	far := i
	for k := i; k <= j; k++ {
		off, at := bow(p, q, edge[k])
		off = math.Abs(off)
		err := s.across(k) + (1-at)*s.across(i) + at*s.across(j)
		if k == i || k == j {
			err = 0 // the chord goes through its ends
		}
		out.Low, out.High = max(out.Low, off-err), max(out.High, off+err)
		if off > out.MM {
			out.MM, far = off, k
		}
	}
	if far > i && far < j {
		beyond := crest(p, q, edge[far-1], edge[far], edge[far+1])
		out.MM += beyond
		out.High += beyond
	}
	return out
}

// crest is how much farther than b the parabola through a, b, c goes from the line p to q, b being the farthest of the
// three.
func crest(p, q, a, b, c hull.Point) float64 {
	da, ta := bow(p, q, a)
	db, tb := bow(p, q, b)
	dc, tc := bow(p, q, c)
	if db < 0 {
		da, db, dc = -da, -db, -dc
	}
	if !(ta < tb && tb < tc) || da < 0 || dc < 0 {
		return 0 // an edge that turns back on itself
	}
	left, right := (db-da)/(tb-ta), (dc-db)/(tc-tb)
	second := (right - left) / (tc - ta) // half the second derivative
	if !(second < 0) {
		return 0
	}
	slope := left + second*(tb-ta)
	return slope * slope / (-4 * second)
}
