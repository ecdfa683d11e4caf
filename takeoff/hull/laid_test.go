package hull_test

import (
	"errors"
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
)

func lyingFlat(t testing.TB, h *hull.Hull, x, run float64) *hull.Laid {
	t.Helper()
	l, err := h.Laid(x, run, boat.Port)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func off(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %v, want %v: off by %v", what, got, want, got-want)
	}
}

// On a cylinder the line is a helix: L2 = (quarter round)2 + run2, bends by the square of the cosine, straight when unrolled.
func TestLaidOnACylinder(t *testing.T) {
	const r, near = 1500., 1e-6 // the fair curve of exact points of a circle
	h := cylinder.hull(t, 5)
	for _, run := range []float64{0, 400, -900, 2500} {
		l := lyingFlat(t, h, 3000, run)
		girth := r * math.Pi / 2
		length := math.Hypot(girth, run)
		off(t, "the length", l.Length.MM/length, 1, near)
		off(t, "the bend", l.Least().Kappa*r/math.Pow(girth/length, 2), 1, 2e-4) // as near as the section's own, below
		s := section(t, h, 3000, boat.Port)
		off(t, "the bend by the section's", l.Least().Kappa/s.Least().Kappa/math.Pow(girth/length, 2), 1, 1e-6)
		off(t, "the sweep", l.Sweep, 0, 1e-3)
		off(t, "the twist", l.Twist, -math.Pi/2*run/length, 1e-6)
		if l.Straight || l.Bilge.Kappa == 0 || len(l.Knuckles) != 0 || !(l.Length.Low <= length*(1+near) && l.Length.High >= length*(1-near)) {
			t.Errorf("run %v: %+v", run, l)
		}
	}
}

// A cone unrolls to a fan. The line at x runs at x' = X + run u on it, at the angle phi sin(half-angle) and the slant
// distance from the apex: its length and its sweep follow.
func TestLaidOnACone(t *testing.T) {
	h := wideCone.hull(t, 5)
	slant := math.Sqrt(1 + 1./16)
	fan := math.Pi / 2 * .25 / slant
	for _, c := range []struct{ x, run float64 }{{2000, 0}, {2000, 1500}, {4000, -1200}} {
		l := lyingFlat(t, h, c.x, c.run)
		at := func(u float64) hull.Point {
			d := (4000 + c.x + c.run*u) * slant
			return hull.Point{Y: d * math.Cos(fan*u), Z: d * math.Sin(fan*u)}
		}
		const n = 20000
		length, low, high := 0.0, 0.0, 0.0
		a, b := at(0), at(1)
		for i := range n {
			p, q := at(float64(i)/n), at(float64(i+1)/n)
			length += math.Hypot(q.Y-p.Y, q.Z-p.Z)
			d := ((b.Y-a.Y)*(q.Z-a.Z) - (b.Z-a.Z)*(q.Y-a.Y)) / math.Hypot(b.Y-a.Y, b.Z-a.Z)
			low, high = min(low, d), max(high, d)
		}
		off(t, "the length", l.Length.MM/length, 1, 1e-6)
		off(t, "the sweep", l.Sweep, high-low, 5e-3) // of some 100 mm; the places stand at cuts of the girth
		if c.run == 0 {
			off(t, "the sweep without run", l.Sweep, 6000*slant*(1-math.Cos(fan/2)), 5e-3)
			off(t, "the twist without run", l.Twist, 0, 1e-6)
		}
	}
}

