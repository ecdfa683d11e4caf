package takeoff_test

import (
	"fmt"
	"math"
	"testing"

	"ribband/seed"
	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/notation"
	"ribband/takeoff/rules"
)

// box is a hull of hard bilges, all stations alike: a flat floor, an arc of 200 mm, a plumb side, measured at
// waterlines this far apart. Far apart, no point falls on the arc.
func box(step float64) hull.Document {
	doc := hull.Document{Notation: notation.Millimetres, Grain: "1", Surface: hull.Inside}
	for no := range 4 {
		side := hull.SideOffsets{Side: boat.Both,
			Rabbet: &hull.EndOffsets{Height: "0", HalfBreadth: "0"}, Sheer: &hull.EndOffsets{Height: "1200", HalfBreadth: "1000"}}
		for z := step; z < 1190; z += step {
			y := 1000.0
			if z < 200 {
				y = 800 + math.Sqrt(200*200-(200-z)*(200-z))
			}
			side.Waterlines = append(side.Waterlines, hull.WaterlineOffsets{Height: fmt.Sprintf("%.0f", z), HalfBreadth: fmt.Sprintf("%.0f", y)})
		}
		for y := 200.0; y <= 800; y += 200 {
			side.Buttocks = append(side.Buttocks, hull.ButtockOffsets{HalfBreadth: fmt.Sprintf("%.0f", y), Height: "0"})
		}
		doc.Stations = append(doc.Stations, hull.StationOffsets{No: no, X: fmt.Sprint(no * 1000), Sides: []hull.SideOffsets{side}})
	}
	return doc
}

func TestABendThatThePointsDoNotShowIsWarnedOf(t *testing.T) {
	d, err := seed.Load()
	if err != nil {
		t.Fatal(err)
	}
	shop, _ := rules.Read(d.Rules)
	for _, c := range []struct {
		step   float64
		warned bool
	}{{300, true}, {40, false}} {
		doc := box(c.step)
		offsets, faults := hull.Read(&doc)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		h, err := offsets.Fit()
		if err != nil {
			t.Fatal(err)
		}
		frames, bad := frame.Read(frame.Document{Notation: notation.Millimetres, MouldingFace: frame.Forward,
			Frames: []frame.Row{{No: 1, Side: boat.Port, X: "1400", Siding: "45", Moulded: "50"}}})
		if len(bad) > 0 {
			t.Fatal(bad)
		}
		r, err := takeoff.Run(takeoff.Basis{Hull: h, Frames: frames, Species: d.Species, Steps: d.Steps, Rules: shop,
			Remedies: map[boat.Member]frame.Choice{frames[0].Member(): {Remedy: boat.ReplaceLaminated, Species: "white_oak", Grade: "FAS"}}})
		if err != nil {
			t.Fatal(err)
		}
		shown := map[string]bool{}
		for _, w := range r.Bill.Warnings {
			shown[w.Code] = true
		}
		if shown["bend_not_shown"] != c.warned {
			t.Errorf("waterlines %.0f mm apart: warnings %v, bend_not_shown wanted: %v", c.step, r.Bill.Warnings, c.warned)
		}
	}
}
