package takeoff_test

import (
	"strings"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/hull/fairness"
)

// Offsets out of line are warned of in words, ten of them one by one, and the others not at all.
func TestOffsetsOutOfLineAreWarnedOf(t *testing.T) {
	r := &fairness.Report{}
	for range 12 {
		r.Offsets = append(r.Offsets, fairness.Offset{Station: 3, Side: "port", Cell: "wl:1-0-0", Line: "wl", At: "1-0-0", WrittenText: "2-4-3", FairText: "2-3-6", Beyond: true})
	}
	r.Offsets = append(r.Offsets, fairness.Offset{Station: 4, Side: "both", Line: "sheer_height"})
	out, err := takeoff.Run(takeoff.Basis{Fairness: r})
	if err != nil {
		t.Fatal(err)
	}
	w := out.Bill.Warnings
	if len(w) != 11 || w[0].Code != "offset_out_of_line" || w[0].Detail != "Station 3 port, waterline 1-0-0: written 2-4-3; 2-3-6 would be fair." ||
		!strings.HasPrefix(w[0].Fix, "Check it against the boat") || !strings.HasPrefix(w[10].Detail, "2 more") {
		t.Errorf("%+v", w)
	}
	if got := takeoff.Where(r.Offsets[12]); got != "station 4 both sides, height of the sheer" {
		t.Error(got)
	}
}
