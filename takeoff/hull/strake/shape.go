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
	WidthLeast, WidthMost    hull.Reading // over the surface, from edge to edge at one x; beyond the stations square to its run
	Area                     hull.Reading
	RoundLower, RoundUpper   hull.Reading // how far each edge bows from its straight chord
	Board                    hull.Rectangle
	BoardLength, BoardWidth  hull.Reading // of Board
	Loss                     hull.Reading // Spiling with its range
	Spiling                  float64      // (rectangle - plank) / rectangle: a loss, of what is bought
	Backing                  float64      // greatest hollowing of the inner face
	Mismatch                 float64      // greatest error of the diagonals not used; 0 where it is developable
	// Shared is how much of the half range of Area is open only between neighbours, for where their edges land on a stem is:
	// the side as a whole does not have it.
	Shared float64
}

// Shape is a strake laid out flat at the places X, which rise. Beyond the end stations, where strakes are cut askew, X is
// that of the middle between the edges.
type Shape struct {
	X            []float64
	Lower, Upper []hull.Point // outline on the board, Y along it and Z across
	Figures
	Hoods []Hood // where it is carried on beyond the end stations, from forward

	first, last    int       // the places from the one to the other are cut at one x
	width, backing []float64 // at every place
	cell           []cell
	low, high      []float64 // of the girth at every place, as parts of it
	girth          []float64
	shift, wider   []float64 // how much farther an edge may lie off, and a width may differ, for want of knowing where edges land
}

// cell is between two places.
type cell struct {
	lower, upper       float64 // lengths of the edges
	area               float64
	mismatch           float64
	slope              float64 // by how much more the edges may run across to one mm of x
	runLower, runUpper float64 // of the edges along x
	// What is open of lengths and area for want of knowing how planks run to a line.
	openLower, openUpper, openArea, shared float64
}

// lay lays out the strakes from k0 up to, not with, k1, at the places xs and on to the endings.
func lay(s Surface, e *Edges, k0, k1 int, xs []float64, ends []*ending) ([]*Shape, error) {
	if err := e.reach(s.Reach()); err != nil {
		return nil, err
	}
	cuts, first, last := cutsOf(xs, ends)
	out, err := layCuts(s, e, k0, k1, cuts)
	if err != nil {
		return nil, err
	}
	for _, p := range out {
		p.first, p.last = first, last
	}
	stations := s.Stations()
	for _, p := range out {
		p.slopes(stations)
	}
	if err := open(s, e, k0, k1, out, cuts, ends); err != nil {
		return nil, err
	}
	for k, p := range out {
		p.Figures = p.figures(0, len(cuts)-1)
		if !(p.Area.MM > 0) || math.IsInf(p.Area.MM, 0) || math.IsNaN(p.Mismatch) {
			return nil, &LengthError{k0 + k}
		}
	}
	return out, nil
}

// cut is where strakes are laid out: at one x, or at a part of the way to an ending.
type cut struct {
	x    float64
	to   *ending
	part float64
}

// cutsOf are all places from forward, and which are the first and the last at one x.
func cutsOf(xs []float64, ends []*ending) (cuts []cut, first, last int) {
	from, to := xs[0], xs[len(xs)-1]
	var fore, aft []cut
	for _, e := range ends {
		parts := e.parts(hoodSteps)
		if e.aft {
			to = e.x0 - e.in
			for _, q := range parts {
				aft = append(aft, cut{to: e, part: q})
			}
			continue
		}
		from = e.x0 + e.in
		for i := len(parts) - 1; i >= 0; i-- {
			fore = append(fore, cut{to: e, part: parts[i]})
		}
	}
	cuts = append(fore, cut{x: from})
	for _, x := range xs {
		if x > from && x < to {
			cuts = append(cuts, cut{x: x})
		}
	}
	cuts = append(cuts, cut{x: to})
	return append(cuts, aft...), len(fore), len(cuts) - 1
}

