package fair

// plainRange is what a number of points is worth, measured over eleven
// families of sections with random dimensions and three placements of the
// points, all written to 1/8 in: the 5th and 95th percentile of the true least
// radius over the fitted one, and the share by which the girth may be out.
type plainRange struct {
	points    int
	low, high float64
	girth     float64
}

var plainRanges = [...]plainRange{
	{5, .41, 1.30, .033},
	{7, .64, 1.18, .012},
	{9, .75, 1.12, .005},
	{13, .83, 1.14, .002},
	{20, .87, 1.15, .002},
}

// PlainRange gives the factors by which to multiply the fitted least radius
// and the fitted girth of a section of that many points, to get intervals that
// hold the truth about nine times in ten over all shapes of section. Between
// the numbers of points that were studied the next smaller one counts. The
// range is the same for exact points: it is the want of points that misleads,
// not the grain. Under five points there is none and the error is a
// *RangeError.
//
// It knows nothing of the section at hand: a circle is known far better than
// it says, a hard bilge of few points worse. Over fresh draws of the same
// families it held the true radius in 89 to 92 of 100 sections written to
// 1/8 in; in 4 to 6 the truth was tighter than the low end.
func PlainRange(points int) (radius, girth Range, err error) {
	if points < plainRanges[0].points {
		return Range{}, Range{}, &RangeError{points}
	}
	p := plainRanges[0]
	for _, q := range plainRanges[1:] {
		if points >= q.points {
			p = q
		}
	}
	return Range{p.low, p.high}, Range{1 - p.girth, 1 + p.girth}, nil
}
