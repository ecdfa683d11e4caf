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
	for want, o := range map[string]fairness.Offset{
		"station 4 both sides, height of the sheer":              r.Offsets[12],
		"station 4 starboard, half-breadth of the knuckle chine": {Station: 4, Side: "starboard", Line: "knuckle_half_breadth", At: "chine"},
		"station 4 port, diagonal A":                             {Station: 4, Side: "port", Line: "diagonal", At: "A"},
	} {
		if got := takeoff.Where(o); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
