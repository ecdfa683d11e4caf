package takeoff_test

import (
	"fmt"
	"math"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"

	"github.com/google/go-cmp/cmp"
)

// hardChine is four stations alike: a floor that rises 3 in 4 for 500 mm, and a plumb side of 600 mm above a chine that
// turns by turn degrees from the floor.
func hardChine(degrees float64) *offsets.Document {
	d := &offsets.Document{Notation: notation.Millimetres, Grain: "0", Surface: offsets.Inside}
	sin, cos := math.Sincos(math.Atan2(3, 4) + degrees*math.Pi/180)
	for no := range 4 {
		d.Stations = append(d.Stations, offsets.StationOffsets{No: no, X: fmt.Sprint(1000 * no), Sides: []offsets.SideOffsets{{Side: boat.Both,
			Rabbet:   &offsets.EndOffsets{Height: "100", HalfBreadth: "50"},
			Sheer:    &offsets.EndOffsets{Height: fmt.Sprintf("%.6f", 400+600*sin), HalfBreadth: fmt.Sprintf("%.6f", 450+600*cos)},
			Knuckles: []offsets.KnuckleOffsets{{Name: "chine", Height: "400", HalfBreadth: "450"}},
		}}})
	}
	return d
}

func TestAFrameAcrossAKnuckleIsAFault(t *testing.T) {
	for _, c := range []struct {
		turn  float64
		fault bool
	}{{50, true}, {-20, true}, {2, false}} {
		r, err := takeoff.Run(ship{rows: []frame.Row{plainRow(1, boat.Port)}, lines: hardChine(c.turn)}.basis(t))
		if err != nil {
			t.Fatal(err)
		}
		want := []frame.MeasuredKnuckle{{Name: "chine", AtMM: 500, TurnDeg: c.turn}}
		if d := cmp.Diff(want, r.Frames[0].Knuckles); d != "" {
			t.Error(d)
		}
		if r.Frames[0].GirthMM != 1100 {
			t.Errorf("girth %v", r.Frames[0].GirthMM)
		}
		detail := ""
		for _, f := range r.Bill.Faults {
			if f.Code == "knuckle_in_frame" {
				detail = f.Detail
				if *f.Member != (boat.Member{Kind: boat.Frame, No: 1, Side: boat.Port}) || f.Fix == "" || f.Figure != "frame/1/port/girth" {
					t.Errorf("%+v", f)
				}
			}
		}
		says := ""
		if c.fault {
			says = fmt.Sprintf("Frame 1 port: at the knuckle chine, 500 mm along the girth from the rabbet, the section turns by %.1f degrees; laminates in one length cannot follow a corner.", math.Abs(c.turn))
		}
		if detail != says {
			t.Errorf("turn %v: %q, want %q", c.turn, detail, says)
		}
		panels := 0
		for _, w := range r.Bill.Warnings {
			if w.Code == "panel_taken_straight" {
				panels++
			}
		}
		if panels != 2 {
			t.Errorf("%d panels are told to be taken straight", panels)
		}
	}
}
