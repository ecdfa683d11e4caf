package butt

import (
	"fmt"
	"math"
	"slices"
)

// Breach is one rule that a butt or a plank does not keep to.
type Breach struct {
	Rule   Rule
	Strake int
	X      float64 // of the butt, or of the plank's forward end
	Detail string
	// Right is the nearest places forward and aft where the butt would keep to the rules, all else left as it is; none
	// where there is no such place.
	Right []float64
	Fix   string
}

// Check holds butts, rising in each strake, to the rules: every breach by strake and from forward.
func (s *Side) Check(butts [][]float64) []Breach {
	var out []Breach
	for k := range butts {
		out = append(out, s.checkStrake(k, butts)...)
	}
	return out
}

func (s *Side) checkStrake(k int, butts [][]float64) []Breach {
	var out []Breach
	for i, x := range butts[k] {
		if !s.placed(x) {
			out = append(out, s.breach(InABay, k, i, butts, fmt.Sprintf("the butt stands %s, not in the middle of the bay", s.Where(x))))
		}
		// Below only: each pair is told once, of the upper strake.
		for other := max(0, k-max(1, s.terms.Solid)); other < k; other++ {
			for _, at := range butts[other] {
				if r := s.against(k, x, other, at); r != nil {
					out = append(out, s.breach(*r, k, i, butts, s.tooNear(*r, x, other, at)))
				}
			}
		}
	}
	ends := s.ends(k, butts[k])
	for i := 0; i+1 < len(ends); i++ {
		a, b := ends[i], ends[i+1]
		if len(ends) > 2 && !s.longEnough(k, a, b) {
			butt := min(i, len(butts[k])-1) // the one at its after end, of the last plank that at its forward end
			d := fmt.Sprintf("the plank from %s to %s is %.1f frame spaces and %.0f mm long", s.end(k, a), s.end(k, b), s.spaces(a, b), s.board(k, a, b))
			out = append(out, s.breach(Shortest, k, butt, butts, d))
		}
		if !s.held(k, a, b) {
			out = append(out, Breach{Rule: Stock, Strake: k, X: a, Right: []float64{},
				Detail: fmt.Sprintf("the plank from %s to %s asks for a board of %.0f mm; the longest is %.0f mm", s.end(k, a), s.end(k, b), s.board(k, a, b), s.terms.Longest),
				Fix:    "longer stock, one butt more, or boards scarfed before they are bent on"})
		}
	}
	slices.SortStableFunc(out, func(a, b Breach) int {
		switch {
		case a.X < b.X:
			return -1
		case a.X > b.X:
			return 1
		}
		return 0
	})
	return out
}

func (s *Side) tooNear(r Rule, x float64, other int, at float64) string {
	if r == SameBay {
		return fmt.Sprintf("the butt %s and that of strake %d lie in one frame bay", s.Where(x), other+1)
	}
	return fmt.Sprintf("the butt %s stands %.1f frame spaces and %.0f mm from that of strake %d, %s", s.Where(x), s.spaces(x, at), math.Abs(at-x), other+1, s.Where(at))
}

// end names where a plank ends.
func (s *Side) end(k int, x float64) string {
	switch x {
	case s.reach[k].Forward:
		return "the forward hood end"
	case s.reach[k].Aft:
		return "the after hood end"
	}
	return "the butt " + s.Where(x)
}

// ends of the planks of a strake: its own two and the butts.
func (s *Side) ends(k int, butts []float64) []float64 {
	out := append(make([]float64, 0, len(butts)+2), s.reach[k].Forward)
	return append(append(out, butts...), s.reach[k].Aft)
}

// placed says whether a butt stands where one may.
func (s *Side) placed(x float64) bool {
	if _, on := s.onFrame(x); on && s.terms.OnFrames {
		return true
	}
	p := s.At(x)
	part := p - math.Floor(p)
	return p >= 0 && p <= float64(len(s.frames)-1) && part >= s.terms.middleFrom && part <= s.terms.middleTo
}

// breach tells of the ith butt of a strake, and where it would be right.
func (s *Side) breach(r Rule, k, i int, butts [][]float64, detail string) Breach {
	b := Breach{Rule: r, Strake: k, X: butts[k][i], Detail: detail, Right: s.right(k, i, butts)}
	switch len(b.Right) {
	case 0:
		b.Fix = "no place keeps to the rules while the other butts stay: move them together, or scarf this joint"
	case 1:
		b.Fix = "right would be " + s.Where(b.Right[0])
	default:
		b.Fix = "right would be " + s.Where(b.Right[0]) + " or " + s.Where(b.Right[1])
	}
	return b
}

// right is the nearest places forward and aft of the ith butt of a strake where it may stand.
func (s *Side) right(k, i int, butts [][]float64) []float64 {
	ends := s.ends(k, butts[k])
	before, x, after := ends[i], ends[i+1], ends[i+2]
	out := []float64{}
	try := func(p float64) bool {
		ok := p > before && p < after && s.free(k, p, butts) && s.longEnough(k, before, p) && s.longEnough(k, p, after) &&
			s.held(k, before, p) && s.held(k, p, after)
		if ok {
			out = append(out, p)
		}
		return ok
	}
	at, _ := slices.BinarySearch(s.places, x)
	for j := at - 1; j >= 0 && s.places[j] > before && !try(s.places[j]); j-- {
	}
	for j := at; j < len(s.places) && s.places[j] < after && !try(s.places[j]); j++ {
	}
	return out
}
