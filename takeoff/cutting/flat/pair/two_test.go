package pair_test

import (
	"math/rand"
	"testing"

	"ribband/takeoff/cutting/flat/pair"
)

// Two drawn outlines laid against each other lie in their rectangle, do not overlap, and take no more than beside each other.
func TestTwoThatDiffer(t *testing.T) {
	tried, gained := 0, 0
	for seed := 0; tried < 200; seed++ {
		r := rand.New(rand.NewSource(int64(seed)))
		a, one, ok := drawn(r)
		b, other, also := drawn(r)
		if !ok || !also {
			continue
		}
		tried++
		fit, err := pair.LeastOf(a, b)
		if err != nil {
			t.Fatal(err)
		}
		beside := (one.Width + other.Width) * max(one.Length, other.Length)
		if fit.Size.Width*fit.Size.Length > beside {
			t.Errorf("seed %d: %+v is more than %d", seed, fit, beside)
		}
		if fit.Size.Width*fit.Size.Length < beside {
			gained++
		}
		second := slid(b, other, fit)
		if both := overlap(a, second); both > 1e-6 {
			t.Errorf("seed %d: %g overlap in %+v", seed, both, fit)
		}
		lies, beneath := fit.Lie(moved(a, 7, -3), moved(b, -5, 11))
		if both := overlap(lies, beneath); both > 1e-6 {
			t.Errorf("seed %d: %g overlap as they lie, %+v", seed, both, fit)
		}
		for _, p := range append(append([]pt{}, lies...), beneath...) {
			if p.X < 0 || p.Y < 0 || p.X > fit.Size.Width || p.Y > fit.Size.Length {
				t.Fatalf("seed %d: %v is outside of %+v", seed, p, fit.Size)
			}
		}
		low, high := a[0], a[0]
		for _, p := range append(append([]pt{}, a...), second...) {
			low, high = pt{X: min(low.X, p.X), Y: min(low.Y, p.Y)}, pt{X: max(high.X, p.X), Y: max(high.Y, p.Y)}
		}
		if high.X-low.X > fit.Size.Width || high.Y-low.Y > fit.Size.Length {
			t.Errorf("seed %d: they reach over %d x %d, %+v", seed, high.X-low.X, high.Y-low.Y, fit)
		}
	}
	t.Logf("%d of %d gained", gained, tried)
	if gained < tried/4 {
		t.Errorf("only %d of %d gained", gained, tried)
	}
	if _, err := pair.LeastOf(nil, nil); err == nil {
		t.Error("no points make an outline")
	}
}

// moved is the outline elsewhere, the same shape.
func moved(outline []pt, x, y int64) []pt {
	out := make([]pt, len(outline))
	for i, p := range outline {
		out[i] = pt{X: p.X + x, Y: p.Y + y}
	}
	return out
}
