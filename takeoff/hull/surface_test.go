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

// coneHull is a quarter of a right circular cone about the x axis, apex at -4 m, half-angle atan 1/4, exact points.
func coneHull(t *testing.T, stations int) *hull.Hull {
	t.Helper()
	doc := &offsets.Document{Notation: "mm", Grain: "0", Surface: offsets.Inside}
	for i := range stations {
		x := 4000 * float64(i) / float64(stations-1)
		r := (x + 4000) / 4
		at := func(v float64) string { return fmt.Sprintf("%.6f", v) }
		s := offsets.SideOffsets{Side: boat.Both,
			Rabbet: &offsets.EndOffsets{Height: at(-r), HalfBreadth: "0"}, Sheer: &offsets.EndOffsets{Height: "0", HalfBreadth: at(r)}}
		for k := 1; k < 9; k++ {
			sn, cs := math.Sincos(float64(k) * math.Pi / 18)
			s.Waterlines = append(s.Waterlines, offsets.WaterlineOffsets{Height: at(-r * cs), HalfBreadth: at(r * sn)})
		}
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: i, X: at(x), Sides: []offsets.SideOffsets{s}})
	}
	return hulltest.Hull(t, doc)
}

func cone(t *testing.T, stations int) *hull.Surface {
	t.Helper()
	s, err := coneHull(t, stations).Surface(boat.Port)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestConesBevelIsItsHalfAngle: on a cone the surface departs from square to the section by the half-angle everywhere.
func TestConesBevelIsItsHalfAngle(t *testing.T) {
	for _, n := range []int{3, 5, 13} {
		s := cone(t, n)
		for _, x := range []float64{0, 700, 2000, 3100, 4000} {
			for _, u := range []float64{0, .2, .5, .77, 1} {
				j := s.Jet(u, x)
				if got := math.Atan(j.TanBevel()); math.Abs(got-math.Atan(.25)) > 1e-6 {
					t.Errorf("%d stations, x %v, u %v: bevel %v, want %v", n, x, u, got, math.Atan(.25))
				}
				r := (x + 4000) / 4
				// A quarter of the circle to a unit of u, slanted by the secant of the half-angle.
				if want := r * math.Pi / 2 * math.Sqrt(1+1./16); math.Abs(j.AreaFactor()/want-1) > 1e-6 {
					t.Errorf("x %v, u %v: area factor %v, want %v", x, u, j.AreaFactor(), want)
				}
				nx, ny, nz := j.Normal()
				sn, cs := math.Sincos(u * math.Pi / 2)
				k := math.Sqrt(1 + 1./16)
				if math.Hypot(math.Hypot(nx+.25/k, ny-sn/k), nz+cs/k) > 1e-6 {
					t.Errorf("x %v, u %v: normal %v %v %v", x, u, nx, ny, nz)
				}
			}
		}
	}
}

func TestSurfaceAgreesWithItsSections(t *testing.T) {
	s := cone(t, 7)
	if f, a := s.Reach(); f != 0 || a != 4000 || len(s.Stations()) != 7 {
		t.Error(f, a, s.Stations())
	}
	if a, b := s.Jet(-1, -10), s.Jet(0, 0); a != b {
		t.Errorf("beyond the end: %v, not %v", a, b)
	}
	const d = 0.01
	for _, x := range []float64{300, 1900} {
		a, j, b := s.Jet(.4, x-d), s.Jet(.4, x), s.Jet(.4, x+d)
		if math.Abs((b.Y-a.Y)/(2*d)-j.Yx) > 1e-6 || math.Abs((b.Z-a.Z)/(2*d)-j.Zx) > 1e-6 {
			t.Errorf("x %v: slopes %v %v", x, j.Yx, j.Zx)
		}
	}
}
