package cutting

import (
	"math"
	"slices"

	"ribband/takeoff/cutting/internal/simplex"
)

// Sets of values that sway makes, and how far demands are swayed, of themselves.
const (
	swayed = 12
	swayBy = 0.1
)

// sway adds sets of values that are best for demands a little different, and the mean of them all, which leaves fewer
// layouts that lose nothing: where an optimum has many duals, those at a corner let more layouts pass than those within.
// It does so once; what is demanded does not change.
func (t *counts) sway() {
	if t.swayed {
		return
	}
	t.swayed = true
	t.free()
	b := t.lp.Right()
	full := slices.Clone(b)
	first := len(t.mix.kept)
	turn := uint32(1)
	for range swayed {
		for i := range t.items {
			turn = turn*1664525 + 1013904223
			b[i] = full[i] * (1 + float64(swayBy*(float64(float64(turn>>8)/(1<<23))-1)))
		}
		t.lp.Fresh()
		if t.lp.Dual(t.limits.Pivots, math.Inf(1)) != simplex.Optimal {
			break
		}
		for !t.spent() && t.lp.Primal(t.limits.Pivots) == simplex.Optimal {
			y := t.lp.Duals(0)
			items := t.integers(y)
			t.price(items)
			if t.bring(y) == 0 {
				if v, ok := t.valued(items); ok {
					t.mix.add(v)
				}
				break
			}
		}
	}
	copy(b, full)
	t.lp.Fresh()
	t.lp.Dual(t.limits.Pivots, math.Inf(1))
	if n := int64(len(t.mix.kept) - first); n > 0 {
		mean := make([]int64, len(t.items))
		for _, v := range t.mix.kept[first:] {
			for i, w := range v.items {
				mean[i] += w / n
			}
		}
		t.joinable(mean)
		t.sack.run(mean)
		if v, ok := t.valued(mean); ok {
			t.mean = len(t.mix.kept)
			t.mix.add(v)
		}
	}
}

// free takes the bounds off the numbers of boards.
func (s *search) free() {
	for k, b := range s.boards {
		hi := math.Inf(1)
		if b.most >= 0 {
			hi = float64(b.most)
		}
		s.lp.SetBounds(s.boardCol[k], 0, hi)
	}
}
