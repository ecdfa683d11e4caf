package hull_test

import (
	"fmt"
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
)

// grown is a hull of parabolic sections that need not be alike fore and aft: half is the half-breadth at the sheer, and its
// slope.
type grown struct {
	length, depth float64
	half          func(x float64) (y, slope float64)
}

func (g grown) at(x, z float64) (y, yx, yz float64) {
	b, bx := g.half(x)
	d := 1 - z/g.depth
	return b * (1 - d*d), bx * (1 - d*d), 2 * b * d / g.depth
}

// Forms whose bevels are known exactly, of several fullnesses.
func grownForms() map[string]grown {
	const L = 9000.
	return map[string]grown{
		"parabola": {L, 1100, func(x float64) (y, s float64) { X := 2*x/L - 1; return 1300 * (1 - .9*X*X), -1300 * .9 * 4 * X / L }},
		"quartic": {L, 1100, func(x float64) (y, s float64) {
			X := 2*x/L - 1
			return 1300 * (1 - .8*X*X*X*X), -1300 * .8 * 8 * X * X * X / L
		}},
		"wave": {L, 1000, func(x float64) (y, s float64) {
			return 700 + 500*math.Sin(math.Pi*x/L), 500 * math.Pi / L * math.Cos(math.Pi*x/L)
		}},
		"fine bow": {L, 1200, func(x float64) (y, s float64) {
			t := x / L
			return 150 + 1200*math.Sin(1.9*t)*(1-.15*t), (1200*1.9*math.Cos(1.9*t)*(1-.15*t) - 1200*.15*math.Sin(1.9*t)) / L
		}},
	}
}

// Forms on which nothing of the range was measured but what a boat of few stations needs.
func otherForms() map[string]grown {
	const L = 7300.
	return map[string]grown{
		"to a point": {L, 914, func(x float64) (y, s float64) { X := 2*x/L - 1; return 1219 * (1 - X*X), -1219 * 4 * X / L }},
		"cosine": {L, 1000, func(x float64) (y, s float64) {
			p := 2.6*x/L - 1.1
			return 1250 * math.Cos(p), -1250 * 2.6 / L * math.Sin(p)
		}},
		"full": {L, 900, func(x float64) (y, s float64) {
			X := 2*x/L - 1
			return 1100 * (1 - .7*math.Pow(X, 6)), -1100 * .7 * 12 * math.Pow(X, 5) / L
		}},
		"run aft": {L, 1150, func(x float64) (y, s float64) {
			t := x / L
			return 200 + 2600*t*(1-t)*(1+.5*t), 2600 / L * (1 - t - 1.5*t*t)
		}},
	}
}

// The range of the bevel holds at least nine times in ten, pooled over the forms, at stations, the ends among them, and
// between, from exact points and from eighths: on the forms it was measured on and on others.
func TestBevelRangeHolds(t *testing.T) {
	holds(t, grownForms())
	t.Run("others", func(t *testing.T) { holds(t, otherForms()) })
}

func holds(t *testing.T, forms map[string]grown) {
	t.Helper()
	for _, stations := range []int{3, 5, 7, 13} {
		for _, grain := range []float64{0, 3.175} {
			held, of, wide := 0, 0, 0.0
			for name, g := range forms {
				h := g.hull(t, stations, grain)
				for i := range 2*stations - 1 {
					x := g.length * float64(i) / float64(2*stations-2)
					s := section(t, h, x, boat.Starboard)
					for _, u := range []float64{.05, .2, .4, .6, .8, .95} {
						b, err := s.BevelAt(u, hull.Abaft)
						if err != nil {
							t.Fatal(name, err)
						}
						low, high, err := s.BevelRange(u, hull.Abaft, grain)
						if err != nil || !(low <= b.Angle && b.Angle <= high) {
							t.Fatal(name, low, b.Angle, high, err)
						}
						_, yx, yz := g.at(x, max(0, min(g.depth, b.Z)))
						want := math.Atan(yx / math.Sqrt(1+yz*yz))
						of++
						wide += high - low
						if low-1e-9 <= want && want <= high+1e-9 {
							held++
						}
					}
				}
			}
			t.Logf("%d stations, grain %v: %d of %d, mean width %.2f degrees", stations, grain, held, of, wide/float64(of)*180/math.Pi)
			if 10*held < 9*of {
				t.Errorf("%d stations, grain %v: the range holds %d times of %d", stations, grain, held, of)
			}
		}
	}
}

func (g grown) hull(t *testing.T, stations int, grain float64) *hull.Hull {
	tb := exactTable()
	to := func(v float64) string {
		if grain > 0 {
			v = math.Round(v/grain) * grain
		}
		return fmt.Sprintf("%.6f", v)
	}
	if grain > 0 {
		tb.doc.Grain = fmt.Sprint(grain)
	}
	for no := range stations {
		x := g.length * float64(no) / float64(stations-1)
		side := offsets.SideOffsets{Side: boat.Both}
		for k := range 11 {
			z := g.depth * float64(k) / 10
			y, _, _ := g.at(x, z)
			zs, ys := fmt.Sprintf("%.6f", z), to(y)
			switch k {
			case 0:
				side.Rabbet = &offsets.EndOffsets{Height: zs, HalfBreadth: ys}
			case 10:
				side.Sheer = &offsets.EndOffsets{Height: zs, HalfBreadth: ys}
			default:
				side.Waterlines = append(side.Waterlines, offsets.WaterlineOffsets{Height: zs, HalfBreadth: ys})
			}
		}
		tb.doc.Stations = append(tb.doc.Stations, offsets.StationOffsets{No: no, X: fmt.Sprintf("%.6f", x), Sides: []offsets.SideOffsets{side}})
	}
	return hulltest.Hull(t, &tb.doc)
}
