package strake_test

import (
	"errors"
	"math"
	"testing"

	"ribband/takeoff/hull"
	"ribband/takeoff/hull/strake"
)

// The lateral surface of a half frustum is pi (r1 + r2) / 2 times its slant (geometry); one side is half of that. Its
// edges are rulings, straight when laid flat, and its mismatch is none.
func TestConeStrakes(t *testing.T) {
	f := cone(400, 1300, 4000)
	all, err := strake.Lay(f, equal(t, 8), strake.Places(f, 16))
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for _, s := range all {
		sum += s.Area.MM
		near(t, "edge", s.LengthLower.MM, 4100, 1e-6)
		near(t, "round", s.RoundUpper.MM, 0, 1e-6)
		near(t, "least width", s.WidthLeast.MM, 400*math.Pi/16, 0.1)
		near(t, "mismatch", s.Mismatch, 0, 1e-3)
		near(t, "all that is left open", s.Area.High-s.Area.Low, 0, 0)
	}
	want := math.Pi * 1700 / 4 * 4100
	// Straight ends cut off the arcs that the sector's ends are, turn²/6 of each strake's area, the turn that of its flat
	// shape: computed 3.1e-4.
	near(t, "area", sum, want, want*4e-4)
}

// On a cylinder the girth rolls out as it is, so a point (u, x) lies at x along and u times the girth across.
func TestCylinderStrake(t *testing.T) {
	f := cone(700, 700, 6000)
	e := wavy(t, f)
	s := develop(t, f, e, 1, 16)
	for i, x := range s.X {
		for j, edge := range [][]hull.Point{s.Lower, s.Upper} {
			want := rolled(700, 700, 6000, e.At(1+j, x)-e.At(1, 0), x)
			if d := math.Hypot(edge[i].Y-want.Y, edge[i].Z-want.Z); d > 1e-6 {
				t.Errorf("edge %d at %v lies %.2g mm off", j, x, d)
			}
		}
	}
	g := 700 * math.Pi / 2
	near(t, "round", s.RoundLower.MM, 0.1*g, 0.01)
	near(t, "width", s.WidthLeast.MM, 0.18*g, 1e-6)
	near(t, "board width", s.Board.Width, 0.28*g, 0.5)
	near(t, "board length", s.Board.Length, 6000, 0.5)
	if s.Board.Along.Y != 1 && math.Abs(s.Board.Along.Y) < 0.999 {
		t.Errorf("the board lies along %v", s.Board.Along)
	}
}

// Twice the boat has twice the lengths and four times the areas; a boat end for end has the same strakes.
func TestScaledAndTurned(t *testing.T) {
	f := wigley(7000, 2400, 900)
	big := wigley(14000, 4800, 1800)
	turned := f
	turned.jet = func(u, x float64) hull.Jet {
		j := f.jet(u, f.length-x)
		j.Yx, j.Zx = -j.Yx, -j.Zx
		return j
	}
	for k := range 6 {
		s, b := develop(t, f, equal(t, 6), k, 16), develop(t, big, equal(t, 6), k, 16)
		for _, p := range [][2]float64{
			{s.LengthUpper.MM, b.LengthUpper.MM}, {s.WidthMost.MM, b.WidthMost.MM}, {s.RoundLower.MM, b.RoundLower.MM},
			{s.Board.Length, b.Board.Length}, {s.Backing, b.Backing}, {s.Mismatch, b.Mismatch},
		} {
			near(t, "doubled", p[1], 2*p[0], 1e-9*p[1]+1e-6)
		}
		near(t, "doubled area", b.Area.MM, 4*s.Area.MM, 1e-9*b.Area.MM)
		a := develop(t, turned, equal(t, 6), k, 16)
		near(t, "turned length", a.LengthLower.MM, s.LengthLower.MM, 1e-6)
		near(t, "turned width", a.WidthMost.MM, s.WidthMost.MM, 1e-6)
		// Laid out from the other end the other diagonals are used, which on this form do not agree.
		near(t, "turned area", a.Area.MM, s.Area.MM, 2*s.Mismatch*s.LengthLower.MM)
	}
}

