package area

import "math"

// gauss are the points and weights of Gauss's rule on 0 to 1: exact for powers up to twice their number less one.
type gauss struct{ at, weight []float64 }

// gaussOf finds the n zeros of Legendre's polynomial by Newton's method.
func gaussOf(n int) gauss {
	g := gauss{make([]float64, n), make([]float64, n)}
	for i := range n {
		x := math.Cos(math.Pi * (float64(i) + 0.75) / (float64(n) + 0.5))
		slope := 0.0
		for range 20 {
			p, before := 1.0, 0.0
			for k := range n {
				p, before = (float64(2*k+1)*x*p-float64(k)*before)/float64(k+1), p
			}
			slope = float64(n) * (x*p - before) / (x*x - 1)
			x -= p / slope
		}
		g.at[n-1-i] = (1 + x) / 2
		g.weight[n-1-i] = 1 / ((1 - x*x) * slope * slope)
	}
	return g
}

var (
	// across the girth, panel by panel: the fair curve has corners in its third derivative, so many panels of a few
	// points do better than few of many.
	across = gaussOf(4)
	// along the boat, from station to station, where the surface is one cubic in x.
	along = gaussOf(6)
)

// panels the whole girth is cut into; a part of it into its share.
const panels = 14

// eased turns the share t of a piece so that a root at either end of the piece is smooth in t; with its slope.
func eased(t float64) (share, slope float64) { return t * t * (3 - 2*t), 6 * t * (1 - t) }
