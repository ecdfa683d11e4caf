package cutting_test

import (
	"testing"

	"ribband/takeoff/cutting"

	"pgregory.net/rapid"
)

// The search finds the cheapest plan of a tiny list, and that none is cheaper, also where no plan was laid before it.
func TestTheSearchAloneAgainstEveryCut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, want, _ := anyTiny(t)
		best, floor, ok := cutting.SolveUnaided(l.stock, l.pieces, l.rules, cutting.Usual)
		if !ok {
			t.Skip("nothing to search")
		}
		if want >= 0 && (best == nil || best.Net() != want || floor < want) || best != nil && (want < 0 || best.Net() < want || floor > want) {
			t.Fatalf("least %d, floor %d, found %+v", want, floor, best)
		}
	})
}
