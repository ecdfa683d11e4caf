package cutting_test

import (
	"testing"

	"ribband/takeoff/cutting"
)

// Drawn. Before a plan is known no region of the numbers of boards can be closed. Leaving pieces out got dearer in every one of
// them until it was past all whole values, and numbers of boards from which the pieces do not come stayed open.
func TestRegionsWithoutAPlanAreClosed(t *testing.T) {
	for _, c := range []struct {
		l    list
		want int64
	}{
		{list{[]cutting.Stock{{"A", 16, 2, 3, 1, 0}, {"B", 10, 1, 3, -1, 0}}, []cutting.Piece{{"b", 11, 1, false}, {"a", 13, 3, true}},
			cutting.Rules{Scarf: &cutting.Scarf{Least: 1, Step: 2}}}, 3},
		{list{[]cutting.Stock{{"A", 23, 40, 2, 1, 0}, {"B", 8, 8, 2, -1, 0}}, []cutting.Piece{{"b", 9, 1, false}, {"a", 16, 2, true}},
			cutting.Rules{Kerf: 1, TrimEach: 1, Scarf: &cutting.Scarf{Price: 1, Least: 1, Step: 2}, Keep: &cutting.Keep{Least: 1, Per: 4, Rate: 3}}}, 43},
	} {
		p, err := cutting.Solve(c.l.stock, c.l.pieces, c.l.rules)
		if err != nil || p.Net() != c.want || !p.Proven() {
			t.Errorf("%d to %d by %s, the least is %d: %v", p.Bound, p.Net(), p.Proof, c.want, err)
		}
	}
}
