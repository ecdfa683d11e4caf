package frame_test

import (
	"slices"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/timber"
)

// The same rows hold what is done to frames and to floors; each is checked by what its kind can have done.
func TestRemediesOfFloors(t *testing.T) {
	floor := func(no int) boat.Member { return boat.Member{Kind: boat.Floor, No: no} }
	have := []boat.Member{floor(3), floor(4)}
	oak := timber.Catalogue{Species: []timber.Species{{Code: "oak"}}}
	frames := []frame.Frame{{No: 3, Side: boat.Port}}
	read := func(rows ...frame.RemedyRow) (map[boat.Member]frame.Choice, []string) {
		out, faults := frame.ReadRemedies(frame.Remedies{Remedies: rows}, frames, oak, have...)
		var at []string
		for _, f := range faults {
			at = append(at, f.Pointer)
		}
		return out, at
	}
	out, at := read(frame.RemedyRow{Member: floor(3), ThroughNo: 4, Remedy: boat.ReplaceSawn, Species: "oak", Grade: "FAS"},
		frame.RemedyRow{Member: boat.Member{Kind: boat.Frame, No: 3, Side: boat.Port}, Remedy: boat.Leave})
	if len(at) > 0 || len(out) != 3 || out[floor(4)].Remedy != boat.ReplaceSawn {
		t.Fatal(out, at)
	}
	if out, at = read(frame.RemedyRow{Member: floor(3), Remedy: boat.ReplaceStrap, Strap: "bronze"}); len(at) > 0 || out[floor(3)].Strap != "bronze" {
		t.Fatal(out, at)
	}
	for name, c := range map[string]struct {
		row  frame.RemedyRow
		want []string
	}{
		"another floor":      {frame.RemedyRow{Member: floor(5), Remedy: boat.Leave}, []string{"/remedies/0/member"}},
		"a side":             {frame.RemedyRow{Member: boat.Member{Kind: boat.Floor, No: 3, Side: boat.Port}, Remedy: boat.Leave}, []string{"/remedies/0/member/side"}},
		"a sister":           {frame.RemedyRow{Member: floor(3), Remedy: boat.Sister, Species: "oak", Grade: "FAS"}, []string{"/remedies/0/remedy"}},
		"no wood":            {frame.RemedyRow{Member: floor(3), Remedy: boat.ReplaceSawn}, []string{"/remedies/0/species", "/remedies/0/grade"}},
		"a strap of oak":     {frame.RemedyRow{Member: floor(3), Remedy: boat.ReplaceStrap, Strap: "x", Species: "oak"}, []string{"/remedies/0"}},
		"a strap of nothing": {frame.RemedyRow{Member: floor(3), Remedy: boat.ReplaceStrap}, []string{"/remedies/0/strap"}},
		"a strap inside":     {frame.RemedyRow{Member: floor(3), Remedy: boat.ReplaceSawn, Species: "oak", Grade: "FAS", Strap: "x"}, []string{"/remedies/0/strap"}},
		"a run back":         {frame.RemedyRow{Member: floor(3), ThroughNo: 2, Remedy: boat.Leave}, []string{"/remedies/0/through_no"}},
		"a sawn frame":       {frame.RemedyRow{Member: boat.Member{Kind: boat.Frame, No: 3, Side: boat.Port}, Remedy: boat.ReplaceSawn, Species: "oak", Grade: "FAS"}, []string{"/remedies/0/remedy"}},
		"a frame sideless":   {frame.RemedyRow{Member: boat.Member{Kind: boat.Frame, No: 3}, Remedy: boat.Leave}, []string{"/remedies/0/member/side"}},
	} {
		if _, at := read(c.row); !slices.Equal(at, c.want) {
			t.Errorf("%s: %v, %v wanted", name, at, c.want)
		}
	}
}
