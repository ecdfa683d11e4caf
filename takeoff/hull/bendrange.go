package hull

import "math"

// bendBetween is by how much, 1/mm, the curvature at the fraction u of the girth may differ at x for what the stations leave
// open of how the boat runs between them: by what the spline through their own curvatures at that fraction and the parabola
// differ, as weights.open has it. It is nothing where a station has a cusp there.
func (f *surface) bendBetween(u, x float64) float64 {
	k := f.grid.piece(u)
	open := f.weights.open(x, func(i int) float64 { j := f.grid.jet(f.curves[i], k, u); return j.kappa() })
	if math.IsNaN(open) || math.IsInf(open, 0) {
		return 0
	}
	return open
}

// leave widens the range of a bend of a boat of so many stations by what they leave open of its curvature, 1/mm.
func (b *Bend) leave(open float64, stations int) {
	if !(b.Kappa > 0) || math.IsInf(b.Kappa, 1) {
		return
	}
	tighter, easier := coarseTighter90*open, coarseEasier90*open
	if stations < fewStations {
		tighter, easier = sparseTighter90*open, sparseEasier90*open
	}
	b.radius.Low = 1 / (1/b.radius.Low + tighter)
	if left := 1/b.radius.High - easier; left > 0 {
		b.radius.High = 1 / left
	} else {
		b.radius.High = math.Inf(1)
	}
}

// How many times what spline and parabola differ by a bend between stations may be tighter, and easier, than the surface
// has it; sparse is that of a boat of fewer than fewStations, 3 to 6. A boat mostly bends less between her stations than a
// curve through them makes of it, so the two are not alike: the low end, which the laminates are chosen by, needs little.
// Each was widened until the range held nine times in ten at 3, 5, 7 and 13 stations, of exact points and of eighths, on
// eight forms that bend most at the sheer and four that bend most in the bilge (TestRadiusBetweenStationsHolds). They have not
// been measured on others. Without them it held 25, 59, 72 and 89 times in a hundred of exact points on the eight.
const (
	coarseTighter90 = .25
	coarseEasier90  = 1.25
	sparseTighter90 = .5
	sparseEasier90  = 2.25
)