// A plank is a piece of its strake: pieces have its area between them and lie as it does.
func TestBetween(t *testing.T) {
	f := wigley(7000, 2400, 900)
	s := develop(t, f, equal(t, 8), 3, 32)
	whole, err := s.Between(0, 32)
	if err != nil {
		t.Fatal(err)
	}
	var area, length float64
	for _, p := range [][2]int{{0, 9}, {9, 20}, {20, 32}} {
		f, err := s.Between(p[0], p[1])
		if err != nil {
			t.Fatal(err)
		}
		area += f.Area.MM
		length += f.LengthLower.MM
		if f.Board.Length > whole.Board.Length || f.Spiling > 1 || f.RoundLower.MM > whole.RoundLower.MM {
			t.Errorf("%+v", f)
		}
	}
	near(t, "area", area, whole.Area.MM, 1e-6)
	near(t, "length", length, whole.LengthLower.MM, 1e-9)
	var count *strake.CountError
	for _, p := range [][2]int{{-1, 4}, {4, 4}, {5, 4}, {0, 33}} {
		if _, err := s.Between(p[0], p[1]); !errors.As(err, &count) {
			t.Errorf("%v: %v", p, err)
		}
	}
}

// A cylinder whose girth may be a hundredth more or less: widths and area are so much less or more, a straight edge may
// run from one side of its place to the other between two stations, and a straight strake may be as round as that.
func TestRanges(t *testing.T) {
	f := cone(700, 700, 6000)
	f.unsure = 0.01
	g := 700 * math.Pi / 2
	s := develop(t, f, equal(t, 8), 3, 32)
	near(t, "least width, low", s.WidthLeast.Low, g/8*.99, 1e-6)
	near(t, "greatest width, high", s.WidthMost.High, g/8*1.01, 1e-6)
	near(t, "area, low", s.Area.Low, g/8*6000*.99, 1e-3)
	near(t, "area, high", s.Area.High, g/8*6000*1.01, 1e-3)
	near(t, "length, low", s.LengthUpper.Low, 6000, 1e-6)
	near(t, "length, high", s.LengthUpper.High, 4*math.Hypot(1500, 2*.01*g), 1e-6)
	near(t, "board length, low", s.BoardLength.Low, 6000, 1e-6)
	near(t, "board length, high", s.BoardLength.High, 4*math.Hypot(1500, 2*.01*g), 1e-6)
	near(t, "board width, low", s.BoardWidth.Low, g/8*.99, 1e-6)
	near(t, "board width, high", s.BoardWidth.High, g/8*1.01+2*.01*g, 1e-6)
	near(t, "loss, low", s.Loss.Low, 0, 1e-9)
	near(t, "loss, high", s.Loss.High, 1-g/8*6000*.99/(s.BoardLength.High*s.BoardWidth.High), 1e-9)
	near(t, "round, low", s.RoundLower.Low, 0, 1e-9)
	near(t, "round, high", s.RoundLower.High, 2*.01*g, 1e-6)
	w := develop(t, f, wavy(t, f), 1, 32)
	for _, r := range []hull.Reading{w.LengthLower, w.LengthUpper, w.WidthLeast, w.WidthMost, w.Area, w.RoundLower, w.RoundUpper, w.BoardLength, w.BoardWidth, w.Loss} {
		if !(r.Low <= r.MM && r.MM <= r.High && r.Low < r.High) {
			t.Errorf("%v", r)
		}
	}
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
	var length *strake.LengthError
	if _, err := strake.Develop(cone(math.NaN(), 1, 1000), equal(t, 4), 0, 16); !errors.As(err, &length) {
		t.Error(err)
	}
	f := cone(700, 700, 6000)
	short, err := strake.Given([]float64{0, 1000, 5000}, [][]float64{{.5}, {.5}, {.5}})
	if err != nil {
		t.Fatal(err)
	}
	var reach *strake.ReachError
	if _, err := strake.Develop(f, short, 0, 16); !errors.As(err, &reach) || reach.To != 5000 {
		t.Error(err)
	}
	var place *strake.PlaceError
	for _, xs := range [][]float64{{0, 1000, 1000}, {0, 1000, 7000}, {0, math.NaN(), 6000}, {-1, 0, 6000}} {
		if _, err := strake.Lay(f, equal(t, 2), xs); !errors.As(err, &place) {
			t.Errorf("%v: %v", xs, err)
		}
	}
	if _, err := strake.Lay(f, equal(t, 2), xs[:2]); !errors.As(err, &count) {
		t.Error(err)
	}
}

// Places hold the ends, the stations and what is wanted, and leave no step longer than asked.
func TestPlaces(t *testing.T) {
	f := cone(700, 700, 6000)
	xs := strake.Places(f, 16, 777, 777.0001, 1500, -5, 9000, math.NaN())
	if xs[0] != 0 || xs[len(xs)-1] != 6000 {
		t.Error(xs)
	}
	seen := map[float64]bool{}
	for i, x := range xs {
		seen[x] = true
		if i > 0 && !(x > xs[i-1] && x-xs[i-1] <= 375+1e-6) {
			t.Errorf("step %v to %v", xs[i-1], x)
		}
	}
	if !seen[777] || !seen[1500] || !seen[4500] || seen[777.0001] {
		t.Error(xs)
	}
}
