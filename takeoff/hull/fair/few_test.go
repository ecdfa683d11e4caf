package fair_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"ribband/takeoff/hull/fair"
)

// panel is a fair piece that turns first at one rate and then at another: place at the share s of a length of 1 m.
func panel(k0, k1, s float64) (y, z float64) {
	const steps = 400
	for i := range steps {
		t := (float64(i) + .5) / steps * s
		th := 0.4 + k0*t + (k1-k0)*t*t/2
		y, z = y+1000*s/steps*math.Cos(th), z+1000*s/steps*math.Sin(th)
	}
	return y, z
}

// What the house's assumption holds: of panels whose ends bend independently, up to a turn of half a radian were they so
// all along, nine in ten at least lie within the ranges of girth and of the least radius, at any few points.
func TestFewPointsOfAPanel(t *testing.T) {
	const trials, grain = 300, 3.175
	for n := 2; n <= 4; n++ {
		r := rand.New(rand.NewPCG(7, uint64(n)))
		girth, radius := 0, 0
		var w fair.Workspace
		for range trials {
			k0, k1 := r.Float64()-.5, r.Float64()-.5
			var pts []fair.Point
			for i := range n {
				y, z := panel(k0, k1, float64(i)/float64(n-1))
				pts = append(pts, fair.Point{Y: math.Round(y/grain) * grain, Z: math.Round(z/grain) * grain})
			}
			_, q, err := w.Piece(pts, grain)
			if err != nil {
				t.Fatal(err)
			}
			if q.Few != n {
				t.Errorf("%d points count as %d", n, q.Few)
			}
			if q.Girth.Low <= 1000 && 1000 <= q.Girth.High {
				girth++
			}
			bilge, hollow := 1000/max(0, k0, k1), 1000/max(0, -k0, -k1)
			if q.Bilge.Radius.Low <= bilge && q.Hollow.Radius.Low <= hollow && bilge <= q.Bilge.Radius.High && hollow <= q.Hollow.Radius.High {
				radius++
			}
		}
		t.Logf("%d points: girth held in %d of %d, both bends in %d", n, girth, trials, radius)
		if girth < trials*9/10 || radius < trials*9/10 {
			t.Errorf("%d points: girth held in %d of %d, both bends in %d", n, girth, trials, radius)
		}
	}
}

func TestTwoPointsAreAStraightLine(t *testing.T) {
	var w fair.Workspace
	c, q, err := w.Piece([]fair.Point{{Y: 100, Z: 200}, {Y: 400, Z: 600}}, 0)
	if err != nil {
		t.Fatal(err)
	}
	y, z, th, k := c.At(250)
	if math.Hypot(y-250, z-400) > 1e-9 || math.Abs(th-math.Atan2(4, 3)) > 1e-12 || k != 0 || !c.Straight() || math.Abs(c.Girth()-500) > 1e-9 {
		t.Errorf("at 250 of %v: %v %v, %v, %v", c.Girth(), y, z, th, k)
	}
	// It may turn by half a radian: no tighter than twice its length, and longer by a 24th of a quarter.
	if math.Abs(q.Least.Radius.Low-1000) > 1e-6 || !math.IsInf(q.Least.Radius.High, 1) || q.Sharp || math.Abs(q.Girth.High-500*(1+.25/24)) > 1e-6 || math.Abs(q.Girth.Low-500) > 1e-9 {
		t.Errorf("%+v", q)
	}
}

func TestPieceRefuses(t *testing.T) {
	var w fair.Workspace
	one := fair.Point{Y: 1, Z: 1}
	var few *fair.FewError
	for _, pts := range [][]fair.Point{nil, {one}, {one, one}} {
		if _, _, err := w.Piece(pts, 1); !errors.As(err, &few) {
			t.Errorf("%v: %v", pts, err)
		}
	}
	var point *fair.PointError
	if _, _, err := w.Piece([]fair.Point{one, {Y: math.NaN()}}, 1); !errors.As(err, &point) {
		t.Error(err)
	}
	var grain *fair.GrainError
	if _, _, err := w.Piece([]fair.Point{one, {Y: 5}}, -1); !errors.As(err, &grain) {
		t.Error(err)
	}
}
