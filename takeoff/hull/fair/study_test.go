package fair_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"

	"ribband/takeoff/hull/fair"
)

// The study: every family, placing and number of points, trials sections of
// random dimensions each, written to 1/8 in and exactly. The seed is fixed.
var counts = []int{5, 7, 9, 13, 20}

const studySeed = 0x0b1119e

// trials is the number of sections of each family; each is fitted with every
// placing and number of points, so that every cell holds as many. A short run
// takes a seventh of them: under the race detector all would take ten minutes.
func trials() int {
	if testing.Short() {
		return 42
	}
	return 300
}

// cell names a row of the study; n is the number of points aimed at.
type cell struct {
	family string
	n      int
}

// outcome is one section, fitted. Ratios are to the truth.
type outcome struct {
	radius, exactRadius, splineRadius float64 // least radius
	girth, trueGirth                  float64 // mm
	turn                              float64 // over the widest span beside the tightest place
	settled                           bool
	quality                           *fair.Quality
	least                             float64 // true least radius, mm
	bilge, hollow                     peak    // what the section has and what was read
}

// peak is the tightest bend of one hand: the true and the fitted curvature, 1/mm.
type peak struct{ truth, read float64 }

type study struct {
	outcomes map[cell][]outcome
	errs     []error
}

var theStudy = sync.OnceValue(func() *study {
	st := &study{outcomes: map[cell][]outcome{}}
	var mu sync.Mutex
	var wg sync.WaitGroup
	for i, f := range families {
		wg.Go(func() {
			got, errs := studied(f, uint64(i))
			mu.Lock()
			defer mu.Unlock()
			for n, o := range got {
				st.outcomes[cell{f.name, n}] = o
			}
			st.errs = append(st.errs, errs...)
		})
	}
	wg.Wait()
	return st
})

// studied runs one family. Each section serves every placing and number.
func studied(f family, stream uint64) (map[int][]outcome, []error) {
	got := map[int][]outcome{}
	var errs []error
	var w fair.Workspace
	for trial := range trials() {
		r := rand.New(rand.NewPCG(studySeed+uint64(trial), stream))
		c := f.draw(r)
		for _, p := range placings {
			for _, n := range counts {
				marks := p.lay(c, n, r)
				pts := written(c, marks, eighth, r)
				rounded, q, err := w.Judge(pts, eighth)
				if err != nil {
					errs = append(errs, err)
					continue
				}
				exact, err := w.Fit(written(c, marks, 0, r), 0)
				if err != nil {
					errs = append(errs, err)
					continue
				}
				o := outcome{girth: rounded.Girth(), trueGirth: c.girth, turn: rounded.Gap().Turn, settled: rounded.Settled()}
				o.radius, _ = rounded.Least()
				o.exactRadius, _ = exact.Least()
				_, o.splineRadius = splined(pts).read()
				bilge, hollow := rounded.Peaks()
				o.quality, o.least = q, c.least
				o.bilge = peak{max(0, slices.Max(c.k)), bilge.Kappa}
				o.hollow = peak{max(0, -slices.Min(c.k)), hollow.Kappa}
				o.radius /= c.least
				o.exactRadius /= c.least
				o.splineRadius /= c.least
				got[n] = append(got[n], o)
			}
		}
	}
	return got, errs
}

// pooled are a figure of all outcomes with n points, of one family or of all,
// sorted.
func (st *study) pooled(n int, name string, figure func(o outcome) float64) []float64 {
	var v []float64
	for _, f := range families {
		if name == "" || name == f.name {
			for _, o := range st.outcomes[cell{f.name, n}] {
				v = append(v, figure(o))
			}
		}
	}
	slices.Sort(v)
	return v
}

// quantile of sorted values.
func quantile(v []float64, p float64) float64 {
	x := p * float64(len(v)-1)
	i := min(int(x), len(v)-2)
	return v[i] + (x-float64(i))*(v[i+1]-v[i])
}

func rms(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x * x
	}
	return math.Sqrt(sum / float64(len(v)))
}
