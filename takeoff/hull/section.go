package hull

import (
	"fmt"
	"math"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/fair"
	"ribband/takeoff/quantity"
)

// Section is one side of the boat at one place along it, in the transverse plane, or in that of a frame that stands
// otherwise: the line a frame follows with its faying face. In such a plane Y of its points and places is the distance
// from the plumb line at X, and Z rises in the plane with the heel at its own height; OnBoat tells where a place is.
type Section struct {
	X    float64 // aft from station 0, mm; of another plane where it meets the centreline at the height of the heel
	Side boat.Side
	// Near are the numbers of the stations it rests on: one at a station, the two neighbours between stations.
	Near []int
	// Points is how many differing points the range rests on: the station's, or those of the neighbour whose range
	// of the least radius is the wider.
	Points  int
	RestsOn boat.RestsOn
	Girth   Reading // from rabbet to sheer
	// Bilge and Hollow are the tightest bends with the centre inboard and outboard.
	Bilge, Hollow Bend
	// Straight says that the section is straight as far as points can tell: its bends then have no radius to speak
	// of, and Least is infinite.
	Straight bool
	// Sharp says that the least radius is good to a tenth in 95 cases of a hundred: at the station, or at both
	// neighbours.
	Sharp bool
	// Doubtful says that a fair curve it rests on did not settle, so its bends may be off by more than their range.
	Doubtful bool
	// Unshown are the bends of those stations that their points do not show: drawn by the batten, they may be much
	// tighter or much easier, and the girth with them.
	Unshown []Unshown

	surface *surface
	one     int // the station it lies at, or -1
	// first and last of the surface's stations that it rests on.
	first, last int
	weight      []float64 // of every station, when it lies at none
	slant       *slant    // nil where it stands square across the boat
	row         row
}

// Unshown is a bend between points too far apart to show it. One more point at Mid, mm along the station's girth from
// the rabbet, would tell most.
type Unshown struct {
	Station int
	Mid     float64
	// Straight names a piece at a knuckle of which only the two ends were measured, and which is drawn straight for
	// that; empty for a bend.
	Straight string
}

// OutsideError: a place forward of the first station or aft of the last, where nothing was measured.
type OutsideError struct{ X, Forward, Aft float64 } // mm

func (e *OutsideError) Error() string {
	return fmt.Sprintf("%v mm lies outside the measured stations, which reach from %v to %v mm; nothing is extrapolated: measure a station there, or take the frame by a pattern or a tape",
		e.X, e.Forward, e.Aft)
}

// Section is the section of one side at x, mm aft from station 0. At a station it is that station's own curve;
// between stations every point at the same fraction of the girth runs by a spline in x, and its curvature comes
// from the stations' own curvature. Between stations the ranges of girth and bends hold also what they leave open of how the
// boat runs from one to the next. Errors are *OutsideError and *SideError.
func (h *Hull) Section(x float64, side boat.Side) (*Section, error) {
	return h.SectionIn(Plane{X: x}, side)
}

// SectionIn is the section of one side in a plane: Section where it stands square across the boat, otherwise the curve in
// which the plane meets the surface between the stations, with its ranges from all the stations along which it runs.
// Errors are *OutsideError, *ReachError, *PlaneError and *SideError.
func (h *Hull) SectionIn(p Plane, side boat.Side) (*Section, error) {
	f, err := h.side(side)
	if err != nil {
		return nil, err
	}
	s := &Section{X: p.X, Side: side, RestsOn: boat.OnStations, surface: f, one: -1}
	if err := s.in(p, func(first, last int) { s.rests(h, first, last) }); err != nil {
		return nil, err
	}
	return s, nil
}

