package hull

import (
	"math"
	"slices"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/fair"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// Wanted is where one more point of a station would tell most of its tightest bend: in the middle of the widest span between
// points beside it.
type Wanted struct {
	Station int
	X       float64 // mm aft of station 0
	Side    boat.Side
	Along   float64 // mm along the girth from the rabbet
	Y, Z    float64 // half-breadth and height of the curve there, mm
	Both    bool    // the station was written as one for both sides

	index int
}

// Wanted of every station of one side; none of a station with knuckles, whose bends are looked for piece by piece, nor of a
// straight one.
func (h *Hull) Wanted(side boat.Side) ([]Wanted, error) {
	f, err := h.side(side)
	if err != nil {
		return nil, err
	}
	var out []Wanted
	for i, c := range f.curves {
		along, at, ok := c.more()
		if !ok {
			continue
		}
		st := &h.stations[i]
		out = append(out, Wanted{st.No, st.X.MM(), side, along, at.Y, at.Z, h.shared(i), i})
	}
	return out, nil
}

// WithPoint is the hull as it would be with that one more point, lying where the curve has it and written to the grain:
// ranges then narrow by what the point is worth, and nothing else changes. A station written as one for both sides gets it
// on both. Errors are those of the fit.
func (h *Hull) WithPoint(w Wanted) (*Hull, error) {
	f, err := h.side(w.Side)
	if err != nil {
		return nil, err
	}
	curve := f.curves[w.index].pieces[0].curve
	pts := points(h.stations[w.index].Marks(w.Side))
	at := len(pts)
	for i := range pts {
		if curve.Foot(i) > w.Along {
			at = i
			break
		}
	}
	_, _, th, _ := curve.At(w.Along)
	kind := fair.AtHeight // measured at a set height
	if math.Abs(math.Cos(th)) > math.Abs(math.Sin(th)) {
		kind = fair.AtWidth
	}
	c, err := FitChain(new(fair.Workspace), slices.Insert(pts, at, fair.Point{Y: w.Y, Z: w.Z, Kind: kind}), nil, h.worse*h.grain)
	if err != nil {
		return nil, err
	}
	out := *h
	with := func(s *surface) *surface {
		n := *s
		n.curves, n.points = slices.Clone(s.curves), slices.Clone(s.points)
		n.curves[w.index] = c
		n.points[w.index]++
		n.rows = slices.Clone(s.rows)
		n.rows[w.index] = n.grid.tabulate(c)
		return &n
	}
	if w.Side == boat.Port || w.Both {
		out.port = with(h.port)
	}
	if w.Side == boat.Starboard || w.Both {
		out.starboard = with(h.starboard)
	}
	return &out, nil
}

// shared says that one curve serves both sides of a station.
func (h *Hull) shared(station int) bool { return h.port.curves[station] == h.starboard.curves[station] }

// noStation is the number of a station that was not measured.
const noStation = -1

// WithStation is the hull as it would be with one more station at x, mm, on both sides: with as many points as the best
// measured station of the side has, for it would be measured as well as any; evenly along the girth, lying on the surface and
// written to the grain. Not for a hull with knuckles,
// which errs with a *KnucklesError.
func (h *Hull) WithStation(x float64) (*Hull, error) {
	first, last, ok := h.port.weights.near(x)
	if !ok || first == last {
		forward, aft := h.Reach()
		return nil, &OutsideError{x, forward, aft}
	}
	at, err := notation.FromMM(x)
	if err != nil {
		return nil, err
	}
	out := *h
	out.stations = slices.Insert(slices.Clone(h.stations), last, offsets.Station{No: noStation, X: at})
	for _, side := range boat.Sides {
		f, err := h.side(side)
		if err != nil {
			return nil, err
		}
		if names := f.curves[0].names; len(names) > 0 {
			return nil, &KnucklesError{x, h.stations[0].X.MM(), nil, names}
		}
		s, err := h.Section(x, side)
		if err != nil {
			return nil, err
		}
		n := max(offsets.MinMarks, slices.Max(f.points))
		pts := make([]fair.Point, n)
		for i, p := range s.Line(n) {
			pts[i] = fair.Point{Y: p.Y, Z: p.Z}
		}
		c, err := FitChain(new(fair.Workspace), pts, nil, h.worse*h.grain)
		if err != nil {
			return nil, err
		}
		m := &surface{curves: slices.Insert(slices.Clone(f.curves), last, c), points: slices.Insert(slices.Clone(f.points), last, n)}
		m.lay()
		if m.weights, err = newWeights(stationXs(out.stations)); err != nil {
			return nil, err
		}
		if side == boat.Port {
			out.port = m
		} else {
			out.starboard = m
		}
	}
	return &out, nil
}

func stationXs(stations []offsets.Station) []float64 {
	xs := make([]float64, len(stations))
	for i := range stations {
		xs[i] = stations[i].X.MM()
	}
	return xs
}

// AsPattern is the section as a pattern of so many points would give it, evenly along the girth and at its knuckles besides,
// lying on the section and written to the grain, mm. Errors are those of FitChain.
func (s *Section) AsPattern(n int, grain float64) (*Section, error) {
	line := s.Line(n)
	pts := make([]fair.Point, len(line))
	for i, p := range line {
		pts[i] = fair.Point{Y: p.Y, Z: p.Z}
	}
	var corners []Corner
	for _, k := range s.Knuckles() {
		at := 0
		for i, p := range line {
			if math.Hypot(p.Y-k.Y, p.Z-k.Z) < math.Hypot(line[at].Y-k.Y, line[at].Z-k.Z) {
				at = i
			}
		}
		corners = append(corners, Corner{k.Name, at})
	}
	c, err := FitChain(new(fair.Workspace), pts, corners, grain)
	if err != nil {
		return nil, err
	}
	return OnPattern(c, len(pts), s.X, s.Side), nil
}

// Grain is what the table was written to, times by how much worse it was read, mm.
func (h *Hull) Grain() float64 { return h.worse * h.grain }
