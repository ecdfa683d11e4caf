package hull_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/offsets"
)

// Boats that nobody would build, unlike from station to station and spaced at random, still give figures that are
// numbers within their ranges, or faults.
func TestWildBoats(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tb := exactTable()
		x := 0.0
		for range rapid.IntRange(3, 7).Draw(t, "stations") {
			x += math.Pow(10, rapid.Float64Range(0.1, 5).Draw(t, "log spacing"))
			if x > 9e5 {
				break
			}
			size := math.Pow(10, rapid.Float64Range(-1, 5).Draw(t, "log size"))
			power := rapid.Float64Range(0.05, 5).Draw(t, "power")
			round := rapid.Float64Range(-0.3, 0.3).Draw(t, "round")
			tb.station(x, byHeight(boat.Both, func(z float64) float64 {
				v := z / size
				return size * max(0, math.Pow(v, power)+round*math.Sin(9*v))
			}, 0, size, rapid.IntRange(3, 12).Draw(t, "waterlines")))
		}
		o, faults := offsets.Read(&tb.doc)
		if len(faults) == 0 {
			h, err := hull.Fit(o)
			if err == nil {
				checkWild(t, h)
			}
		}
	})
}

func checkWild(t *rapid.T, h *hull.Hull) {
	forward, aft := h.Reach()
	for i := range 17 {
		s, err := h.Section(forward+(aft-forward)*float64(i)/16, boat.Port)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range []hull.Reading{s.Girth, s.Bilge.Radius(), s.Hollow.Radius()} {
			if !(r.MM >= 0 && r.Low <= r.MM && r.MM <= r.High) {
				t.Fatalf("%+v", r)
			}
		}
		_, r, err := s.Tightest(60)
		if err == nil && !(r.MM >= 0 && r.Low >= 0) {
			t.Fatalf("%+v", r)
		}
		l, w, err := s.EnclosingRectangle(60)
		if err != nil || !(l >= w && w > 0) {
			t.Fatalf("%v x %v, %v", l, w, err)
		}
		// A rectangle holds a line only if its diagonal spans the ends.
		line := s.Line(2)
		d := math.Hypot(line[1].Y-line[0].Y, line[1].Z-line[0].Z)
		if d > math.Hypot(l, w)*(1+1e-9) {
			t.Fatalf("ends %v apart in %v x %v", d, l, w)
		}
		if d > s.Girth.MM*(1+1e-6) {
			t.Fatalf("ends %v apart on a girth of %v", d, s.Girth.MM)
		}
	}
}
