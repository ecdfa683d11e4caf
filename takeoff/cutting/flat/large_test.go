package flat_test

import (
	"fmt"
	"math/rand"
	"testing"

	"ribband/takeoff/cutting/flat"
)

// A list too large for a program still has a sound plan no dearer than shelves, and a floor by areas, in bounded room.
func TestLargeList(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	l := flat.List{Rules: flat.Rules{Kerf: 3, TrimEach: 5, First: flat.Either, Stages: 2}}
	for i := range 5 {
		l.Stock = append(l.Stock, flat.Stock{ID: fmt.Sprint("S", i), Width: 1000 + 50*int64(i), Length: 2000 + 100*int64(i), Price: 5000 + int64(i)*900, Avail: -1})
	}
	for i := range 150 {
		l.Pieces = append(l.Pieces, flat.Piece{ID: fmt.Sprint("p", i), Width: 50 + r.Int63n(500), Length: 50 + r.Int63n(900), Qty: 1 + r.Int63n(2)})
	}
	p := solve(t, l, flat.Limits{Work: 200_000_000, Pivots: 100, Nodes: 1})
	shelves, err := flat.Shelves(l)
	if err != nil || p.Cost > shelves.Cost || 10*p.Bound < 8*p.Cost {
		t.Errorf("%d..%d, shelves %d, %v", p.Bound, p.Cost, shelves.Cost, err)
	}
	t.Logf("%d..%d, shelves %d", p.Bound, p.Cost, shelves.Cost)
}
