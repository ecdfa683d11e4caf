package area

import "math"

// Profile is one place of a line seen from the side, mm: the rabbet on the stem, or the edge of the transom.
type Profile struct{ Z, X float64 }

// Ending is where the planking ends beyond an end station, or short of it.
type Ending struct {
	// Aft: abaft the last station; otherwise forward of the first.
	Aft bool
	// Transom: planks are cut off at the line; otherwise they close on it, as on a stem.
	Transom bool
	// Line by rising height. Its highest place is where the sheer ends.
	Line []Profile
}

// End is what an ending adds to a side, or takes away where a transom lies short of the end station.
type End struct {
	Part
	// Open says how sure the figures are.
	Open Open
	// Round: the level lines come in to the centreline square, or nearly.
	Round bool
	// Coarse: the ending is round and reaches beyond the end station by more than an eighth of the stations' spacing.
	// Ellipsoids are met all the same; of other round ends, whose lines run otherwise, nothing was seen between, and sections
	// at a half and at an eighth of the spacing from the line are needed.
	Coarse bool
}

const (
	// RoundBelow: how steeply a level line runs to its end, against the chord from the end station to it, tells the two
	// kinds of ending apart. A straight line has 1, a parabola a little less, a circle or an ellipse never more than a half.
	RoundBelow = 0.55
	// coarseFrom is the eighth of the greatest spacing, and a little for how it was measured.
	coarseFrom = 0.13
)

// End by level lines: at each height the half-breadth runs from the end station to the line as a cubic through the line,
// the end station, and the first bay's middle and end; where the ending is round, the square of the half-breadth does,
// which is exact for an ellipsoid. A transom's planks run on as a parabola. What lies above high is left out. The rabbet's
// half-breadth at the end station is taken to be the stem's, and the sheer to run straight from the end station to the
// line's highest place.
//
// Measured with exact points: a whole side's area and volume are within 0.02 % on a raked V-shaped bow of 7 stations and
// more (0.01 % seen), within 0.03 % on half spheroids and ellipsoids of 11 inner stations (0.022 %), and on a raked transom
// a bay's tenth short of or beyond the last station within 0.02 %. Errors are *LineError and *WindowError.
func (d *Side) End(e Ending, high float64) (End, error) {
	l, err := d.levels(e)
	if err != nil {
		return End{}, err
	}
	if math.IsNaN(high) {
		return End{}, &WindowError{"heights", l.low, high}
	}
	out := End{}
	if !e.Transom {
		far := l.judge()
		out.Round = l.round
		out.Coarse = l.round && far > coarseFrom
	}
	l.fill(&out.Part, high)
	var chords Part
	l.straight = true
	l.fill(&chords, high)
	out.Open = l.open(out.Part, chords)
	return out, nil
}

// fill adds the level lines up to high.
func (l *levels) fill(p *Part, high float64) {
	// The heights at which what bounds a level line changes.
	top, head := max(l.sheer, l.head), min(l.sheer, l.head)
	edges := []float64{l.low, head, top}
	for i := range edges[1:] {
		a, b := max(l.low, edges[i]), min(edges[i+1], high)
		if a < b {
			l.stack(p, a, b, i == 0)
		}
	}
}

// stack adds the level lines between two heights. At the foot a section may lie flat, and half-breadths grow like a root.
func (l *levels) stack(p *Part, a, b float64, foot bool) {
	const storeys = 8
	for k := range storeys {
		for i, t := range across.at {
			v := (float64(k) + t) / storeys
			z, dz := a+(b-a)*v, (b-a)*across.weight[i]/storeys
			if foot {
				z, dz = a+(b-a)*v*v, dz*2*v
			}
			l.set(z)
			l.along(p, z, dz)
		}
	}
}

// along adds one level line of the height dz.
func (l *levels) along(p *Part, z, dz float64) {
	from, to := l.bounds(z)
	if !l.transom && !(from < to) {
		return
	}
	const pieces = 3
	for k := range pieces {
		for i, t := range along.at {
			// Closing in, a round line grows like a root from its end.
			s := (float64(k) + t) / pieces
			at := to - (to-from)*s*s
			dt := (to - from) * 2 * s * along.weight[i] / pieces
			y, yt, yz := l.place(at)
			w := dt * dz
			x := l.x(at)
			slanted := w * math.Sqrt(1+yt*yt+yz*yz)
			p.Area += slanted
			p.PlankX += slanted * x
			p.Girths += w * math.Sqrt(1+yz*yz)
			p.Volume += w * y
			p.MomentX += w * y * x
			p.MomentZ += w * y * z
		}
	}
}