// in draws the section of its surface in a plane; rests is told the first and the last station that it rests on.
func (s *Section) in(p Plane, rests func(first, last int)) error {
	x := s.surface.weights.x
	if math.IsNaN(p.X) || math.IsInf(p.X, 0) {
		return &OutsideError{p.X, x[0], x[len(x)-1]}
	}
	if !p.Square() {
		var err error
		if s.slant, err = newSlant(s.surface, p); err != nil {
			return err
		}
		s.row = s.slant.row
		first, last := s.slant.span()
		s.first, s.last = first, last
		rests(first, last)
		s.ranges(first, last)
		return nil
	}
	first, last, ok := s.surface.weights.near(p.X)
	s.first, s.last = first, last
	switch {
	case !ok:
		return &OutsideError{p.X, x[0], x[len(x)-1]}
	case first == last:
		rests(first, last)
		s.atStation(first)
	default:
		rests(first, last)
		s.betweenStations(first, last)
	}
	return nil
}

// rests notes what stations the section rests on.
func (s *Section) rests(h *Hull, first, last int) {
	f := s.surface
	widest := first
	s.Sharp = true
	for i := first; i <= last; i++ {
		c := f.curves[i]
		s.Near = append(s.Near, h.stations[i].No)
		s.Doubtful = s.Doubtful || !c.settled()
		s.Sharp = s.Sharp && c.sharp()
		s.Unshown = append(s.Unshown, c.unshown(h.stations[i].No)...)
		if wider(c, f.curves[widest]) {
			widest = i
		}
	}
	s.Points = f.points[widest]
}

func (s *Section) atStation(i int) {
	c, grid := s.surface.curves[i], s.surface.grid
	s.one, s.row = i, s.surface.rows[i]
	g, r := c.girth, c.girthRange()
	s.Girth = Reading{g, min(g, r.Low), max(g, r.High)}
	bilge, hollow := c.peaks()
	s.Straight = c.straight()
	u := func(b bent) float64 { return grid.knots[b.piece] + grid.width(b.piece)*b.share }
	s.Bilge = Bend{Kappa: bilge.kappa, S: bilge.s, U: u(bilge), radius: c.radius(ofBilge).Around(1 / bilge.kappa)}
	s.Hollow = Bend{Kappa: hollow.kappa, S: hollow.s, U: u(hollow), Hollow: true, radius: c.radius(ofHollow).Around(1 / hollow.kappa)}
}

func (s *Section) betweenStations(first, last int) {
	s.weight = s.surface.weights.at(s.X)
	s.row = make(row, s.surface.grid.last()+1)
	for i, w := range s.weight {
		for j := range s.row {
			s.row[j].add(w, &s.surface.rows[i][j])
		}
	}
	s.ranges(first, last)
}

// ranges sums the girth and finds the bends of a section that is no station's own, with the ranges that the stations from
// first to last give them.
func (s *Section) ranges(first, last int) {
	g := s.before(s.surface.grid.pieces())
	s.Girth = Reading{g, g, g}
	s.Bilge, s.Hollow = s.tightest()
	s.Bilge.radius, s.Hollow.radius = exactly(s.Bilge.Kappa), exactly(s.Hollow.Kappa)
	for i := first; i <= last; i++ {
		c := s.surface.curves[i]
		r := c.girthRange()
		s.Girth.Low = min(s.Girth.Low, g*r.Low/c.girth)
		s.Girth.High = max(s.Girth.High, g*r.High/c.girth)
		bilge, hollow := c.peaks()
		s.Bilge.take(bilge.kappa, c.radius(ofBilge))
		s.Hollow.take(hollow.kappa, c.radius(ofHollow))
	}
	s.leave(&s.Bilge)
	s.leave(&s.Hollow)
	between := s.surface.girthBetween(s.X)
	if s.slant != nil {
		between = s.slant.girthBetween()
	}
	s.Girth.Low, s.Girth.High = max(0, s.Girth.Low-between), s.Girth.High+between
	s.Straight = quantity.Snap(max(s.Bilge.Kappa, s.Hollow.Kappa)*g) < straight
}

// leave widens the range of one of its bends by what the stations leave open of the curvature where it lies.
func (s *Section) leave(b *Bend) {
	x := s.X
	if s.slant != nil {
		x, _ = s.slant.at(s.surface.grid.piece(b.U), b.U)
	}
	b.leave(s.surface.bendBetween(b.U, x), len(s.surface.curves))
}

