package flat_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"ribband/takeoff/cutting/flat"
)

// Four knees from a board, two beside each other in two strips: trim, rip, crosscut. The last cut of each direction is
// needed, since a little is left beside it.
func TestCutsInTheOrderTheyAreMade(t *testing.T) {
	l := flat.List{
		Stock:  []flat.Stock{{ID: "board", Width: 640, Length: 2000, Price: 8000, Avail: -1}},
		Pieces: []flat.Piece{{ID: "knee", Width: 300, Length: 900, Qty: 4}},
		Rules:  flat.Rules{Kerf: 4, TrimEach: 10, First: flat.Along, Stages: 2},
	}
	p, err := flat.Solve(l)
	if err != nil || len(p.Layout) != 1 {
		t.Fatalf("%+v, %v", p, err)
	}
	got := l.Lay(p.Layout[0])
	both := flat.Place{FirstStrip: 1, LastStrip: 2}
	want := []flat.SawCut{
		{Frees: flat.Edge, Runs: flat.Along, Times: 4, Measure: 10},
		{Frees: flat.AStrip, Runs: flat.Along, Times: 2, Measure: 300},
		{Of: both, Frees: flat.APiece, Runs: flat.Across, Times: 2, Measure: 900, PieceID: "knee"},
	}
	if diff := cmp.Diff(want, got.Cuts); diff != "" {
		t.Error(diff)
	}
	at := [][2]int64{{10, 10}, {10, 914}, {314, 10}, {314, 914}}
	for i, q := range got.Pieces {
		if q.X != at[i][0] || q.Y != at[i][1] || q.Width != 300 || q.Length != 900 {
			t.Errorf("piece %d: %+v", i, q)
		}
	}
}

// Of drawn lists every piece lies within the trimmed sheet, no two nearer than a kerf, and as many as the plan cuts.
func TestLaidPiecesKeepApart(t *testing.T) {
	limits := flat.Limits{Work: 3_000_000, Pivots: 500, Nodes: 20}
	for seed := range 24 {
		l := shop(seed).list
		p, err := flat.SolveWithin(l, limits)
		if err != nil {
			t.Fatal(err)
		}
		if err := flat.Check(p, l); err != nil {
			t.Fatal(err)
		}
		r, cut := l.Rules, map[string]int64{}
		for _, y := range p.Layout {
			laid := l.Lay(y)
			for i, a := range laid.Pieces {
				cut[a.PieceID] += y.N
				end := laid.Length - r.TrimEach
				begin := r.TrimEach
				if a.X < r.TrimEach || a.X+a.Width > laid.Width-r.TrimEach {
					t.Fatalf("seed %d: %+v in %d x %d", seed, a, laid.Width, laid.Length)
				}
				if y.StockID == "roll" {
					begin, end = 0, laid.Length
				}
				if a.Y < begin || a.Y+a.Length > end {
					t.Fatalf("seed %d: %+v in %d x %d", seed, a, laid.Width, laid.Length)
				}
				for _, b := range laid.Pieces[:i] {
					if a.X < b.X+b.Width+r.Kerf && b.X < a.X+a.Width+r.Kerf && a.Y < b.Y+b.Length+r.Kerf && b.Y < a.Y+a.Length+r.Kerf {
						t.Fatalf("seed %d: %+v and %+v", seed, a, b)
					}
				}
			}
			freed := int64(0)
			for _, c := range laid.Cuts {
				if c.Times < 1 || c.Measure < 1 {
					t.Errorf("seed %d: %+v", seed, c)
				}
				if c.Frees == flat.APiece {
					freed += c.Times * max(1, c.Of.LastStrip-c.Of.FirstStrip+1) * max(1, c.Of.LastStack-c.Of.FirstStack+1)
				}
			}
			if freed > int64(len(laid.Pieces)) || freed == 0 {
				t.Errorf("seed %d: %d pieces freed of %d", seed, freed, len(laid.Pieces))
			}
		}
		for _, q := range l.Pieces {
			if cut[q.ID] != q.Qty {
				t.Errorf("seed %d: %d of %s laid, %d wanted", seed, cut[q.ID], q.ID, q.Qty)
			}
		}
	}
}
