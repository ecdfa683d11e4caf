package sawing_test

import (
	"testing"

	"ribband/pricing/internal/exact"
	"ribband/pricing/sawing"
	"ribband/takeoff/bill"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
)

var dec = exact.Dec

// Hand-worked, mm. Strips of 6 x 40 planed 2 out of a board of 50 x 200, kerf 3: on edge (200 + 3) / (8 + 3) = 18. Lying flat they would be
// planed from 50 down to 8, more than half, and are not. A bandsaw of kerf 2 whose layers lose 1: (50 + 2) / (7 + 2) = 5 layers, (200 + 3) /
// (42 + 3) = 4 across, 20. Its five layers take 5 x 7 + 4 x 2 = 43 of 50, so that the fifth is cut off as well: 5 cuts; a guide of
// 150 does not take 200, and each of the four strips across is cut five times.
func TestTheWayThatGivesMostStrips(t *testing.T) {
	p := bill.Pieces{Thickness: dec("6"), Siding: dec("40"), Planing: dec("2")}
	saw := &sawing.Resaw{Kerf: dec("2"), Planing: dec("1")}
	low := *saw
	low.Height = dec("150")
	for name, x := range map[string]struct {
		flat            bool
		saw             *sawing.Resaw
		want            sawing.Way
		thick, wide, mm string
	}{
		"as it comes": {true, nil, sawing.Way{Layers: 1, Across: 18, LayerMM: dec("50"), AcrossMM: dec("8")}, "8", "50", "0"},
		"resawn":      {true, saw, sawing.Way{Flat: true, Layers: 5, Across: 4, LayerMM: dec("7"), AcrossMM: dec("42")}, "7", "42", "15000"},
		"too wide":    {true, &low, sawing.Way{Flat: true, Layers: 5, Across: 4, LayerMM: dec("7"), AcrossMM: dec("42")}, "7", "42", "60000"},
		"on edge":     {false, saw, sawing.Way{Layers: 1, Across: 18, LayerMM: dec("50"), AcrossMM: dec("8")}, "8", "50", "0"},
	} {
		got := sawing.Best(dec("50"), dec("200"), p, x.flat, dec("3"), x.saw)
		if d := cmp.Diff(x.want, got); d != "" || got.Strips() != x.want.Layers*x.want.Across {
			t.Errorf("%s: %s", name, d)
		}
		if thick, wide := got.Strip(); !thick.Equal(dec(x.thick)) || !wide.Equal(dec(x.wide)) {
			t.Errorf("%s: strips of %s x %s", name, thick, wide)
		}
		if mm := got.Sawn(dec("50"), dec("200"), dec("3000"), x.saw.OrNone()); !mm.Equal(dec(x.mm)) {
			t.Errorf("%s: the bandsaw runs %s", name, mm)
		}
	}
}

// A board too thin or too narrow gives none, and strips side by side take their kerfs.
func TestBoardsThatGiveNothing(t *testing.T) {
	p := bill.Pieces{Thickness: dec("6"), Siding: dec("40"), Planing: dec("2")}
	for _, size := range [][2]string{{"41.9", "200"}, {"50", "7.9"}, {"0", "0"}} {
		if w := sawing.Best(dec(size[0]), dec(size[1]), p, false, dec("3"), nil); w.Strips() != 0 {
			t.Errorf("%v: %+v", size, w)
		}
	}
	w := sawing.Way{Layers: 1, Across: 4, LayerMM: dec("50"), AcrossMM: dec("8")}
	if got := w.Used(3, decimal.NewFromInt(3)); !got.Equal(dec("33")) {
		t.Error(got)
	}
}