// straight is the turn over the girth below which a section between stations counts as straight, as the fair curve
// has it for those at stations: the round is then less than exact points are held to.
const straight = 8e-5

// At is the place at the fraction u of the girth from the rabbet; u outside 0 to 1 is taken to the nearer end. At a
// knuckle it is that of the piece above, towards the sheer.
func (s *Section) At(u float64) Place {
	j := s.jet(u)
	return j.place()
}

func (s *Section) jet(u float64) jet {
	u = max(0, min(1, u))
	return s.jetIn(s.surface.grid.piece(u), u)
}

// jetIn is the jet at u taken in piece k, which need not be the one that holds u where that is a knuckle.
func (s *Section) jetIn(k int, u float64) jet {
	if s.slant != nil {
		_, j := s.slant.at(k, u)
		return j
	}
	g := s.surface.grid
	if s.one >= 0 {
		return g.jet(s.surface.curves[s.one], k, u)
	}
	var j jet
	for i, w := range s.weight {
		o := g.jet(s.surface.curves[i], k, u)
		j.add(w, &o)
	}
	return j
}

// Line is the section by n points, equal steps of the girth fraction from rabbet to sheer, both ends counted; n is at
// least 2. Knuckles are put in between, so that their corners stay sharp.
func (s *Section) Line(n int) []Point {
	n = max(2, n)
	knots := s.surface.grid.knots
	next := 1
	out := make([]Point, 0, n+len(knots)-2)
	put := func(u float64) { j := s.jet(u); out = append(out, Point{j.y, j.z}) }
	for i := range n {
		u := float64(i) / float64(n-1)
		for ; next+1 < len(knots) && knots[next] < u; next++ {
			put(knots[next])
		}
		if next+1 < len(knots) && knots[next] == u {
			next++
		}
		put(u)
	}
	return out
}

// Least is the tightest bend of either way at the faying face. Its radius is infinite where the section is
// straight.
func (s *Section) Least() Bend {
	if s.Straight {
		return Bend{radius: fair.Range{Low: min(s.Bilge.radius.Low, s.Hollow.radius.Low), High: math.Inf(1)}}
	}
	if s.Hollow.Kappa > s.Bilge.Kappa {
		return s.Hollow
	}
	return s.Bilge
}

// Tightest is the bend whose tightest laminate governs a piece moulded so deep from the faying face, mm, and that
// laminate's radius: in a bilge the innermost, at the full depth, in a hollow the outermost, at the face itself.
// Which of the two governs is decided by the low ends of their ranges. A *DepthError where no such piece can
// exist.
func (s *Section) Tightest(moulded float64) (Bend, Reading, error) {
	if s.Straight {
		b := s.Least()
		return b, b.Radius(), nil
	}
	bilge, err := s.Bilge.RadiusAt(moulded)
	if err != nil {
		return s.Bilge, Reading{}, err
	}
	hollow, err := s.Hollow.RadiusAt(0)
	if err != nil {
		return s.Hollow, Reading{}, err
	}
	if quantity.Snap(hollow.Low) < quantity.Snap(bilge.Low) {
		return s.Hollow, hollow, nil
	}
	return s.Bilge, bilge, nil
}

// RadiusAt is the least radius of a laminate at the given depth from the faying face, mm, of either bend: one over
// the greatest of k/(1 - k d) along the girth. A *DepthError where no such laminate can exist.
func (s *Section) RadiusAt(depth float64) (Bend, Reading, error) {
	bilge, err := s.Bilge.RadiusAt(depth)
	if err != nil {
		return s.Bilge, Reading{}, err
	}
	hollow, err := s.Hollow.RadiusAt(depth)
	if err != nil {
		return s.Hollow, Reading{}, err
	}
	if hollow.MM < bilge.MM {
		return s.Hollow, hollow, nil
	}
	return s.Bilge, bilge, nil
}
