package takeoff_test

import (
	"errors"
	"strings"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/finding"
	"ribband/takeoff/notation"
)

func findings(t *testing.T, rows ...finding.Row) finding.Set {
	t.Helper()
	set, faults := finding.Read(finding.Document{Notation: notation.FeetInchesEighths, Findings: rows})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return set
}

func warned(r takeoff.Result, code string) (out []bill.Warning) {
	for _, w := range r.Bill.Warnings {
		if w.Code == code {
			out = append(out, w)
		}
	}
	return out
}

// What is left in the boat is told: damage found, and frames that nobody sounded all along. Frames that are replaced need
// no finding.
func TestWhatIsLeftInTheBoatIsTold(t *testing.T) {
	b := demoBasis(t, 0) // 12 to 21 are replaced
	all := boat.Member{Kind: boat.Frame, No: 1, Side: boat.Both}
	one := func(no int, side boat.Side) boat.Member { return boat.Member{Kind: boat.Frame, No: no, Side: side} }
	for _, c := range []struct {
		name              string
		rows              []finding.Row
		damage, unsounded string
	}{
		{"nobody looked", nil, "", "1 port, 1 starboard, 2 port, 2 starboard, 3 port, 3 starboard, 4 port, 4 starboard, 5 port, 5 starboard, 6 port, 6 starboard, and 36 more"},
		{"all sound", []finding.Row{{Member: all, ThroughNo: 34, State: finding.Sound}}, "", ""},
		{"only what is replaced is bad", []finding.Row{{Member: all, ThroughNo: 34, State: finding.Sound}, {Member: one(12, boat.Port), State: finding.Decayed, To: "1-0-0"}}, "", ""},
		{"a part unseen", []finding.Row{{Member: all, ThroughNo: 34, State: finding.Sound}, {Member: one(7, boat.Port), State: finding.Unknown, From: "1-0-0", To: "2-0-0"}}, "", "7 port"},
		{"only a part seen", []finding.Row{{Member: all, ThroughNo: 6, State: finding.Sound}, {Member: one(7, boat.Both), ThroughNo: 33, State: finding.Sound}, {Member: one(34, boat.Both), State: finding.Sound, From: "1-0-0"}}, "", "34 port, 34 starboard"},
		{"broken and left", []finding.Row{{Member: all, ThroughNo: 34, State: finding.Sound}, {Member: one(9, boat.Starboard), State: finding.Broken, From: "1-2-3", To: "1-8-0"}},
			"Frame 9 starboard is left as it is, and was found broken from 1-2-3 to 1-8-0 along its girth.", ""},
		{"decayed to the head", []finding.Row{{Member: all, ThroughNo: 34, State: finding.Sound}, {Member: one(9, boat.Port), State: finding.Decayed, From: "2-0-0"}},
			"Frame 9 port is left as it is, and was found decayed from 2-0-0 along its girth to the head.", ""},
		{"decayed at the heel", []finding.Row{{Member: all, ThroughNo: 34, State: finding.Sound}, {Member: one(9, boat.Port), State: finding.Decayed, To: "0-6-0"}},
			"Frame 9 port is left as it is, and was found decayed from the heel to 0-6-0 along its girth.", ""},
		{"decayed all along", []finding.Row{{Member: one(2, boat.Both), ThroughNo: 34, State: finding.Sound}, {Member: one(1, boat.Both), State: finding.Decayed}},
			"Frame 1 port is left as it is, and was found decayed from heel to head.", ""},
	} {
		b.Findings = findings(t, c.rows...)
		r, err := takeoff.Run(b)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		damage, unsounded := warned(r, "damage_left"), warned(r, "frames_not_sounded")
		if c.damage == "" && len(damage) > 0 || c.damage != "" && (len(damage) == 0 || damage[0].Detail != c.damage || damage[0].Member == nil) {
			t.Errorf("%s: %+v", c.name, damage)
		}
		if c.unsounded == "" && len(unsounded) > 0 || c.unsounded != "" && (len(unsounded) != 1 || !strings.HasSuffix(unsounded[0].Detail, ": "+c.unsounded+".")) {
			t.Errorf("%s: %+v", c.name, unsounded)
		}
	}
}

// Findings of frames that the boat does not have are told; a run that goes on past her last frame is not.
func TestFindingsOfNoFrame(t *testing.T) {
	b := demoBasis(t, 0)
	b.Findings = findings(t,
		finding.Row{Member: boat.Member{Kind: boat.Frame, No: 1, Side: boat.Both}, ThroughNo: 40, State: finding.Sound},
		finding.Row{Member: boat.Member{Kind: boat.Frame, No: 36, Side: boat.Both}, State: finding.Broken, To: "1-0-0"})
	r, err := takeoff.Run(b)
	if err != nil {
		t.Fatal(err)
	}
	if w := warned(r, "finding_of_no_frame"); len(w) != 1 || w[0].Detail != "Finding 2 is of frame 36 port, which is not among the frames." {
		t.Errorf("%+v", w)
	}
}

// A finding off the head of its frame refuses the takeoff, and names the finding.
func TestAFindingOffTheHead(t *testing.T) {
	b := demoBasis(t, 0)
	b.Findings = findings(t,
		finding.Row{Member: boat.Member{Kind: boat.Frame, No: 1, Side: boat.Both}, ThroughNo: 34, State: finding.Sound},
		finding.Row{Member: boat.Member{Kind: boat.Frame, No: 30, Side: boat.Port}, State: finding.Broken, From: "1-0-0", To: "40-0-0"})
	var beyond *finding.BeyondError
	if _, err := takeoff.Run(b); !errors.As(err, &beyond) || beyond.Row != 1 || beyond.Member.No != 30 {
		t.Errorf("%v", err)
	}
}
