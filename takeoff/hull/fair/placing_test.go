package fair_test

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"ribband/takeoff/hull/fair"
)

// eighth is an eighth of an inch, the grain of most written offsets, mm.
const eighth = 25.4 / 8

// mark is a place on a true section and how it is measured there.
type mark struct {
	s      float64
	kind   fair.Kind
	dy, dz float64
}

// placings are the ways in which points come to be on a section: a pattern's
// points spread along the girth, a table's waterlines, or waterlines with
// buttocks and one diagonal. All have the rabbet and the sheer.
var placings = []struct {
	name string
	lay  func(c *section, n int, r *rand.Rand) []mark
}{
	{"along the girth", alongGirth}, {"waterlines", waterlines}, {"mixed", mixed},
}

func ends(c *section) []mark { return []mark{{s: 0}, {s: c.girth}} }

func inOrder(m []mark) []mark {
	slices.SortFunc(m, func(a, b mark) int { return cmp.Compare(a.s, b.s) })
	return m
}

// crossing is where the section first crosses f = 0.
func (c *section) crossing(f func(y, z float64) float64) (s float64, ok bool) {
	last := f(c.y[0], c.z[0])
	for i := 1; i < len(c.s); i++ {
		now := f(c.y[i], c.z[i])
		if last <= 0 && now > 0 || last >= 0 && now < 0 {
			lo, hi := c.s[i-1], c.s[i]
			for range 40 { // halve the interval to under a nanometre
				mid := (lo + hi) / 2
				if v := f(c.at(mid)); (v <= 0) == (last <= 0) {
					lo = mid
				} else {
					hi = mid
				}
			}
			return (lo + hi) / 2, true
		}
		last = now
	}
	return 0, false
}

func (c *section) waterline(z0 float64) []mark {
	if s, ok := c.crossing(func(_, z float64) float64 { return z - z0 }); ok {
		return []mark{{s: s, kind: fair.AtHeight, dy: 1}}
	}
	return nil
}

func (c *section) buttock(y0 float64) []mark {
	if s, ok := c.crossing(func(y, _ float64) float64 { return y - y0 }); ok {
		return []mark{{s: s, kind: fair.AtWidth, dz: 1}}
	}
	return nil
}

// diagonal is one at 45 degrees from the centreline through the place at s.
func (c *section) diagonal(s float64) []mark {
	y, z := c.at(s)
	height := y + z
	if s, ok := c.crossing(func(y, z float64) float64 { return y + z - height }); ok {
		return []mark{{s: s, kind: fair.Along, dy: math.Sqrt2 / 2, dz: -math.Sqrt2 / 2}}
	}
	return nil
}

func alongGirth(c *section, n int, r *rand.Rand) []mark {
	m := ends(c)
	for i := 1; i < n-1; i++ {
		m = append(m, mark{s: c.girth * (float64(i) + between(r, -0.2, 0.2)) / float64(n-1)})
	}
	return inOrder(m)
}

func waterlines(c *section, n int, r *rand.Rand) []mark {
	return inOrder(c.addWaterlines(ends(c), n-2, r))
}

// addWaterlines adds n equally spaced waterlines between rabbet and sheer, the
// whole set lifted or lowered at random.
func (c *section) addWaterlines(m []mark, n int, r *rand.Rand) []mark {
	low, high, lift := c.z[0], c.z[len(c.z)-1], between(r, -0.3, 0.3)
	for i := range n {
		m = append(m, c.waterline(low+(high-low)*(float64(i+1)+lift)/float64(n+1))...)
	}
	return m
}

func mixed(c *section, n int, r *rand.Rand) []mark {
	buttocks := int(math.Round(float64(n-3) * 0.4))
	m := c.addWaterlines(ends(c), n-3-buttocks, r)
	in, out, move := c.y[0], slices.Max(c.y), between(r, -0.3, 0.3)
	for i := range buttocks {
		m = append(m, c.buttock(in+(out-in)*(float64(i+1)+move)/float64(buttocks+1))...)
	}
	return inOrder(append(m, c.diagonal(c.girth*between(r, 0.45, 0.65))...))
}

// written are the marks as they stand in the table, to the grain (0 = exact).
// The rule's zero is shifted by part of a grain each time, so that no
// dimension falls on the grain by luck.
func written(c *section, marks []mark, grain float64, r *rand.Rand) []fair.Point {
	return misread(c, marks, grain, 0, r)
}

// misread are the marks read wrong by up to so many grains either way, before
// they were written to the grain.
func misread(c *section, marks []mark, grain, wrong float64, r *rand.Rand) []fair.Point {
	slip := func() float64 {
		if wrong == 0 {
			return 0
		}
		return wrong * grain * between(r, -1, 1)
	}
	offY, offZ, offD := grain*r.Float64(), grain*r.Float64(), grain*r.Float64()
	pts := make([]fair.Point, len(marks))
	for i, m := range marks {
		y, z := c.at(m.s)
		p := fair.Point{Y: y, Z: z, Kind: m.kind, DY: m.dy, DZ: m.dz}
		switch m.kind {
		case fair.Both:
			p.Y, p.Z = rounded(y+offY+slip(), grain)-offY, rounded(z+offZ+slip(), grain)-offZ
		case fair.AtHeight:
			p.Y = rounded(y+offY+slip(), grain) - offY
		case fair.AtWidth:
			p.Z = rounded(z+offZ+slip(), grain) - offZ
		case fair.Along:
			d := rounded(offD+slip(), grain) - offD // the true distance is 0 from the mark
			p.Y, p.Z = y+d*m.dy, z+d*m.dz
		}
		pts[i] = p
	}
	return pts
}

func rounded(x, grain float64) float64 {
	if grain == 0 {
		return x
	}
	return math.Round(x/grain) * grain
}
