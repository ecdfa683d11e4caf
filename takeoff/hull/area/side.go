package area

import (
	"ribband/takeoff/hull"
)

// Surface is what is measured; *hull.Surface is one. Between two of its stations it is one cubic in x at each u.
type Surface interface {
	Along(x float64, us []float64, out []hull.Jet)
	Reach() (forward, aft float64)
	Stations() []float64
}

// Side measures one side's surface. It keeps its own room to work in: not for use by two at once.
type Side struct {
	of       Surface
	stations []float64
	grain    float64

	us    []float64 // of one strip
	jets  []hull.Jet
	share []float64 // of the girth that each of us stands for
	spans []span
	cuts  []float64 // places along x at which the integral is split
	grid  []float64
	line  []hull.Jet // at grid
	one   [1]float64
	jet   [1]hull.Jet
}

// span is a stretch of the girth.
type span struct{ from, to float64 }

// leastSlack is by how much heights and spacings may differ, mm, and still count as the same: they are shown alike.
const leastSlack = 0.001

// New is the measurer of a side written to the given grain, mm; 0 for exact lengths.
func New(s Surface, grain float64) *Side {
	most := (panels + maxSpans) * len(across.at)
	d := &Side{of: s, stations: s.Stations(), grain: max(leastSlack, grain),
		us: make([]float64, 0, most), share: make([]float64, 0, most), jets: make([]hull.Jet, most),
		spans: make([]span, 0, maxSpans), grid: make([]float64, looks+1), line: make([]hull.Jet, looks+1)}
	for i := range d.grid {
		d.grid[i] = float64(i) / looks
	}
	return d
}

// at is one place of the surface, without making anything.
func (d *Side) at(u, x float64) hull.Jet {
	d.one[0] = u
	d.of.Along(x, d.one[:], d.jet[:])
	return d.jet[0]
}
