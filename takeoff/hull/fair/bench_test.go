package fair_test

import (
	"math/rand/v2"
	"testing"
	"time"

	"ribband/takeoff/hull/fair"
)

// BenchmarkFitOverSpline tells how many times as long a fit takes as solving
// and reading a cubic spline through the same points, both timed in one run.
// The figure to keep under is 50.
func BenchmarkFitOverSpline(b *testing.B) {
	for _, n := range []int{7, 13, 20} {
		b.Run(map[int]string{7: "7 points", 13: "13 points", 20: "20 points"}[n], func(b *testing.B) {
			var sets [][]fair.Point
			for i, f := range families {
				r := rand.New(rand.NewPCG(studySeed, uint64(i)))
				c := f.draw(r)
				for _, p := range placings {
					sets = append(sets, written(c, p.lay(c, n, r), eighth, r))
				}
			}
			var w fair.Workspace
			var fit, spline time.Duration
			sum := 0.0
			for i := 0; b.Loop(); i++ {
				pts := sets[i%len(sets)]
				t0 := time.Now()
				c, err := w.Fit(pts, eighth)
				if err != nil {
					b.Fatal(err)
				}
				r, _ := c.Least()
				sum += r
				t1 := time.Now()
				_, r = splined(pts).read()
				sum += r
				fit += t1.Sub(t0)
				spline += time.Since(t1)
			}
			b.ReportMetric(float64(fit)/float64(spline), "fits/spline")
			b.ReportMetric(float64(fit.Nanoseconds())/float64(b.N), "ns/fit")
		})
	}
}

// BenchmarkFit shows that a workspace used again allocates only the curve.
func BenchmarkFit(b *testing.B) {
	pts := arc(900, 0.1, 1.5, 13)
	var w fair.Workspace
	b.ReportAllocs()
	for b.Loop() {
		if _, err := w.Fit(pts, eighth); err != nil {
			b.Fatal(err)
		}
	}
}
