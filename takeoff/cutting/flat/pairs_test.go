package flat_test

import (
	"math/rand"
	"testing"

	"ribband/takeoff/cutting/flat"
)

// leastOfPairs is least where some of a piece may be cut two from the rectangle of their pair, one more than is asked for at most.
func leastOfPairs(l flat.List) int64 {
	best := int64(-1)
	var walk func(i int, pieces []flat.Piece)
	walk = func(i int, pieces []flat.Piece) {
		if i == len(l.Pieces) {
			m := l
			m.Pieces = pieces
			if c := least(m); c >= 0 && (best < 0 || c < best) {
				best = c
			}
			return
		}
		p := l.Pieces[i]
		alone, pair := p, p.Pair
		alone.Pair = nil
		for n := int64(0); n <= (p.Qty+1)/2 && (n == 0 || pair != nil && p.Qty > 1); n++ {
			alone.Qty = max(0, p.Qty-2*n)
			with := append(pieces[:len(pieces):len(pieces)], alone)
			if n > 0 {
				with = append(with, flat.Piece{ID: p.ID + " paired", Width: pair.Width, Length: pair.Length, Qty: n, MayTurn: p.MayTurn})
			}
			walk(i+1, with)
		}
	}
	walk(0, nil)
	return best
}

// The same with pairs: the floor is never above what trying everything finds with each number of pairs, the plan never
// below. 112 of 113 plans were the cheapest when this was written, and 2712 of 2731.
func TestPairsAgainstTryingEverything(t *testing.T) {
	cheapest, some := 0, 0
	for seed := range 120 {
		r := rand.New(rand.NewSource(int64(9000 + seed)))
		l := drawn(r, 3+r.Intn(4))
		for i := range l.Stock {
			if l.Stock[i].Roll() { // what is cut off at once hangs on pairs that are not cut
				l.Stock[i].Length = 30
			}
		}
		for i := range l.Pieces {
			if p := &l.Pieces[i]; r.Intn(3) > 0 {
				p.Pair = &flat.Size{Width: p.Width + r.Int63n(p.Width), Length: p.Length + r.Int63n(p.Length)}
			}
		}
		if r.Intn(2) == 0 {
			limit(r, l)
		}
		want := leastOfPairs(l)
		p, err := flat.SolveWithin(l, little)
		if err != nil || want < 0 {
			if err == nil {
				t.Errorf("seed %d: a plan where there is none", seed)
			}
			continue
		}
		some++
		against(t, seed, p, l, want)
		if p.Cost == want {
			cheapest++
		}
	}
	t.Logf("%d cheapest of %d", cheapest, some)
	if cheapest < some*9/10 || some < 50 {
		t.Errorf("%d cheapest of %d", cheapest, some)
	}
}
