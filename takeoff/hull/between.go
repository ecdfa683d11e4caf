package hull

import (
	"math"

	"ribband/takeoff/hull/fair"
)

// exactly is the range of a radius known without error.
func exactly(kappa float64) fair.Range { return fair.Range{Low: 1 / kappa, High: 1 / kappa} }

// take widens the range of a bend between stations by what is known of the same bend at a neighbour: its curvature
// there and the range of its radius. The range is carried over as ratios, but never as more curvature than it leaves
// open at the neighbour itself: a station at the stem that is nearly straight has a range of very wide ratios, and
// says little of a full section beside the next.
func (b *Bend) take(kappa float64, radius fair.Range) {
	tighter, easier := 1/radius.Low-kappa, kappa-1/radius.High
	switch {
	case math.IsInf(b.Kappa, 1):
		return // a cusp has no radius, and no range
	case b.Kappa == 0:
		b.radius.Low = min(b.radius.Low, radius.Low)
		return
	case math.IsInf(radius.High, 1): // it may even bend the other way
		easier = max(easier, tighter)
	}
	share := 1.0
	if kappa > b.Kappa {
		share = b.Kappa / kappa
	}
	b.radius.Low = min(b.radius.Low, 1/(b.Kappa+share*max(0, tighter)))
	if left := b.Kappa - share*max(0, easier); left > 0 {
		b.radius.High = max(b.radius.High, 1/left)
	} else {
		b.radius.High = math.Inf(1)
	}
}
