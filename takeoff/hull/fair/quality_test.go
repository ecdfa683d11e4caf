package fair_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"ribband/takeoff/hull/fair"
)

// TestQualityIsRepeated: the same points have the same quality, to the last
// digit, whatever was judged before in the same workspace.
func TestQualityIsRepeated(t *testing.T) {
	var w fair.Workspace
	rapid.Check(t, func(t *rapid.T) {
		pts, grain := drawnSection(t)
		_, a, err := w.Judge(pts, grain)
		if err != nil {
			t.Fatal(err)
		}
		_, b, err := fair.Judge(pts, grain)
		if err != nil {
			t.Fatal(err)
		}
		if *a != *b {
			t.Errorf("%+v, in a fresh workspace %+v", a, b)
		}
	})
}

// TestJudgeFitsAsFit: judging does not change the curve.
func TestJudgeFitsAsFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pts, grain := drawnSection(t)
		c, q, err := fair.Judge(pts, grain)
		if err != nil {
			t.Fatal(err)
		}
		plain := fitted(t, pts, grain)
		a, as := c.Least()
		b, bs := plain.Least()
		if a != b || as != bs || c.Girth() != plain.Girth() {
			t.Errorf("judged %v at %v, fitted %v at %v", a, as, b, bs)
		}
		if q.Least.Gap != plain.Gap() {
			t.Errorf("judged %+v, fitted %+v", q.Least.Gap, plain.Gap())
		}
	})
}

// TestQualityScales: a boat twice as large has ranges twice as wide.
func TestQualityScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pts, grain := drawnSection(t)
		scale := rapid.SampledFrom([]float64{0.1, 0.5, 2, 25.4}).Draw(t, "scale")
		c, a, err := fair.Judge(pts, grain)
		if err != nil {
			t.Fatal(err)
		}
		_, b, err := fair.Judge(moved(pts, scale, 0, 0, 0), scale*grain)
		if err != nil {
			t.Fatal(err)
		}
		if !c.Settled() || a.NearlyStraight {
			return
		}
		close := func(what string, got, want float64) {
			const within = 1e-4 // the steps of the fit magnify the last digits
			if math.Abs(got-want) > within*want {
				t.Errorf("%s is %g, want %g", what, got, want)
			}
		}
		close("low end", b.Least.Radius.Low, scale*a.Least.Radius.Low)
		close("high end", b.Least.Radius.High, scale*a.Least.Radius.High)
		close("low end of the girth", b.Girth.Low, scale*a.Girth.Low)
		close("high end of the girth", b.Girth.High, scale*a.Girth.High)
	})
}

// TestStraightSideHasNoHighEnd: of a straight side the points say only that it
// is no tighter than so much, and less the fewer they are.
func TestStraightSideHasNoHighEnd(t *testing.T) {
	for _, n := range []int{5, 9, 20, 90} {
		for _, grain := range []float64{0, 1, 3.175} {
			pts := side(40, 0, 1.1, 1500, n)
			if grain > 0 {
				for i := range pts {
					pts[i].Y, pts[i].Z = rounded(pts[i].Y, grain), rounded(pts[i].Z, grain)
				}
			}
			c, q, err := fair.Judge(pts, grain)
			if err != nil {
				t.Fatal(err)
			}
			surelySound(t, c, q)
			low := q.Least.Radius.Low
			t.Logf("%d points, grain %g: no tighter than %.0f mm; girth %.2f to %.2f", n, grain, low, q.Girth.Low, q.Girth.High)
			if !q.NearlyStraight || q.Sharp {
				t.Errorf("%d points, grain %g: nearly straight %v, sharp %v", n, grain, q.NearlyStraight, q.Sharp)
			}
			// No bend that a plank would be steamed for; a short wave may be tighter
			// than a round over the whole girth.
			if low < 6*1500 {
				t.Errorf("%d points, grain %g: no tighter than %.0f mm, want six girths at least", n, grain, low)
			}
		}
	}
}

// TestTrueArcsWithManyPoints: above 64 points the rows are turned into a
// triangle first; the ranges must hold as below.
func TestTrueArcsWithManyPoints(t *testing.T) {
	const (
		sections = 100
		holds    = 0.82 // of a hundred, where nine tenths are meant: two and a half standard errors
		widest   = 0.15 // of the radius
	)
	r := rand.New(rand.NewPCG(studySeed, 300))
	for _, n := range []int{40, 63, 64, 65, 80, 150} {
		var radius, girth held
		for range sections {
			c := ellipse(r)
			curve, q, err := fair.Judge(written(c, alongGirth(c, n, r), eighth, r), eighth)
			if err != nil {
				t.Fatal(err)
			}
			least, _ := curve.Least()
			radius.count(c.least, least, q.Least.Radius)
			girth.count(c.girth, curve.Girth(), q.Girth)
		}
		t.Logf("%d points: radius %v; girth %v", n, &radius, &girth)
		if radius.covers() < 100*holds || girth.covers() < 100*holds || radius.width > widest*sections {
			t.Errorf("%d points: radius %v; girth %v", n, &radius, &girth)
		}
	}
}

// TestReadWorseWithManyPoints: rows beneath the triangle are error alone, and
// count as such.
func TestReadWorseWithManyPoints(t *testing.T) {
	const (
		sections = 40
		within   = 0.25 // a step of the multiples, and chance
	)
	r := rand.New(rand.NewPCG(studySeed, 301))
	for _, n := range []int{40, 64, 100, 200} {
		for _, wrong := range []float64{0, 1} {
			var reading fair.Reading
			for range sections {
				c := ellipse(r)
				_, q, err := fair.Judge(misread(c, alongGirth(c, n, r), eighth, wrong, r), eighth)
				if err != nil {
					t.Fatal(err)
				}
				reading.Add(q)
			}
			multiple, worse := reading.Worse()
			t.Logf("%d points, read %g grains wrong: worse %v, %.2f times", n, wrong, worse, multiple)
			want := math.Sqrt(1 + 4*wrong*wrong)
			if worse != (wrong > 0) || math.Abs(multiple-want) > within*want {
				t.Errorf("%d points, read %g grains wrong: worse %v, %.2f times; want %.2f", n, wrong, worse, multiple, want)
			}
		}
	}
}

func TestFewPointsHaveNoRange(t *testing.T) {
	for _, n := range []int{3, 4} {
		var few *fair.RangeError
		c, q, err := fair.Judge(arc(900, 0.1, 1.4, n), 1)
		if c != nil || q != nil || !errors.As(err, &few) || few.Points != n {
			t.Errorf("%d points: %v, %v, %v", n, c, q, err)
		}
	}
}

// TestUnresolved: a quarter round without a point in it is not shown, whatever
// range it gets.
func TestUnresolved(t *testing.T) {
	pts := append(side(0, 0, 0, 900, 6), side(1200, 300, math.Pi/2, 700, 5)...)
	_, q, err := fair.Judge(pts, 1)
	if err != nil {
		t.Fatal(err)
	}
	if !q.Least.Unresolved() || q.Sharp {
		t.Errorf("unresolved %v, sharp %v; want true and false", q.Least.Unresolved(), q.Sharp)
	}
}
