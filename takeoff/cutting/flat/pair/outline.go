package pair

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"ribband/takeoff/cutting/flat"
)

// OutlineError: points that make no outline.
type OutlineError struct {
	// Points are the numbers, from 0, of those in question; an edge is named by the point that it starts at.
	Points []int
	Reason string
}

func (e *OutlineError) Error() string {
	if len(e.Points) == 0 {
		return "outline: " + e.Reason
	}
	var numbers []string
	for _, p := range e.Points {
		numbers = append(numbers, fmt.Sprint(p))
	}
	return "outline, point " + strings.Join(numbers, " and ") + ": " + e.Reason
}

// edge runs upwards.
type edge struct{ x0, y0, x1, y1 int64 }

// at is x at a height as num/den, den above 0.
func (e edge) at(y int64) (num, den int64) {
	return e.x0*(e.y1-e.y0) + (y-e.y0)*(e.x1-e.x0), e.y1 - e.y0
}

// slab is a part of the shape between two whole heights and two edges.
type slab struct {
	y0, y1      int64
	left, right edge
}

// shape is an outline from 0, 0 up, taken apart into slabs, lowest first.
type shape struct {
	size   flat.Size
	points []Point
	slabs  []slab
}

// read checks an outline and takes it apart.
func read(outline []Point) (*shape, error) {
	if len(outline) < 3 || len(outline) > MaxPoints {
		return nil, &OutlineError{Reason: fmt.Sprintf("it has %d points; 3 to %d make one", len(outline), MaxPoints)}
	}
	low, high := outline[0], outline[0]
	for i, p := range outline {
		if max(p.X, -p.X, p.Y, -p.Y) > 1<<40 || p.X < -(1<<40) || p.Y < -(1<<40) {
			return nil, &OutlineError{Points: []int{i}, Reason: "its figures are out of all range"}
		}
		low, high = Point{min(low.X, p.X), min(low.Y, p.Y)}, Point{max(high.X, p.X), max(high.Y, p.Y)}
	}
	s := &shape{size: flat.Size{Width: high.X - low.X, Length: high.Y - low.Y}}
	if max(s.size.Width, s.size.Length) > MaxSide {
		return nil, &OutlineError{Reason: fmt.Sprintf("it is %d x %d; a side runs to %d", s.size.Width, s.size.Length, MaxSide)}
	}
	for _, p := range outline {
		s.points = append(s.points, Point{p.X - low.X, p.Y - low.Y})
	}
	if err := s.simple(); err != nil {
		return nil, err
	}
	s.takeApart()
	return s, nil
}

// simple reports edges that have no length, or meet others than their neighbours' ends.
func (s *shape) simple() error {
	n := len(s.points)
	for i, p := range s.points {
		q := s.points[(i+1)%n]
		if p == q {
			return &OutlineError{Points: []int{i, (i + 1) % n}, Reason: "they are the same"}
		}
		if r := s.points[(i+2)%n]; side(p, q, r) == 0 && (r.X-q.X)*(q.X-p.X)+(r.Y-q.Y)*(q.Y-p.Y) < 0 {
			return &OutlineError{Points: []int{(i + 1) % n}, Reason: "the outline runs back on itself there"}
		}
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			if meet(p, q, s.points[j], s.points[(j+1)%n]) {
				return &OutlineError{Points: []int{i, j}, Reason: "the edges from there meet"}
			}
		}
	}
	return nil
}

// side is above 0 when r lies left of the way from p to q.
func side(p, q, r Point) int64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }

// meet reports whether two edges have a point in common.
func meet(a, b, c, d Point) bool {
	if max(a.X, b.X) < min(c.X, d.X) || max(c.X, d.X) < min(a.X, b.X) || max(a.Y, b.Y) < min(c.Y, d.Y) || max(c.Y, d.Y) < min(a.Y, b.Y) {
		return false
	}
	apart := func(s, t int64) bool { return s > 0 && t > 0 || s < 0 && t < 0 }
	return !apart(side(a, b, c), side(a, b, d)) && !apart(side(c, d, a), side(c, d, b))
}

// takeApart makes the slabs: between two heights of points no edges cross, so that every other pair of neighbours has
// the shape between them.
func (s *shape) takeApart() {
	var heights []int64
	for _, p := range s.points {
		heights = append(heights, p.Y)
	}
	slices.Sort(heights)
	heights = slices.Compact(heights)
	var edges []edge
	for i, p := range s.points {
		q := s.points[(i+1)%len(s.points)]
		if p.Y > q.Y {
			p, q = q, p
		}
		if p.Y < q.Y {
			edges = append(edges, edge{p.X, p.Y, q.X, q.Y})
		}
	}
	for i := range len(heights) - 1 {
		y0, y1 := heights[i], heights[i+1]
		type across struct {
			edge
			middle *big.Rat // twice x half way up
		}
		var list []across
		for _, e := range edges {
			if e.y0 <= y0 && e.y1 >= y1 {
				a, den := e.at(y0)
				b, _ := e.at(y1)
				list = append(list, across{e, big.NewRat(a+b, den)})
			}
		}
		slices.SortFunc(list, func(a, b across) int { return a.middle.Cmp(b.middle) })
		for j := 0; j+1 < len(list); j += 2 {
			s.slabs = append(s.slabs, slab{y0, y1, list[j].edge, list[j+1].edge})
		}
	}
}

// turned is the shape turned by half a turn within its bounds.
func (s *shape) turned() []slab {
	w, h := s.size.Width, s.size.Length
	turn := func(e edge) edge { return edge{w - e.x1, h - e.y1, w - e.x0, h - e.y0} }
	var out []slab
	for _, b := range s.slabs {
		out = append(out, slab{h - b.y1, h - b.y0, turn(b.right), turn(b.left)})
	}
	slices.SortStableFunc(out, func(a, b slab) int { return cmp.Compare(a.y0, b.y0) })
	return out
}
