package fair

import "math"

// Left is what the other points of a section say of one of them.
type Left struct {
	// Miss is how far the point lies from the fair curve through the others, mm
	// along that curve's normal, positive as Curve.Miss is.
	Miss float64
	// Sure is how sure the others are of the curve there: the standard deviation
	// of its place along that normal, mm, +Inf where they do not hold it. Where
	// the curve turns in the gap that the point leaves, what may be Hidden there
	// counts in: a bend between points may be other than the batten draws it.
	Sure, Hidden float64
	// Own is the standard deviation of the point's own written error along the
	// normal, mm.
	Own float64
	// TY, TZ is the unit tangent there; the normal is (-TZ, TY).
	TY, TZ float64
}

// leaveFrom is the number of points from which one can be judged by the others:
// three hold the free movements, and a fourth tells how stiff the batten is.
const leaveFrom = 5

// hiddenRound is the share of the round over the gap that a left out point
// leaves which the others may be wrong about, for each radian of turn up to one.
// Without it 1 in 100 offsets of a firm or a hard bilge of seven points stood 5
// to 11 standard deviations off, with it 2 to 4.
const hiddenRound = 0.1

// slackest bounds by how many times its own error a point may be let go.
const slackest = 1e4

// LeaveOneOut fits the points as Fit does, and holds every one of them against
// the curve through the others. Point i counts with loose[i] times its written
// error, from 1 up to 10000: 100 lets it go, and it is judged all the same; nil
// is 1 for all.
//
// The others' curve is not fitted anew for every point. In the linear problem
// of the last step the leave-one-out residuals and their variances follow
// exactly from the one problem with all points (O. Dubrule, Cross validation of
// kriging in a unique neighborhood, Mathematical Geology 15, 1983, from memory),
// for every roughness, and the likelihood of a roughness under the others alone
// from that under all. A point far off has bent the curve that the problem is
// linear about; let it go, and the problem is about a curve that does without.
//
// Errors are those of Fit; under five points a *FewError.
func (w *Workspace) LeaveOneOut(pts []Point, loose []float64, grain float64) (*Curve, []Left, error) {
	if len(pts) < leaveFrom {
		return nil, nil, &FewError{Distinct: len(pts), Need: leaveFrom}
	}
	w.loose = append(w.loose[:0], loose...)
	w.loose = w.loose[:min(len(w.loose), len(pts))]
	for len(w.loose) < len(pts) {
		w.loose = append(w.loose, 1)
	}
	for i, v := range w.loose {
		if !(v >= 1) {
			w.loose[i] = 1
		}
		w.loose[i] = min(w.loose[i], slackest)
	}
	c, err := w.fit(pts, grain)
	if err != nil {
		return nil, nil, err
	}
	w.linear()
	if !w.without.pose(w.rows, len(pts)) {
		return nil, nil, &OrderError{Index: -1}
	}
	left := make([]Left, len(pts))
	for i := range left {
		h := &w.holds[i]
		miss, sd := w.without.judge(i)
		if sd > 0 {
			sd = math.Sqrt(max(0, sd*sd-1))
		}
		hidden := w.round(i)
		sure := math.Hypot(sd*h.sd, hidden)
		left[i] = Left{Miss: miss * h.sd * w.length, Sure: sure * w.length, Hidden: hidden * w.length, Own: h.sd / w.loose[i] * w.length, TY: h.ty, TZ: h.tz}
	}
	return c, left, nil
}

// round is what the others may be wrong about in the gap that point i leaves: a
// share of what the curve rises over it; where it turns there by more than a
// radian, which no two points beside it show, from nothing up to all of that
// besides. Beside an end the gap is open, and counts twice.
func (w *Workspace) round(i int) float64 {
	a, b := max(0, i-1), min(len(w.holds)-1, i+1)
	gap := math.Abs(w.holds[b].s - w.holds[a].s)
	lo, hi := min(w.holds[a].s, w.holds[b].s), max(w.holds[a].s, w.holds[b].s)
	if a == i || b == i {
		gap *= 2
	}
	k := w.line.greatest(max(from, lo), min(upTo, hi))
	turn := k * gap
	return k * gap * gap / 8 * (hiddenRound*min(1, turn) + min(1, max(0, turn-1)))
}
