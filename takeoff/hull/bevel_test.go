package hull_test

import (
	"errors"
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/fair"
)

// coneSection is starboard of the quarter cone at x.
func coneSection(t *testing.T, x float64) *hull.Section {
	t.Helper()
	s, err := coneHull(t, 7).Section(x, boat.Starboard)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestBevelOfACone(t *testing.T) {
	for _, x := range []float64{0, 350, 2000, 4000} {
		s := coneSection(t, x)
		for body, sign := range map[hull.Body]float64{hull.Abaft: 1, hull.Before: -1} {
			b, err := s.BevelAt(.3, body)
			if err != nil || math.Abs(b.Angle-sign*math.Atan(.25)) > 1e-6 {
				t.Errorf("x %v: %+v, %v", x, b, err)
			}
			// 44 mm of siding at a slope of one in four.
			if math.Abs(b.Extra(44)-11) > 1e-4 {
				t.Errorf("x %v: extra moulding %v", x, b.Extra(44))
			}
			most, err := s.GreatestBevel(body)
			if err != nil || math.Abs(most.Angle-sign*math.Atan(.25)) > 1e-6 {
				t.Errorf("x %v: greatest %+v, %v", x, most, err)
			}
		}
	}
}

func TestBevelAtAHeight(t *testing.T) {
	s := coneSection(t, 2000) // radius 1500, from -1500 to 0
	us, err := s.AtHeight(-1500 * math.Sqrt2 / 2)
	if err != nil || len(us) != 1 || math.Abs(us[0]-.5) > 1e-6 {
		t.Errorf("%v, %v", us, err)
	}
	var out *hull.HeightError
	if _, err := s.AtHeight(10); !errors.As(err, &out) || math.Abs(out.Low+1500) > 1e-3 || math.Abs(out.High) > 1e-3 {
		t.Errorf("above the sheer: %v", err)
	}
	if us, err = s.AtHeight(s.At(1).Z); err != nil || len(us) != 1 || us[0] != 1 {
		t.Errorf("at the sheer: %v, %v", us, err)
	}
	if _, err := s.AtHeight(math.NaN()); err == nil {
		t.Error("no number is a height")
	}
}

// Sides written alike have the same bevels.
func TestBevelsOfSidesAlike(t *testing.T) {
	h := coneHull(t, 3)
	p, _ := h.Section(1234, boat.Port)
	s, _ := h.Section(1234, boat.Starboard)
	a, err := p.BevelAt(.6, hull.Abaft)
	b, _ := s.BevelAt(.6, hull.Abaft)
	if err != nil || a != b {
		t.Errorf("port %+v, starboard %+v, %v", a, b, err)
	}
}

// Of a pattern alone nobody knows how the boat runs fore and aft of it.
func TestNoBevelOfASectionThatStandsAlone(t *testing.T) {
	var pts []fair.Point
	for k := range 8 {
		sn, cs := math.Sincos(float64(k) * math.Pi / 14)
		pts = append(pts, fair.Point{Y: 900 * sn, Z: -900 * cs})
	}
	c, q, err := fair.Judge(pts, 1)
	if err != nil {
		t.Fatal(err)
	}
	s := hull.OnPattern(c, q, len(pts), 1000, boat.Port)
	var alone *hull.NoLinesError
	if _, err := s.BevelAt(.5, hull.Abaft); !errors.As(err, &alone) {
		t.Errorf("a bevel is given: %v", err)
	}
	if _, err := s.GreatestBevel(hull.Abaft); !errors.As(err, &alone) {
		t.Errorf("a bevel is given: %v", err)
	}
}
