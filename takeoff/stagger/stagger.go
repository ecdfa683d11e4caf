package stagger

import (
	"fmt"
	"slices"
)

// Blank is what is to be joined, lengths in nanometres from the blank's end at the heel.
type Blank struct {
	Length    int64
	Laminates int
	// Short are the lengths of the last laminates, from the faying face, where these run out before the blank does; empty
	// where all run through.
	Short []int64
	// Barred are stretches that no part of a joint may lie in; its tips may touch their ends.
	Barred []Span
}

// Span is a stretch along the blank.
type Span struct{ From, To int64 }

// Terms are the yard's rule.
type Terms struct {
	// Longest length of a laminate that there is.
	Longest int64
	// Joint is how long a joint is along the laminate: 0 for a butt, the taper of a scarf. An odd one is taken 1 nm longer.
	Joint int64
	// Apart is the least from the end of one joint to the beginning of the next, in one laminate and in those up to Across
	// away.
	Apart  int64
	Across int
}

// Bounds of what is joined.
const (
	// MostLength is 100 m.
	MostLength    = 100_000_000_000
	MostLaminates = 1000
	MostAcross    = 8
	// MostJoints in one laminate; a yard that would need more has no stock for the job.
	MostJoints = 12
)

// InputError: what cannot be a blank or a rule, and what would be right.
type InputError struct{ Detail, Right string }

func (e *InputError) Error() string { return e.Detail + "; right would be " + e.Right }

// ImpossibleError: no places keep to the rule. Nanometres, whole millimetres of them.
type ImpossibleError struct {
	// Longest is the shortest stock by which the rest of the rule can be kept; the blank's own length where only laminates
	// in one length do.
	Longest int64
	// Apart is the widest stagger by which the rest of the rule can be kept; negative where none can.
	Apart int64
}

func (e *ImpossibleError) Error() string {
	return fmt.Sprintf("no joints keep to the rule with this stock; lengths of %d mm would do", e.Longest/Millimetre)
}

// Millimetre in nanometres.
const Millimetre = 1_000_000

// Plan is where the laminates are joined: laminate i, from the faying face, at the places of Sets[i mod len(Sets)], which
// are the middles of joints in order from the heel. Without a joint there is one empty set.
type Plan struct{ Sets [][]int64 }

// Of is the joints of one laminate.
func (p Plan) Of(laminate int) []int64 { return p.Sets[laminate%len(p.Sets)] }

// In is the joints of one laminate of the blank: of one that runs out those of its set that it needs. What is left out of
// a set comes no nearer to anything.
func (p Plan) In(b Blank, t Terms, laminate int) []int64 {
	joints, from := p.Of(laminate), int64(0)
	for i, x := range joints {
		if b.length(laminate)-from <= t.Longest {
			return joints[:i:i]
		}
		from = x - (t.Joint+1)/2
	}
	return joints
}

// Joints of all sets together: those of as many neighbouring laminates.
func (p Plan) Joints() int {
	n := 0
	for _, s := range p.Sets {
		n += len(s)
	}
	return n
}

// length of one laminate.
func (b Blank) length(laminate int) int64 {
	if i := laminate - (b.Laminates - len(b.Short)); i >= 0 && i < len(b.Short) {
		return b.Short[i]
	}
	return b.Length
}

// Arrange finds the fewest joints in every Across+1 neighbouring laminates, each joint as far from the heel as may be, so
// that the foremost lengths are the longest. The sets with fewer joints come first. The same blank always gets the same
// joints. Errors are *InputError and *ImpossibleError.
func Arrange(b Blank, t Terms) (Plan, error) {
	if err := check(b, t); err != nil {
		return Plan{}, err
	}
	if p, ok := arrange(b, t); ok {
		return p, nil
	}
	return Plan{}, nearest(b, t)
}

