package strake

import "gonum.org/v1/gonum/interp"

const maxStrakes = 60 // a side; an assumption, no source

// Edges are the edges of one side's strakes, from the rabbet to the sheer, as fractions of the girth.
type Edges struct {
	n  int
	at []interp.NaturalCubic // of the inner edges; none where they are fixed
	// fixed are the fractions of the inner edges of an equal division.
	fixed []float64
	// seams are the edges that lie on a knuckle, by their number, with its u.
	seams map[int]float64
	// x of the first and the last row given, mm.
	forward, aft float64
}

// Given takes a row of rising fractions, 0 and 1 left out, for each of some stations, three or more of them with the
// two ends of the surface; between them each edge is a natural cubic spline in x, and two that cross there are refused
// too.
//
// Of each knuckle, given by its u, one edge lies on it at all stations; a *KnuckleError otherwise.
func Given(stations []float64, rows [][]float64, knuckles ...float64) (*Edges, error) {
	if len(stations) < 3 || len(rows) != len(stations) {
		return nil, &ShapeError{0, max(3, len(stations)), len(rows)}
	}
	inner := len(rows[0])
	if inner+1 > maxStrakes {
		return nil, &CountError{"number of strakes", inner + 1, 1, maxStrakes}
	}
	for i, row := range rows {
		if len(row) != inner {
			return nil, &ShapeError{i, inner, len(row)}
		}
		if i > 0 && !(stations[i] > stations[i-1]) {
			return nil, &EdgeError{Edge: 0, X: stations[i]}
		}
		if err := rising(row, stations[i]); err != nil {
			return nil, err
		}
	}
	e := &Edges{n: inner + 1, at: make([]interp.NaturalCubic, inner),
		forward: stations[0], aft: stations[len(stations)-1]}
	ys := make([]float64, len(rows))
	for k := range e.at {
		for i := range rows {
			ys[i] = rows[i][k]
		}
		if err := e.at[k].Fit(stations, ys); err != nil {
			return nil, err
		}
	}
	if err := e.seamed(knuckles, stations, rows); err != nil {
		return nil, err
	}
	return e, e.crossing(stations)
}

// rising also refuses what is not a number.
func rising(row []float64, x float64) error {
	below := 0.0
	for k, u := range row {
		if !(u > below && u < 1) {
			return &EdgeError{k + 1, x, below, u}
		}
		below = u
	}
	return nil
}

// crossing looks at eight places between each two stations.
func (e *Edges) crossing(stations []float64) error {
	row := make([]float64, len(e.at))
	for i := 0; i+1 < len(stations); i++ {
		for j := 1; j < 8; j++ {
			x := stations[i] + (stations[i+1]-stations[i])*float64(j)/8
			for k := range row {
				row[k] = e.At(k+1, x)
			}
			if err := rising(row, x); err != nil {
				return err
			}
		}
	}
	return nil
}

// reach refuses a surface longer than what the edges were given for: beyond it they would be a guess.
func (e *Edges) reach(forward, aft float64) error {
	if e.at != nil && (e.forward > forward || e.aft < aft) {
		return &ReachError{e.forward, e.aft, forward, aft}
	}
	return nil
}

// slope is how fast the fraction of edge k changes along x at an end, to one mm.
func (e *Edges) slope(k int, x float64) float64 {
	if _, on := e.seams[k]; on || k <= 0 || k >= e.n || e.at == nil {
		return 0
	}
	return e.at[k-1].PredictDerivative(x)
}

// Strakes is their number.
func (e *Edges) Strakes() int { return e.n }

// At is the fraction of the girth of edge k at x: edge 0 is the rabbet, edge Strakes() the sheer.
func (e *Edges) At(k int, x float64) float64 {
	switch {
	case k <= 0:
		return 0
	case k >= e.n:
		return 1
	case e.at == nil:
		return e.fixed[k-1]
	}
	if u, on := e.seams[k]; on {
		return u
	}
	return e.at[k-1].Predict(x)
}
