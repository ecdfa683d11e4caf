package hull

import "math"

// BevelRange is between which angles, radians, the bevel at the fraction u of the girth lies at least nine times in ten, as
// BevelAt gives it for the same body. Two things are reckoned with: what the points of the stations were written to, grain in
// mm, by how much each station counts in the slope along the boat; and how the boat may run between her stations, by what the
// spline's slope differs from that of a parabola through the three stations nearest. At an end station, where the boat is
// known on one side alone, either counts for more. Errors are those of BevelAt.
func (s *Section) BevelRange(u float64, body Body, grain float64) (low, high float64, err error) {
	b, err := s.BevelAt(u, body)
	if err != nil {
		return 0, 0, err
	}
	w := s.surface.weights
	x := b.X
	sum := 0.0
	for i := range w.x {
		_, slope := w.one(i, x)
		sum += slope * slope
	}
	written := written90 * grain / math.Sqrt(12) * math.Sqrt(sum)
	between := 0.0
	first, last, _ := w.near(max(w.x[0], min(w.x[len(w.x)-1], x)))
	for _, at := range [...]float64{w.x[max(0, first-1)], x, w.x[min(len(w.x)-1, last+1)]} {
		between = max(between, s.swing(u, at))
	}
	share := coarse90
	if len(w.x) < fewStations {
		share = sparse90
	}
	half := math.Hypot(written, share*between)
	t := math.Tan(b.Angle)
	return math.Atan(t - half), math.Atan(t + half), nil
}

// GreatestBevelRange is GreatestBevel with its range at that place, as BevelRange has it. Errors are those of GreatestBevel.
func (s *Section) GreatestBevelRange(body Body, grain float64) (most Bevel, low, high float64, err error) {
	most, k, err := s.greatest(body)
	if err != nil {
		return Bevel{}, 0, 0, err
	}
	u := most.U
	if s.surface.grid.piece(u) != k {
		u = math.Nextafter(u, 0) // of the piece below a knuckle
	}
	low, high, err = s.BevelRange(u, body, grain)
	return most, min(low, most.Angle), max(high, most.Angle), err
}

const (
	// written90 is how many standard errors of the slope hold nine in ten.
	written90 = 1.645
	// coarse90 is how much of what spline and parabola differ by the spline itself may err. Measured on four forms of 5, 7 and
	// 13 stations: it held 91, 96 and 98 times in a hundred of exact points; 0.5 held 81 of 5 stations.
	coarse90 = 1.
	// sparse90 is that of a boat of fewer than fewStations, 3 to 6: on four further forms 1 held only 83 in a hundred of 5
	// stations. It was widened until it held nine in ten there too, and has not been measured on others.
	sparse90    = 2.5
	fewStations = 7
)

// swing is by how much the tangent of the bevel by the spline and by a parabola differ at u and x.
func (s *Section) swing(u, x float64) float64 {
	return math.Abs((&Surface{s.surface}).Jet(u, x).TanBevel() - s.parabolaTan(u, x))
}

// parabolaTan is Jet.TanBevel with the slopes along the boat of the parabola through the three stations nearest to x; of
// three stations, of the straight line between two.
func (s *Section) parabolaTan(u, x float64) float64 {
	w := s.surface.weights
	first := 0
	for first+3 < len(w.x) && x-w.x[first] > w.x[first+3]-x {
		first++
	}
	last := first + 3
	if len(w.x) == 3 { // the surface is that parabola: a straight line from station to station is beside it
		last = first + 2
		if x > w.x[1] {
			first, last = 1, 3
		}
	}
	j := (&Surface{s.surface}).Jet(u, x)
	j.Yx, j.Zx = 0, 0
	p := s.surface.grid.piece(u)
	for i := first; i < last; i++ {
		slope := 0.0
		for k := first; k < last; k++ {
			if k == i {
				continue
			}
			part := 1 / (w.x[i] - w.x[k])
			for l := first; l < last; l++ {
				if l != i && l != k {
					part *= (x - w.x[l]) / (w.x[i] - w.x[l])
				}
			}
			slope += part
		}
		at := s.surface.grid.jet(s.surface.curves[i], p, max(0, min(1, u)))
		j.Yx += slope * at.y
		j.Zx += slope * at.z
	}
	return j.TanBevel()
}
