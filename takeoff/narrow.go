package takeoff

import (
	"fmt"
	"slices"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
)

// Narrowing is the one further measurement that would narrow most what is not yet sure of the timber.
type Narrowing struct {
	// Kind is OnePoint, OneStation, OnePattern, or Nothing where no one measurement narrows it.
	Kind string `json:"kind"`
	// Side is both where a station was written as one for both sides. StationNo, FrameNo, Side, AtMM (along the girth from the rabbet) and XMM (aft of station 0) say where, as far as the
	// kind has them.
	StationNo *int      `json:"station_no,omitempty"`
	FrameNo   *int      `json:"frame_no,omitempty"`
	Side      boat.Side `json:"side,omitempty"`
	AtMM      *float64  `json:"at_mm,omitempty"`
	XMM       *float64  `json:"x_mm,omitempty"`
	// HalfBreadthMM and HeightMM are where the line runs there now.
	HalfBreadthMM *float64 `json:"half_breadth_mm,omitempty"`
	HeightMM      *float64 `json:"height_mm,omitempty"`
	// Detail says it in words, lengths in the basis' notation.
	Detail string `json:"detail"`
	// Now and After are the ends of the gross volume of timber for all laminates, cubic metres, before and after it.
	Now   Volumes `json:"timber_now_m3"`
	After Volumes `json:"timber_after_m3"`
	// Faults are what cannot be built at the tight end of a range.
	Faults []bill.Fault `json:"faults"`
	// NotWeighed are measurements of which it is not known what they would bring.
	NotWeighed []Unweighed `json:"not_weighed"`
}

// The kinds of measurement.
const (
	OnePoint   = "point"
	OneStation = "station"
	OnePattern = "pattern"
	Nothing    = "nothing"
)

// Volumes are the ends of a range, cubic metres.
type Volumes struct {
	Low  float64 `json:"low"`
	High float64 `json:"high"`
}

func (v Volumes) width() float64 { return v.High - v.Low }

const (
	// patternPoints is how many points a pattern is taken to be picked up by: assumption, common practice has no figure.
	patternPoints = 12
	// patternGrain, mm, is what these are taken to be written to where the boat has no lines to go by. Assumption.
	patternGrain = 1.0
	// worthSaying is the least share of the range by which a measurement must narrow it to be named: fits of the same curve
	// through other points differ by so much without telling more.
	worthSaying = 0.01
)

// Narrow finds it, for what the remedies ask. The candidates: one more point at each station beside a frame that is worked on,
// where Hull.Wanted would have it; one more station midway in the widest spacing; a pattern of each such frame that has none.
// The range of the timber is between the gross volumes at the ends of every girth's range, with laminates as thick as is
// chosen for the whole boat where all bends are as tight as they may be, where all are as easy, and between. A candidate's range is that of the same curve measured once more, as the candidate measures it, all else unchanged. What
// cannot be weighed so is named.
//
// It costs a fit for each such station and frame and two rows of fits for the station. Errors are those of Run.
func Narrow(b Basis) (Narrowing, error) {
	n, all, err := candidates(b)
	if err != nil {
		return Narrowing{}, err
	}
	best := Narrowing{Kind: Nothing, After: n.sum}
	for _, f := range all {
		if f.After.width() < best.After.width() && f.After.width() <= (1-worthSaying)*n.sum.width() {
			best = f
		}
	}
	return n.finished(best), nil
}

// Candidates are all that Narrow chooses from, whatever they bring: points from forward, port before starboard, then the
// station, then the patterns in the order of the frames.
func Candidates(b Basis) ([]Narrowing, error) {
	n, all, err := candidates(b)
	if err != nil {
		return nil, err
	}
	for i := range all {
		all[i] = n.finished(all[i])
	}
	return all, nil
}

func candidates(b Basis) (*narrower, []Narrowing, error) {
	n := &narrower{b: b}
	if err := n.begin(); err != nil {
		return nil, nil, err
	}
	var all []Narrowing
	for _, try := range []func() ([]Narrowing, error){n.points, n.station, n.patterns} {
		found, err := try()
		if err != nil {
			return nil, nil, err
		}
		all = append(all, found...)
	}
	return n, all, nil
}

// finished says what a candidate brings, to what there is now.
func (n *narrower) finished(c Narrowing) Narrowing {
	c.Now, c.Faults, c.NotWeighed = n.sum, n.faults, n.unweighed
	c.say(n.b)
	return c
}

// narrower is the work of one Narrow.
type narrower struct {
	b      Basis
	worked []stand
	// bents are the blanks of worked, in their order; fixed are those of pieces let into frames and beside them, which take part
	// in the choice of thicknesses and are weighed as they are.
	bents, fixed []*bent
	sum          Volumes
	faults       []bill.Fault
	// unweighed are the candidates that fell out.
	unweighed []Unweighed
}

func (n *narrower) begin() error {
	all, err := n.b.stands()
	if err != nil {
		return err
	}
	n.faults, n.unweighed = []bill.Fault{}, []Unweighed{}
	for _, s := range all {
		m := s.frame.Member()
		c, ok := n.b.Remedies[m]
		if !ok || c.Remedy == boat.Leave {
			continue
		}
		wood, err := n.b.wood(m, c)
		if err != nil {
			return err
		}
		p, err := n.b.plan(s, c, wood)
		if err != nil {
			return fmt.Errorf("%s: %w", m, err)
		}
		for _, j := range p.jobs {
			one, err := n.bend(j)
			if err != nil {
				return err
			}
			if c.Remedy != boat.ReplaceLaminated {
				n.fixed = append(n.fixed, one)
				continue
			}
			n.worked, n.bents = append(n.worked, s), append(n.bents, one)
		}
	}
	n.sum, err = n.timber(n.bents, &n.faults)
	return err
}

