package hull

import "math"

// cuts of the girth at which stations are tabulated once, to be summed for every section between them: a fifth of
// the fair curve's own cell.
const cuts = 300

// leastCuts are made of the shortest piece between two knuckles.
const leastCuts = 20

// grid is how the girth of a side is divided for all her stations alike. u runs from 0 at the rabbet to 1 at the sheer.
// Each knuckle lies at one u at every station, the mean of its places as fractions of the girth, and in a piece between
// two knuckles u grows with its length: so no line of equal u runs across a knuckle. Without knuckles u is the fraction
// of the station's girth. The row of a grid has a cut on either side of each knuckle, both at its u.
type grid struct {
	knots []float64 // 0, the knuckles, 1
	first []int     // of each piece: its first cut in the row
	n     []int     // of each piece: how many steps it is cut into, an even number
}

// newGrid divides the girth for stations that all have the same knuckles.
func newGrid(chains []*Chain) *grid {
	g := &grid{knots: []float64{0}}
	n := 1
	if len(chains) > 0 {
		n = len(chains[0].pieces)
	}
	for i := 1; i < n; i++ {
		sum := 0.0
		for _, c := range chains {
			sum += c.pieces[i].before / c.girth
		}
		g.knots = append(g.knots, sum/float64(len(chains)))
	}
	g.knots = append(g.knots, 1)
	at := 0
	for i := range n {
		g.first = append(g.first, at)
		k := max(leastCuts, 2*int(math.Round(cuts*g.width(i)/2)))
		g.n = append(g.n, k)
		at += k + 1
	}
	return g
}

func (g *grid) pieces() int { return len(g.n) }

// width of piece i, in u.
func (g *grid) width(i int) float64 { return g.knots[i+1] - g.knots[i] }

// at is the u of step j of piece i.
func (g *grid) at(i, j int) float64 { return g.knots[i] + g.width(i)*float64(j)/float64(g.n[i]) }

// last is the cut of the sheer in the row.
func (g *grid) last() int { n := len(g.n) - 1; return g.first[n] + g.n[n] }

// of is the piece that a cut of the row belongs to.
func (g *grid) of(cut int) int {
	i := 0
	for i+1 < len(g.first) && cut >= g.first[i+1] {
		i++
	}
	return i
}

// u of a cut of the row.
func (g *grid) u(cut int) float64 { i := g.of(cut); return g.at(i, cut-g.first[i]) }

// piece that holds u; at a knuckle that above it, towards the sheer.
func (g *grid) piece(u float64) int {
	i := 0
	for i+2 < len(g.knots) && u >= g.knots[i+1] {
		i++
	}
	return i
}

// below is the piece that holds u, at a knuckle that below it, towards the rabbet.
func (g *grid) below(u float64) int {
	i := g.piece(u)
	if i > 0 && u == g.knots[i] {
		i--
	}
	return i
}

// jet of a chain at u, taken in piece i.
func (g *grid) jet(c *Chain, i int, u float64) jet {
	w := g.width(i)
	return c.pieces[i].jet((u-g.knots[i])/w, w)
}

type row []jet

// tabulate a chain at the cuts. The places on either side of a knuckle are one, to the last digit.
func (g *grid) tabulate(c *Chain) row {
	r := make(row, 0, g.last()+1)
	for i := range g.n {
		for j := range g.n[i] + 1 {
			r = append(r, g.jet(c, i, g.at(i, j)))
		}
		if i > 0 {
			below := r[g.first[i]-1]
			r[g.first[i]].y, r[g.first[i]].z = below.y, below.z
		}
	}
	return r
}
