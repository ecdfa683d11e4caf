package cutting_test

import (
	"slices"
	"testing"

	"ribband/takeoff/cutting"

	"pgregory.net/rapid"
)

// nearParts draws a list whose pieces are a hair longer or shorter than a whole part of a board: a few cells of a grid, so that what its
// rounding makes fit or miss is on the list.
func nearParts(t *rapid.T) list {
	n := func(label string, least, most int64) int64 { return rapid.Int64Range(least, most).Draw(t, label) }
	l := list{rules: cutting.Rules{Kerf: n("kerf", 0, 200), TrimEach: n("trim", 0, 300)}}
	for i := range n("boards", 1, 3) {
		l.stock = append(l.stock, cutting.Stock{ID: string(rune('A' + i)), Length: n("long", 6_000, 24_000), Price: n("price", 1, 60), Strips: n("strips", 1, 3),
			Avail: rapid.SampledFrom([]int64{-1, -1, -1, 1, 2}).Draw(t, "avail"), Least: rapid.SampledFrom([]int64{0, 0, 0, 2}).Draw(t, "least")})
	}
	most := int64(7)
	for i := range n("kinds", 1, 5) {
		s := rapid.SampledFrom(l.stock).Draw(t, "part of")
		part := n("part", 1, 5)
		p := cutting.Piece{ID: string(rune('a' + i)), Length: (s.Length-2*l.rules.TrimEach+l.rules.Kerf)/part - l.rules.Kerf + n("hair", -300, 300), Qty: min(most, n("qty", 1, 3))}
		if rapid.IntRange(0, 3).Draw(t, "small") == 3 { // less than a cell, or hardly more
			p.Length = n("small", 1, 300)
		}
		most -= p.Qty
		l.pieces = append(l.pieces, p)
	}
	return l
}

// alone is a plan with every piece on a strip of its own, of the first board without limit that takes it; nil where none does.
func alone(l list) *cutting.Plan {
	p := cutting.Plan{Method: cutting.SeveralBoards, Proof: cutting.Limit, Certificate: cutting.Certificate{Step: 1, Unit: 1, Scale: 1}}
	used := make([]int64, len(l.stock))
	for _, q := range l.pieces {
		k := slices.IndexFunc(l.stock, func(s cutting.Stock) bool { return s.Avail < 0 && s.Length-2*l.rules.TrimEach >= q.Length })
		if k < 0 {
			return nil
		}
		if q.Qty > 0 {
			used[k] += q.Qty
			left := max(0, l.stock[k].Length-2*l.rules.TrimEach-q.Length-l.rules.Kerf)
			p.Cuts = append(p.Cuts, cutting.Cut{StockID: l.stock[k].ID, N: q.Qty, Pieces: []cutting.Count{{PieceID: q.ID, K: 1}}, Offcut: left})
		}
	}
	for k, s := range l.stock {
		if used[k] > 0 {
			boards := max((used[k]+s.Strips-1)/s.Strips, s.Least)
			p.Bought = append(p.Bought, cutting.Lot{StockID: s.ID, Boards: boards, Strips: boards * s.Strips, Used: used[k], Cost: boards * s.Price})
			p.Cost += boards * s.Price
		}
	}
	return &p
}

// Plans and floors that grids find hold for the list itself: no plan below the cheapest, no floor above it. They are given a plan so dear
// that what they find is not cut down to it.
func TestGridsAgainstEveryCut(t *testing.T) {
	plans, floors := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		l := nearParts(t)
		rough := alone(l)
		if rough == nil {
			t.Skip("a piece for which there are few boards")
		}
		if err := cutting.Check(*rough, l.stock, l.pieces, l.rules); err != nil {
			t.Fatal(err)
		}
		want := everyCut(l)
		p := cutting.OnGrids(*rough, l.stock, l.pieces, l.rules)
		if err := cutting.Check(p, l.stock, l.pieces, l.rules); err != nil {
			t.Fatal(err)
		}
		if err := cutting.CheckCertificate(p.Certificate, l.stock, l.pieces, l.rules); err != nil {
			t.Fatal(err)
		}
		if p.Cost < want || p.Bound > want || p.Proven() && p.Cost != want {
			t.Fatalf("least %d, got %d to %d by %s, each alone %d", want, p.Bound, p.Cost, p.Proof, rough.Cost)
		}
		if p.Cost < rough.Cost {
			plans++
		}
		if p.Bound > 0 {
			floors++
		}
	})
	if t.Logf("%d plans and %d floors bettered", plans, floors); (plans == 0 || floors == 0) && !testing.Short() {
		t.Error("nothing was bettered")
	}
}
