package strake

import (
	"math"

	"ribband/takeoff/hull"
)

// Hood is how a strake ends on a line beyond an end station, or short of it.
type Hood struct {
	Aft, Transom bool
	// Lower and Upper are where the edges end: x and height, mm.
	LowerX, LowerZ, UpperX, UpperZ float64
	// Width of the hood end along the line.
	Width hull.Reading
	// What the edges and the strake have from the last place at one x to the line.
	LengthLower, LengthUpper, Area hull.Reading
	// Shared is how much of the half range of Area is open only between neighbours.
	Shared float64
}

// openLeast is said of an area even where planks run straight and tell nothing, as package area says it.
const openLeast = 0.01

// open sets how sure shapes are beyond the last cuts at one x, and their hoods.
func open(s Surface, of *Edges, k0, k1 int, shapes []*Shape, cuts []cut, ends []*ending) error {
	for _, e := range ends {
		from, to := 0, shapes[0].first
		if e.aft {
			from, to = shapes[0].last, len(cuts)-1
		}
		// The same once more, planks straight from the last cut to the line.
		plain := *e
		plain.straight, plain.known = true, map[float64]*ray{}
		chords := append([]cut(nil), cuts[from:to+1]...)
		for i := range chords {
			if chords[i].to != nil {
				chords[i].to = &plain
			}
		}
		straight, err := layCuts(s, of, k0, k1, chords)
		if err != nil {
			return err
		}
		shift := e.shifts(of, k0, k1)
		for k, p := range shapes {
			p.openTo(from, to, straight[k])
			p.shifted(e, from, to, math.Abs(shift[k]), math.Abs(shift[k+1]), math.Abs(shift[k+1]-shift[k]))
			p.Hoods = append(p.Hoods, p.hood(e, of, k0+k, from, to))
		}
	}
	return nil
}

// openTo shares out what lengths and area differ from those of straight planks.
func (s *Shape) openTo(from, to int, straight *Shape) {
	var lower, upper, area, l, u, a float64
	for i := from; i < to; i++ {
		c, o := s.cell[i], straight.cell[i-from]
		lower, upper, area = lower+c.lower, upper+c.upper, area+c.area
		l, u, a = l+o.lower, u+o.upper, a+o.area
	}
	share := func(open, part, whole float64) float64 {
		if whole <= 0 {
			return 0
		}
		return open * part / whole
	}
	for i := from; i < to; i++ {
		c := &s.cell[i]
		c.openLower, c.openUpper = share(math.Abs(lower-l), c.lower, lower), share(math.Abs(upper-u), c.upper, upper)
		c.openArea = share(max(openLeast*area, math.Abs(area-a)), c.area, area)
	}
}

// shifts are how far each edge lands from where it would by the other way, mm along the line, upwards.
func (e *ending) shifts(of *Edges, k0, k1 int) []float64 {
	out := make([]float64, k1-k0+1)
	if e.transom {
		return out // there edges end where they come to it
	}
	for k := range out {
		if k0+k == 0 || k0+k == of.n {
			continue
		}
		was := e.ray(e.edge(of, k0+k, 1))
		r := e.ray(of.At(k0+k, e.x0))
		z := e.other(&r.Jet)
		out[k] = math.Hypot(z-was.end, e.standing(z)-was.far)
		if z < was.end {
			out[k] = -out[k]
		}
	}
	return out
}

// shifted spreads what is open at the line over the places up to it.
func (s *Shape) shifted(e *ending, from, to int, lower, upper, wider float64) {
	at := func(i int) float64 { // the part of the way
		part := math.Abs(s.X[i] - s.X[s.inner(e)])
		if whole := math.Abs(s.X[s.outer(e, from, to)] - s.X[s.inner(e)]); whole > 0 {
			return part / whole
		}
		return 0
	}
	for i := from; i <= to; i++ {
		s.shift[i] = max(lower, upper) * at(i)
		s.wider[i] = wider * at(i)
	}
	reach := math.Abs(s.X[from] - s.X[to])
	for i := from; i < to; i++ {
		c := &s.cell[i]
		c.shared = (s.wider[i] + s.wider[i+1]) / 2 * (c.lower + c.upper) / 2
		if reach > 0 {
			c.slope = (s.across(from) + s.across(to)) / reach
		}
	}
}

// inner is the place from which a strake is carried on, outer where it ends.
func (s *Shape) inner(e *ending) int {
	if e.aft {
		return s.last
	}
	return s.first
}

func (s *Shape) outer(e *ending, from, to int) int {
	if e.aft {
		return to
	}
	return from
}

func (s *Shape) hood(e *ending, of *Edges, k, from, to int) Hood {
	a, _ := e.at(e.ray(e.edge(of, k, 1)), 1)
	b, _ := e.at(e.ray(e.edge(of, k+1, 1)), 1)
	i := s.outer(e, from, to)
	w := math.Hypot(s.Upper[i].Y-s.Lower[i].Y, s.Upper[i].Z-s.Lower[i].Z)
	h := Hood{Aft: e.aft, Transom: e.transom, LowerX: a.x, LowerZ: a.z, UpperX: b.x, UpperZ: b.z,
		Width: hull.Reading{MM: w, Low: max(0, w*s.low[i]-s.wider[i]), High: w*s.high[i] + s.wider[i]}}
	h.LengthLower, h.LengthUpper = s.lengths(from, to)
	for c := from; c < to; c++ {
		x := s.cell[c]
		h.Area.MM += x.area
		h.Area.Low += x.area*s.low[c] - x.openArea - x.shared
		h.Area.High += x.area*s.high[c] + x.openArea + x.shared
		h.Shared += x.shared
	}
	h.Area.Low = max(0, h.Area.Low)
	return h
}

// squarely is the width square to the run, as a part of the cut askew from a over m to b.
func squarely(a, m, b vertex, e *ending, u, q float64) float64 {
	c := point3{b.x - a.x, b.y - a.y, b.z - a.z}
	before, _ := e.at(e.ray(u), max(0, q-1./hoodSteps))
	run := point3{m.x, m.y, m.z}.minus(before)
	l, w := run.long(), c.long()
	if !(l > 0) || !(w > 0) {
		return 1
	}
	along := c.dot(run) / (l * w)
	return math.Sqrt(max(0, 1-along*along))
}
