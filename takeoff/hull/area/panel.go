package area

import (
	"math"
	"sort"
)

// panelled cuts the girth into about as many equal panels as panels says, with an edge at every corner.
func panelled(corners []float64) []float64 {
	edges, from := []float64{0}, 0.0
	for _, to := range append(append([]float64(nil), corners...), 1) {
		n := max(1, int(math.Ceil((to-from)*panels-sliver)))
		for k := 1; k < n; k++ {
			edges = append(edges, from+(to-from)*float64(k)/float64(n))
		}
		edges, from = append(edges, to), to
	}
	return edges
}

// sliver is the stretch of the girth that is none: what rounding leaves.
const sliver = 1e-10

// run is a stretch of d.us read in one: whole panels from number panel on, or where that is none, a part of one.
type run struct{ from, to, panel int }

const noPanel = -1

// divide fills d.us and d.share with the places of d.spans and what each stands for, panel by panel of the girth, and with
// the parts of panels at the ends of a span; d.runs says which are which.
func (d *Side) divide() {
	d.us, d.share, d.runs = d.us[:0], d.share[:0], d.runs[:0]
	for _, s := range d.spans {
		first := sort.SearchFloat64s(d.edges, s.from-sliver)  // the first edge in the span
		last := sort.SearchFloat64s(d.edges, s.to+sliver) - 1 // and the last
		if first > last {
			d.part(s.from, s.to)
			continue
		}
		d.part(s.from, d.edges[first])
		if first < last {
			at := len(d.us)
			for p := first; p < last; p++ {
				d.take(d.edges[p], d.edges[p+1]-d.edges[p])
			}
			d.runs = append(d.runs, run{at, len(d.us), first})
		}
		d.part(d.edges[last], s.to)
	}
}

// part takes a piece of a panel, if there is any.
func (d *Side) part(from, to float64) {
	if !(to-from > sliver) {
		return
	}
	at := len(d.us)
	d.take(from, to-from)
	d.runs = append(d.runs, run{at, len(d.us), noPanel})
}

func (d *Side) take(from, wide float64) {
	for k, t := range across.at {
		d.us = append(d.us, from+t*wide)
		d.share = append(d.share, wide*across.weight[k])
	}
}
