package strake_test

import (
	"math"
	"testing"

	"ribband/takeoff/hull"
	"ribband/takeoff/hull/strake"
)

// fittedOrder is the slope of the straight line through the logarithms: error falls as steps to the power of -order.
func fittedOrder(steps []int, off []float64) float64 {
	var n, sx, sy, sxx, sxy float64
	for i, s := range steps {
		x, y := math.Log(float64(s)), math.Log(off[i])
		n, sx, sy, sxx, sxy = n+1, sx+x, sy+y, sxx+x*x, sxy+x*y
	}
	return -(n*sxy - sx*sy) / (n*sxx - sx*sx)
}

// What a strake of wavy edges is when its form is rolled out as geometry says, by 20000 steps.
func rolledOut(r0, r1, l float64, e *strake.Edges, k int) (length, area, round float64) {
	const n = 20000
	low, up := make([]hull.Point, n+1), make([]hull.Point, n+1)
	for i := range low {
		x := l * float64(i) / n
		low[i], up[i] = rolled(r0, r1, l, e.At(k, x), x), rolled(r0, r1, l, e.At(k+1, x), x)
	}
	cross := func(a, b hull.Point) float64 { return (a.Y*b.Z - b.Y*a.Z) / 2 }
	p, q := low[0], low[n]
	c := math.Hypot(q.Y-p.Y, q.Z-p.Z)
	area = cross(up[0], low[0]) + cross(low[n], up[n])
	for i := range n {
		length += math.Hypot(low[i+1].Y-low[i].Y, low[i+1].Z-low[i].Z)
		area += cross(low[i], low[i+1]) + cross(up[i+1], up[i])
	}
	for _, r := range low {
		round = max(round, math.Abs((q.Y-p.Y)*(r.Z-p.Z)-(q.Z-p.Z)*(r.Y-p.Y))/c)
	}
	return length, area, round
}

// Area and length of a strake of wavy edges converge at order 2 on forms that can be rolled out, and at 16 steps along
// the area is good to a thousandth and the round to a quarter of a millimetre.
func TestOrder(t *testing.T) {
	const (
		least     = 1.9  // of an order of 2 that is fitted over finite steps
		roundGoal = 0.25 // mm
		areaGoal  = 1e-3
	)
	steps := []int{8, 16, 32, 64, 128}
	for _, c := range [][3]float64{{700, 700, 6000}, {400, 1300, 4000}, {1300, 400, 4000}} {
		f := cone(c[0], c[1], c[2])
		e := wavy(t, f)
		length, area, round := rolledOut(c[0], c[1], c[2], e, 1)
		var offLength, offArea []float64
		for _, n := range steps {
			s := develop(t, f, e, 1, n)
			offLength = append(offLength, math.Abs(s.LengthLower.MM/length-1))
			offArea = append(offArea, math.Abs(s.Area.MM/area-1))
			offRound := s.RoundLower.MM - round
			t.Logf("%v, %d along: length %.2g area %.2g, round %.3g mm off, mismatch %.2g", c, n,
				offLength[len(offLength)-1], offArea[len(offArea)-1], offRound, s.Mismatch)
			if n >= 16 && (math.Abs(offRound) > roundGoal || offArea[len(offArea)-1] > areaGoal) {
				t.Errorf("%v, %d along: round %.3g mm off, area %.2g", c, n, offRound, offArea[len(offArea)-1])
			}
		}
		if a, l := fittedOrder(steps, offArea), fittedOrder(steps, offLength); a < least || l < least {
			t.Errorf("%v: area falls at order %.2f, length at %.2f", c, a, l)
		}
	}
}

// A strake of equal division on a cone is laid out alike whatever the count along: its edges are rulings. What is left is
// the error of lengths across, which falls at the fourth power of the width.
func TestErrorAcross(t *testing.T) {
	f := cone(400, 1300, 4000)
	sin := 900 / math.Hypot(900, 4000)
	counts := []int{2, 4, 8, 16}
	var off []float64
	for _, n := range counts {
		turn := math.Pi / 2 / float64(n) * sin
		want := math.Sin(turn) / 2 * (1300*1300 - 400*400) / (sin * sin) // of a flat quadrilateral between two rulings
		s := develop(t, f, equal(t, n), 0, 16)
		off = append(off, math.Abs(s.Area.MM/want-1))
	}
	if order := fittedOrder(counts, off); order < 3.5 {
		t.Errorf("by the number of strakes the error %.2g falls at order %.2f", off, order)
	}
}

// A Wigley hull cannot be laid flat. Its strakes together are its side to the order of the method, along and across.
func TestWigleyStrakes(t *testing.T) {
	f := wigley(24*304.8, 8*304.8, 3*304.8)
	want := surfaceArea(f)
	near(t, "area of the side", want, computed(t, "W2_wigley_24x8x3ft", "wetted_surface both sides")/2*304.8*304.8, 1e-6*want)
	off := func(strakes, along int) float64 {
		sum := 0.0
		all, err := strake.Lay(f, equal(t, strakes), strake.Places(f, along))
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range all {
			sum += s.Area.MM
		}
		return sum/want - 1
	}
	counts := []int{4, 8, 16, 32, 60}
	var errs []float64
	for _, n := range counts {
		errs = append(errs, math.Abs(off(n, 8*n)))
	}
	t.Logf("strakes %v: area off by %.2g", counts, errs)
	if order := fittedOrder(counts, errs); order < 1.9 {
		t.Errorf("refined along and across the area falls at order %.2f: %.2g", order, errs)
	}
	if o := off(12, 16); math.Abs(o) > 2e-3 {
		t.Errorf("12 strakes, 16 along: area off by %.2g", o)
	} else {
		t.Logf("12 strakes: 16 along %.2g, 64 along %.2g", o, off(12, 64))
	}
}

// surfaceArea by the midpoint rule, four million cells.
func surfaceArea(f form) (area float64) {
	const n = 2000
	for i := range n {
		x := f.length * (float64(i) + .5) / n
		for k := range n {
			area += f.jet((float64(k)+.5)/n, x).AreaFactor()
		}
	}
	return area * f.length / n / n
}
