package area

import "math"

// Open are half widths of an area, mm², and of a volume, mm³: the range about the figure that is meant to hold the true one
// nine times in ten.
type Open struct{ Area, Volume float64 }

// Plus joins what rests on other measurements: half widths add as the sides of a right angle.
func (o Open) Plus(other Open) Open {
	return Open{math.Hypot(o.Area, other.Area), math.Hypot(o.Volume, other.Volume)}
}

// Of are the half widths of the whole side by such shares.
func (s Sure) Of(whole Part) Open { return s.OfPart(whole, whole) }

// OfPart are those of what of a side lies below or above a level. A part is less sure than its share of the whole: errors
// that make up for one another over the whole side do not over a part. So the share is taken of the mean, by the root, of
// part and whole. Taken of the part alone it held what lies below a level at a half of the depth 84 times in 100 in area and
// 74 in volume on the five bows of TestOpenHolds, for which this rule was made; TestPartOfUnseen asks it of other shapes.
func (s Sure) OfPart(p, whole Part) Open {
	mean := func(a, b float64) float64 { return math.Sqrt(max(0, a) * max(0, b)) }
	return Open{s.Area * mean(p.Area, whole.Area), s.Volume * mean(p.Volume, whole.Volume)}
}

// What is said of an end: of its area by how much it differs from what level lines drawn straight to the stem, or straight on
// to the transom, would give, of its volume half of that; the line itself is out by half the grain at every height. The
// shares were set before any boat was measured. Over five shapes of bows, 5 to 13 stations, exact and to eighths, the range
// then held 99 times in 100, of ends by themselves and of sides with their ends, see TestOpenHolds. Transoms' ranges stand on
// the same shares, and no shapes of them were counted.
const (
	openAreaByChord   = 1
	openVolumeByChord = .5
	// openLeast is said where level lines are straight and tell nothing.
	openLeast = .01
)

// open is how sure the planking beyond an end station is.
func (l *levels) open(p, chords Part) Open {
	area, volume := math.Abs(p.Area), math.Abs(p.Volume)
	if area == 0 {
		return Open{} // all of it lies above what was asked for
	}
	l.of.clip(l.end, Everything())
	at := l.of.sum(l.end)
	return Open{max(openLeast*area, openAreaByChord*math.Abs(p.Area-chords.Area)), max(openLeast*volume, openVolumeByChord*math.Abs(p.Volume-chords.Volume))}.
		Plus(Open{at.Girth * l.of.grain / 2, at.Section * l.of.grain / 2})
}
