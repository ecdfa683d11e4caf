package hull

import "math"

// Area is the sectional area of the side, mm2: from the section to the centreline, rabbet to sheer, by Green's theorem on
// the curve, with a range that holds at least nine times in ten: on five forms of random dimensions, 5 to 20 points in eighths, it
// held 197 times in 200 or more, and was 2 % wide at 5 points, under 1 % from 7. grain is that of the written points, mm, 0 for exact ones.
//
// The girth's range says how far the curve may bulge: a bulge d along a curve that turns by t makes the girth d t longer and
// the area d times the girth larger. What the points were written to moves the curve bodily, by an error of the grain that
// falls with the points. Of a section in a plane that cants or leans the area is that in its own plane.
func (s *Section) Area(grain float64) Reading {
	sum, turn := 0.0, 0.0
	g := s.surface.grid
	for p := range g.n {
		row := s.row[g.first[p] : g.first[p]+g.n[p]+1]
		h := g.width(p) / float64(g.n[p]) / 3
		for i := range row {
			w := 2.
			switch {
			case i == 0 || i == g.n[p]:
				w = 1
			case i%2 == 1:
				w = 4
			}
			v := row[i].speed()
			sum += w * h * row[i].y * row[i].zu
			if v > 0 {
				turn += w * h * math.Abs(row[i].yu*row[i].zuu-row[i].zu*row[i].yuu) / (v * v)
			}
		}
	}
	bulge := func(off float64) float64 { return math.Abs(off) / max(turn, leastTurn) }
	body := bodily * grain / math.Sqrt(12*float64(max(s.Points, 1)))
	low := s.Girth.MM * math.Hypot(bulge(s.Girth.MM-s.Girth.Low), body)
	high := s.Girth.MM * math.Hypot(bulge(s.Girth.High-s.Girth.MM), body)
	return Reading{sum, max(0, sum-low), sum + high}
}

const (
	// leastTurn, radians, is what a section turns by at least when its girth's range is read as a bulge: below it the girth
	// says nothing of the area.
	leastTurn = 1
	// bodily is by how many standard errors of the mean of its points a curve may lie off.
	bodily = 1
)
