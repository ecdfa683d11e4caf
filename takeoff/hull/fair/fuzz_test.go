package fair_test

import (
	"encoding/binary"
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"ribband/takeoff/hull/fair"
)

// pointBytes is one point of a fuzzed section: y, z and the kind; a diagonal
// takes its direction from the point itself.
const pointBytes = 17

func encoded(pts []fair.Point) []byte {
	var b []byte
	for _, p := range pts {
		b = binary.LittleEndian.AppendUint64(b, math.Float64bits(p.Y))
		b = binary.LittleEndian.AppendUint64(b, math.Float64bits(p.Z))
		b = append(b, byte(p.Kind))
	}
	return b
}

func decoded(b []byte) []fair.Point {
	var pts []fair.Point
	for ; len(b) >= pointBytes && len(pts) < 200; b = b[pointBytes:] {
		p := fair.Point{
			Y:    math.Float64frombits(binary.LittleEndian.Uint64(b)),
			Z:    math.Float64frombits(binary.LittleEndian.Uint64(b[8:])),
			Kind: fair.Kind(b[16] % 5), // one kind too many
		}
		if p.Kind == fair.Along {
			p.DY, p.DZ = p.Z, p.Y
		}
		pts = append(pts, p)
	}
	return pts
}

// sound fails the test unless the curve gives numbers everywhere, or the error
// is one of those declared.
func sound(t *testing.T, c *fair.Curve, err error) {
	t.Helper()
	if err != nil {
		var few *fair.FewError
		var point *fair.PointError
		var grain *fair.GrainError
		var order *fair.OrderError
		var ranges *fair.RangeError
		if c != nil || !errors.As(err, &few) && !errors.As(err, &point) && !errors.As(err, &grain) && !errors.As(err, &order) && !errors.As(err, &ranges) {
			t.Errorf("curve %v with undeclared error %v", c, err)
		}
		return
	}
	finite := func(what string, vs ...float64) {
		for _, v := range vs {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%s: %v", what, vs)
			}
		}
	}
	finite("girth", c.Girth())
	if !(c.Girth() > 0) {
		t.Errorf("girth is %g", c.Girth())
	}
	for i := range 9 {
		y, z, th, k := c.At(c.Girth() * float64(i) / 8)
		finite("place, angle, curvature", y, z, th, k)
	}
	for i := range c.Points() {
		finite("foot and miss", c.Foot(i), c.Miss(i))
	}
	bilge, hollow := c.Peaks()
	finite("peaks", bilge.Kappa, bilge.S, hollow.Kappa, hollow.S)
	if bilge.Kappa < 0 || hollow.Kappa < 0 {
		t.Errorf("peaks %v, %v", bilge, hollow)
	}
	gap := c.Gap()
	finite("gap", gap.Turn, gap.Mid)
	r, s := c.Least()
	if !(r > 0) || math.IsNaN(s) || math.IsInf(r, 1) != c.Straight() {
		t.Errorf("least radius %g at %g, straight %v", r, s, c.Straight())
	}
}

// surelySound fails the test unless every range is one and holds what was read.
func surelySound(t *testing.T, c *fair.Curve, q *fair.Quality) {
	t.Helper()
	if (c == nil) != (q == nil) {
		t.Fatalf("curve %v, quality %v", c, q)
	}
	if c == nil {
		return
	}
	bilge, hollow := c.Peaks()
	for i, s := range []fair.Shown{q.Least, q.Bilge, q.Hollow} {
		kappa := []float64{max(bilge.Kappa, hollow.Kappa), bilge.Kappa, hollow.Kappa}[i]
		r := s.Radius
		if !(r.Low > 0 && !math.IsInf(r.Low, 0) && r.Low <= r.High && r.Low*kappa <= 1+1e-9 && r.High*kappa >= 1-1e-9 || math.IsInf(r.High, 1)) {
			t.Errorf("bend %d of radius %g has the range %v", i, 1/kappa, r)
		}
		if !(s.Blunt >= 0 && s.Blunt <= 1 && s.Turn >= 0 && s.Mid >= 0 && s.Mid <= c.Girth()*1.01) {
			t.Errorf("bend %d: %+v", i, s)
		}
	}
	if g := q.Girth; !(g.Low <= c.Girth() && g.High >= c.Girth() && g.High < math.Inf(1)) {
		t.Errorf("the girth %g has the range %v", c.Girth(), g)
	}
	if multiple, worse := q.ReadWorse(); !(multiple >= 1) || !worse && multiple != 1 {
		t.Errorf("read worse %v, %g times", worse, multiple)
	}
	if q.NearlyStraight && !math.IsInf(q.Least.Radius.High, 1) || q.Sharp && q.NearlyStraight {
		t.Errorf("nearly straight, yet %v, sharp %v", q.Least.Radius, q.Sharp)
	}
}

// TestHeaps fits points strewn about without sense, of all sizes and kinds.
func TestHeaps(t *testing.T) {
	r := rand.New(rand.NewPCG(studySeed, 11))
	heaps := 3000
	if testing.Short() {
		heaps = 500 // the race detector makes each ten times as long
	}
	for range heaps {
		pts := make([]fair.Point, 3+r.IntN(30))
		size := math.Pow(10, between(r, -7, 5.9))
		flat := math.Pow(10, between(r, -12, 0))
		for i := range pts {
			pts[i] = fair.Point{
				Y: size * between(r, -1, 1), Z: size * flat * between(r, -1, 1),
				Kind: fair.Kind(r.IntN(4)), DY: between(r, -1, 1), DZ: between(r, -1, 1),
			}
			if i > 0 && r.IntN(4) == 0 {
				pts[i] = pts[i-1]
			}
		}
		grain := []float64{0, size * 1e-3, size, 3.175}[r.IntN(4)]
		c, q, err := fair.Judge(pts, min(grain, 1e6))
		sound(t, c, err)
		surelySound(t, c, q)
	}
}

func FuzzFit(f *testing.F) {
	r := rand.New(rand.NewPCG(studySeed, 7))
	for i, fam := range families {
		c := fam.draw(r)
		f.Add(encoded(written(c, placings[i%3].lay(c, 5+i, r), eighth, r)), eighth)
	}
	line := side(0, 0, 1, 1000, 4)
	f.Add(encoded(line), 0.0)
	f.Add(encoded([]fair.Point{{}, {Y: 1000}, {}}), 0.0)
	f.Add(encoded([]fair.Point{{}, {Y: 1000}, {}, {Y: 1000}, {Z: 500}}), 1.0)
	f.Add(encoded(append(line, fair.Point{Y: math.NaN()})), 0.0)
	f.Add(encoded(append(line, fair.Point{Z: math.Inf(-1)})), 0.0)
	f.Add(encoded(line), math.NaN())
	f.Add(encoded(append(line, line...)), 1e-300)
	f.Add(encoded([]fair.Point{{}, {Y: 1e-310}, {Z: 1e6}, {Y: 1e6, Z: 1e-9}}), 1e5)
	f.Fuzz(func(t *testing.T, b []byte, grain float64) {
		c, q, err := fair.Judge(decoded(b), grain)
		sound(t, c, err)
		surelySound(t, c, q)
	})
}
