package cutting_test

import (
	"fmt"
	"math/rand"
	"testing"

	"ribband/takeoff/cutting"
)

// wasteless draws a list of so many strips that are cut without any waste, whose cheapest plan costs what those boards do. A piece and its
// kerf are worth half their length, and so much more above a length: with one more of such long pieces than fit in a room
// there is none, so that a board priced at the most that its room can hold is nowhere beaten.
func wasteless(seed int64, strips int) set {
	const long, more, kerf, trim = 1200, 180, 4, 25
	r := rand.New(rand.NewSource(seed))
	s := set{name: fmt.Sprint("wasteless ", seed), list: list{rules: cutting.Rules{Kerf: kerf, TrimEach: trim}}}
	for i, length := range []int64{2400, 3600, 5400} {
		room := length - 2*trim + kerf
		s.list.stock = append(s.list.stock, cutting.Stock{ID: fmt.Sprint("S", i), Length: length, Price: room/2 + more*(room/(long+1)), Strips: 1, Avail: -1})
	}
	need := map[int64]int64{}
	for range strips {
		b := s.list.stock[r.Intn(len(s.list.stock))]
		room := b.Length - 2*trim + kerf
		s.ub += b.Price
		for n := room / (long + 1); n > 0; n-- { // what is left must be enough for the other long ones
			size := long + 1 + r.Int63n(room-n*(long+1)+1)
			if room-size < 100 {
				size = room
			}
			need[size-kerf]++
			room -= size
		}
		for room > 0 {
			size := min(room, 300+r.Int63n(600))
			if room-size < 100 {
				size = room
			}
			need[size-kerf]++
			room -= size
		}
	}
	s.lb = s.ub
	for length, n := range need {
		s.list.pieces = append(s.list.pieces, cutting.Piece{ID: fmt.Sprint("P", length), Length: length, Qty: n})
	}
	return s
}

// Lists of many lengths, most of them wanted once, have their floor proved where no plan is cheaper, and no waste in the plan where
// there is one without.
func TestLongListsWithoutWaste(t *testing.T) {
	for seed := int64(2); seed <= 4; seed++ {
		s := wasteless(seed, 60)
		p := solve(t, s.list.stock, s.list.pieces, s.list.rules)
		if p.Bound != s.ub || p.Cost < s.ub {
			t.Errorf("%s: %d lengths, %d..%d by %s, worked out %d", s.name, len(s.list.pieces), p.Bound, p.Cost, p.Proof, s.ub)
		}
	}
}
