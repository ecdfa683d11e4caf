package butt

import (
	"fmt"
	"math"
)

// Replacement is the shortest plank that takes a damaged piece out of a strake.
type Replacement struct {
	Strake   int
	From, To float64 // mm; a butt or a hood end
	Spaces   float64 // frame spaces
	Board    float64 // mm
	// Forward and After are how long is what stays of the planks it is let into, mm along x; 0 where it takes a whole
	// plank's end.
	Forward, After float64
}

// DamageError says why a damaged piece cannot be replaced.
type DamageError struct {
	Strake   int
	From, To float64
	Detail   string
}

func (e *DamageError) Error() string { return e.Detail }

// Replace finds the shortest plank of strake k that takes out all from one x to another. It ends at butts or hood ends
// that are there, or at new butts that keep to the rules beside all others; it keeps to the least length, and so does
// what is left of the planks it is let into. Of two as long the forward one is taken.
func (s *Side) Replace(k int, from, to float64, butts [][]float64) (Replacement, error) {
	return s.ReplaceAbaft(k, from, to, math.Inf(-1), butts)
}

// ReplaceAbaft is Replace where the plank does not reach forward of limit: the strake is renewed up to there already.
func (s *Side) ReplaceAbaft(k int, from, to, limit float64, butts [][]float64) (Replacement, error) {
	if k < 0 || k >= s.strakes || k >= len(butts) {
		return Replacement{}, &DamageError{k, from, to, fmt.Sprintf("there is no strake %d; the side has %d", k+1, s.strakes)}
	}
	if r := s.reach[k]; !(from >= r.Forward && to <= r.Aft && from <= to) {
		return Replacement{}, &DamageError{k, from, to, fmt.Sprintf("from %.0f to %.0f mm is no piece of strake %d, which reaches from %.0f to %.0f mm",
			from, to, k+1, r.Forward, r.Aft)}
	}
	ends := s.ends(k, butts[k])
	var fore, after []float64
	for _, x := range ends {
		if x <= from && x >= limit {
			fore = append(fore, x)
		}
		if x >= to {
			after = append(after, x)
		}
	}
	for _, x := range s.places {
		if (x <= from || x >= to) && s.free(k, x, butts) {
			if x <= from {
				if x >= limit {
					fore = append(fore, x)
				}
			} else {
				after = append(after, x)
			}
		}
	}
	best := Replacement{Strake: k, Board: math.Inf(1)}
	for _, a := range fore {
		left := s.remnant(k, a, ends, -1)
		if math.IsNaN(left) {
			continue
		}
		for _, b := range after {
			right := s.remnant(k, b, ends, 1)
			if math.IsNaN(right) || !(b > a) || !s.longEnough(k, a, b) {
				continue
			}
			if l := s.board(k, a, b); l < best.Board-slack || l < best.Board+slack && a < best.From {
				best = Replacement{k, a, b, s.spaces(a, b), l, left, right}
			}
		}
	}
	if math.IsInf(best.Board, 1) {
		return Replacement{}, &DamageError{k, from, to, fmt.Sprintf("no plank of strake %d from %s to %s is long enough: she is shorter than %g frame spaces", k+1, s.Where(from), s.Where(to), s.terms.LeastSpaces)}
	}
	return best, nil
}

// remnant is how long is what a new end at x leaves of the plank there, forward (-1) or abaft (1) of it: 0 at an end
// that is there, NaN where it is too short.
func (s *Side) remnant(k int, x float64, ends []float64, way int) float64 {
	for i := 0; i+1 < len(ends); i++ {
		a, b := ends[i], ends[i+1]
		if x == a || x == b {
			return 0
		}
		if x > a && x < b {
			if way > 0 {
				a = x
			} else {
				b = x
			}
			if !s.longEnough(k, a, b) {
				return math.NaN()
			}
			return b - a
		}
	}
	return math.NaN()
}
