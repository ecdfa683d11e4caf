package takeoff_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/finding"
)

// Twelve frames that are left and bad are told one by one; of more, one warning names every one.
func TestManyBadFramesAreToldTogether(t *testing.T) {
	for _, last := range []int{6, 7} {
		b := demoBasis(t, 0)
		sound, bad := boat.Member{Kind: boat.Frame, No: 1, Side: boat.Both}, boat.Member{Kind: boat.Frame, No: 1, Side: boat.Both}
		b.Findings = findings(t, finding.Row{Member: sound, ThroughNo: 34, State: finding.Sound}, finding.Row{Member: bad, ThroughNo: last, State: finding.Decayed, To: "0-6-0"})
		told := warned(runs(t, b), "damage_left")
		if last == 6 {
			if len(told) != 12 || slices.ContainsFunc(told, func(w bill.Warning) bool { return w.Member == nil }) {
				t.Errorf("%+v", told)
			}
			continue
		}
		if len(told) != 1 || told[0].Member != nil || !strings.HasPrefix(told[0].Detail, "14 frames are left") {
			t.Fatalf("%+v", told)
		}
		for no := 1; no <= last; no++ {
			if want := fmt.Sprintf("%d port, %d starboard", no, no); !strings.Contains(told[0].Detail, want) {
				t.Errorf("%s is not in %q", want, told[0].Detail)
			}
		}
	}
}

// A new plank tells the bad frames it is fastened to: bad where the plank lies on them, on its side, and left so.
func TestAPlankHungOnDamage(t *testing.T) {
	b := planked(t, twelve(), ofFrames(5, boat.Port, 10, 12))
	b.Findings = findings(t)
	if told := warned(runs(t, b), "plank_hung_on_damage"); len(told) != 0 {
		t.Errorf("nothing was found: %+v", told)
	}
	at := func(no int, side boat.Side) boat.Member { return boat.Member{Kind: boat.Frame, No: no, Side: side} }
	b.Findings = findings(t,
		finding.Row{Member: at(10, boat.Port), State: finding.Decayed},                // all of it
		finding.Row{Member: at(11, boat.Port), State: finding.Broken, To: "0-6-0"},    // at the heel, a strake's width up
		finding.Row{Member: at(12, boat.Starboard), State: finding.Broken},            // the other side
		finding.Row{Member: at(12, boat.Port), State: finding.Broken, From: "5-0-0"},  // above it
		finding.Row{Member: at(20, boat.Port), ThroughNo: 22, State: finding.Decayed}, // abaft it
	)
	told := warned(runs(t, b), "plank_hung_on_damage")
	if len(told) != 1 || told[0].Member == nil || told[0].Member.No != 5 || !strings.Contains(told[0].Detail, "fastened to frame 10 where") {
		t.Fatalf("%+v", told)
	}
	b.Findings = findings(t, finding.Row{Member: at(9, boat.Port), ThroughNo: 13, State: finding.Decayed})
	if told = warned(runs(t, b), "plank_hung_on_damage"); len(told) != 1 || !strings.Contains(told[0].Detail, "fastened to frames ") || !strings.Contains(told[0].Detail, "10, 11, 12") {
		t.Errorf("%+v", told)
	}
}