// layCuts lays out strakes without their figures.
func layCuts(s Surface, e *Edges, k0, k1 int, cuts []cut) ([]*Shape, error) {
	n := k1 - k0
	out := make([]*Shape, n)
	for k := range out {
		out[k] = newShape(cuts, k > 0, out[0])
	}
	us, jets := make([]float64, 2*n+1), make([]hull.Jet, 2*n+1)
	now, before := make([]vertex, 2*n+1), make([]vertex, 2*n+1)
	// The upper edges as the strakes below have them.
	tops, topsBefore := make([]vertex, n), make([]vertex, n)
	corners := s.Corners()
	for i, c := range cuts {
		x := c.x
		if c.to != nil {
			x = c.to.x0
		}
		for k := range n + 1 {
			u := 0.0
			if c.to != nil {
				u = c.to.edge(e, k0+k, c.part)
			} else {
				u = e.At(k0+k, x)
			}
			us[2*k], _ = onto(u, corners)
		}
		for k := range n {
			us[2*k+1] = (us[2*k] + us[2*k+2]) / 2
			if err := across(k0+k, us[2*k], us[2*k+2], corners, x); err != nil {
				return nil, err
			}
		}
		if c.to != nil {
			for k, u := range us {
				now[k] = c.to.vertex(u, c.part, false)
			}
		} else {
			s.Along(x, us, jets)
			for k, j := range jets {
				now[k] = vertexOf(j, x)
			}
		}
		for k := range n {
			tops[k] = now[2*k+2]
			if u, on := onto(us[2*k+2], corners); on {
				if c.to != nil {
					tops[k] = c.to.vertex(u, c.part, true)
				} else {
					tops[k] = vertexOf(s.Below(u, x), x)
				}
			}
		}
		low, high := s.GirthRange(x)
		for k, p := range out {
			a, m, b := now[2*k], now[2*k+1], tops[k]
			p.width[i] = arc(a, m) + arc(m, b)
			p.low[i], p.high[i], p.girth[i] = low, high, p.width[i]/(us[2*k+2]-us[2*k])
			if c.to != nil {
				p.X[i] = m.x
				if i > 0 {
					p.X[i] = max(p.X[i], p.X[i-1])
				}
				p.width[i] *= squarely(a, m, b, c.to, us[2*k+1], c.part)
			}
			p.backing[i] = Backing(p.width[i], max(a.bend, m.bend, b.bend))
			if i == 0 {
				p.Upper[0].Z = arc(a, b)
			} else {
				p.add(i-1, before[2*k], topsBefore[k], a, b)
			}
		}
		now, before = before, now
		tops, topsBefore = topsBefore, tops
	}
	return out, nil
}

// newShape makes room for a shape; without endings all strakes of a side have the X of the first.
func newShape(cuts []cut, shared bool, other *Shape) *Shape {
	n := len(cuts)
	room := make([]float64, 8*n)
	points := make([]hull.Point, 2*n)
	out := &Shape{
		Lower: points[:n:n], Upper: points[n:],
		width: room[:n:n], backing: room[n : 2*n : 2*n], low: room[2*n : 3*n : 3*n], high: room[3*n : 4*n : 4*n], girth: room[4*n : 5*n : 5*n],
		shift: room[5*n : 6*n : 6*n], wider: room[6*n : 7*n : 7*n],
		cell: make([]cell, n-1), last: n - 1,
	}
	if shared && cuts[0].to == nil && cuts[n-1].to == nil {
		out.X = other.X
		return out
	}
	out.X = room[7*n:]
	for i, c := range cuts {
		out.X[i] = c.x
	}
	return out
}

// add lays out the cell after place i, from a0 and b0 below and above to a1 and b1.
func (s *Shape) add(i int, a0, b0, a1, b1 vertex) {
	c := &s.cell[i]
	c.lower, c.upper = arc(a0, a1), arc(b0, b1)
	c.runLower, c.runUpper = math.Abs(a1.x-a0.x), math.Abs(b1.x-b0.x)
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

// Square are the first and the last place of X at which the strake is cut at one x, as at a station; those beyond lie
// where it runs to a stem or a transom.
func (s *Shape) Square() (first, last int) { return s.first, s.last }

// Place is the place of X nearest to x.
func (s *Shape) Place(x float64) int {
	if n := len(s.X); x >= s.X[n-1] {
		return n - 1
	}
	i := sort.SearchFloat64s(s.X, x)
	if i > 0 && x-s.X[i-1] < s.X[i]-x {
		return i - 1
	}
	return i
}

// Width over the surface at place i.
func (s *Shape) Width(i int) hull.Reading {
	w := s.width[i]
	return hull.Reading{MM: w, Low: max(0, w*s.low[i]-s.wider[i]), High: w*s.high[i] + s.wider[i]}
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
