package hull_test

import (
	"testing"

	"ribband/takeoff/hull/fairness"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
)

// The computed hull is fair, with her diagonal and without, written to eighths or to a micrometre: nothing stands out of line.
func TestTheComputedHullIsFair(t *testing.T) {
	for _, c := range []struct{ exactly, diagonal bool }{{true, false}, {true, true}, {false, false}, {false, true}} {
		_, o, faults := offsets.ReadCSV(r1(t, c.exactly, c.diagonal), r1As(c.exactly))
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		worse, _, _ := hulltest.Fit(t, o).ReadWorse()
		r := fairness.Judge(o, worse)
		if told := r.Beyond(); len(told) > 0 || len(r.Offsets) < 90 {
			t.Errorf("%+v: %d judged, told %+v", c, len(r.Offsets), told)
		}
	}
}
