package area

import (
	"sort"

	"ribband/takeoff/hull"
)

// Surface is what is measured; *hull.Surface is one. Between two of its stations it is one cubic in x at each u.
type Surface interface {
	Along(x float64, us []float64, out []hull.Jet)
	Reach() (forward, aft float64)
	Stations() []float64
	Corners() []float64
}

// Side measures one side's surface. It keeps its own room to work in: not for use by two at once.
type Side struct {
	of       Surface
	stations []float64
	grain    float64
	edges    []float64 // of the panels of the girth, from 0 to 1; every knuckle is one

	us    []float64 // of one strip
	jets  []hull.Jet
	share []float64 // of the girth that each of us stands for
	runs  []run
	spans []span
	cuts  []float64 // places along x at which the integral is split
	grid  []float64
	// The heights of the section at one x, at each place of grid.
	heights []float64
	// The heights at grid at each station, and how they change along the boat there.
	tall, rising [][]float64

	// whole is the surface read once at the places of all panels of the girth, nil where it cannot be read so.
	whole *hull.Sheet

	one [1]float64
	jet [1]hull.Jet
}

// sheeted is a surface that can be read once for all of its length.
type sheeted interface {
	Sheet(us []float64) *hull.Sheet
}

// span is a stretch of the girth.
type span struct{ from, to float64 }

// leastSlack is by how much heights and spacings may differ, mm, and still count as the same: they are shown alike.
const leastSlack = 0.001

// New is the measurer of a side written to the given grain, mm; 0 for exact lengths.
func New(s Surface, grain float64) *Side {
	edges := panelled(s.Corners())
	most := (len(edges) + 2*maxSpans) * len(across.at)
	d := &Side{of: s, stations: s.Stations(), grain: max(leastSlack, grain), edges: edges,
		us: make([]float64, 0, most), share: make([]float64, 0, most), jets: make([]hull.Jet, most),
		runs: make([]run, 0, 3*maxSpans), spans: make([]span, 0, maxSpans), grid: make([]float64, looks+1), heights: make([]float64, looks+1)}
	for i := range d.grid {
		d.grid[i] = float64(i) / looks
	}
	d.tabulate()
	if s, ok := s.(sheeted); ok {
		d.spans = append(d.spans, span{0, 1})
		d.divide()
		d.whole = s.Sheet(d.us)
	}
	return d
}

// at is one place of the surface, without making anything.
func (d *Side) at(u, x float64) hull.Jet {
	d.one[0] = u
	d.of.Along(x, d.one[:], d.jet[:])
	return d.jet[0]
}

// tabulate reads the heights at the stations once: between two of them they are cubics, so that where a level cuts can be
// looked for at any x without reading every station's curve again.
func (d *Side) tabulate() {
	line := make([]hull.Jet, len(d.grid))
	for _, x := range d.stations {
		d.of.Along(x, d.grid, line)
		z, zx := make([]float64, len(d.grid)), make([]float64, len(d.grid))
		for i := range line {
			z[i], zx[i] = line[i].Z, line[i].Zx
		}
		d.tall, d.rising = append(d.tall, z), append(d.rising, zx)
	}
}

// look fills d.heights at x, which lies within the stations.
func (d *Side) look(x float64) {
	b := max(1, min(len(d.stations)-1, sort.SearchFloat64s(d.stations, x)))
	from := d.stations[b-1]
	h := d.stations[b] - from
	t := (x - from) / h
	// Hermite's cubic through the two stations.
	p, q := (1+2*t)*(1-t)*(1-t), t*t*(3-2*t)
	r, s := h*t*(1-t)*(1-t), h*t*t*(t-1)
	z0, z1, s0, s1 := d.tall[b-1], d.tall[b], d.rising[b-1], d.rising[b]
	for i := range d.heights {
		d.heights[i] = p*z0[i] + q*z1[i] + r*s0[i] + s*s1[i]
	}
}
