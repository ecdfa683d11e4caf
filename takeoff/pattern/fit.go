package pattern

import (
	"errors"
	"slices"

	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/fair"
)

// Fitted is the fair curves of all patterns of a boat. It is never changed after Fit and may be shared.
type Fitted struct {
	sections map[boat.Member]*hull.Section
	members  []boat.Member // sorted
	grain    float64       // mm
	worse    float64
}

// Fit draws the fair curve of every pattern. Where the patterns together show that they were read worse than their
// grain, all are fitted again with the error that their points ask for, as offsets are. Patterns that no fair curve
// follows come back as faults, by frame and side.
func (s *Set) Fit() (*Fitted, document.Faults) {
	f, heard, faults := s.fit(1)
	if len(faults) > 0 || s.Grain.Sign() == 0 {
		return f, faults
	}
	if multiple, worse := heard.Worse(); worse {
		f, _, faults = s.fit(multiple)
	}
	return f, faults
}

func (s *Set) fit(worse float64) (*Fitted, *fair.Reading, document.Faults) {
	var faults document.Faults
	var heard fair.Reading
	var w fair.Workspace
	f := &Fitted{sections: map[boat.Member]*hull.Section{}, grain: s.Grain.MM(), worse: worse}
	for i, p := range s.Patterns {
		f.members = append(f.members, p.Member)
		if i > 0 && s.Patterns[i-1].pointer == p.pointer { // both sides alike: fitted once, and heard once
			if twin, ok := f.sections[s.Patterns[i-1].Member]; ok {
				f.sections[p.Member] = twin.MovedTo(0, p.Member.Side)
			}
			continue
		}
		chain, err := hull.FitChain(&w, p.fairPoints(), p.corners(), worse*s.Grain.MM())
		if err != nil {
			faults = append(faults, s.places.locate(document.Faults{notFair(p, err)})...)
			continue
		}
		chain.Heard(&heard)
		f.sections[p.Member] = hull.OnPattern(chain, s.differing(p), 0, p.Member.Side)
	}
	if len(faults) > 0 {
		return nil, nil, faults
	}
	slices.SortFunc(f.members, boat.Compare)
	return f, &heard, nil
}

func (p Pattern) fairPoints() []fair.Point {
	out := make([]fair.Point, len(p.Points))
	for i, q := range p.Points {
		out[i] = fair.Point{Y: q.Y.MM(), Z: q.Z.MM(), Kind: fair.Both}
	}
	return out
}

// differing is how many points differ by more than their rounding.
func (s *Set) differing(p Pattern) int {
	line, length := make([]spot, len(p.Points)), 0.0
	for i, q := range p.Points {
		line[i] = spot{q.Y.MM(), q.Z.MM(), i + 1}
		if i > 0 {
			length += line[i-1].to(line[i])
		}
	}
	return len(apart(line, max(s.Grain.MM(), ownShare*length)))
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

// Members are the frames and sides that have a pattern, in order.
func (f *Fitted) Members() []boat.Member {
	if f == nil {
		return nil
	}
	return f.members
}

// ReadWorse says whether the patterns were read worse than their grain, by how many times, and what that grain is, mm.
// The curves and their ranges reckon with it.
func (f *Fitted) ReadWorse() (multiple, grain float64, surely bool) {
	if f == nil {
		return 1, 0, false
	}
	return f.worse, f.grain, f.worse > 1
}
