package strake_test

import (
	"math"
	"testing"

	"ribband/takeoff/hull"
	"ribband/takeoff/hull/strake"
)

var _ strake.Surface = (*hull.Surface)(nil)

// form is a surface by formula: the jet at u and x, from 0 to length, with girths known exactly or to an nth part.
type form struct {
	length float64
	unsure float64 // the girth may be so much less or more, as a part of it
	jet    func(u, x float64) hull.Jet
}

func (f form) Reach() (float64, float64)   { return 0, f.length }
func (f form) Corners() []float64          { return nil }
func (f form) Below(u, x float64) hull.Jet { return f.jet(u, x) }
func (f form) Stations() []float64 {
	return []float64{0, f.length / 4, f.length / 2, f.length * 3 / 4, f.length}
}
func (f form) GirthRange(float64) (low, high float64) { return 1 - f.unsure, 1 + f.unsure }
func (f form) Along(x float64, us []float64, out []hull.Jet) {
	for i, u := range us {
		out[i] = f.jet(u, x)
	}
}

// cone has radius r0 at x 0 and r1 at x l; its sections are quarter rings about the waterline.
func cone(r0, r1, l float64) form {
	k := (r1 - r0) / l
	return form{length: l, jet: func(u, x float64) hull.Jet {
		r, q := r0+k*x, math.Pi/2
		sin, cos := math.Sincos(u * q)
		return hull.Jet{Y: r * sin, Z: -r * cos, Yu: r * q * cos, Zu: r * q * sin,
			Yuu: -r * q * q * sin, Zuu: r * q * q * cos, Yx: k * sin, Zx: -k * cos}
	}}
}

// rolled is where the place (u, x) of that cone lies when she is rolled out: x and the girth on a cylinder, on a cone
// as far from the apex as the slant and through the quarter turn times the sine of the half-angle.
func rolled(r0, r1, l, u, x float64) hull.Point {
	if r0 == r1 {
		return hull.Point{Y: x, Z: u * r0 * math.Pi / 2}
	}
	sin := (r1 - r0) / math.Hypot(l, r1-r0)
	sn, cs := math.Sincos(u * math.Pi / 2 * sin)
	far := (r0 + (r1-r0)*x/l) / sin
	return hull.Point{Y: far * cs, Z: far * sn}
}

// wigley is the parabolic form: half-breadth (b/2)(1 - X²)(1 - v²), X from -1 to 1 along her, v the depth below the
// waterline over the draught. It cannot be laid flat. u runs by depth, not by girth.
func wigley(length, breadth, draught float64) form {
	return form{length: length, jet: func(u, x float64) hull.Jet {
		xx, v := 2*x/length-1, 1-u
		f, g := 1-xx*xx, 1-v*v
		return hull.Jet{Y: breadth / 2 * f * g, Z: draught * u, Yu: breadth / 2 * f * 2 * v, Zu: draught,
			Yuu: -breadth * f, Yx: -breadth / 2 * 4 * xx / length * g}
	}}
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.9g, want %.9g within %g", what, got, want, within)
	}
}

func develop(t testing.TB, s strake.Surface, e *strake.Edges, k, along int) *strake.Shape {
	t.Helper()
	out, err := strake.Develop(s, e, k, along)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func equal(t testing.TB, n int) *strake.Edges {
	t.Helper()
	e, err := strake.Equal(n)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// wavy is the two edges of a middle strake that rises and falls once along a form.
func wavy(t testing.TB, f form) *strake.Edges {
	t.Helper()
	var rows [][]float64
	for _, x := range f.Stations() {
		v := 0.1 * math.Sin(math.Pi*x/f.length)
		rows = append(rows, []float64{0.3 + v, 0.5 + 0.8*v})
	}
	e, err := strake.Given(f.Stations(), rows)
	if err != nil {
		t.Fatal(err)
	}
	return e
}
