package strake

import "math"

// onKnuckle is how near, in parts of the girth, an edge and a knuckle are one: what rounding leaves.
const onKnuckle = 1e-9

// Equal divides the girth into n strakes. Without knuckles all are equal parts of it. With knuckles, given by their u as
// they rise, each is a seam, and each panel between has a whole number of equal strakes, one at least: every further one
// goes to the panel whose strakes would else be the widest, by the mean girths that u goes by. Fewer strakes than
// panels are a *CountError.
func Equal(n int, knuckles ...float64) (*Edges, error) {
	ends := append(append([]float64{0}, knuckles...), 1)
	panels := len(ends) - 1
	if n < panels || n > maxStrakes {
		return nil, &CountError{"number of strakes", n, panels, maxStrakes}
	}
	counts := make([]int, panels)
	for i := range counts {
		if !(ends[i+1]-ends[i] > onKnuckle) {
			return nil, &EdgeError{Edge: i + 1, Below: ends[i], At: ends[i+1]}
		}
		counts[i] = 1
	}
	for range n - panels {
		widest, most := 0, 0.0
		for i, c := range counts {
			// Of panels as wide as one another the lowest is first, whatever the last digit says.
			if w := (ends[i+1] - ends[i]) / float64(c); w > most*(1+1e-9) {
				widest, most = i, w
			}
		}
		counts[widest]++
	}
	e := &Edges{n: n}
	for i, c := range counts {
		for j := 1; j <= c; j++ {
			u := ends[i] + (ends[i+1]-ends[i])*float64(j)/float64(c)
			if j == c {
				u = ends[i+1]
			}
			e.fixed = append(e.fixed, u)
		}
	}
	e.fixed = e.fixed[:n-1]
	return e, nil
}

// seamed refuses edges that leave a strake across a knuckle: of each knuckle one edge has to lie on it at all stations
// given. The error is a *KnuckleError. Edges so found run on their knuckles between the stations too.
func (e *Edges) seamed(knuckles []float64, stations []float64, rows [][]float64) error {
	e.seams = map[int]float64{}
	for c, u := range knuckles {
		edge := 0
		for i, row := range rows {
			k := 0
			for k < len(row) && row[k] < u-onKnuckle {
				k++
			}
			if i == 0 {
				edge = k + 1
			}
			if k == len(row) || math.Abs(row[k]-u) > onKnuckle || k+1 != edge {
				return &KnuckleError{Strake: k, Knuckle: c + 1, At: u, Row: i, X: stations[i]}
			}
		}
		e.seams[edge] = u
	}
	return nil
}

// across is the *KnuckleError of a strake, counted from 0, that lies across a knuckle at x.
func across(k int, lower, upper float64, knuckles []float64, x float64) error {
	for c, u := range knuckles {
		if lower < u-onKnuckle && upper > u+onKnuckle {
			return &KnuckleError{Strake: k, Knuckle: c + 1, At: u, Row: -1, X: x}
		}
	}
	return nil
}

// onto takes an edge to the knuckle that it lies on; on says whether there is one.
func onto(u float64, knuckles []float64) (at float64, on bool) {
	for _, c := range knuckles {
		if math.Abs(u-c) <= onKnuckle {
			return c, true
		}
	}
	return u, false
}
