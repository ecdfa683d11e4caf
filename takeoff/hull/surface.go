package hull

import (
	"math"

	"ribband/takeoff/boat"
)

// Jet is a place of one side's surface at girth fraction u and x aft of station 0: half-breadth and height (mm), their
// first and second derivatives by u (mm), and their derivatives by x along the line of equal u (mm per mm).
type Jet struct{ Y, Z, Yu, Zu, Yuu, Zuu, Yx, Zx float64 }

// Normal is the unit normal of the surface, pointing outboard of a side whose section runs from rabbet to sheer: along
// x, y and z. Where the section stands still there is none, and all three are 0.
func (j Jet) Normal() (nx, ny, nz float64) {
	// r_x x r_u with r_x = (1, Yx, Zx), r_u = (0, Yu, Zu), turned so that y points outboard where the section rises.
	nx, ny, nz = j.across(), j.Zu, -j.Yu
	l := math.Sqrt(nx*nx + ny*ny + nz*nz)
	if l == 0 {
		return 0, 0, 0
	}
	return nx / l, ny / l, nz / l
}

// AreaFactor is the area of surface to one unit of u and one mm of x, |r_u x r_x|, mm.
func (j Jet) AreaFactor() float64 {
	across := j.across()
	return math.Sqrt(across*across + j.Yu*j.Yu + j.Zu*j.Zu)
}

// across is the part along x of r_x x r_u, mm.
func (j Jet) across() float64 { return j.Zx*j.Yu - j.Yx*j.Zu }

// TanBevel is the tangent of the angle by which the surface departs from square to the section's plane: n . dr/dx with n
// the section's unit normal pointing outboard. Positive where the boat widens going aft. It does not depend on how the
// section is divided; it is 0 where the section stands still.
func (j Jet) TanBevel() float64 {
	v := math.Hypot(j.Yu, j.Zu)
	if v == 0 {
		return 0
	}
	return (j.Yx*j.Zu - j.Zx*j.Yu) / v
}

// Surface is the surface of one side between the end stations: at each fraction u of the girth, from the rabbet (0) to
// the sheer (1), half-breadth and height run along the boat by splines through the stations' own curves. Each knuckle has
// one u at all stations, so no spline runs across it.
type Surface struct{ of *surface }

// Surface of one side; a *SideError for anything but port and starboard.
func (h *Hull) Surface(side boat.Side) (*Surface, error) {
	f, err := h.side(side)
	if err != nil {
		return nil, err
	}
	return &Surface{f}, nil
}

// Reach is the x of the first and the last station, mm.
func (s *Surface) Reach() (forward, aft float64) {
	x := s.of.weights.x
	return x[0], x[len(x)-1]
}

// Stations are the x of all stations from forward, mm.
func (s *Surface) Stations() []float64 { return append([]float64(nil), s.of.weights.x...) }

// Corners are the u of the knuckles, from the rabbet: none where the sections are fair throughout.
func (s *Surface) Corners() []float64 {
	k := s.of.grid.knots
	return append([]float64(nil), k[1:len(k)-1]...)
}

// GirthRange is between what parts of the girth as it is drawn at x, taken to the nearer end beyond, the true one is
// meant to lie nine times in ten: at a station that of its own points, between two the wider of theirs. Both are 1 where
// it is known exactly, NaN where x is.
func (s *Surface) GirthRange(x float64) (low, high float64) {
	if math.IsNaN(x) {
		return x, x
	}
	forward, aft := s.Reach()
	first, last, _ := s.of.weights.near(max(forward, min(aft, x)))
	low, high = 1, 1
	for i := first; i <= last; i++ {
		g, r := s.of.curves[i].girth, s.of.curves[i].girthRange()
		low, high = min(low, r.Low/g), max(high, r.High/g)
	}
	return low, high
}

// Jet of the place at u and x; either is taken to the nearer end where it lies beyond. At a knuckle it is that of the
// piece above, towards the sheer. It is NaN throughout where u or x is.
func (s *Surface) Jet(u, x float64) Jet {
	var one [1]Jet
	s.Along(x, []float64{u}, one[:])
	return one[0]
}

// Along fills out with the jets at x and each of us, as many as there is room for. A station's weight is worked out once
// for all of them. Where u or x is no number the jet is none either.
func (s *Surface) Along(x float64, us []float64, out []Jet) {
	us = us[:min(len(us), len(out))]
	if math.IsNaN(x) {
		for k := range us {
			out[k] = Jet{x, x, x, x, x, x, x, x}
		}
		return
	}
	for k := range us {
		out[k] = Jet{}
	}
	s.within(x, nil, us, out)
}

// Below is the jet at u and x as Jet gives it, but at a knuckle that of the piece below, towards the rabbet.
func (s *Surface) Below(u, x float64) Jet {
	if math.IsNaN(x) || math.IsNaN(u) {
		return s.Jet(u, x)
	}
	var one [1]Jet
	s.within(x, []int{s.of.grid.below(u)}, []float64{u}, one[:])
	return one[0]
}

// noWeight is how little a station may count at a place and be left out: all of those together do not change the last digit
// of a length. A station counts about a quarter of what its neighbour nearer by does.
const noWeight = 1e-18

// within adds up the stations at x, each u taken in its piece of in; without in, in that which holds it.
func (s *Surface) within(x float64, in []int, us []float64, out []Jet) {
	forward, aft := s.Reach()
	x = max(forward, min(aft, x))
	for i, c := range s.of.curves {
		w, slope := s.of.weights.one(i, x)
		if math.Abs(w) < noWeight && math.Abs(slope)*s.of.weights.scale < noWeight {
			continue
		}
		for k, u := range us {
			piece := 0
			if in != nil {
				piece = in[k]
			} else {
				piece = s.of.grid.piece(u)
			}
			j := s.of.grid.jet(c, piece, max(0, min(1, u)))
			o := &out[k]
			o.Y += w * j.y
			o.Z += w * j.z
			o.Yu += w * j.yu
			o.Zu += w * j.zu
			o.Yuu += w * j.yuu
			o.Zuu += w * j.zuu
			o.Yx += slope * j.y
			o.Zx += slope * j.z
		}
	}
}

// one is the weight of station i at x, and how fast it changes there, per mm.
func (w *weights) one(i int, x float64) (at, slope float64) {
	if w.spline != nil {
		return w.spline[i].Predict(w.in(x)), w.spline[i].PredictDerivative(w.in(x)) / w.scale
	}
	at = 1
	for j := range w.x {
		if j == i {
			continue
		}
		span := w.x[i] - w.x[j]
		at, slope = at*(x-w.x[j])/span, (slope*(x-w.x[j])+at)/span
	}
	return at, slope
}
