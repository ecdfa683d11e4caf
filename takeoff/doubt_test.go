package takeoff_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"ribband/seed"
	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
	"ribband/takeoff/rules"
)

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
		doc := *hulltest.HardBilges(c.step)
		h := hulltest.Hull(t, &doc)
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
			if w.Code != "bend_not_shown" {
				continue
			}
			_, place, _ := strings.Cut(w.Fix, "about ")
			var at float64
			if _, err := fmt.Sscan(place, &at); err != nil || at < 800 || at > 800+200*math.Pi/2 {
				t.Errorf("one more point is asked for off the arc: %s", w.Fix)
			}
		}
		if shown["bend_not_shown"] != c.warned {
			t.Errorf("waterlines %.0f mm apart: warnings %v, bend_not_shown wanted: %v", c.step, r.Bill.Warnings, c.warned)
		}
	}
}

// round is a hull of quarter circles, written to the millimetre at waterlines of whole millimetres, each half-breadth
// read wrong by up to so many mm.
func round(wrong float64) offsets.Document {
	doc := offsets.Document{Notation: notation.Millimetres, Grain: "1", Surface: offsets.Inside}
	r := rand.New(rand.NewPCG(3, 3))
	for no := range 8 {
		side := offsets.SideOffsets{Side: boat.Both,
			Rabbet: &offsets.EndOffsets{}, Sheer: &offsets.EndOffsets{}}
		radius := 1000 + 37*float64(no)
		at := func(a float64) (y, z float64) {
			z = math.Round(radius * (1 - math.Cos(a)))
			return math.Sqrt(radius*radius - (radius-z)*(radius-z)), z
		}
		for _, end := range []struct {
			of *offsets.EndOffsets
			a  float64
		}{{side.Rabbet, 0.13}, {side.Sheer, math.Pi / 2}} {
			y, z := at(end.a)
			end.of.HalfBreadth, end.of.Height = fmt.Sprintf("%.0f", y), fmt.Sprintf("%.0f", z)
		}
		for a := 0.25; a < 1.5; a += 0.12 {
			y, z := at(a)
			side.Waterlines = append(side.Waterlines, offsets.WaterlineOffsets{Height: fmt.Sprintf("%.0f", z),
				HalfBreadth: fmt.Sprintf("%.0f", y+wrong*(2*r.Float64()-1))})
		}
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: no, X: fmt.Sprint(no * 1000), Sides: []offsets.SideOffsets{side}})
	}
	return doc
}

func TestATableReadWorseThanWrittenIsWarnedOfOnce(t *testing.T) {
	d, err := seed.Load()
	if err != nil {
		t.Fatal(err)
	}
	shop, _ := rules.Read(d.Rules)
	for _, c := range []struct {
		wrong    float64
		warnings int
	}{{0, 0}, {3, 1}} {
		doc := round(c.wrong)
		h := hulltest.Hull(t, &doc)
		frames, bad := frame.Read(frame.Document{Notation: notation.Millimetres, MouldingFace: frame.Forward,
			Frames: []frame.Row{{No: 1, Side: boat.Port, X: "1400", Siding: "45", Moulded: "50"}, {No: 2, Side: boat.Port, X: "2400", Siding: "45", Moulded: "50"}}})
		if len(bad) > 0 {
			t.Fatal(bad)
		}
		r, err := takeoff.Run(takeoff.Basis{Hull: h, Frames: frames, Species: d.Species, Steps: d.Steps, Rules: shop,
			Remedies: map[boat.Member]frame.Choice{frames[0].Member(): {Remedy: boat.ReplaceLaminated, Species: "white_oak", Grade: "FAS"}}})
		if err != nil {
			t.Fatal(err)
		}
		told := 0
		for _, w := range r.Bill.Warnings {
			if w.Code == "table_read_worse" {
				told++
				if w.Member != nil || !strings.Contains(w.Detail, "grain of 1 mm allows") || w.Fix == "" {
					t.Errorf("%+v", w)
				}
			}
		}
		if told != c.warnings {
			t.Errorf("read %v mm wrong: told %d times, want %d: %v", c.wrong, told, c.warnings, r.Bill.Warnings)
		}
	}
}
