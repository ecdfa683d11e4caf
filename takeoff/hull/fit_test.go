package hull_test

import (
	"errors"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// Points that pass for a line but that no fair curve follows are refused when they are fitted, once for two sides
// that were written as one.
func TestNoFairCurve(t *testing.T) {
	side := offsets.SideOffsets{Side: boat.Both,
		Rabbet:     &offsets.EndOffsets{Height: "100", HalfBreadth: "60"},
		Sheer:      &offsets.EndOffsets{Height: "1300", HalfBreadth: "1000"},
		Waterlines: []offsets.WaterlineOffsets{{Height: "300", HalfBreadth: "50"}, {Height: "600", HalfBreadth: "200"}, {Height: "900", HalfBreadth: "560"}},
		Buttocks:   []offsets.ButtockOffsets{{HalfBreadth: "250", Height: "490"}, {HalfBreadth: "500", Height: "1040"}}}
	doc := &offsets.Document{Notation: notation.Millimetres, Surface: offsets.Inside}
	for i, x := range []string{"0", "1000", "2000"} {
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: i, X: x, Sides: []offsets.SideOffsets{side}})
	}
	o := hulltest.Read(t, doc)
	_, err := hull.Fit(o)
	var bad *offsets.FaultsError
	if !errors.As(err, &bad) || len(bad.Faults) != 3 || !strings.Contains(bad.Faults[0].Detail, "Station 0 both sides: the points do not follow one fair curve") {
		t.Errorf("%v", err)
	}
}
