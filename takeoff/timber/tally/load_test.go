package tally_test

import (
	"testing"

	"ribband/takeoff/timber"
	"ribband/takeoff/timber/tally"
)

// Two woods in one order: each is weighed alone, a wood without a weight is named, and a baulk is told to be heavy.
// 2 x 0.05 x 0.2 x 3 m3 at 537.6 kg/m3 is 32.3 kg (computed).
func TestLoads(t *testing.T) {
	woods := yard(t).Species
	woods.Species = append(woods.Species, timber.Species{Code: "bog_oak", Name: "Bog oak"})
	lot := func(species string, n int64, thick, wide, long string) tally.Lot {
		return tally.Lot{Species: species, Count: n, Thickness: d(thick), Width: d(wide), Length: d(long)}
	}
	loads, unknown, err := tally.Loads([]tally.Lot{lot("douglas_fir", 2, "50", "200", "3000"), lot("white_oak", 1, "150", "300", "4000"), lot("bog_oak", 1, "50", "50", "50"), lot("douglas_fir", 1, "50", "100", "3000")}, woods, d("12"))
	if err != nil || len(loads) != 2 || len(unknown) != 1 || unknown[0] != "bog_oak" {
		t.Fatalf("%+v %v %v", loads, unknown, err)
	}
	fir, oak := loads[0], loads[1]
	if fir.Boards != 3 || fir.Heavy != "" {
		t.Errorf("%+v", fir)
	}
	same(t, "fir", fir.Kg, "40.3") // 0.075 m3
	same(t, "the heaviest of fir", fir.HeaviestKg, "16.1")
	same(t, "oak", oak.Kg, "137.1") // 0.18 m3 at 761.6
	if oak.Heavy == "" {
		t.Error("a baulk of 137 kg is not told to be heavy")
	}
	if none, _, err := tally.Loads(nil, woods, d("12")); err != nil || none == nil || len(none) != 0 {
		t.Errorf("%v %v", none, err)
	}
}
