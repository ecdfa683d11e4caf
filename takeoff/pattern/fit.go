package pattern

import (
	"cmp"
	"errors"
	"slices"

	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/fair"
	"ribband/takeoff/notation"
)

// Fitted is the fair curves of all patterns of a boat. It is never changed after Fit and may be shared.
type Fitted struct {
	sections map[boat.Member]*hull.Section
	points   map[boat.Member][]hull.Point
	members  []boat.Member // sorted
	worse    []Worse       // by grain
	coarsest float64       // mm, with that error
}

// Worse is patterns of one grain that were read worse than it: Grain in mm, by how many times the error that it allows
// their points scatter, and the notation that they are written in.
type Worse struct {
	Grain, Times float64
	In           notation.Notation
}

// Fit draws the fair curve of every pattern. Where the patterns of one grain together show that they were read
// worse than it, they are fitted again with the error that their points ask for, as offsets are. Those of another grain were
// read by another hand or rule, and tell nothing of them. Patterns that no fair curve
// follows come back as faults, by frame and side.
func (s *Set) Fit() (*Fitted, document.Faults) {
	f, heard, faults := s.fit(nil)
	if len(faults) > 0 {
		return nil, faults
	}
	var worse []Worse
	for grain, of := range heard {
		if times, surely := of.Worse(); surely && grain > 0 { // exact points have no grain to be read worse than
			worse = append(worse, Worse{grain, times, s.Notation})
		}
	}
	if len(worse) == 0 {
		return f, nil
	}
	slices.SortFunc(worse, func(a, b Worse) int { return cmp.Compare(a.Grain, b.Grain) })
	f, _, faults = s.fit(worse)
	return f, faults
}

// fit with the error of every grain, times what worse says of it; what the curves tell of how they were read comes back by
// grain, mm.
func (s *Set) fit(worse []Worse) (*Fitted, map[float64]*fair.Reading, document.Faults) {
	var faults document.Faults
	var w fair.Workspace
	heard := map[float64]*fair.Reading{}
	f := &Fitted{sections: map[boat.Member]*hull.Section{}, points: map[boat.Member][]hull.Point{}, worse: worse}
	for i, p := range s.Patterns {
		f.members = append(f.members, p.Member)
		for _, q := range p.Points {
			f.points[p.Member] = append(f.points[p.Member], hull.Point{Y: q.Y.MM(), Z: q.Z.MM()})
		}
		if i > 0 && s.Patterns[i-1].pointer == p.pointer { // both sides alike: fitted once, and heard once
			if twin, ok := f.sections[s.Patterns[i-1].Member]; ok {
				f.sections[p.Member] = twin.MovedTo(0, p.Member.Side)
			}
			continue
		}
		grain, times := p.Grain.MM(), 1.0
		if at := slices.IndexFunc(worse, func(of Worse) bool { return of.Grain == grain }); at >= 0 {
			times = worse[at].Times
		}
		f.coarsest = max(f.coarsest, times*grain)
		chain, err := hull.FitChain(&w, p.fairPoints(), p.corners(), times*grain)
		if err != nil {
			faults = append(faults, s.places.locate(document.Faults{notFair(p, err)})...)
			continue
		}
		if heard[grain] == nil {
			heard[grain] = new(fair.Reading)
		}
		chain.Heard(heard[grain])
		f.sections[p.Member] = hull.OnPattern(chain, p.differing(), 0, p.Member.Side)
	}
	if len(faults) > 0 {
		return nil, nil, faults
	}
	slices.SortFunc(f.members, boat.Compare)
	return f, heard, nil
}

func (p Pattern) fairPoints() []fair.Point {
	out := make([]fair.Point, len(p.Points))
	for i, q := range p.Points {
		out[i] = fair.Point{Y: q.Y.MM(), Z: q.Z.MM(), Kind: fair.Both}
	}
	return out
}

// differing is how many points differ by more than their rounding.
func (p Pattern) differing() int {
	line, length := make([]spot, len(p.Points)), 0.0
	for i, q := range p.Points {
		line[i] = spot{q.Y.MM(), q.Z.MM(), i + 1}
		if i > 0 {
			length += line[i-1].to(line[i])
		}
	}
	return len(apart(line, max(p.Grain.MM(), ownShare*length)))
}

func notFair(p Pattern, err error) document.Fault {
	f := document.Fault{Pointer: p.pointer + "/points", Detail: name(p.Member.No, p.Member.Side) + ": no fair curve follows the points: " + err.Error(),
		Fix: "check the points of this pattern on the board"}
	var order *fair.OrderError
	if errors.As(err, &order) {
		f.Detail = name(p.Member.No, p.Member.Side) + ": " + order.Error()
	}
	return f
}

// Section is the section of one frame and side standing at x, mm aft of station 0; false where it has no pattern. A nil
// Fitted has none.
func (f *Fitted) Section(m boat.Member, x float64) (*hull.Section, bool) {
	if f == nil {
		return nil, false
	}
	s, ok := f.sections[m]
	if !ok {
		return nil, false
	}
	return s.MovedTo(x, m.Side), true
}

// Points of one frame and side as they were written, from heel to head, mm; none where it has no pattern. They are the
// Fitted's own.
func (f *Fitted) Points(m boat.Member) []hull.Point {
	if f == nil {
		return nil
	}
	return f.points[m]
}

// Members are the frames and sides that have a pattern, in order.
func (f *Fitted) Members() []boat.Member {
	if f == nil {
		return nil
	}
	return f.members
}

// Coarsest is what the points of the worst read pattern are worth: its grain times by how much worse it was read, mm.
func (f *Fitted) Coarsest() float64 {
	if f == nil {
		return 0
	}
	return f.coarsest
}

// ReadWorse are the grains that patterns were read worse than, the finest first; none where their points do not say so
// surely. The curves and their ranges reckon with it.
func (f *Fitted) ReadWorse() []Worse {
	if f == nil {
		return nil
	}
	return f.worse
}
