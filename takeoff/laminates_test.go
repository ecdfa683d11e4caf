package takeoff_test

import (
	"slices"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/floor"
	"ribband/takeoff/frame"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
)

// laminatesOf sums the laminates of a bill by section: net, gross, and what frame by frame would have been bought.
func laminatesOf(r takeoff.Result) (net, gross, alone map[string]int64, left decimal.Decimal) {
	net, gross, alone = map[string]int64{}, map[string]int64{}, map[string]int64{}
	for _, l := range r.Bill.Lines {
		if l.Driver != string(step.Laminates) || l.Pieces == nil {
			continue
		}
		left = bill.Remaining(l.Losses)
		k := l.Pieces.Thickness.String() + " x " + l.Pieces.Siding.String()
		net[k] += l.Net.Value().IntPart()
		gross[k] += l.Gross.Value().IntPart()
		alone[k] += l.Net.Value().Div(left).Ceil().IntPart()
	}
	return net, gross, alone, left
}

// The laminates of the demo boat are bought for all frames together: what is lost is rounded up once for each section, which is fewer
// than with every frame, and what is ripped is what is bought.
func TestLaminatesShareTheirSpares(t *testing.T) {
	r := runs(t, demoBasis(t, 1))
	net, gross, alone, left := laminatesOf(r)
	bought, before := int64(0), int64(0)
	for k, n := range net {
		if want := decimal.NewFromInt(n).Div(left).Ceil().IntPart(); gross[k] != want {
			t.Errorf("%s: %d bought for %d, %d wanted", k, gross[k], n, want)
		}
		bought, before = bought+gross[k], before+alone[k]
	}
	if len(net) == 0 || before <= bought {
		t.Errorf("%d bought, frame by frame %d", bought, before)
	}
	ripped := int64(0)
	for _, m := range r.Bill.Measures {
		if m.Driver == string(step.Laminates) {
			ripped += m.Quantity.Value().IntPart()
		}
	}
	if ripped != bought {
		t.Errorf("%d ripped, %d bought", ripped, bought)
	}
}

// The order that laminated frames stand in changes no line, no measure and no figure of any frame.
func TestTheOrderOfLaminatedFramesChangesNothing(t *testing.T) {
	b := demoBasis(t, 1)
	forward := runs(t, b)
	slices.Reverse(b.Frames)
	back := runs(t, b)
	if d := cmp.Diff(tellings(t, forward), tellings(t, back)); d != "" {
		t.Error(d)
	}
}

// Laminates of a floor as thick and as wide as those of the frames share their spares with them.
func TestFloorsShareTheSparesOfFrames(t *testing.T) {
	b := floorsOf(t, frame.Choice{Remedy: boat.ReplaceLaminated, Species: "white_oak", Grade: "FAS"}, func(row *floor.Row) {
		row.Stands, row.ThroatRadius, row.Depth, row.Siding = floor.Over, "3-0-0", "0-2-0", "0-1-6"
	})
	for _, f := range b.Frames {
		if f.No == 12 {
			b.Remedies[f.Member()] = frame.Choice{Remedy: boat.ReplaceLaminated, Species: "white_oak", Grade: "FAS"}
		}
	}
	r := runs(t, b)
	if codes := faultCodes(r); len(codes) > 0 {
		t.Fatalf("%+v", r.Bill.Faults)
	}
	members := map[boat.Kind]int{}
	sections := map[string]bool{}
	for _, l := range r.Bill.Lines {
		if l.Driver == string(step.Laminates) && l.Pieces != nil {
			members[l.Member.Kind]++
			sections[l.Pieces.Thickness.String()+" x "+l.Pieces.Siding.String()] = true
		}
	}
	if members[boat.Floor] == 0 || members[boat.Frame] == 0 || len(sections) != 1 {
		t.Fatalf("%v, %v", members, sections)
	}
	net, gross, _, left := laminatesOf(r)
	for k, n := range net {
		if want := decimal.NewFromInt(n).Div(left).Ceil().IntPart(); gross[k] != want {
			t.Errorf("%s: %d bought for %d, %d wanted", k, gross[k], n, want)
		}
	}
}

// The range that is told of holds that of every thickness between the ends: 8 mm waste 3 mm of a blank's depth, 6.5 mm 5, and 11
// mm 2, so the ends alone would leave out what is between them.
func TestTheRangeHoldsTheThicknessesBetweenItsEnds(t *testing.T) {
	s := coarse(0, 2, 4)
	b := s.ripsMany(t)
	all, err := takeoff.Narrow(b)
	if err != nil {
		t.Fatal(err)
	}
	widest := 0.0
	for _, thickness := range []string{"4", "6.5", "8", "11"} { // 4 is as thick as the tight end takes, 11 as the easy end
		only := b
		only.Rules.Rips = []rules.Rip{{Thickness: decimal.RequireFromString(thickness)}}
		one, err := takeoff.Narrow(only)
		if err != nil {
			t.Fatal(err)
		}
		if one.Now.Low < all.Now.Low || one.Now.High > all.Now.High {
			t.Errorf("of %s mm %+v, the range is %+v", thickness, one.Now, all.Now)
		}
		widest = max(widest, one.Now.High)
	}
	if widest != all.Now.High {
		t.Errorf("the range ends at %v, the widest of its thicknesses at %v", all.Now.High, widest)
	}
}
