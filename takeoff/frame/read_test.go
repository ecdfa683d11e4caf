package frame_test

import (
	"testing"

	"ribband/seed"
	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/frame"
	"ribband/takeoff/notation"
)

func TestARunOfFramesAndOneThatDiffers(t *testing.T) {
	frames, faults := frame.Read(frame.Document{
		Notation: notation.FeetInchesEighths, MouldingFace: frame.Forward,
		Spacing: &frame.Spacing{FirstNo: 1, Count: 3, FirstX: "1-0-0", Spacing: "0-10-0", Siding: "0-1-6", Moulded: "0-2-7"},
		Frames:  []frame.Row{{No: 2, Side: boat.Starboard, X: "1-9-4", Siding: "0-2-0", Moulded: "0-3-0", MouldingFace: frame.Aft}},
	})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if len(frames) != 6 {
		t.Fatalf("%d frames and sides, 6 wanted", len(frames))
	}
	for i, want := range []struct {
		no   int
		side boat.Side
		x    string
	}{{1, boat.Port, "304.8"}, {1, boat.Starboard, "304.8"}, {2, boat.Port, "558.8"}, {2, boat.Starboard, "546.1"}, {3, boat.Port, "812.8"}, {3, boat.Starboard, "812.8"}} {
		if f := frames[i]; f.No != want.no || f.Side != want.side || f.X.String() != want.x {
			t.Errorf("frame %d: %s at %s, want %d %s at %s", i, f.Member(), f.X, want.no, want.side, want.x)
		}
	}
	if frames[2].MouldingFace != frame.Forward || frames[3].MouldingFace != frame.Aft {
		t.Errorf("moulding faces of frame 2: %s and %s", frames[2].MouldingFace, frames[3].MouldingFace)
	}
	if f := frames[3]; f.Siding.String() != "50.8" || f.Moulded.String() != "76.2" {
		t.Errorf("frame 2 starboard is %s x %s mm", f.Siding, f.Moulded)
	}
}

// faultsAt holds faults to exactly these places, each with what would be right.
func faultsAt(t *testing.T, faults document.Faults, pointers ...string) {
	t.Helper()
	if len(faults) != len(pointers) {
		t.Errorf("%d faults, %d wanted: %v", len(faults), len(pointers), faults)
		return
	}
	for i, f := range faults {
		if f.Pointer != pointers[i] || f.Detail == "" || f.Fix == "" {
			t.Errorf("fault %d: %+v, at %s wanted", i, f, pointers[i])
		}
	}
}

func TestFaultyFramesAreNamed(t *testing.T) {
	row := func(no int, side boat.Side, x, siding, moulded string) frame.Row {
		return frame.Row{No: no, Side: side, X: x, Siding: siding, Moulded: moulded}
	}
	cases := map[string]struct {
		doc      frame.Document
		pointers []string
	}{
		"no notation": {frame.Document{MouldingFace: frame.Aft, Frames: []frame.Row{row(1, "middle", "x", "0", "-5")}}, []string{"/notation", "/frames/0/side"}},
		"nothing":     {frame.Document{Notation: "mm", MouldingFace: frame.Aft}, []string{""}},
		"all wrong at once": {frame.Document{Notation: "mm", MouldingFace: "up", Frames: []frame.Row{
			row(1, "middle", "x", "0", "-5")}}, []string{"/moulding_face", "/frames/0/side", "/frames/0/x", "/frames/0/siding", "/frames/0/moulded"}},
		"twice": {frame.Document{Notation: "mm", MouldingFace: frame.Aft, Frames: []frame.Row{
			row(1, boat.Both, "100", "40", "60"), row(1, boat.Port, "100", "40", "60")}}, []string{"/frames/1"}},
		"out of order": {frame.Document{Notation: "mm", MouldingFace: frame.Aft, Frames: []frame.Row{
			row(1, boat.Port, "900", "40", "60"), row(2, boat.Port, "900", "40", "60")}}, []string{"/frames/1"}},
		"a million": {frame.Document{Notation: "mm", MouldingFace: frame.Aft, Spacing: &frame.Spacing{FirstNo: 1, Count: 1_000_000, FirstX: "x", Spacing: "1", Siding: "1", Moulded: "1"}}, []string{"/spacing/count", "/spacing/first_x"}},
		"a unit slipped": {frame.Document{Notation: "mm", MouldingFace: frame.Aft, Frames: []frame.Row{
			row(1, boat.Port, "100", "900000", "60")}}, []string{"/frames/0/siding"}},
		"planking":    {frame.Document{Notation: "mm", MouldingFace: frame.Aft, Planking: &frame.PlankingDocument{Thickness: "0", Width: "thin"}, Spacing: &frame.Spacing{FirstNo: 1, Count: 2, FirstX: "0", Spacing: "300", Siding: "40", Moulded: "60"}}, []string{"/planking/thickness", "/planking/width"}},
		"no distance": {frame.Document{Notation: "mm", MouldingFace: frame.Aft, Spacing: &frame.Spacing{FirstNo: 1, Count: 2, FirstX: "0", Spacing: "0", Siding: "40", Moulded: "60"}}, []string{"/spacing/spacing"}},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			_, faults := frame.Read(c.doc)
			if name == "no distance" {
				faults = faults[:1] // the frames then stand at one place, which is named too
			}
			faultsAt(t, faults, c.pointers...)
		})
	}
}

