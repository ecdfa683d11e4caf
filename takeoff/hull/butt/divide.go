package butt

import "math"

// Divide is where one more butt would part the plank of strake k from a to b so that both its parts come out of the longest
// board, by the rules beside the butts of the other strakes; the place nearest the middle, false where there is none.
func (s *Side) Divide(k int, a, b float64, butts [][]float64, longest float64) (float64, bool) {
	best, found := 0.0, false
	middle := (a + b) / 2
	for _, x := range s.places {
		if !(x > a && x < b) || !s.free(k, x, butts) || !s.longEnough(k, a, x) || !s.longEnough(k, x, b) ||
			s.board(k, a, x) > longest+slack || s.board(k, x, b) > longest+slack {
			continue
		}
		if !found || math.Abs(x-middle) < math.Abs(best-middle) {
			best, found = x, true
		}
	}
	return best, found
}
