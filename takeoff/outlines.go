package takeoff

import (
	"math"

	"ribband/takeoff/bill"
	"ribband/takeoff/hull"

	"github.com/shopspring/decimal"
)

// What the outlines of patterns are made with, mm.
const (
	// outlineRoom is what a saw finds between two: twice a jigsaw's blade and its wander. Common practice, no source.
	outlineRoom = 4
	// outlineRounding is how far a corner moves when it is counted in whole millimetres: half a diagonal, and a little.
	outlineRounding = 0.75
	// outlineStretches of each face stand for the curve; each corner is moved outwards by what the curve rises over its two
	// stretches, and by some outlineSteps more until all of it lies inside. Eight keep the search for pairs to about a millisecond.
	outlineStretches = 8
	outlineStep      = 0.5
	outlineSteps     = 20
)

// outlinePatterns puts on the bill what the patterns of frames lie in. Frames that were taped or lie flat on the planking have
// no outline; a section with a knuckle is left without one.
func outlinePatterns(stands []stand, lines []bill.Line) {
	at := map[string]int{}
	for i, l := range lines {
		if l.Material == bill.Pattern && l.Rectangles != nil && l.Rectangles.Count == 1 {
			at[l.ID] = i
		}
	}
	for _, s := range stands {
		i, ok := at[s.frame.Member().Path()+"/pattern"]
		if !ok || s.target == nil || len(s.target.Knuckles()) > 0 {
			continue
		}
		if pts := bandOf(s).outline(); pts != nil {
			r := *lines[i].Rectangles
			r.Outline = &bill.Outline{Room: decimal.NewFromInt(outlineRoom), Points: pts}
			lines[i].Rectangles = &r
		}
	}
}

// band is a pattern between the faying face at some places from rabbet to sheer and the inner face beside them.
type band struct {
	faying, inner []hull.Point
	depth         float64
}

func bandOf(s stand) band {
	depth := s.frame.Moulded.InexactFloat64()
	faying, inner := s.target.Faces(depth)
	return band{faying, inner, depth}
}

// outline is nil where there is none, the inner face folding, say.
func (b band) outline() [][2]int64 {
	if len(b.faying) <= outlineStretches || b.depth <= 0 {
		return nil
	}
	var corners []int
	var all []int
	for k := range outlineStretches + 1 {
		corners = append(corners, k*(len(b.faying)-1)/outlineStretches)
	}
	for i := range b.faying {
		all = append(all, i)
	}
	rise := make([]float64, len(corners))
	for k := range outlineStretches {
		r := b.rise(corners[k], corners[k+1])
		rise[k], rise[k+1] = max(rise[k], r), max(rise[k+1], r)
	}
	roomy := b.round(all, func(int) float64 { return outlineRoom / 2 })
	for more := range outlineSteps {
		grown := b.round(corners, func(k int) float64 {
			return outlineRoom/2 + outlineRounding + rise[k] + float64(more)*outlineStep
		})
		along := hull.SmallestRectangle(append([]hull.Point{}, grown...)).Along
		out := make([][2]int64, len(grown))
		for i, p := range grown {
			q := turned(p, along)
			out[i] = [2]int64{int64(math.Round(q[0])), int64(math.Round(q[1]))}
		}
		if holds(out, roomy, along) {
			return out
		}
	}
	return nil
}

// rise is how far the two faces lie outside of a straight line between two places, mm.
func (b band) rise(from, to int) float64 {
	most := 0.0
	for _, face := range [2][]hull.Point{b.faying, b.inner} {
		p, q := face[from], face[to]
		length := math.Hypot(q.Y-p.Y, q.Z-p.Z)
		if length == 0 {
			continue
		}
		for _, r := range face[from:to] {
			most = max(most, math.Abs((q.Y-p.Y)*(r.Z-p.Z)-(q.Z-p.Z)*(r.Y-p.Y))/length)
		}
	}
	return most
}

// round is up the faying face and down the inner one by some places, moved outwards by so much at each; at heel and head past the
// end as well.
func (b band) round(places []int, grown func(k int) float64) []hull.Point {
	out := make([]hull.Point, 2*len(places))
	for k, i := range places {
		p, q := b.faying[i], b.inner[i]
		in := hull.Point{Y: (q.Y - p.Y) / b.depth, Z: (q.Z - p.Z) / b.depth}
		g, end := grown(k), 0.0
		switch k {
		case 0:
			end = -g
		case len(places) - 1:
			end = g
		}
		up := hull.Point{Y: -in.Z, Z: in.Y}
		if last := b.faying[len(b.faying)-1]; (last.Y-b.faying[0].Y)*up.Y+(last.Z-b.faying[0].Z)*up.Z < 0 {
			up = hull.Point{Y: in.Z, Z: -in.Y}
		}
		out[k] = hull.Point{Y: p.Y - g*in.Y + end*up.Y, Z: p.Z - g*in.Z + end*up.Z}
		out[len(out)-1-k] = hull.Point{Y: q.Y + g*in.Y + end*up.Y, Z: q.Z + g*in.Z + end*up.Z}
	}
	return out
}

// turned is a point along a direction and across it.
func turned(p, along hull.Point) [2]float64 {
	return [2]float64{p.Y*along.Y + p.Z*along.Z, p.Z*along.Y - p.Y*along.Z}
}

// holds reports whether all points lie in an outline along a direction, by how often a ray from each crosses it.
func holds(outline [][2]int64, pts []hull.Point, along hull.Point) bool {
	for _, at := range pts {
		p, in := turned(at, along), false
		a := outline[len(outline)-1]
		for _, b := range outline {
			ax, ay, bx, by := float64(a[0]), float64(a[1]), float64(b[0]), float64(b[1])
			if (ay > p[1]) != (by > p[1]) && p[0] < ax+(p[1]-ay)*(bx-ax)/(by-ay) {
				in = !in
			}
			a = b
		}
		if !in {
			return false
		}
	}
	return true
}
