package hulltest

import (
	"fmt"
	"math"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// HardBilges is a hull of four stations alike, flat floor and plumb side with an arc of 200 mm between, measured at waterlines
// so far apart and at buttocks a fifth of the floor apart. Far apart, no point falls on the arc.
func HardBilges(apart float64) *offsets.Document {
	doc := &offsets.Document{Notation: notation.Millimetres, Grain: "1", Surface: offsets.Inside}
	for no := range 4 {
		side := offsets.SideOffsets{Side: boat.Both,
			Rabbet: &offsets.EndOffsets{Height: "0", HalfBreadth: "0"}, Sheer: &offsets.EndOffsets{Height: "1200", HalfBreadth: "1000"}}
		for z := apart; z < 1190; z += apart {
			y := 1000.0
			if z < 200 {
				y = 800 + math.Sqrt(200*200-(200-z)*(200-z))
			}
			side.Waterlines = append(side.Waterlines, offsets.WaterlineOffsets{Height: fmt.Sprintf("%.0f", z), HalfBreadth: fmt.Sprintf("%.0f", y)})
		}
		for y := 200.0; y <= 800; y += 200 {
			side.Buttocks = append(side.Buttocks, offsets.ButtockOffsets{HalfBreadth: fmt.Sprintf("%.0f", y), Height: "0"})
		}
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: no, X: fmt.Sprint(no * 1000), Sides: []offsets.SideOffsets{side}})
	}
	return doc
}
