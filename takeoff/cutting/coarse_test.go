package cutting_test

import (
	"math/rand"
	"testing"

	"ribband/takeoff/cutting"
)

// Pieces in whole millimetres and a kerf that is none: boards that hold a layout exactly, or miss it by a hair, or have a
// hair to spare, cost what the cheapest of all plans costs. In units of 0.025 mm; kerf 1/8 in is 127 of them.
func TestWholeLengthsAndAKerfThatIsNone(t *testing.T) {
	const mm = 40
	for seed := range 200 {
		r := rand.New(rand.NewSource(int64(seed)))
		l := list{rules: cutting.Rules{Kerf: []int64{127, 63, 111, 4*mm + 1}[r.Intn(4)], TrimEach: r.Int63n(3 * mm)}}
		for i := range 2 + r.Intn(2) {
			l.pieces = append(l.pieces, cutting.Piece{ID: string(rune('a' + i)), Length: mm * (300 + r.Int63n(900)), Qty: 1 + r.Int63n(3)})
		}
		for i := range 1 + r.Intn(3) {
			room := int64(0)
			for range 2 + r.Intn(3) {
				room += l.pieces[r.Intn(len(l.pieces))].Length + l.rules.Kerf
			}
			length := room - l.rules.Kerf + 2*l.rules.TrimEach + r.Int63n(3) - 1
			l.stock = append(l.stock, cutting.Stock{ID: string(rune('A' + i)), Length: length, Price: length * (90 + r.Int63n(36)) / 1000, Strips: 1, Avail: -1})
		}
		want := cheapest(l)
		if want < 0 {
			continue
		}
		if plan := solve(t, l.stock, l.pieces, l.rules); plan.Cost != want || !plan.Proven() {
			t.Errorf("seed %d: cheapest %d, got %d, %s", seed, want, plan.Cost, plan.Proof)
		}
	}
}
