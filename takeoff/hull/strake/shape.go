package strake

import (
	"math"
	"sort"

	"ribband/takeoff/hull"
)

// Figures are the measures of a strake, or of a plank of one, laid out flat. Lengths are millimetres, areas square
// millimetres. Ranges are those that the sections' girths leave open: see ranges.go for what they hold.
type Figures struct {
	LengthLower, LengthUpper hull.Reading // of the two edges
	WidthLeast, WidthMost    hull.Reading // over the surface, from edge to edge at one x
	Area                     hull.Reading
	RoundLower, RoundUpper   hull.Reading // how far each edge bows from its straight chord
	Board                    hull.Rectangle
	BoardLength, BoardWidth  hull.Reading // of Board
	Loss                     hull.Reading // Spiling with its range
	Spiling                  float64      // (rectangle - plank) / rectangle: a loss, of what is bought
	Backing                  float64      // greatest hollowing of the inner face
	Mismatch                 float64      // greatest error of the diagonals not used; 0 where it is developable
}

// Shape is a strake laid out flat at the places X, which rise.
type Shape struct {
	X            []float64
	Lower, Upper []hull.Point // outline on the board, Y along it and Z across
	Figures

	width, backing []float64 // at every place
	cell           []cell
	low, high      []float64 // of the girth at every place, as parts of it
	girth          []float64
}

// cell is between two places.
type cell struct {
	lower, upper float64 // lengths of the edges
	area         float64
	mismatch     float64
	slope        float64 // by how much more the edges may run across to one mm of x
}

// lay lays out the strakes from k0 up to, not with, k1.
func lay(s Surface, e *Edges, k0, k1 int, xs []float64) ([]*Shape, error) {
	if err := e.reach(s.Reach()); err != nil {
		return nil, err
	}
	n := k1 - k0
	out := make([]*Shape, n)
	for k := range out {
		out[k] = newShape(xs)
	}
	us, jets := make([]float64, 2*n+1), make([]hull.Jet, 2*n+1)
	now, before := make([]vertex, 2*n+1), make([]vertex, 2*n+1)
	// The upper edges as the strakes below have them.
	tops, topsBefore := make([]vertex, n), make([]vertex, n)
	corners := s.Corners()
	for i, x := range xs {
		for k := range n + 1 {
			us[2*k], _ = onto(e.At(k0+k, x), corners)
		}
		for k := range n {
			us[2*k+1] = (us[2*k] + us[2*k+2]) / 2
			if err := across(k0+k, us[2*k], us[2*k+2], corners, x); err != nil {
				return nil, err
			}
		}
		s.Along(x, us, jets)
		for k, j := range jets {
			now[k] = vertexOf(j, x)
		}
		for k := range n {
			tops[k] = now[2*k+2]
			if u, on := onto(us[2*k+2], corners); on {
				tops[k] = vertexOf(s.Below(u, x), x)
			}
		}
		low, high := s.GirthRange(x)
		for k, p := range out {
			a, m, b := now[2*k], now[2*k+1], tops[k]
			p.width[i] = arc(a, m) + arc(m, b)
			p.backing[i] = Backing(p.width[i], max(a.bend, m.bend, b.bend))
			p.low[i], p.high[i], p.girth[i] = low, high, p.width[i]/(us[2*k+2]-us[2*k])
			if i == 0 {
				p.Upper[0].Z = arc(a, b)
			} else {
				p.add(i-1, before[2*k], topsBefore[k], a, b)
			}
		}
		now, before = before, now
		tops, topsBefore = topsBefore, tops
	}
	stations := s.Stations()
	for k, p := range out {
		p.slopes(stations)
		p.Figures = p.figures(0, len(xs)-1)
		if !(p.Area.MM > 0) || math.IsInf(p.Area.MM, 0) || math.IsNaN(p.Mismatch) {
			return nil, &LengthError{k0 + k}
		}
	}
	return out, nil
}

func newShape(xs []float64) *Shape {
	n := len(xs)
	room := make([]float64, 5*n)
	points := make([]hull.Point, 2*n)
	return &Shape{
		X: xs, Lower: points[:n:n], Upper: points[n:],
		width: room[:n:n], backing: room[n : 2*n : 2*n], low: room[2*n : 3*n : 3*n], high: room[3*n : 4*n : 4*n], girth: room[4*n:],
		cell: make([]cell, n-1),
	}
}

// add lays out the cell after place i, from a0 and b0 below and above to a1 and b1.
func (s *Shape) add(i int, a0, b0, a1, b1 vertex) {
	c := &s.cell[i]
	c.lower, c.upper = arc(a0, a1), arc(b0, b1)
	p, q := s.Lower[i], s.Upper[i]
	r := apex(q, p, arc(b0, a1), c.lower)
	t := apex(q, r, c.upper, arc(a1, b1))
	s.Lower[i+1], s.Upper[i+1] = r, t
	c.mismatch = math.Abs(math.Hypot(t.Y-p.Y, t.Z-p.Z) - arc(a0, b1))
	c.area = ((r.Y-q.Y)*(t.Z-p.Z) - (r.Z-q.Z)*(t.Y-p.Y)) / 2
}

// Between is the figures of the plank from place i to place j of X, 0 <= i < j.
func (s *Shape) Between(i, j int) (Figures, error) {
	if i < 0 || j >= len(s.X) || i >= j {
		return Figures{}, &CountError{"place at the plank's after end", j, i + 1, len(s.X) - 1}
	}
	return s.figures(i, j), nil
}

// Place is the place of X nearest to x.
func (s *Shape) Place(x float64) int {
	i := sort.SearchFloat64s(s.X, x)
	if i == len(s.X) || i > 0 && x-s.X[i-1] < s.X[i]-x {
		return i - 1
	}
	return i
}

// Width over the surface at place i.
func (s *Shape) Width(i int) hull.Reading {
	w := s.width[i]
	return hull.Reading{MM: w, Low: w * s.low[i], High: w * s.high[i]}
}

// Along is how long a board holds the plank from place i to place j of X, laid along the line between the middles of its
// ends. It is within a hundredth of the smallest rectangle's length, and needs no look at what lies between: a plank
// that bows by less than a quarter of its length nowhere reaches beyond its ends.
func (s *Shape) Along(i, j int) float64 {
	a, b, c, d := s.Lower[i], s.Upper[i], s.Lower[j], s.Upper[j]
	dy, dz := (c.Y+d.Y-a.Y-b.Y)/2, (c.Z+d.Z-a.Z-b.Z)/2
	l := math.Hypot(dy, dz)
	if l == 0 {
		return 0
	}
	run := func(p hull.Point) float64 { return (p.Y*dy + p.Z*dz) / l }
	return max(run(c), run(d)) - min(run(a), run(b))
}
