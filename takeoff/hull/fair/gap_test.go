package fair_test

import (
	"math"
	"slices"
	"testing"

	"ribband/takeoff/hull/fair"
)

func TestGapOnArc(t *testing.T) {
	pts := arc(1000, 0, 1.5, 16) // a tenth of a radian apart
	pts = slices.Delete(pts, 7, 9)
	pts = slices.Insert(pts, 3, pts[3]) // written twice: no span of its own
	c, err := fair.Fit(pts, 0)
	if err != nil {
		t.Fatal(err)
	}
	// An arc is as tight everywhere; the tightest place is where rounding puts
	// it, so the span found is a plain one or the wide one.
	gap := c.Gap()
	if math.Abs(gap.Turn-0.1) > 1e-3 && math.Abs(gap.Turn-0.3) > 1e-3 {
		t.Errorf("the widest span turns %.4f, want 0.1 or 0.3", gap.Turn)
	}
}

func TestGapNamesWhereToMeasure(t *testing.T) {
	// A floor and a topside joined by a quarter round of 300 mm, with the
	// points of the round left out.
	floor := side(0, 0, 0, 900, 6)
	var round []fair.Point
	for i := range 5 {
		a := float64(i+1) / 6 * math.Pi / 2
		round = append(round, fair.Point{Y: 900 + 300*math.Sin(a), Z: 300 * (1 - math.Cos(a))})
	}
	topside := side(1200, 300, math.Pi/2, 700, 5)
	whole, err := fair.Fit(slices.Concat(floor, round, topside), 1)
	if err != nil {
		t.Fatal(err)
	}
	bare, err := fair.Fit(slices.Concat(floor, topside), 1)
	if err != nil {
		t.Fatal(err)
	}
	if g := whole.Gap(); g.Turn > fair.Unresolved {
		t.Errorf("five points in a quarter round are not enough: the widest span turns %.2f", g.Turn)
	}
	g := bare.Gap()
	if g.Turn <= fair.Unresolved {
		t.Errorf("a quarter round without a point passes: the widest span turns %.2f", g.Turn)
	}
	if middle := 900 + 300*math.Pi/4; math.Abs(g.Mid-middle) > 60 {
		t.Errorf("measure next at %.0f mm, want near %.0f, the middle of the round", g.Mid, middle)
	}
	straightSide, err := fair.Fit(side(0, 0, 1, 900, 5), 1)
	if err != nil {
		t.Fatal(err)
	}
	if g := straightSide.Gap(); g.Turn != 0 {
		t.Errorf("a straight side turns %g between points", g.Turn)
	}
}

// TestWildGirthsAreUnresolved: with too few points the batten may swing out far
// beyond the boat. No curve whose girth is out by a tenth passes unnoticed.
func TestWildGirthsAreUnresolved(t *testing.T) {
	const wild = 0.1
	total := 0
	for _, n := range counts {
		for _, f := range families {
			for _, o := range theStudy().outcomes[cell{f.name, n}] {
				if math.Abs(o.girth/o.trueGirth-1) > wild {
					total++
					if o.turn <= fair.Unresolved {
						t.Errorf("%s, %d points: girth out by %.0f %%, yet the widest span turns only %.2f", f.name, n, 100*(o.girth/o.trueGirth-1), o.turn)
					}
				}
			}
		}
	}
	t.Logf("%d girths out by more than a tenth", total)
	if total == 0 {
		t.Error("the study has no wild girth, so this test shows nothing")
	}
}
