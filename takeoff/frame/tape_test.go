package frame_test

import (
	"math"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/frame"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// A chord of 24 in with a rise of 3/4 in: 24 x 24 / 6 + 3/8 = 96 3/8 in. COMPUTED, by hand from the geometry of a chord.
func TestAChordAndItsRiseGiveTheRadius(t *testing.T) {
	if r := frame.RadiusOfChord(24*inch, 0.75*inch); math.Abs(r-96.375*inch) > 1e-9 {
		t.Errorf("%v in, 96.375 wanted", r/inch)
	}
	for _, turn := range []float64{0.1, 0.5, 1, 2, math.Pi} { // a circle of 500 mm, by any chord of up to its diameter
		s, c := math.Sincos(turn / 2)
		if r := frame.RadiusOfChord(1000*s, 500*(1-c)); math.Abs(r-500) > 1e-9 {
			t.Errorf("turn %v: radius %v, 500 wanted", turn, r)
		}
	}
}

func row(tape frame.TapeRow) frame.Document {
	return frame.Document{Notation: notation.Inches, MouldingFace: frame.Forward,
		Frames: []frame.Row{{No: 9, Side: boat.Port, X: "100", Siding: "1 3/4", Moulded: "2 7/8", Tape: &tape}}}
}

func TestATapedFrameHasItsShapeAndItsRange(t *testing.T) {
	frames, faults := frame.Read(row(frame.TapeRow{Girth: "72", Chord: "24", Rise: "3/4", Grain: "1/16"}))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	s := frames[0].Tape.Shape(frames[0].Moulded.InexactFloat64())
	if s.RestsOn != boat.OnTape || s.Girth != 72*inch || math.Abs(s.Girth*s.GirthHigh-(72+1./16)*inch) > 1e-6 {
		t.Errorf("%+v", s)
	}
	if b := s.Bilge; math.Abs(b.Radius-96.375*inch) > 1e-6 || b.Low > frame.ChordHides || b.Low < 0.9*frame.ChordHides || b.High <= 1 || b.High > 1.1 {
		t.Errorf("%+v", b)
	}
	_, table := replace(t, frames[0], s, shopRules(t, "1/8", "1/4"))
	if f, ok := table.Find("frame/9/port/bilge_radius"); !ok || f.Formula != "frame/tape_radius" || f.Value != "2447.925" {
		t.Errorf("%+v", f)
	}
	for _, f := range table.Figures() {
		if err := derivation.Verify(f, table); err != nil {
			t.Error(err)
		}
	}
	// a rise that half its grain takes away is open at its high end
	if low, high := frame.TapeRange(600, 1, 3); !math.IsInf(high, 1) || !(low > 0) {
		t.Errorf("from %v to %v", low, high)
	}
}

func TestFaultyTapesAreNamed(t *testing.T) {
	for name, c := range map[string]struct {
		tape          frame.TapeRow
		pointer, says string
	}{
		"no girth":        {frame.TapeRow{Chord: "24", Rise: "3/4"}, "/girth", ""},
		"no chord":        {frame.TapeRow{Girth: "72", Rise: "3/4"}, "/chord", ""},
		"no rise":         {frame.TapeRow{Girth: "72", Chord: "24"}, "/rise", ""},
		"rise of 0":       {frame.TapeRow{Girth: "72", Chord: "24", Rise: "0"}, "/rise", "frame 9 port: the rise over the chord is 0 mm"},
		"below 0":         {frame.TapeRow{Girth: "72", Chord: "24", Rise: "-1"}, "/rise", "frame 9 port"},
		"high rise":       {frame.TapeRow{Girth: "72", Chord: "24", Rise: "12 1/2"}, "/rise", "half the chord 304.8 mm"},
		"short girth":     {frame.TapeRow{Girth: "20", Chord: "24", Rise: "3/4"}, "/girth", "frame 9 port: the girth, 508 mm, is shorter"},
		"metres":          {frame.TapeRow{Girth: "720000", Chord: "24", Rise: "3/4"}, "/girth", ""},
		"grain":           {frame.TapeRow{Girth: "72", Chord: "24", Rise: "3/4", Grain: "3"}, "/grain", "76.2 mm"},
		"depth alone":     {frame.TapeRow{Girth: "72", Chord: "24", Rise: "3/4", Depth: "15"}, "/heel_to_head", "straight distance"},
		"out of reach":    {frame.TapeRow{Girth: "72", Chord: "24", Rise: "3/4", HeelToHead: "80"}, "/heel_to_head", "cannot reach"},
		"too deep":        {frame.TapeRow{Girth: "72", Chord: "24", Rise: "3/4", HeelToHead: "60", Depth: "30"}, "/heel_to_head", "cannot reach"},
		"not in notation": {frame.TapeRow{Girth: "6-0-0", Chord: "24", Rise: "3/4"}, "/girth", ""},
	} {
		t.Run(name, func(t *testing.T) {
			_, faults := frame.Read(row(c.tape))
			if len(faults) != 1 || faults[0].Pointer != "/frames/0/tape"+c.pointer || !strings.Contains(faults[0].Detail, c.says) || faults[0].Fix == "" {
				t.Errorf("%v, at %s wanted", faults, c.pointer)
			}
		})
	}
	d := row(frame.TapeRow{Girth: "72", Chord: "24", Rise: "3/4"})
	d.Grain = "-1"
	_, faults := frame.Read(d)
	faultsAt(t, faults, "/grain")
}

func TestARowMayLeaveTheRunsMeasuresOut(t *testing.T) {
	d := frame.Document{Notation: notation.Millimetres, MouldingFace: frame.Forward, Grain: "2",
		Spacing: &frame.Spacing{FirstNo: 1, Count: 3, FirstX: "100", Spacing: "300", Siding: "45", Moulded: "60"},
		Frames:  []frame.Row{{No: 2, Side: boat.Starboard, Moulded: "70", Tape: &frame.TapeRow{Girth: "1800", Chord: "600", Rise: "60"}}}}
	frames, faults := frame.Read(d)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if f := frames[3]; f.X.String() != "400" || f.Siding.String() != "45" || f.Moulded.String() != "70" || f.Tape == nil || f.Tape.Grain.String() != "2" {
		t.Errorf("%+v", f)
	}
	if frames[2].Tape != nil {
		t.Error("the other side is taped too")
	}
	d.Frames[0].No = 4 // not of the run
	_, faults = frame.Read(d)
	faultsAt(t, faults, "/frames/0/x", "/frames/0/siding")
}

// The rectangle stated for a taped frame holds the frame, faying face to inner face, of every section of the families;
// the closer the more was taped.
func TestTheStockOfATapedFrameSuffices(t *testing.T) {
	const moulded, inset = 73.0, 1e-6
	d := dice(7)
	for _, f := range families {
		for range 40 {
			s := f.draw(&d)
			n := len(s.y) - 1
			dy, dz := s.y[n]-s.y[0], s.z[n]-s.z[0]
			across := math.Hypot(dy, dz)
			along := func(y, z float64) float64 { return ((y-s.y[0])*dy + (z-s.z[0])*dz) / across }
			off := func(y, z float64) float64 { return ((y-s.y[0])*dz - (z-s.z[0])*dy) / across }
			var box, face [4]float64
			see := func(b *[4]float64, y, z float64) {
				a, o := along(y, z), off(y, z)
				*b = [4]float64{min(b[0], a), max(b[1], a), min(b[2], o), max(b[3], o)}
			}
			girth := 0.0
			for i := range s.y {
				j, k := max(0, i-1), min(n, i+1)
				ty, tz := s.y[k]-s.y[j], s.z[k]-s.z[j]
				v := math.Hypot(ty, tz)
				see(&face, s.y[i], s.z[i])
				see(&box, s.y[i], s.z[i])
				see(&box, s.y[i]-moulded*tz/v, s.z[i]+moulded*ty/v)
				if i > 0 {
					girth += math.Hypot(s.y[i]-s.y[i-1], s.z[i]-s.z[i-1])
				}
			}
			area := (box[1] - box[0]) * (box[3] - box[2])
			tape := frame.Tape{Girth: decOf(girth + inset), Chord: decOf(500), Rise: decOf(50)}
			wide := tape.Shape(moulded).Enclosing
			tape.HeelToHead = decOf(across)
			closer := tape.Shape(moulded).Enclosing
			tape.Depth = decOf(face[3] - face[2])
			closest := tape.Shape(moulded).Enclosing
			if area > wide || area > closer || area > closest {
				t.Fatalf("%s: %.0f mm2 do not fit into %.0f, %.0f or %.0f", f.name, area, wide, closer, closest)
			}
			if tape.Depth.InexactFloat64() > 1 && closest > closer {
				t.Fatalf("%s: %.0f mm2 with the depth, %.0f without", f.name, closest, closer)
			}
		}
	}
}

func TestTargetsAreRead(t *testing.T) {
	read := func(rows ...frame.Row) ([]frame.Frame, int) {
		for i := range rows {
			rows[i].No, rows[i].X, rows[i].Siding, rows[i].Moulded = 9, "100", "2", "3"
		}
		frames, faults := frame.Read(frame.Document{Notation: notation.Inches, MouldingFace: frame.Forward, Frames: rows})
		return frames, len(faults)
	}
	frames, _ := read(frame.Row{Side: boat.Both, Target: frame.BetterSideMirrored, BetterSide: boat.Starboard})
	if frames[0].Wanted() != frame.BetterSideMirrored || frames[0].BetterSide != boat.Starboard || frames[1].Wanted() != frame.AsFound {
		t.Errorf("%+v", frames)
	}
	frames, _ = read(frame.Row{Side: boat.Starboard, Target: frame.BetterSideMirrored})
	if frames[0].BetterSide != boat.Port || frames[0].Wanted() != frame.BetterSideMirrored {
		t.Errorf("%+v", frames)
	}
	for name, r := range map[string]frame.Row{
		"unknown":      {Side: boat.Port, Target: "straightened"},
		"none named":   {Side: boat.Both, Target: frame.BetterSideMirrored},
		"no side":      {Side: boat.Port, Target: frame.BetterSideMirrored, BetterSide: boat.Both},
		"not mirrored": {Side: boat.Port, Target: frame.Faired, BetterSide: boat.Port},
		"as found":     {Side: boat.Port, BetterSide: boat.Port},
	} {
		if _, n := read(r); n != 1 {
			t.Errorf("%s: %d faults, 1 wanted", name, n)
		}
	}
}

func decOf(x float64) decimal.Decimal { return decimal.NewFromFloat(x) }
