package finding_test

import (
	"slices"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/finding"
	"ribband/takeoff/notation"
)

// A finding of a floor is of the whole of it, and a floor has no side.
func TestFindingsOfFloors(t *testing.T) {
	floor := func(no int) boat.Member { return boat.Member{Kind: boat.Floor, No: no} }
	d := finding.Document{Notation: notation.Inches, Findings: []finding.Row{
		{Member: floor(3), ThroughNo: 5, State: finding.Decayed}, {Member: floor(6), State: finding.Sound}, {Member: boat.Member{Kind: boat.Frame, No: 3, Side: boat.Port}, State: finding.Sound}}}
	s, faults := finding.Read(d)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	for no, want := range map[int]finding.State{2: finding.Unknown, 3: finding.Decayed, 4: finding.Decayed, 5: finding.Decayed, 6: finding.Sound, 7: finding.Unknown} {
		if got := s.Of(floor(no)); got != want {
			t.Errorf("floor %d is %s, %s wanted", no, got, want)
		}
	}
	for name, c := range map[string]struct {
		row  finding.Row
		want []string
	}{
		"a side":      {finding.Row{Member: boat.Member{Kind: boat.Floor, No: 1, Side: boat.Port}, State: finding.Sound}, []string{"/findings/3/member/side"}},
		"a stretch":   {finding.Row{Member: floor(1), State: finding.Sound, From: "3"}, []string{"/findings/3"}},
		"told twice":  {finding.Row{Member: floor(4), State: finding.Sound}, []string{"/findings/3"}},
		"no state":    {finding.Row{Member: floor(1)}, []string{"/findings/3/state"}},
		"a run back":  {finding.Row{Member: floor(9), ThroughNo: 8, State: finding.Sound}, []string{"/findings/3/through_no"}},
		"no frame":    {finding.Row{Member: boat.Member{Kind: "plank", No: 1}, State: finding.Sound}, []string{"/findings/3/member/kind", "/findings/3/member/side"}},
		"frame alone": {finding.Row{Member: boat.Member{Kind: boat.Frame, No: 9}, State: finding.Sound}, []string{"/findings/3/member/side"}},
	} {
		bad := d
		bad.Findings = append(slices.Clone(d.Findings), c.row)
		_, faults := finding.Read(bad)
		var got []string
		for _, f := range faults {
			got = append(got, f.Pointer)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, %v wanted", name, got, c.want)
		}
	}
}
