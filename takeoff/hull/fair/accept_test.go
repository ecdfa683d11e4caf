package fair_test

import (
	"fmt"
	"math"
	"testing"
)

// What the fair curve is held to, over the study of random sections written to
// 1/8 in. Every figure is what was stated for the method before this package
// was written, none was moved to fit.

func TestEverySectionFits(t *testing.T) {
	st := theStudy()
	for i, err := range st.errs {
		if i == 5 {
			break
		}
		t.Error(err)
	}
	want := trials() * len(placings)
	for _, f := range families {
		for _, n := range counts {
			if got := len(st.outcomes[cell{f.name, n}]); got != want {
				t.Errorf("%s with %d points: %d of %d sections fitted", f.name, n, got, want)
			}
		}
	}
}

func TestSettled(t *testing.T) {
	// Where a bend falls into a gap between points its place is not known, and
	// the steps may still slide it about when they stop. No figure was stated
	// for this; these are what was measured, rounded up.
	allowed := map[int]float64{5: .04, 7: .04, 9: .04, 13: .015, 20: .003}
	for _, n := range counts {
		share := mean(theStudy().pooled(n, "", func(o outcome) float64 {
			if o.settled {
				return 0
			}
			return 1
		}))
		t.Logf("%d points: %.2f %% of the fits did not settle", n, 100*share)
		if share > allowed[n] {
			t.Errorf("%d points: %.2f %% of the fits did not settle", n, 100*share)
		}
	}
}

func mean(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}

func TestLeastRadiusOverAllFamilies(t *testing.T) {
	allowed := map[int]float64{5: .46, 7: .25, 9: .17, 13: .12, 20: .10}
	const (
		halfFrom = 13 // points, from which the spline is at least twice as bad
		half     = 0.5
	)
	for _, n := range counts {
		got := rms(theStudy().pooled(n, "", func(o outcome) float64 { return math.Log(o.radius) }))
		spline := rms(theStudy().pooled(n, "", func(o outcome) float64 { return math.Log(o.splineRadius) }))
		t.Logf("%d points: rms ln error %.3f, of the spline through the points %.3f", n, got, spline)
		if got > allowed[n] {
			t.Errorf("%d points: rms ln error of the least radius is %.3f, more than %.2f", n, got, allowed[n])
		}
		if n >= halfFrom && got > half*spline {
			t.Errorf("%d points: rms ln error %.3f is more than half of the spline's %.3f", n, got, spline)
		}
	}
}

// percent is a row of the figures by family: the 5th and the 95th percentile of
// the error of the least radius lie within that much either way.
type percent struct {
	family   string
	from, to int // numbers of points it holds for
	within   float64
}

func check(t *testing.T, rows []percent, ratio func(o outcome) float64) {
	for _, row := range rows {
		for _, n := range counts {
			if n < row.from || n > row.to {
				continue
			}
			t.Run(fmt.Sprintf("%s %d points", row.family, n), func(t *testing.T) {
				v := theStudy().pooled(n, row.family, ratio)
				low, high := 100*(quantile(v, .05)-1), 100*(quantile(v, .95)-1)
				t.Logf("p5 %.2f %%, p95 %.2f %%, allowed %g %%", low, high, row.within)
				if !(low >= -row.within && high <= row.within) {
					t.Errorf("the error of the least radius runs from %.2f to %.2f %%, more than %g %%", low, high, row.within)
				}
			})
		}
	}
}

func TestLeastRadiusByFamily(t *testing.T) {
	check(t, []percent{
		{"circle", 5, 20, 3},
		{"ellipse", 5, 20, 9},
		{"superellipse", 7, 20, 10},
		{"tumblehome", 9, 20, 8},
		{"firm bilge", 13, 20, 10},
		{"wineglass", 20, 20, 20},
	}, func(o outcome) float64 { return o.radius })
}

func TestLeastRadiusOfExactPoints(t *testing.T) {
	check(t, []percent{
		{"circle", 5, 20, 0.1},
		{"ellipse", 13, 20, 3},
		{"superellipse", 13, 20, 3},
		{"tumblehome", 13, 20, 3},
		{"firm bilge", 13, 20, 3},
		{"slack V", 13, 13, 20},
		{"slack V", 20, 20, 6},
		{"wineglass", 13, 13, 20},
		{"wineglass", 20, 20, 6},
		{"parabola", 20, 20, 5}, // at an end
		{"flare", 20, 20, 5},
		{"cosine", 20, 20, 9},
		{"hard bilge", 13, 20, 30},
	}, func(o outcome) float64 { return o.exactRadius })
}

func TestGirth(t *testing.T) {
	const (
		grains = 1.0    // the rounding of the two end points alone gives 0.7
		share  = 0.0003 // of the girth
	)
	for _, n := range []int{13, 20} {
		over := theStudy().pooled(n, "", func(o outcome) float64 {
			return math.Abs(o.girth-o.trueGirth) - grains*eighth - share*o.trueGirth
		})
		bias := theStudy().pooled(n, "", func(o outcome) float64 { return o.girth/o.trueGirth - 1 })
		t.Logf("%d points: p95 of the error is %.2f mm under what is allowed; median error %.3f %%", n, -quantile(over, .95), 100*quantile(bias, .5))
		if quantile(over, .95) > 0 {
			t.Errorf("%d points: the 95th percentile of the girth's error is %.2f mm more than a grain and 0.03 %%", n, quantile(over, .95))
		}
		if math.Abs(quantile(bias, .5)) > share {
			t.Errorf("%d points: the girth is out by %.3f %% in the median", n, 100*quantile(bias, .5))
		}
	}
}
