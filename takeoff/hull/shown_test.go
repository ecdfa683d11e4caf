package hull_test

import (
	"errors"
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/fair"
)

// The greatest bevel lies within its range, which is BevelRange's at that place, for either body of the timber and in planes
// that stand across her otherwise; a section that stands alone has none.
func TestGreatestBevelRange(t *testing.T) {
	h := misread(t, 0)
	for _, p := range []hull.Plane{{X: 3000}, {X: 3350}, {X: 3000, Cant: .3}, {X: 3000, Lean: 200}} {
		s, err := h.SectionIn(p, boat.Port)
		if err != nil {
			t.Fatal(err)
		}
		for _, body := range []hull.Body{hull.Abaft, hull.Before} {
			most, low, high, err := s.GreatestBevelRange(body, 3)
			if err != nil {
				t.Fatal(err)
			}
			same, err := s.GreatestBevel(body)
			if err != nil || most != same || !(low < most.Angle && most.Angle < high) {
				t.Errorf("%+v: %v from %v to %v, and %v, %v", p, most, low, high, same, err)
			}
			a, b, err := s.BevelRange(most.U, body, 3)
			if err != nil || a != low || b != high {
				t.Errorf("%+v: from %v to %v, and at its place from %v to %v, %v", p, low, high, a, b, err)
			}
		}
	}
	var pts []fair.Point
	for i := range 9 {
		s, c := math.Sincos(float64(i) / 6)
		pts = append(pts, fair.Point{Y: 1000 * s, Z: 1000 - 1000*c})
	}
	c, err := hull.FitChain(new(fair.Workspace), pts, nil, 1)
	if err != nil {
		t.Fatal(err)
	}
	var alone *hull.NoLinesError
	if _, _, _, err := hull.OnPattern(c, len(pts), 0, boat.Port).GreatestBevelRange(hull.Abaft, 1); !errors.As(err, &alone) {
		t.Errorf("a pattern alone: %v", err)
	}
}
