package frame_test

import (
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
)

func TestHowFramesStand(t *testing.T) {
	frames, faults := frame.Read(frame.Document{
		Notation: "feet_inches_eighths", MouldingFace: frame.Forward,
		Spacing: &frame.Spacing{FirstNo: 1, Count: 2, FirstX: "1-0-0", Spacing: "1-0-0", Siding: "0-1-6", Moulded: "0-2-7"},
		Frames:  []frame.Row{{No: 2, Side: boat.Both, MouldingFace: frame.Aft, CantDeg: "-22.5", Lean: "0-6-0"}},
	})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if f := frames[0]; !f.Square() || f.Plane() != (hull.Plane{X: 304.8}) || f.Body() != hull.Abaft {
		t.Errorf("%+v stands in %+v", f, f.Plane())
	}
	for _, f := range frames[2:] {
		if p := f.Plane(); f.Square() || math.Abs(p.Cant+math.Pi/8) > 1e-15 || p.Lean != 152.4 || p.X != 609.6 || f.Body() != hull.Before {
			t.Errorf("%s stands in %+v", f.Member(), p)
		}
	}
}

func TestFaultsOfHowFramesStand(t *testing.T) {
	row := func(cant, lean string) frame.Row {
		return frame.Row{No: 1, Side: boat.Both, X: "100", Siding: "40", Moulded: "60", CantDeg: cant, Lean: lean}
	}
	taped, lines := row("10", "5"), row("10", "5")
	taped.Tape = &frame.TapeRow{Girth: "1000", Chord: "300", Rise: "20"}
	lines.Tape, lines.Target = taped.Tape, frame.FromLines
	flat := func(run string, and func(*frame.Row)) frame.Row {
		r := row("", "")
		if r.Run = run; and != nil {
			and(&r)
		}
		return r
	}
	lying, mirrored := flat("50", nil), row("", "")
	lying.Side, mirrored.Side, mirrored.Target = boat.Port, boat.Starboard, frame.BetterSideMirrored
	one, other := row("10", ""), row("-10", "")
	one.Side, other.Side, other.Target = boat.Port, boat.Starboard, frame.BetterSideMirrored
	for name, c := range map[string]struct {
		rows     []frame.Row
		pointers []string
	}{
		"no numbers":           {[]frame.Row{row("1e1", "far")}, []string{"/frames/0/cant_deg", "/frames/0/lean"}},
		"too much":             {[]frame.Row{row("60.001", "-30001")}, []string{"/frames/0/cant_deg", "/frames/0/lean"}},
		"the most":             {[]frame.Row{row("-60", "30000")}, nil},
		"taped":                {[]frame.Row{taped}, []string{"/frames/0/cant_deg", "/frames/0/lean"}},
		"taped, from lines":    {[]frame.Row{lines}, nil},
		"flat, and in a plane": {[]frame.Row{flat("50", func(r *frame.Row) { r.Lean = "5" })}, []string{"/frames/0/run"}},
		"flat, no length":      {[]frame.Row{flat("far", nil)}, []string{"/frames/0/run"}},
		"flat, taped":          {[]frame.Row{flat("50", func(r *frame.Row) { r.Tape = taped.Tape })}, []string{"/frames/0/run"}},
		"flat, faired":         {[]frame.Row{flat("0", func(r *frame.Row) { r.Target = frame.Faired })}, []string{"/frames/0/run"}},
		"flat, too far":        {[]frame.Row{flat("-30001", nil)}, []string{"/frames/0/run"}},
		"flat":                 {[]frame.Row{flat("-30000", func(r *frame.Row) { r.Target = frame.FromLines })}, nil},
		"mirrored from flat":   {[]frame.Row{lying, mirrored}, []string{"/frames"}},
		"mirrored, not alike":  {[]frame.Row{one, other}, []string{"/frames"}},
		"mirrored, none there": {[]frame.Row{other}, nil},
	} {
		t.Run(name, func(t *testing.T) {
			_, faults := frame.Read(frame.Document{Notation: "mm", MouldingFace: frame.Aft, Frames: c.rows})
			faultsAt(t, faults, c.pointers...)
		})
	}
}
