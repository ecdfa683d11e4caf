package hull

import "slices"

// Spot is a place of one side's surface, mm: x aft of station 0, half-breadth and height.
type Spot struct{ X, Y, Z float64 }

// Mesh is one side's surface looked at in steps of the girth and of the length, from which the lines are traced that
// planes cut out of it.
type Mesh struct {
	of *Surface
	xs []float64
	us []float64
	// spots by step of the length, then of the girth.
	spots [][]Spot
}

// How finely a mesh looks: steps of the girth, and steps between two stations. A line is found wherever it passes between
// two places of the mesh, and then put exactly on the surface. What it may miss is a line that comes in and goes out again
// within one step, a fortieth of the girth and a sixteenth of the distance of stations.
const (
	girthSteps = 40
	baySteps   = 16
)

// Mesh of the surface. Stations stand in it exactly.
func (s *Surface) Mesh() *Mesh {
	m := &Mesh{of: s}
	stations := s.Stations()
	for i, x := range stations {
		for j := 1; i > 0 && j < baySteps; j++ {
			m.xs = append(m.xs, stations[i-1]+(x-stations[i-1])*float64(j)/baySteps)
		}
		m.xs = append(m.xs, x)
	}
	for i := range girthSteps + 1 {
		m.us = append(m.us, float64(i)/girthSteps)
	}
	// A knuckle stands in the mesh, so that no cell runs across one.
	for _, u := range s.Corners() {
		if at, there := slices.BinarySearch(m.us, u); !there {
			m.us = slices.Insert(m.us, at, u)
		}
	}
	jets := make([]Jet, len(m.us))
	for _, x := range m.xs {
		s.Along(x, m.us, jets)
		row := make([]Spot, len(jets))
		for i, j := range jets {
			row[i] = Spot{x, j.Y, j.Z}
		}
		m.spots = append(m.spots, row)
	}
	return m
}

// Rabbet is the lower edge of the surface from forward.
func (m *Mesh) Rabbet() []Spot { return m.edge(0) }

// Sheer is the upper edge of the surface from forward.
func (m *Mesh) Sheer() []Spot { return m.edge(len(m.us) - 1) }

func (m *Mesh) edge(k int) []Spot {
	out := make([]Spot, len(m.xs))
	for i := range out {
		out[i] = m.spots[i][k]
	}
	return out
}

// Waterline is the surface cut at the height z, mm, as Cut has it.
func (m *Mesh) Waterline(z float64) [][]Spot { return m.Cut(0, 1, z) }

// Buttock is the surface cut at the half-breadth y, mm, as Cut has it.
func (m *Mesh) Buttock(y float64) [][]Spot { return m.Cut(1, 0, y) }

// Cut is where the surface lies in the plane a·y + b·z = c, which runs along the boat: a waterline, a buttock, a diagonal.
// There may be several runs, each of at least two places from forward aft, and there may be none. A run ends where the
// surface does: at the rabbet, at the sheer or at an end station; nothing is carried on beyond. The places lie on the
// surface and in the plane to a millionth of a millimetre, those at stations among them.
func (m *Mesh) Cut(a, b, c float64) [][]Spot {
	t := tracer{mesh: m, a: a, b: b, c: c, links: map[int][]int{}, at: map[int]Spot{}}
	for i := range m.xs[1:] {
		for k := range m.us[1:] {
			t.cell(i, k)
		}
	}
	return t.runs()
}
