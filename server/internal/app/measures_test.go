package app

import (
	"fmt"
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// nearlyFlat is a hull of four stations alike, flaring sides that round out by a millimetre or so over 1.2 m and are
// written to the millimetre: too little to tell a wide bend from none.
func nearlyFlat() *offsets.Document {
	doc := &offsets.Document{Notation: notation.Millimetres, Grain: "1", Surface: offsets.Inside}
	at := func(z float64) string { return fmt.Sprintf("%.0f", 100+0.3*z+1.4*math.Sin(math.Pi*z/1200)) }
	for no := range 4 {
		side := offsets.SideOffsets{Side: boat.Both, Rabbet: &offsets.EndOffsets{Height: "0", HalfBreadth: at(0)},
			Sheer: &offsets.EndOffsets{Height: "1200", HalfBreadth: at(1200)}}
		for z := 100.0; z < 1150; z += 100 {
			side.Waterlines = append(side.Waterlines, offsets.WaterlineOffsets{Height: fmt.Sprintf("%.0f", z), HalfBreadth: at(z)})
		}
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: no, X: fmt.Sprint(no * 1000), Sides: []offsets.SideOffsets{side}})
	}
	return doc
}

// A station whose points leave the high end of its bend open is not called straight: the low end is what a laminate is
// chosen by, and it is told.
func TestABendWithoutAHighEndKeepsItsLowEnd(t *testing.T) {
	table, faults := offsets.Read(nearlyFlat())
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	h, err := hull.Fit(table)
	if err != nil {
		t.Fatal(err)
	}
	open := 0
	for _, m := range h.Measures() {
		got, r := stationMeasures(m, 0), m.Section.Least().Radius()
		if m.Section.Straight || math.IsInf(r.MM, 0) {
			continue
		}
		if got.Straight || got.LeastRadiusMM == nil || got.LeastRadiusLowMM == nil || *got.LeastRadiusLowMM <= 0 {
			t.Errorf("station %d %s bends and is told as %+v", m.Station, m.Section.Side, got)
		}
		if math.IsInf(r.High, 0) {
			open++
			if got.LeastRadiusHighMM != nil {
				t.Errorf("station %d %s has no high end and is told %v", m.Station, m.Section.Side, *got.LeastRadiusHighMM)
			}
		}
	}
	if open == 0 {
		t.Error("no section leaves its high end open, so nothing was shown")
	}
}