func TestRemediesAreReadForRunsAndSides(t *testing.T) {
	d, err := seed.Load()
	if err != nil {
		t.Fatal(err)
	}
	frames, _ := frame.Read(d.Frames)
	got, faults := frame.ReadRemedies(d.Options[0].Remedies, frames, d.Species)
	if len(faults) > 0 || len(got) != 20 {
		t.Fatalf("%d remedies, 20 wanted: %v", len(got), faults)
	}
	if c := got[boat.Member{Kind: boat.Frame, No: 21, Side: boat.Starboard}]; c.Remedy != boat.ReplaceLaminated || c.Species != "white_oak" {
		t.Errorf("frame 21 starboard: %+v", c)
	}
}

func TestFaultyRemediesAreNamed(t *testing.T) {
	d, err := seed.Load()
	if err != nil {
		t.Fatal(err)
	}
	frames, _ := frame.Read(d.Frames)
	at := func(no int, side boat.Side) boat.Member { return boat.Member{Kind: boat.Frame, No: no, Side: side} }
	cases := map[string]struct {
		row      frame.RemedyRow
		pointers []string
	}{
		"kind":         {frame.RemedyRow{Member: boat.Member{Kind: "plank", No: 1, Side: boat.Port}, Remedy: boat.Leave}, []string{"/remedies/0/member/kind"}},
		"side":         {frame.RemedyRow{Member: at(1, "up"), Remedy: boat.Leave}, []string{"/remedies/0/member/side"}},
		"remedy":       {frame.RemedyRow{Member: at(1, boat.Port), Remedy: "pray"}, []string{"/remedies/0/remedy"}},
		"species":      {frame.RemedyRow{Member: at(1, boat.Port), Remedy: boat.ReplaceLaminated, Species: "balsa", Grade: "FAS"}, []string{"/remedies/0/species"}},
		"grade":        {frame.RemedyRow{Member: at(1, boat.Port), Remedy: boat.ReplaceLaminated, Species: "teak"}, []string{"/remedies/0/grade"}},
		"left in teak": {frame.RemedyRow{Member: at(1, boat.Port), Remedy: boat.Leave, Species: "teak"}, []string{"/remedies/0"}},
		"no such":      {frame.RemedyRow{Member: at(35, boat.Port), Remedy: boat.Leave}, []string{"/remedies/0/member"}},
		"backwards":    {frame.RemedyRow{Member: at(9, boat.Port), ThroughNo: 8, Remedy: boat.Leave}, []string{"/remedies/0/through_no"}},
		"far":          {frame.RemedyRow{Member: at(1, boat.Port), ThroughNo: 2_000_000_000, Remedy: boat.Leave}, []string{"/remedies/0/through_no"}},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			_, faults := frame.ReadRemedies(frame.Remedies{Remedies: []frame.RemedyRow{c.row}}, frames, d.Species)
			faultsAt(t, faults, c.pointers...)
		})
	}
	twice := frame.Remedies{Remedies: []frame.RemedyRow{
		{Member: at(1, boat.Both), ThroughNo: 2, Remedy: boat.Leave}, {Member: at(2, boat.Port), Remedy: boat.Leave}}}
	_, faults := frame.ReadRemedies(twice, frames, d.Species)
	faultsAt(t, faults, "/remedies/1/member")
}