// Without run the line is the square section: as long, bent by the cosine of its bevel, twisted by what the bevel changes.
func TestLaidWithoutRun(t *testing.T) {
	h := ellipsoid.hull(t, 13)
	for _, x := range []float64{1200, 2500, 6000} {
		s, l := section(t, h, x, boat.Port), lyingFlat(t, h, x, 0)
		off(t, "the length", l.Length.MM/s.Girth.MM, 1, 1e-9)
		b, err := s.BevelAt(l.Least().U, hull.Abaft)
		if err != nil {
			t.Fatal(err)
		}
		off(t, "the bend", l.Least().Kappa/(s.At(l.Least().U).Kappa*math.Cos(b.Angle)), 1, 1e-6)
	}
	// Of panels that widen the bevel changes up the girth of each, and at the chine besides, which is no twist.
	h = hulltest.Hull(t, chined(quarters, 1, widening))
	s, l := section(t, h, 1500, boat.Port), lyingFlat(t, h, 1500, 0)
	want := 0.0
	from, err := s.BevelAt(0, hull.Abaft)
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range append(s.Knuckles(), hull.Knuckle{U: 1}) {
		below, above, err := s.BevelsAt(k.U, hull.Abaft)
		if err != nil {
			t.Fatal(err)
		}
		want -= below.Angle - from.Angle
		from = above
	}
	off(t, "the twist", l.Twist, want, 1e-6)
	if len(l.Knuckles) != 2 || math.Abs(l.Knuckles[0].S-s.Knuckles()[0].S) > 1e-6 || math.Abs(l.Knuckles[0].Turn-s.Knuckles()[0].Turn) > 1e-6 {
		t.Errorf("%+v, of the section %+v", l.Knuckles, s.Knuckles())
	}
}

// On a prism of flat panels the line is straight when unrolled, whatever corners it crosses.
func TestLaidAcrossKnuckles(t *testing.T) {
	h := hulltest.Hull(t, chined(quarters, 1, func(float64) panels { return v }))
	l := lyingFlat(t, h, 500, 1100)
	off(t, "the length", l.Length.MM, math.Hypot(v.girth(), 1100), 1e-3)
	off(t, "the sweep", l.Sweep, 0, 1e-3)
	off(t, "the twist", l.Twist, 0, 1e-9)
	// On the cone of panels each unrolls by itself: the line is as long and as swept as its unrolled corners say.
	h = hulltest.Hull(t, chined(quarters, 1, tapering))
	l = lyingFlat(t, h, 1000, 800)
	pts, length := unrolledCone(1000, 800, []float64{l.Knuckles[0].U, l.Knuckles[1].U})
	off(t, "the length", l.Length.MM/length, 1, 1e-6)
	a, b := pts[0], pts[len(pts)-1]
	low, high := 0.0, 0.0
	for _, p := range pts {
		d := ((b.Y-a.Y)*(p.Z-a.Z) - (b.Z-a.Z)*(p.Y-a.Y)) / math.Hypot(b.Y-a.Y, b.Z-a.Z)
		low, high = min(low, d), max(high, d)
	}
	off(t, "the sweep", l.Sweep, high-low, 5e-3)
}

