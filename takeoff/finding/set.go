package finding

import (
	"fmt"
	"maps"
	"slices"

	"ribband/takeoff/boat"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// Set is the findings of a boat, read and checked. It is not changed after Read; the zero Set knows nothing.
type Set struct {
	// Notation that places were written in.
	Notation notation.Notation

	of map[boat.Member]member
}

type member struct {
	stretches []Stretch // from the heel
	rest      State
	row       int // of the rest
}

// Stretch is part of a member in one state: From and To are mm along the girth from the rabbet, and ToHead says that it
// runs to the head, wherever that is. Row is that of the document, -1 where none tells.
type Stretch struct {
	State    State
	From, To decimal.Decimal
	ToHead   bool
	Row      int
}

// Length of the stretch, mm.
func (s Stretch) Length() decimal.Decimal { return s.To.Sub(s.From) }

func setOf(n notation.Notation, found map[boat.Member]*found) Set {
	s := Set{n, map[boat.Member]member{}}
	for m, f := range found {
		slices.SortFunc(f.stretches, func(a, b Stretch) int { return a.From.Cmp(b.From) })
		one := member{f.stretches, f.rest, f.restRow}
		if one.rest == "" {
			one.rest, one.row = Unknown, -1
		}
		s.of[m] = one
	}
	return s
}

// Looked reports whether anything was found of a member, be it that nobody could tell.
func (s Set) Looked(m boat.Member) bool { _, ok := s.of[m]; return ok }

// Of is the state of a member that findings are of as a whole, a floor; Unknown where nobody looked.
func (s Set) Of(m boat.Member) State {
	if f, ok := s.of[m]; ok {
		return f.rest
	}
	return Unknown
}

// BeyondError: a finding lies beyond the head of its member.
type BeyondError struct {
	Member boat.Member
	Row    int
	Place  decimal.Decimal // mm along the girth
	Girth  decimal.Decimal // mm
}

func (e *BeyondError) Error() string {
	return fmt.Sprintf("%s: the finding reaches %s mm along a girth of %s mm", e.Member, e.Place, e.Girth)
}

// Along is a member of a girth from heel to head, stretch after stretch; what no finding tells of is Unknown. A
// *BeyondError where a finding was written for more than the girth.
func (s Set) Along(m boat.Member, girth decimal.Decimal) ([]Stretch, error) {
	f, ok := s.of[m]
	if !ok {
		return []Stretch{{Unknown, decimal.Zero, girth, true, -1}}, nil
	}
	var out []Stretch
	at := decimal.Zero
	for _, x := range f.stretches {
		end := x.To
		if x.ToHead {
			end = girth
		}
		if end.GreaterThan(girth) || !x.From.LessThan(end) {
			return nil, &BeyondError{m, x.Row, decimal.Max(x.From, end), girth}
		}
		if at.LessThan(x.From) {
			out = append(out, Stretch{f.rest, at, x.From, false, f.row})
		}
		at = end
		x.To = end
		out = append(out, x)
	}
	if at.LessThan(girth) {
		out = append(out, Stretch{f.rest, at, girth, true, f.row})
	}
	return out, nil
}

// Bad are the stretches broken or decayed, with neighbours in one put together.
func Bad(along []Stretch) []Stretch {
	var out []Stretch
	for _, s := range along {
		if s.State != Broken && s.State != Decayed {
			continue
		}
		if n := len(out); n > 0 && out[n-1].To.Equal(s.From) {
			out[n-1].To, out[n-1].ToHead = s.To, s.ToHead
			if s.State == Decayed {
				out[n-1].State = Decayed // the worse of the two
			}
			continue
		}
		out = append(out, s)
	}
	return out
}

// Members that something was found of, in order.
func (s Set) Members() []boat.Member {
	return slices.SortedFunc(maps.Keys(s.of), boat.Compare)
}

// rows of the document that tell of a member.
func (f member) rows() []int {
	var out []int
	if f.row >= 0 {
		out = append(out, f.row)
	}
	for _, x := range f.stretches {
		out = append(out, x.Row)
	}
	return out
}

// Strays are the rows that tell only of members that are not had, each with the first of them.
func (s Set) Strays(had func(boat.Member) bool) map[int]boat.Member {
	strays, good := map[int]boat.Member{}, map[int]bool{}
	for _, m := range s.Members() {
		for _, row := range s.of[m].rows() {
			if had(m) {
				good[row] = true
			} else if _, told := strays[row]; !told {
				strays[row] = m
			}
		}
	}
	maps.DeleteFunc(strays, func(row int, _ boat.Member) bool { return good[row] })
	return strays
}

// Say writes a place along the girth, mm, as the findings were written.
func (s Set) Say(place decimal.Decimal) string {
	l, err := notation.FromMM(place.InexactFloat64())
	if err != nil {
		return place.String() + " mm"
	}
	return s.Notation.Format(l)
}

// Any reports whether some stretch is in a state.
func Any(along []Stretch, state State) bool {
	return slices.ContainsFunc(along, func(s Stretch) bool { return s.State == state })
}
