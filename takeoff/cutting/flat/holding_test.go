package flat_test

import (
	"testing"

	"ribband/takeoff/cutting/flat"
)

// Hand-worked: three pieces of which a small sheet takes one and a large one two. The small costs 100, the large 190: the
// pieces are worth at most 95 each, 285 in all, and no sum of sheets lies between that and 290, which is one of each. At 250 for
// the large the pieces cost three small ones, 300; with two of these for sale, one of each and one small more, 350.
func TestNumbersOfSheetsThatHoldAllPieces(t *testing.T) {
	l := flat.List{
		Stock: []flat.Stock{
			{ID: "large", Width: 1000, Length: 1000, Price: 190, Avail: -1},
			{ID: "small", Width: 1000, Length: 500, Price: 100, Avail: -1},
		},
		Pieces: []flat.Piece{{ID: "a", Width: 900, Length: 450, Qty: 3}},
		Rules:  flat.Rules{Kerf: 3, First: flat.Across, Stages: 2},
	}
	for _, c := range []struct{ large, small, cost int64 }{{190, -1, 290}, {250, -1, 300}, {250, 2, 350}, {250, 0, 500}} {
		l.Stock[0].Price, l.Stock[1].Avail = c.large, c.small
		if p := solve(t, l, little); p.Cost != c.cost || !p.Proven {
			t.Errorf("large at %d, %d small for sale: %d, proven %t, by hand %d", c.large, c.small, p.Cost, p.Proven, c.cost)
		}
	}
}