// unrolledCone lays the panels of the tapering hull side by side about its point, with the line drawn on them.
func unrolledCone(x, run float64, knots []float64) (pts []hull.Point, length float64) {
	knots = append(append([]float64{0}, knots...), 1)
	turned := 0.0
	for i := range v[1:] {
		p, q := [3]float64{4000, v[i].Y, v[i].Z}, [3]float64{4000, v[i+1].Y, v[i+1].Z}
		norm := func(a [3]float64) float64 { return math.Sqrt(a[0]*a[0] + a[1]*a[1] + a[2]*a[2]) }
		dot := func(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
		const n = 4000
		for j := range n + 1 {
			t := float64(j) / n
			scale := 1 + (x+run*(knots[i]+t*(knots[i+1]-knots[i])))/4000
			m := [3]float64{4000, p[1] + t*(q[1]-p[1]), p[2] + t*(q[2]-p[2])}
			angle := turned + math.Acos(min(1, dot(p, m)/norm(p)/norm(m)))
			at := hull.Point{Y: scale * norm(m) * math.Cos(angle), Z: scale * norm(m) * math.Sin(angle)}
			if len(pts) > 0 {
				length += math.Hypot(at.Y-pts[len(pts)-1].Y, at.Z-pts[len(pts)-1].Z)
			}
			pts = append(pts, at)
		}
		turned += math.Acos(dot(p, q) / norm(p) / norm(q))
	}
	return pts, length
}

// On an ellipsoid the line has a closed form; what is missed falls with the stations.
func TestLaidOnAnEllipsoidConverges(t *testing.T) {
	const x0, run, n = 2000., 1800., 4000
	at := func(u float64) [3]float64 {
		x := x0 + run*u
		r := math.Sqrt(ellipsoid.square(x))
		return [3]float64{x, r * math.Sin(math.Pi/2*u), -r * math.Cos(math.Pi/2*u)}
	}
	length, kappa := 0.0, 0.0
	for i := range n {
		p, q := at(float64(i)/n), at(float64(i+1)/n)
		length += math.Sqrt((q[0]-p[0])*(q[0]-p[0]) + (q[1]-p[1])*(q[1]-p[1]) + (q[2]-p[2])*(q[2]-p[2]))
		// curvature across: the second difference on the normal of x2/A2 + (y2 + z2)/B2 = 1
		if i > 0 {
			o, x := at(float64(i-1)/n), p
			nx, ny, nz := -(ellipsoid.q+2*ellipsoid.s*x[0])/2, x[1], x[2]
			l := math.Sqrt(nx*nx + ny*ny + nz*nz)
			second := (nx*(q[0]-2*x[0]+o[0]) + ny*(q[1]-2*x[1]+o[1]) + nz*(q[2]-2*x[2]+o[2])) / l
			step := ((q[0]-o[0])*(q[0]-o[0]) + (q[1]-o[1])*(q[1]-o[1]) + (q[2]-o[2])*(q[2]-o[2])) / 4
			kappa = max(kappa, -second/step)
		}
	}
	last := math.Inf(1)
	for _, stations := range []int{5, 9, 17} {
		l := lyingFlat(t, ellipsoid.hull(t, stations), x0, run)
		e := math.Abs(l.Length.MM/length - 1)
		if e > last {
			t.Errorf("%d stations: the length is off by %v of it, before by %v", stations, e, last)
		}
		last = e
		t.Logf("%d stations: length %.2g, bend %.2g, sweep %.3f, twist %.4f", stations, e, l.Least().Kappa/kappa-1, l.Sweep, l.Twist)
		if stations == 17 {
			off(t, "the length", e, 0, 1e-6)
			off(t, "the bend", l.Least().Kappa/kappa, 1, 1e-3)
		}
	}
}

func TestLaidRectangle(t *testing.T) {
	// The bending form of a helix is an arc of its own radius and length.
	h := cylinder.hull(t, 5)
	l := lyingFlat(t, h, 3000, 0)
	s := section(t, h, 3000, boat.Port)
	a, b, err := l.EnclosingRectangle(60)
	c, d, err2 := s.EnclosingRectangle(60)
	if err != nil || err2 != nil || math.Abs(a*b/(c*d)-1) > 1e-4 {
		t.Errorf("%v by %v, the section's %v by %v: %v %v", a, b, c, d, err, err2)
	}
	for _, m := range []float64{-1, math.NaN(), math.Inf(1)} {
		var depth *hull.DepthError
		if _, _, err := l.EnclosingRectangle(m); !errors.As(err, &depth) {
			t.Errorf("moulded %v: %v", m, err)
		}
	}
}

func TestLaidWhereItCannotBe(t *testing.T) {
	h := cylinder.hull(t, 5)
	var outside *hull.OutsideError
	var beyond *hull.ReachError
	var along *hull.PlaneError
	for _, x := range []float64{-1, 6001, math.NaN(), math.Inf(-1)} {
		if _, err := h.Laid(x, 10, boat.Port); !errors.As(err, &outside) {
			t.Errorf("x %v: %v", x, err)
		}
	}
	for _, run := range []float64{3500, -3500} {
		if _, err := h.Laid(3000, run, boat.Port); !errors.As(err, &beyond) {
			t.Errorf("run %v: %v", run, err)
		}
	}
	for _, run := range []float64{math.NaN(), math.Inf(1)} {
		if _, err := h.Laid(3000, run, boat.Port); !errors.As(err, &along) {
			t.Errorf("run %v: %v", run, err)
		}
	}
	if _, err := h.Laid(500, 5000, boat.Port); !errors.As(err, &along) {
		t.Errorf("along the planks: %v", err)
	}
	var side *hull.SideError
	if _, err := h.Laid(500, 0, boat.Both); !errors.As(err, &side) {
		t.Errorf("both sides: %v", err)
	}
}
