package hull

import (
	"maps"
	"math"
	"slices"
)

// tracer follows one plane through a mesh, cell by cell: every cell whose corners lie on both sides of the plane is passed
// by the line, which enters and leaves it by its edges.
type tracer struct {
	mesh    *Mesh
	a, b, c float64
	// links are the edges that a cell joins to an edge; at is where the plane crosses it.
	links map[int][]int
	at    map[int]Spot
}

// off is how far a place lies off the plane. One in it counts as beyond, so that no line is lost between two cells.
func (t *tracer) off(s Spot) float64 { return t.a*s.Y + t.b*s.Z - t.c }

func (t *tracer) beyond(i, k int) bool { return t.off(t.mesh.spots[i][k]) >= 0 }

// Edges by number: up the girth from (i, k), and along the boat from it.
func (t *tracer) up(i, k int) int    { return 2 * (i*len(t.mesh.us) + k) }
func (t *tracer) along(i, k int) int { return 2*(i*len(t.mesh.us)+k) + 1 }

// cell joins the edges by which the plane passes the cell between (i, k) and (i+1, k+1).
func (t *tracer) cell(i, k int) {
	corner := [4]bool{t.beyond(i, k), t.beyond(i+1, k), t.beyond(i+1, k+1), t.beyond(i, k+1)}
	edges := [4]int{t.along(i, k), t.up(i+1, k), t.along(i, k+1), t.up(i, k)}
	var crossed []int
	for e := range edges {
		if corner[e] != corner[(e+1)%4] {
			crossed = append(crossed, edges[e])
		}
	}
	switch len(crossed) {
	case 2:
		t.join(crossed[0], crossed[1])
	case 4:
		// A saddle: the middle decides which corners hang together.
		m := t.mesh
		j := m.of.Jet((m.us[k]+m.us[k+1])/2, (m.xs[i]+m.xs[i+1])/2)
		if (t.off(Spot{Y: j.Y, Z: j.Z}) >= 0) == corner[0] {
			t.join(crossed[0], crossed[1])
			t.join(crossed[2], crossed[3])
		} else {
			t.join(crossed[3], crossed[0])
			t.join(crossed[1], crossed[2])
		}
	}
}

func (t *tracer) join(a, b int) {
	for _, e := range [2]int{a, b} {
		if _, found := t.at[e]; !found {
			t.at[e] = t.crossing(e)
		}
	}
	t.links[a] = append(t.links[a], b)
	t.links[b] = append(t.links[b], a)
}

// onPlane, mm, is how near the plane a crossing is brought.
const onPlane = 1e-7

// crossing is the place of the surface on an edge that lies in the plane, by regula falsi with the Illinois rule (Dowell
// and Jarratt, "A modified regula falsi method for computing the root of an equation", BIT 11, 1971; from memory).
func (t *tracer) crossing(edge int) Spot {
	m := t.mesh
	i, k := edge/2/len(m.us), edge/2%len(m.us)
	place := func(w float64) Spot {
		u, x := m.us[k], m.xs[i]
		if edge%2 == 0 {
			u += w * (m.us[k+1] - u)
		} else {
			x += w * (m.xs[i+1] - x)
		}
		j := m.of.Jet(u, x)
		return Spot{x, j.Y, j.Z}
	}
	low, high := 0.0, 1.0
	from, to := place(low), place(high)
	f, g := t.off(from), t.off(to)
	if f == 0 {
		return from
	}
	last := 0
	for range 60 {
		w := (low*g - high*f) / (g - f)
		if !(w > low && w < high) {
			w = (low + high) / 2
		}
		p := place(w)
		h := t.off(p)
		if math.Abs(h) < onPlane || high-low < 1e-15 {
			return p
		}
		if (h >= 0) == (f >= 0) {
			low, f = w, h
			if last == 1 {
				g /= 2
			}
			last = 1
		} else {
			high, g = w, h
			if last == 2 {
				f /= 2
			}
			last = 2
		}
	}
	return place((low + high) / 2)
}

// runs follows the links from the loose ends, then round the closed lines.
func (t *tracer) runs() [][]Spot {
	var out [][]Spot
	edges := slices.Sorted(maps.Keys(t.at))
	done := map[int]bool{}
	follow := func(e int) {
		var run []Spot
		for e >= 0 {
			done[e] = true
			run = append(run, t.at[e])
			next := -1
			for _, n := range t.links[e] {
				if !done[n] {
					next = n
				}
			}
			e = next
		}
		if len(run) < 2 {
			return
		}
		if run[0].X > run[len(run)-1].X {
			slices.Reverse(run)
		}
		out = append(out, run)
	}
	for _, e := range edges {
		if !done[e] && len(t.links[e]) == 1 {
			follow(e)
		}
	}
	for _, e := range edges {
		if !done[e] {
			first := len(out)
			follow(e)
			if len(out) > first { // a closed line comes back to where it began
				out[first] = append(out[first], out[first][0])
			}
		}
	}
	return out
}
