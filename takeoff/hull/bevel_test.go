package hull_test

import (
	"errors"
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/fair"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
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
	us, err := s.AtHeight(-1500*math.Sqrt2/2, 0)
	if err != nil || len(us) != 1 || math.Abs(us[0]-.5) > 1e-6 {
		t.Errorf("%v, %v", us, err)
	}
	var out *hull.HeightError
	if _, err := s.AtHeight(10, 0); !errors.As(err, &out) || math.Abs(out.Low+1500) > 1e-3 || math.Abs(out.High) > 1e-3 {
		t.Errorf("above the sheer: %v", err)
	}
	if us, err = s.AtHeight(s.At(1).Z, 0); err != nil || len(us) != 1 || math.Abs(us[0]-1) > 1e-9 {
		t.Errorf("at the sheer: %v, %v", us, err)
	}
	if _, err := s.AtHeight(math.NaN(), 1); err == nil {
		t.Error("no number is a height")
	}
}

// A boat whose sides are changed over has its bevels changed over: nothing but the side's own points decides them.
func TestBevelsOfSidesChangedOver(t *testing.T) {
	boatOf := func(wide, narrow boat.Side) *hull.Hull {
		tb := exactTable()
		for i := range 7 {
			x := 500 * float64(i)
			w := 600 + 90*float64(i) - 8*float64(i*i)
			tb.station(x, byHeight(wide, func(z float64) float64 { return w * math.Sqrt(z/900) }, 90, 900, 9),
				byHeight(narrow, func(z float64) float64 { return .8 * w * math.Pow(z/900, .6) }, 90, 900, 9))
		}
		return hulltest.Hull(t, &tb.doc)
	}
	a, b := boatOf(boat.Port, boat.Starboard), boatOf(boat.Starboard, boat.Port)
	for _, x := range []float64{0, 700, 2900} {
		var of [2]hull.Bevel
		for i, side := range []boat.Side{boat.Port, boat.Starboard} {
			one, err := section(t, a, x, side).BevelAt(.6, hull.Abaft)
			if err != nil {
				t.Fatal(err)
			}
			over, err := section(t, b, x, side.Other()).BevelAt(.6, hull.Abaft)
			if err != nil || one != over {
				t.Errorf("x %v %s: %+v, changed over %+v, %v", x, side, one, over, err)
			}
			of[i] = one
		}
		if of[0].Angle == of[1].Angle {
			t.Errorf("x %v: sides of different shape have one bevel", x)
		}
	}
}

// The height written for the rabbet or the sheer is one the section has, although the fitted curve ends a little off it.
func TestTheWrittenEndsAreReached(t *testing.T) {
	for _, exactly := range []bool{true, false} {
		_, o, faults := offsets.ReadCSV(r1(t, exactly, false), r1As(exactly))
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		h := hulltest.Fit(t, o)
		refused := 0
		for _, st := range o.Stations {
			s := section(t, h, st.X.MM(), boat.Port)
			rabbet, sheer := st.Port[0].Z.MM(), st.Port[len(st.Port)-1].Z.MM()
			if us, err := s.AtHeight(rabbet, o.Grain.MM()); err != nil || us[0] > .02 {
				t.Errorf("station %d, exactly %v: the rabbet is at %v, %v", st.No, exactly, us, err)
			}
			if us, err := s.AtHeight(sheer, o.Grain.MM()); err != nil || us[len(us)-1] < .98 {
				t.Errorf("station %d, exactly %v: the sheer is at %v, %v", st.No, exactly, us, err)
			}
			if s.At(1).Z < sheer {
				refused++
			}
			if _, err := s.AtHeight(sheer+o.Grain.MM()+2, o.Grain.MM()); err == nil {
				t.Errorf("station %d: a height beyond the sheer is reached", st.No)
			}
		}
		if refused == 0 {
			t.Error("no curve ends below its sheer, so nothing was tried")
		}
	}
}

// Of a pattern alone nobody knows how the boat runs fore and aft of it.
func TestNoBevelOfASectionThatStandsAlone(t *testing.T) {
	var pts []fair.Point
	for k := range 8 {
		sn, cs := math.Sincos(float64(k) * math.Pi / 14)
		pts = append(pts, fair.Point{Y: 900 * sn, Z: -900 * cs})
	}
	c, err := hull.FitChain(new(fair.Workspace), pts, nil, 1)
	if err != nil {
		t.Fatal(err)
	}
	s := hull.OnPattern(c, len(pts), 1000, boat.Port)
	var alone *hull.NoLinesError
	if _, err := s.BevelAt(.5, hull.Abaft); !errors.As(err, &alone) {
		t.Errorf("a bevel is given: %v", err)
	}
	if _, err := s.GreatestBevel(hull.Abaft); !errors.As(err, &alone) {
		t.Errorf("a bevel is given: %v", err)
	}
}

// What is no number is refused, or is none in the answer; nothing breaks.
func TestPlacesThatAreNoNumbers(t *testing.T) {
	var wrong *hull.FractionError
	if _, err := coneSection(t, 2000).BevelAt(math.NaN(), hull.Abaft); !errors.As(err, &wrong) {
		t.Errorf("a bevel is given: %v", err)
	}
	s := cone(t, 5)
	for _, j := range []hull.Jet{s.Jet(math.NaN(), 1000), s.Jet(.5, math.NaN())} {
		if !math.IsNaN(j.Y) || !math.IsNaN(j.Yx) {
			t.Errorf("a place is given: %+v", j)
		}
	}
	few := make([]hull.Jet, 1)
	s.Along(1000, []float64{.25, .5}, few)
	if few[0] != s.Jet(.25, 1000) {
		t.Errorf("%+v", few)
	}
}
