package strake_test

import (
	"errors"
	"math"
	"testing"

	"ribband/takeoff/hull"
	"ribband/takeoff/hull/strake"
)

var _ strake.Surface = (*hull.Surface)(nil)

// cone has radius r0 at x 0 and r1 at x l; its sections are quarter rings about the waterline.
type cone struct{ r0, r1, l float64 }

func (c cone) Reach() (float64, float64) { return 0, c.l }
func (c cone) Stations() []float64       { return []float64{0, c.l / 4, c.l / 2, c.l * 3 / 4, c.l} }
func (c cone) Jet(u, x float64) hull.Jet {
	k := (c.r1 - c.r0) / c.l
	r, q := c.r0+k*x, math.Pi/2
	sin, cos := math.Sincos(u * q)
	return hull.Jet{Y: r * sin, Z: -r * cos, Yu: r * q * cos, Zu: r * q * sin,
		Yuu: -r * q * q * sin, Zuu: r * q * q * cos, Yx: k * sin, Zx: -k * cos}
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.9g, want %.9g within %g", what, got, want, within)
	}
}

// The lateral surface of a half frustum is pi (r1 + r2) / 2 times its slant (geometry); one side is half of that.
func TestConeStrakes(t *testing.T) {
	c := cone{400, 1300, 4000}
	e, err := strake.Equal(8)
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for k := range 8 {
		s, err := strake.Develop(c, e, k, 16)
		if err != nil {
			t.Fatal(err)
		}
		sum += s.Area
		near(t, "edge", s.LengthLow, 4100, 1e-6)
		near(t, "round", s.RoundUp, 0, 0.25)
		near(t, "least width", s.WidthLeast, 400*math.Pi/16, 0.1)
	}
	want := math.Pi * 1700 / 4 * 4100
	near(t, "area", sum, want, want*1e-3)
}

func wavy(c cone) [][]float64 {
	var rows [][]float64
	for _, x := range c.Stations() {
		v := 0.1 * math.Sin(math.Pi*x/c.l)
		rows = append(rows, []float64{0.3 + v, 0.5 + v})
	}
	return rows
}

// On a cylinder the girth rolls out as it is, so a point (u, x) lies at x along and u times the girth across.
func TestCylinderStrake(t *testing.T) {
	c := cone{700, 700, 6000}
	e, err := strake.Given(c.Stations(), wavy(c))
	if err != nil {
		t.Fatal(err)
	}
	s, err := strake.Develop(c, e, 1, 16)
	if err != nil {
		t.Fatal(err)
	}
	g := 700 * math.Pi / 2
	near(t, "round", s.RoundLow, 0.1*g, 0.25)
	near(t, "area", s.Area, 0.2*g*6000, 0.2*g*6)
	near(t, "width", s.WidthMax, 0.2*g, 1e-6)
	near(t, "board width", s.BoardWidth, 0.3*g, 0.5)
	near(t, "board length", s.BoardLength, 6000, 0.5)
	big, err := strake.Develop(cone{1400, 1400, 12000}, doubled(t, c), 1, 16)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "doubled length", big.LengthUp, 2*s.LengthUp, 1e-6)
	near(t, "doubled area", big.Area, 4*s.Area, 1e-3)
}

func doubled(t *testing.T, c cone) *strake.Edges {
	t.Helper()
	e, err := strake.Given(cone{0, 0, 2 * c.l}.Stations(), wavy(c))
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func TestRefused(t *testing.T) {
	xs := []float64{0, 1, 2}
	var edge *strake.EdgeError
	for _, rows := range [][][]float64{
		{{.2, .4}, {.4, .3}, {.2, .4}}, {{.2, .4}, {.2, math.NaN()}, {.2, .4}}, {{.2, .4}, {.2, 1.1}, {.2, .4}},
	} {
		if _, err := strake.Given(xs, rows); !errors.As(err, &edge) || edge.Edge != 2 || edge.X != 1 {
			t.Errorf("%v: %v", rows, err)
		}
	}
	var shape *strake.ShapeError
	if _, err := strake.Given(xs, [][]float64{{.2}, {.2, .3}, {.2}}); !errors.As(err, &shape) {
		t.Error(err)
	}
	var count *strake.CountError
	if _, err := strake.Equal(0); !errors.As(err, &count) {
		t.Error(err)
	}
	e, _ := strake.Equal(4)
	var length *strake.LengthError
	if _, err := strake.Develop(cone{math.NaN(), 1, 1000}, e, 0, 16); !errors.As(err, &length) {
		t.Error(err)
	}
}