func check(b Blank, t Terms) error {
	switch {
	case b.Length <= 0 || b.Length > MostLength:
		return &InputError{fmt.Sprintf("a blank %d nm long", b.Length), "above 0 and at most 100 m"}
	case b.Laminates < 1 || b.Laminates > MostLaminates:
		return &InputError{fmt.Sprintf("%d laminates", b.Laminates), fmt.Sprintf("from 1 to %d", MostLaminates)}
	case t.Longest <= 0 || t.Longest > MostLength:
		return &InputError{fmt.Sprintf("stock %d nm long", t.Longest), "above 0 and at most 100 m"}
	case t.Joint < 0 || t.Joint > MostLength || t.Apart < 0 || t.Apart > MostLength:
		return &InputError{fmt.Sprintf("joints %d nm long and %d nm apart", t.Joint, t.Apart), "from 0 to 100 m"}
	case t.Across < 1 || t.Across > MostAcross:
		return &InputError{fmt.Sprintf("joints apart across %d laminates", t.Across), fmt.Sprintf("from 1 to %d", MostAcross)}
	}
	for _, l := range b.Short {
		if l <= 0 || l > b.Length || len(b.Short) > b.Laminates {
			return &InputError{fmt.Sprintf("%d laminates that run out, one after %d nm", len(b.Short), l), "no more than there are, each above 0 and no longer than the blank"}
		}
	}
	for _, s := range b.Barred {
		if s.To < s.From || s.From < -MostLength || s.To > 2*MostLength {
			return &InputError{fmt.Sprintf("a barred stretch from %d to %d nm", s.From, s.To), "one along the blank that ends beyond where it begins"}
		}
	}
	return nil
}

// arrange is Arrange on what was checked.
func arrange(b Blank, t Terms) (Plan, bool) {
	if b.Length <= t.Longest {
		return Plan{[][]int64{nil}}, true
	}
	sets := min(t.Across+1, b.Laminates)
	half := (t.Joint + 1) / 2
	bars := widened(b.Barred, half)
	for n := sets; n <= sets*MostJoints; n++ {
		z, ok := places(b.Length, t.Longest, half, t.Apart, sets, n, bars)
		if !ok {
			continue
		}
		p := Plan{make([][]int64, sets)}
		first := n % sets // sets that have one joint more
		for i, x := range z {
			k := (i + sets - first) % sets
			p.Sets[k] = append(p.Sets[k], x)
		}
		return p, true
	}
	return Plan{}, false
}

// places of n joints in so many sets, greatest first found by pulling; false where there are none.
func places(length, longest, half, apart int64, sets, n int, bars []Span) ([]int64, bool) {
	gap, most := apart+2*half, longest-2*half
	if n > sets && most < gap*int64(sets) {
		return nil, false // sets joints lie between two of one laminate
	}
	z := make([]int64, n)
	for i := range z {
		z[i] = length - half
		if i < sets {
			z[i] = min(z[i], longest-half)
		}
	}
	for moved := true; moved; {
		moved = false
		for i := n - 1; i >= 0; i-- {
			x := z[i]
			if i+1 < n {
				x = min(x, z[i+1]-gap)
			}
			if i >= sets {
				x = min(x, z[i-sets]+most)
			}
			if x = before(x, bars); x < half {
				return nil, false
			}
			moved, z[i] = moved || x != z[i], x
		}
	}
	for _, x := range z[n-sets:] {
		if x < length-longest+half {
			return nil, false
		}
	}
	return z, true
}

// widened are the stretches in which the middle of a joint may not lie, their ends left out, in order and apart.
func widened(barred []Span, half int64) []Span {
	var in []Span
	for _, s := range barred {
		in = append(in, Span{s.From - half, s.To + half})
	}
	slices.SortFunc(in, func(a, b Span) int { return int(max(-1, min(1, a.From-b.From))) })
	var out []Span
	for _, s := range in {
		if n := len(out); n > 0 && s.From < out[n-1].To {
			out[n-1].To = max(out[n-1].To, s.To)
			continue
		}
		out = append(out, s)
	}
	return out
}

// before is the greatest place not above x that is in no stretch.
func before(x int64, bars []Span) int64 {
	for i := len(bars) - 1; i >= 0; i-- {
		if bars[i].From < x && x < bars[i].To {
			x = bars[i].From
		}
	}
	return x
}

// nearest is what would do where nothing does: more stock never takes an arrangement away, nor does less stagger, so
// halving finds both.
func nearest(b Blank, t Terms) *ImpossibleError {
	out := &ImpossibleError{Apart: -1}
	low, high := t.Longest/Millimetre, up(b.Length) // low does not do
	for high-low > 1 {
		mid := (low + high) / 2
		try := t
		try.Longest = mid * Millimetre
		if _, ok := arrange(b, try); ok {
			high = mid
		} else {
			low = mid
		}
	}
	out.Longest = high * Millimetre
	low, high = -1, up(t.Apart) // high does not do
	for high-low > 1 {
		mid := (low + high) / 2
		try := t
		try.Apart = mid * Millimetre
		if _, ok := arrange(b, try); ok {
			low = mid
		} else {
			high = mid
		}
	}
	if low >= 0 {
		out.Apart = low * Millimetre
	}
	return out
}

// up is nanometres in millimetres, rounded up.
func up(nm int64) int64 { return (nm + Millimetre - 1) / Millimetre }
