package cutting_test

import (
	"fmt"
	"testing"

	"ribband/takeoff/cutting"

	"pgregory.net/rapid"
)

// Over lists solved within next to no limits: what grids make of the plan is a plan of the list, no dearer, its floor no lower,
// and never above what the usual limits prove; its certificate holds.
func TestGridsOnlyBetter(t *testing.T) {
	bettered := 0
	rapid.Check(t, func(t *rapid.T) {
		var stock []cutting.Stock
		for i := range rapid.IntRange(1, 4).Draw(t, "boards") {
			stock = append(stock, cutting.Stock{ID: fmt.Sprint("B", i), Length: int64(rapid.IntRange(20_000, 60_000).Draw(t, "long")), Price: int64(rapid.IntRange(1, 900).Draw(t, "price")),
				Strips: int64(rapid.IntRange(1, 5).Draw(t, "strips")), Avail: -1, Least: int64(rapid.IntRange(0, 2).Draw(t, "least"))})
		}
		var pieces []cutting.Piece
		for i := range rapid.IntRange(3, 25).Draw(t, "pieces") {
			pieces = append(pieces, cutting.Piece{ID: fmt.Sprint("P", i), Length: int64(rapid.IntRange(1, 20_000).Draw(t, "length")), Qty: int64(rapid.IntRange(0, 6).Draw(t, "qty"))})
		}
		r := cutting.Rules{Kerf: int64(rapid.IntRange(0, 80).Draw(t, "kerf")), TrimEach: int64(rapid.IntRange(0, 300).Draw(t, "trim"))}
		rough, err := cutting.SolveWithin(stock, pieces, r, cutting.Limits{Work: 1, Pivots: 1, Nodes: 1, Layouts: 1})
		if err != nil {
			return
		}
		got := cutting.OnGrids(rough, stock, pieces, r)
		if err := cutting.Check(got, stock, pieces, r); err != nil {
			t.Fatal(err)
		}
		if err := cutting.CheckCertificate(got.Certificate, stock, pieces, r); err != nil {
			t.Fatal(err)
		}
		full, err := cutting.Solve(stock, pieces, r)
		if err != nil {
			t.Fatal(err)
		}
		if got.Cost > rough.Cost || got.Bound < rough.Bound || got.Bound > full.Cost || got.Cost < full.Bound {
			t.Fatalf("%d to %d, before %d to %d, in full %d to %d", got.Bound, got.Cost, rough.Bound, rough.Cost, full.Bound, full.Cost)
		}
		if got.Proven() && full.Cost < got.Cost {
			t.Fatalf("%d is called the cheapest, and %d is a plan", got.Cost, full.Cost)
		}
		if got.Cost < rough.Cost || got.Bound > rough.Bound {
			bettered++
		}
	})
	if bettered == 0 && !testing.Short() { // a few lists may all be proved without
		t.Error("no list was bettered")
	}
}
