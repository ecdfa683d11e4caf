package passes_test

import (
	"maps"
	"slices"
	"testing"

	"ribband/takeoff/cutting/internal/passes"
)

// Some of the doublings of a number make every number up to it and none above.
func TestDoublingsMakeEveryNumber(t *testing.T) {
	for most := range int64(200) {
		sums := map[int64]bool{0: true}
		for n := range passes.Doublings(most) {
			for _, s := range slices.Collect(maps.Keys(sums)) {
				sums[s+n] = true
			}
		}
		if int64(len(sums)) != most+1 || !sums[most] || sums[most+1] {
			t.Fatalf("%d: %d sums", most, len(sums))
		}
	}
}

// A room is read back last pass first, a pass that may stand again as often as it was marked, and cleared memory marks nothing.
func TestFillReadsBack(t *testing.T) {
	var p passes.Passes
	m := p.Begin(7, 3, 1, true, 100)
	m.Set(3)
	m.Set(6)
	m = p.Begin(9, 64, 2, false, 100)
	m.Set(70)
	type put struct {
		thing int
		n     int64
	}
	read := func(room, first, last int) (out []put) {
		for thing, n := range p.Fill(room, first, last) {
			out = append(out, put{thing, n})
		}
		return out
	}
	if got := read(70, 0, 2); !slices.Equal(got, []put{{9, 2}, {7, 1}, {7, 1}}) {
		t.Errorf("%v", got)
	}
	if got := read(70, 0, 1); got != nil {
		t.Errorf("%v of the first pass alone", got)
	}
	if got := read(6, 1, 2); got != nil {
		t.Errorf("%v of the second pass alone", got)
	}
	p.Clear()
	p.Begin(7, 3, 1, true, 100)
	if got := read(6, 0, 1); got != nil {
		t.Errorf("%v after all was forgotten", got)
	}
}
