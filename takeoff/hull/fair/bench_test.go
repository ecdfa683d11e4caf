package fair_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"ribband/takeoff/hull/fair"
)

// benchSets are sections of every family and placing.
func benchSets(n int) [][]fair.Point {
	var sets [][]fair.Point
	for i, f := range families {
		r := rand.New(rand.NewPCG(studySeed, uint64(i)))
		c := f.draw(r)
		for _, p := range placings {
			sets = append(sets, written(c, p.lay(c, n, r), eighth, r))
		}
	}
	return sets
}

// BenchmarkFitOverSpline tells how many times as long a fit takes as solving
// and reading a cubic spline through the same points, both timed in one run.
// The figure to keep under is 50.
func BenchmarkFitOverSpline(b *testing.B) {
	for _, n := range []int{7, 13, 20} {
		b.Run(fmt.Sprintf("%d points", n), func(b *testing.B) {
			sets := benchSets(n)
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

// BenchmarkDrawsOverFit tells how many fits as long it takes to judge one: 100
// draws and 100 refits, both timed in one run. The figure to keep under is 15.
func BenchmarkDrawsOverFit(b *testing.B) {
	overFit(b, "judging/fit", 1, func(w *fair.Workspace, pts []fair.Point) error {
		_, _, err := w.Judge(pts, eighth)
		return err
	})
}

// overFit times work on sections beside their bare fits in one run, and reports
// it in fits, less those that it holds itself.
func overFit(b *testing.B, unit string, less float64, work func(*fair.Workspace, []fair.Point) error) {
	for _, n := range []int{7, 13, 20} {
		b.Run(fmt.Sprintf("%d points", n), func(b *testing.B) {
			sets := benchSets(n)
			var w fair.Workspace
			var fit, all time.Duration
			for i := 0; b.Loop(); i++ {
				pts := sets[i%len(sets)]
				t0 := time.Now()
				if _, err := w.Fit(pts, eighth); err != nil {
					b.Fatal(err)
				}
				t1 := time.Now()
				if err := work(&w, pts); err != nil {
					b.Fatal(err)
				}
				fit += t1.Sub(t0)
				all += time.Since(t1)
			}
			b.ReportMetric(float64(all)/float64(fit)-less, unit)
		})
	}
}

// BenchmarkJudge shows that draws and refits allocate nothing but the result.
func BenchmarkJudge(b *testing.B) {
	pts := arc(900, 0.1, 1.5, 13)
	var w fair.Workspace
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := w.Judge(pts, eighth); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkLeaveOneOutOverFit tells how many fits as long it takes to fit a
// section and hold every point against the others, both timed in one run. As
// many refits as points would be the plain way.
func BenchmarkLeaveOneOutOverFit(b *testing.B) {
	overFit(b, "leaving-one-out/fit", 0, func(w *fair.Workspace, pts []fair.Point) error {
		_, _, err := w.LeaveOneOut(pts, nil, eighth)
		return err
	})
}
