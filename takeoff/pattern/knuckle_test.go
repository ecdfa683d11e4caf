package pattern_test

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
	"ribband/takeoff/pattern"
)

const chined = "frame_no,side,n,y,z,knuckle\n1,port,1,50,100,\n1,port,2,450,400,chine\n1,port,3,450,1000,\n"

var inMM = pattern.Written{Notation: notation.Millimetres, Grain: "0", Surface: "inside"}

// A pattern with a knuckle is straight on either side of it, with as few points as its corners; it is written as it is read.
func TestPatternAcrossAKnuckle(t *testing.T) {
	d, set, faults := pattern.ReadCSV([]byte(chined), inMM)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	var out bytes.Buffer
	if err := pattern.WriteCSV(&out, *d); err != nil || out.String() != chined {
		t.Errorf("%q, %v", out.String(), err)
	}
	fitted, faults := set.Fit()
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	s, ok := fitted.Section(boat.Member{Kind: boat.Frame, No: 1, Side: boat.Port}, 700)
	if !ok || math.Abs(s.Girth.MM-1100) > 1e-6 || len(s.Knuckles()) != 1 {
		t.Fatalf("%+v", s)
	}
	if k := s.Knuckles()[0]; k.Name != "chine" || math.Abs(k.S-500) > 1e-6 || math.Abs(k.Turn-(math.Pi/2-math.Atan2(3, 4))) > 1e-6 {
		t.Errorf("%+v", k)
	}
}

func TestKnucklesOfPatternsAtFault(t *testing.T) {
	for name, c := range map[string]struct{ table, pointer, detail string }{
		"end":   {strings.Replace(chined, "1,port,1,50,100,", "1,port,1,50,100,heel", 1), "/patterns/0/points/0/knuckle", "Frame 1 port, point 1: an end is no knuckle"},
		"long":  {strings.Replace(chined, "chine", strings.Repeat("c", 41), 1), "/patterns/0/points/1/knuckle", "Frame 1 port, point 2: the knuckle's name has 41 bytes"},
		"twice": {strings.Replace(chined, "1,port,3,450,1000,", "1,port,3,450,800,chine\n1,port,4,460,1000,", 1), "/patterns/0/points/2/knuckle", "Frame 1 port, point 3: point 2 is the knuckle of that name already"},
	} {
		_, _, faults := pattern.ReadCSV([]byte(c.table), inMM)
		if len(faults) != 1 || faults[0].Pointer != c.pointer || faults[0].Detail != c.detail || faults[0].Row == 0 || faults[0].Column != 6 {
			t.Errorf("%s: %+v", name, faults)
		}
	}
	// Without the name three points are too few.
	if _, _, faults := pattern.ReadCSV([]byte(strings.Replace(chined, "chine", "", 1)), inMM); len(faults) == 0 {
		t.Error("three points without a knuckle are taken")
	}
}
