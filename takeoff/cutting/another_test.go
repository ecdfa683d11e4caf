package cutting_test

import (
	"math/rand"
	"slices"
	"testing"

	"ribband/takeoff/cutting"
)

// One more piece never costs less: its plan without that piece is a plan for the others. So what is proved of the shorter
// list is a floor of the longer one's plan, and between proven plans the bound never falls.
func TestAnotherPieceNeverCostsLess(t *testing.T) {
	lists, both := made(20), 0
	for i, s := range lists {
		r := rand.New(rand.NewSource(int64(i)))
		l := s.list
		a := solve(t, l.stock, l.pieces, l.rules)
		more := slices.Clone(l.pieces)
		if at := r.Intn(len(more)); i%2 == 0 {
			more[at].Qty++
		} else {
			more = append(more, cutting.Piece{ID: "one more", Length: 200 + r.Int63n(more[at].Length-200), Qty: 1})
		}
		b := solve(t, l.stock, more, l.rules)
		if b.Cost < a.Bound {
			t.Errorf("%s: bound %d, with one more piece a plan at %d", s.name, a.Bound, b.Cost)
		}
		if a.Proven() && b.Proven() {
			if both++; b.Bound < a.Bound {
				t.Errorf("%s: proven at %d, with one more piece at %d", s.name, a.Bound, b.Bound)
			}
		}
	}
	if both < 18 {
		t.Errorf("only %d of %d are proven both ways", both, len(lists))
	}
}
