package planking

import (
	"math"
	"slices"
	"strconv"

	"ribband/takeoff/hull"
	"ribband/takeoff/hull/strake"
	"ribband/takeoff/notation"
)

// seamWithin is how far from a knuckle, mm along the girth, an edge is taken to be meant for it: an eighth of an inch,
// which tables in feet, inches and eighths are written to.
const seamWithin = 25.4 / 8

// seated takes shares of a station's own girth to where the surface has them: without knuckles that is the share itself,
// with them each panel is divided by itself, and a share within seamWithin of a knuckle lies on it. What is no share
// stays as it is, to be told of.
func seated(shares []float64, m hull.Measure) []float64 {
	knuckles := m.Section.Knuckles()
	if len(knuckles) == 0 {
		return shares
	}
	out := make([]float64, len(shares))
	for i, share := range shares {
		out[i] = share
		if !(share > 0 && share < 1) {
			continue
		}
		out[i] = m.Section.Share(share)
		for _, k := range knuckles {
			if math.Abs(share*m.Section.Girth.MM-k.S) <= seamWithin {
				out[i] = k.U
			}
		}
	}
	return out
}

// across says where a strake lies across a knuckle, at the station that stands at x, and what would be right there.
func (r *reader) across(e *strake.KnuckleError, x float64) {
	i := slices.IndexFunc(r.of, func(m hull.Measure) bool { return m.X == x })
	if i < 0 {
		return
	}
	m := r.of[i]
	k := m.Section.Knuckles()[e.Knuckle-1]
	girth := "the knuckle's girth"
	if l, err := notation.FromMM(k.S); err == nil {
		girth = r.in.Format(l)
	}
	r.Add("/strakes/edges", "the same edge on the knuckle at every station: at station "+strconv.Itoa(m.Station)+" at the girth "+girth+" from the rabbet, or the fraction "+strconv.FormatFloat(k.S/m.Section.Girth.MM, 'f', 4, 64),
		"at station %d strake %d lies across the knuckle %s, or another edge lies on it than forward", m.Station, e.Strake+1, notation.Quote(k.Name))
}
