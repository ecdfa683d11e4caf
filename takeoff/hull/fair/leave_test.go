package fair_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"ribband/takeoff/hull/fair"
)

// refitted is the miss of point i against a true refit of the others.
func refitted(t *testing.T, pts []fair.Point, i int, near float64) (float64, bool) {
	t.Helper()
	c, err := fair.Fit(slices.Delete(slices.Clone(pts), i, i+1), eighth)
	if err != nil {
		return 0, false
	}
	// The place of the curve nearest to the point, by a fine search.
	best, at := math.Inf(1), 0.0
	for s := near - 300; s <= near+300; s += 0.25 {
		y, z, _, _ := c.At(s)
		if d := math.Hypot(pts[i].Y-y, pts[i].Z-z); d < best {
			best, at = d, s
		}
	}
	y, z, th, _ := c.At(at)
	sin, cos := math.Sincos(th)
	return (pts[i].Z-z)*cos - (pts[i].Y-y)*sin, true
}

// What the linear problem says of a point left out is what a true refit of the
// others says: so near, in standard deviations of what it was judged by, over
// all families and placings. The few that part are those whose bend lies in the
// gap left by the point: there a refit settles elsewhere.
func TestLeaveOneOutAgainstRefits(t *testing.T) {
	trials := 6
	if testing.Short() {
		trials = 2
	}
	for _, of := range []struct {
		points             int
		median, nine, most float64 // of how far apart: at most; of 99 in 100, how far off points without any mistake are
	}{{7, .03, .2, 3.2}, {9, .03, .15, 3.2}, {13, .03, .1, 3}, {20, .02, .06, 2.6}} {
		var apart, off []float64
		for i, f := range families {
			for trial := range trials {
				r := rand.New(rand.NewPCG(studySeed+uint64(trial), uint64(i)))
				c := f.draw(r)
				for _, p := range placings {
					pts := written(c, p.lay(c, of.points, r), eighth, r)
					curve, left, err := new(fair.Workspace).LeaveOneOut(pts, nil, eighth)
					if err != nil {
						t.Fatal(err)
					}
					for k := 1; k+1 < len(pts); k++ {
						if m, ok := refitted(t, pts, k, curve.Foot(k)); ok {
							sd := math.Hypot(left[k].Sure, left[k].Own)
							apart = append(apart, math.Abs(m-left[k].Miss)/sd)
							off = append(off, math.Abs(left[k].Miss)/sd)
						}
					}
				}
			}
		}
		slices.Sort(apart)
		slices.Sort(off)
		t.Logf("%d points: apart p50 %.3f p90 %.3f p99 %.3f; off p50 %.2f p99 %.2f", of.points,
			quantile(apart, .5), quantile(apart, .9), quantile(apart, .99), quantile(off, .5), quantile(off, .99))
		if m := quantile(apart, .5); !(m <= of.median) {
			t.Errorf("%d points: half of them are more than %.3f standard deviations from the refit, %.3f allowed", of.points, m, of.median)
		}
		if m := quantile(apart, .9); !(m <= of.nine) {
			t.Errorf("%d points: a tenth are more than %.3f standard deviations from the refit, %.3f allowed", of.points, m, of.nine)
		}
		if m := quantile(off, .99); !(m <= of.most) {
			t.Errorf("%d points without a mistake: one in a hundred is %.2f standard deviations off, %.2f allowed", of.points, m, of.most)
		}
	}
}

// A point an inch off stands out above all others, and one that is let go no longer moves the curve: the others are then
// judged as if it were not there, and it by what it was.
func TestAPointThatIsLetGo(t *testing.T) {
	pts := arc(900, 0.1, 1.5, 9)
	const wrong, by = 4, 25.4
	out := slices.Clone(pts)
	th := math.Atan2(out[wrong+1].Z-out[wrong-1].Z, out[wrong+1].Y-out[wrong-1].Y)
	out[wrong].Y += by * math.Sin(th)
	out[wrong].Z -= by * math.Cos(th)
	var w fair.Workspace
	_, left, err := w.LeaveOneOut(out, nil, eighth)
	if err != nil {
		t.Fatal(err)
	}
	// without what the gap may hide: a point far off bends the curve, so that much seems hidden beside it
	times := func(l fair.Left) float64 {
		return math.Abs(l.Miss) / math.Hypot(math.Sqrt(max(0, l.Sure*l.Sure-l.Hidden*l.Hidden)), l.Own)
	}
	worst := 0
	for i := range left {
		if times(left[i]) > times(left[worst]) {
			worst = i
		}
	}
	if worst != wrong {
		t.Errorf("point %d is told to be the worst: %+v", worst, left)
	}
	loose := make([]float64, len(out))
	loose[wrong] = 100
	c, left, err := w.LeaveOneOut(out, loose, eighth)
	if err != nil {
		t.Fatal(err)
	}
	if l := left[wrong]; math.Abs(l.Miss+by) > eighth || l.Own > eighth {
		t.Errorf("let go, it is told to be %.2f mm off with an error of its own of %.2f; it was put %.2f outboard", l.Miss, l.Own, by)
	}
	without, err := fair.Fit(slices.Delete(slices.Clone(pts), wrong, wrong+1), eighth)
	if err != nil {
		t.Fatal(err)
	}
	for i := range 11 {
		u := float64(i) / 10
		y, z, _, _ := c.At(u * c.Girth())
		y0, z0, _, _ := without.At(u * without.Girth())
		if d := math.Hypot(y-y0, z-z0); d > 0.1*eighth {
			t.Errorf("at %.1f of the girth the curve lies %.3f mm from one without the point", u, d)
		}
	}
	if c, err := w.Fit(pts, eighth); err != nil || math.Abs(c.Miss(wrong)) > eighth {
		t.Errorf("a fit after it still lets the point go: %v, %v", c, err)
	}
}

func TestLeaveOneOutOfFewPointsAndOfNoNumbers(t *testing.T) {
	var w fair.Workspace
	var few *fair.FewError
	if _, _, err := w.LeaveOneOut(arc(900, 0.1, 1.5, 4), nil, eighth); !errors.As(err, &few) || few.Need != 5 {
		t.Errorf("four points: %v", err)
	}
	for _, loose := range [][]float64{{math.NaN(), math.Inf(1), -1, 0, 1e300, 5}, {2}} {
		_, left, err := w.LeaveOneOut(arc(900, 0.1, 1.5, 5), loose, eighth)
		if err != nil || len(left) != 5 {
			t.Errorf("loose %v: %v, %v", loose, left, err)
		}
		for i, l := range left {
			if math.IsNaN(l.Miss) || !(l.Sure >= 0) || !(l.Own > 0) {
				t.Errorf("loose %v: point %d is %+v", loose, i, l)
			}
		}
	}
	bad := arc(900, 0.1, 1.5, 7)
	bad[3].Y = math.NaN()
	if _, _, err := w.LeaveOneOut(bad, nil, eighth); err == nil {
		t.Error("a point that is no number is taken")
	}
}