// with is the summed range where the frames that move picks have the sections it gives; all others are as they were.
func (n *narrower) with(move func(s stand) (*hull.Section, error)) (Volumes, error) {
	moved := slices.Clone(n.bents)
	changed := false
	for i, s := range n.worked {
		section, err := move(s)
		if err != nil {
			return Volumes{}, err
		}
		if section == nil {
			continue
		}
		job := n.bents[i].job
		if job.Shape, err = shape(section, s.frame); err != nil {
			return Volumes{}, err
		}
		if moved[i], err = n.bend(job); err != nil {
			return Volumes{}, err
		}
		changed = true
	}
	if !changed {
		return n.sum, nil
	}
	return n.timber(moved, nil)
}

// onLines says that a frame's target is what the stations about it give.
func (s stand) onLines() bool {
	return s.target != nil && s.target.RestsOn == boat.OnStations && s.target.Side == s.frame.Side && len(s.target.Near) > 0
}

// points: one more point at each station beside a worked frame.
func (n *narrower) points() ([]Narrowing, error) {
	if n.b.Hull == nil {
		return nil, nil
	}
	var out []Narrowing
	for _, side := range boat.Sides {
		wanted, err := n.b.Hull.Wanted(side)
		if err != nil {
			return nil, err
		}
		for _, w := range wanted {
			beside := func(s stand) bool {
				return s.onLines() && s.frame.Side == side && slices.Contains(s.target.Near, w.Station)
			}
			if !slices.ContainsFunc(n.worked, beside) {
				continue
			}
			no, of := w.Station, side
			if w.Both {
				of = boat.Both
			}
			with, err := n.b.Hull.WithPoint(w)
			if err != nil {
				n.drop(OnePoint, stationAt(no, of), noCurve(err))
				continue
			}
			after, err := n.with(func(s stand) (*hull.Section, error) {
				if !slices.Contains(s.near(), w.Station) {
					return nil, nil
				}
				return with.SectionIn(s.frame.Plane(), s.frame.Side)
			})
			if why := tooDeep(err); why != "" {
				n.drop(OnePoint, stationAt(no, of), why)
				continue
			}
			if err != nil {
				return nil, err
			}
			out = append(out, Narrowing{Kind: OnePoint, StationNo: &no, Side: of, AtMM: mm(w.Along), XMM: mm(w.X),
				HalfBreadthMM: mm(w.Y), HeightMM: mm(w.Z), After: after})
		}
		n.unwanted(side, wanted)
	}
	return out, nil
}

// near are the stations that a worked frame's target rests on.
func (s stand) near() []int {
	if !s.onLines() {
		return nil
	}
	return s.target.Near
}

// station: one more midway in the widest spacing.
func (n *narrower) station() ([]Narrowing, error) {
	if n.b.Hull == nil {
		return nil, nil
	}
	surface, err := n.b.Hull.Surface(boat.Port)
	if err != nil {
		return nil, err
	}
	xs := surface.Stations()
	at := 0
	for i := range xs[1:] {
		if xs[i+1]-xs[i] > xs[at+1]-xs[at] {
			at = i
		}
	}
	x := (xs[at] + xs[at+1]) / 2
	with, err := n.b.Hull.WithStation(x)
	if err != nil {
		n.drop(OneStation, n.b.length(x)+" aft of station 0", noCurve(err))
		return nil, nil
	}
	after, err := n.with(func(s stand) (*hull.Section, error) {
		if fx := s.frame.X.InexactFloat64(); !s.onLines() || !(xs[at] < fx && fx < xs[at+1]) {
			return nil, nil
		}
		return with.SectionIn(s.frame.Plane(), s.frame.Side)
	})
	if why := tooDeep(err); why != "" {
		n.drop(OneStation, n.b.length(x)+" aft of station 0", why)
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	return []Narrowing{{Kind: OneStation, XMM: mm(x), After: after}}, nil
}

// patterns: one of each worked frame that has none.
func (n *narrower) patterns() ([]Narrowing, error) {
	grain := patternGrain
	if n.b.Hull != nil {
		grain = n.b.Hull.Grain()
	}
	var out []Narrowing
	for i := range n.worked {
		s := n.worked[i]
		m := s.frame.Member()
		if why := s.noPattern(); why != "" {
			n.drop(OnePattern, m.String(), why)
			continue
		}
		if !s.onLines() {
			continue // it has one
		}
		as, err := s.target.AsPattern(patternPoints, grain)
		if err != nil {
			n.drop(OnePattern, m.String(), noCurve(err))
			continue
		}
		after, err := n.with(func(o stand) (*hull.Section, error) {
			if o.frame.Member() != m {
				return nil, nil
			}
			return as, nil
		})
		if why := tooDeep(err); why != "" {
			n.drop(OnePattern, m.String(), why)
			continue
		}
		if err != nil {
			return nil, err
		}
		no := m.No
		out = append(out, Narrowing{Kind: OnePattern, FrameNo: &no, Side: m.Side, XMM: mm(s.frame.X.InexactFloat64()), After: after})
	}
	return out, nil
}
