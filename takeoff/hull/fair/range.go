package fair

import "math"

// Range is an interval meant to hold the true value nine times in ten, mm. High
// is +Inf where the points do not tell a bend from a straight line.
type Range struct{ Low, High float64 }

// The shares by which a range of a radius is widened beyond what draws and
// refits give, for what the batten's stiffness blunts and what the widest span
// may hide. They were tuned once, on the families of the package's study.
const (
	bluntLow  = 6.0 // the low end comes down by so many times what is blunted,
	mostLow   = 0.6 // but by no more than this
	bluntHigh = 3.0
	turnHigh  = 0.2 // for each radian over the widest span, of which one counts
	leastHigh = 0.02
)

// radiusRange is the range of the radius of a bend of curvature k, in units of
// the girth, from the curvatures drawn, sorted, and what the refits allow.
func radiusRange(k, blunt, turn float64, drawn *[draws]float64, byRefits Range) Range {
	byDraws := Range{1 / quantile(drawn, .95), 1 / quantile(drawn, .05)}
	byShape := Range{(1 - min(mostLow, bluntLow*blunt)) / k, (1 + max(leastHigh, bluntHigh*blunt, turnHigh*min(turn, 1))) / k}
	return byDraws.wider(byRefits).wider(byShape)
}

// byRatio is what the refits allow: one that reads k* for k errs as the fit may
// have done, so the truth may be to the fit as the fit to the refit.
func byRatio(k float64, refitted *[draws]float64) Range {
	return Range{quantile(refitted, .05) / (k * k), quantile(refitted, .95) / (k * k)}
}

// byDifference is the same for a bend that is not the tightest. It may come from
// its refits as nothing, and be nothing: so what they add to it or take from it
// counts, not the ratio.
func byDifference(k float64, refitted *[draws]float64) Range {
	return Range{1 / max(k, 2*k-quantile(refitted, .05)), 1 / max(0, 2*k-quantile(refitted, .95))}
}

// flatRange is the range where the bend is lost in the grain: no tighter than
// its low end.
func flatRange(k float64, drawn, refitted *[draws]float64) Range {
	return Range{1 / max(k, quantile(drawn, .95), quantile(refitted, .95), straight), math.Inf(1)}
}

const (
	// An arc is longer than its chord by a 24th of the square of its turn; the
	// girth may be out by this share of that over the widest span,
	hidden = 0.6
	// but by no more than this share of the whole.
	mostHidden = 0.02
)

// girthRange is the range of a girth, from the girths drawn, sorted.
func girthRange(girth, span, turn float64, drawn *[draws]float64) Range {
	turn = min(turn, 1)
	hide := min(hidden*turn*turn/24*span, mostHidden*girth)
	return Range{min(girth, quantile(drawn, .05)) - hide, max(girth, quantile(drawn, .95)) + hide}
}

// quantile of sorted values.
func quantile(v *[draws]float64, p float64) float64 {
	x := p * (draws - 1)
	i := int(x)
	return v[i] + (x-float64(i))*(v[i+1]-v[i])
}

// wider is the range that holds both.
func (r Range) wider(o Range) Range { return Range{min(r.Low, o.Low), max(r.High, o.High)} }

// Around is the range, made to hold what was read also where rounding leaves
// that a hair outside.
func (r Range) Around(read float64) Range { return r.wider(Range{read, read}) }

// times is the range in another unit.
func (r Range) times(unit float64) Range { return Range{r.Low * unit, r.High * unit} }
