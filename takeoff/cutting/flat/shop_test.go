package flat_test

import (
	"fmt"
	"math/rand"
	"testing"

	"ribband/takeoff/cutting/flat"
)

// shop draws lists of a shop in millimetres: 8 to 32 pieces from 80 x 100 to 680 x 1100, 1 to 10 of each, from three
// sizes of sheet at prices about their area's, with kerf and trim; two stages and three in turn, in every third list
// pieces may turn and the first cut runs either way, in every fourth there is a roll as well.
func shop(seed int) set {
	r := rand.New(rand.NewSource(int64(seed)))
	l := flat.List{Rules: flat.Rules{
		Kerf: 3 + r.Int63n(2), TrimEach: 10, First: []flat.First{flat.Across, flat.Either, flat.Along}[seed%3], Stages: 2 + seed%2,
	}}
	for i, s := range [][2]int64{{1220, 2440}, {1525, 3050}, {1220, 3050}} {
		l.Stock = append(l.Stock, flat.Stock{ID: fmt.Sprint("S", i), Width: s[0], Length: s[1], Price: s[0] * s[1] * int64(90+r.Intn(30)) / 40000, Avail: -1})
	}
	if seed%4 == 3 {
		l.Stock = append(l.Stock, flat.Stock{ID: "roll", Width: 1300, Price: 3000, Per: 1000, Avail: -1})
	}
	for i := range 8 + r.Intn(25) {
		l.Pieces = append(l.Pieces, flat.Piece{ID: fmt.Sprint("p", i), Width: 80 + r.Int63n(600), Length: 100 + r.Int63n(1000), Qty: 1 + r.Int63n(10), MayTurn: seed%3 == 1})
	}
	return set{name: fmt.Sprint("shop ", seed), list: l}
}

// Lists of a shop, whose strips of three stages have more depths than are kept: plans and floors are sound, and three
// stages cost no more than two, whose plans are plans of three.
func TestShopListsAreSound(t *testing.T) {
	limits := flat.Limits{Work: 30_000_000, Pivots: 3_000, Nodes: 100}
	for seed := range 6 {
		s := shop(seed)
		if none := solve(t, s.list, flat.Limits{}); none.Proven { // without any work allowed it is shelves
			t.Errorf("%s: proven by no work", s.name)
		}
		if s.list.Rules.Stages == 3 {
			three := solve(t, s.list, limits)
			s.list.Rules.Stages = 2
			fewer := limits
			fewer.Work /= 3
			if two := solve(t, s.list, fewer); two.Cost < three.Cost {
				t.Errorf("%s: three stages %d, two %d", s.name, three.Cost, two.Cost)
			}
			continue
		}
		solve(t, s.list, limits)
	}
}

// The share by which plans of shop lists are below shelves, and the time as a multiple of theirs.
func BenchmarkShopLists(b *testing.B) {
	var lists []set
	for seed := range 6 {
		lists = append(lists, shop(seed))
	}
	measure(b, lists, flat.Limits{Work: 200_000_000, Pivots: 20_000, Nodes: 1_000})
}
