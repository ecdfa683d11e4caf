package takeoff_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/fastening"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/plank"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

// blocked is planked in a yard that backs butts by blocks: an inch past either edge, half an inch clear of the frames, 5 screws
// in each end.
func blocked(t *testing.T, side planking.Document, rows ...plank.Row) takeoff.Basis {
	t.Helper()
	b := planked(t, side, rows...)
	d := decimal.RequireFromString
	b.Rules.ButtBlock = &rules.ButtBlock{Species: "white_oak", Grade: "FAS", Laps: d("25.4"), Clear: d("12.7"), Screw: "screw_bronze_20x2_1_2", Plug: "plug", Each: d("5"), Source: "test"}
	return b
}

// ended counts butt blocks, screws and plugs of a bill.
func ended(r takeoff.Result) (blocks, screws, plugs float64) {
	for _, l := range r.Bill.Lines {
		n := l.Net.Value().InexactFloat64()
		switch {
		case l.Material == bill.Timber && l.Driver == string(step.NewButts):
			blocks += n
		case l.Material == bill.Fastenings:
			screws += n
		case l.Material == bill.Plugs:
			plugs += n
		}
	}
	return blocks, screws, plugs
}

// Each butt that a new plank makes has a block: as long as its bay leaves room for, as wide as the plank there and its laps, as thick
// as the planks. At each both planks' ends are fastened.
func TestAButtBlock(t *testing.T) {
	b := blocked(t, twelve(), ofFrames(5, boat.Port, 14, 16))
	r := runs(t, b)
	if blocks, screws, plugs := ended(r); blocks != 2 || screws != 2*2*5 || plugs != screws || len(r.Bill.Faults) > 0 {
		t.Errorf("%v blocks, %v screws, %v plugs, %v", blocks, screws, plugs, r.Bill.Faults)
	}
	n := r.Planks[0]
	if len(n.Blocks) != 2 || n.EndsOnBlocks != 4 || n.HoodEnds != 0 || n.Blocks[0].End != "forward" || n.Blocks[1].Where != n.ToWhere {
		t.Fatalf("%+v", n)
	}
	p, err := planking.Lay(b.Hull, bays(b, boat.Port), b.Planking[boat.Port])
	if err != nil {
		t.Fatal(err)
	}
	s := p.Strakes[4]
	const bay, siding = 298.45, 44.45
	for i, x := range []float64{*n.X0MM, *n.X1MM} {
		block := n.Blocks[i]
		wide, long := decimal.RequireFromString(block.WidthMM).InexactFloat64(), decimal.RequireFromString(block.LengthMM).InexactFloat64()
		if want := s.Width(s.Place(x)).High + 2*25.4; wide < want-1e-6 || wide > want+.1+1e-6 {
			t.Errorf("%v mm wide, %v wanted", wide, want)
		}
		// along the plank a bay is no shorter than along the boat, and amidships hardly longer
		if least := bay - siding - 25.4; long < math.Floor(least) || long > least+4 {
			t.Errorf("%v mm long, %v wanted", long, least)
		}
		if block.ThicknessMM != "31.75" {
			t.Error(block.ThicknessMM)
		}
	}
	table := derivation.Index(r.Figures)
	for _, f := range r.Figures {
		if err := derivation.Verify(f, table); err != nil {
			t.Error(err)
		}
	}
	without := runs(t, planked(t, twelve(), ofFrames(5, boat.Port, 14, 16)))
	if !slices.Contains(codesOf(without), "butt_blocks_not_counted") || slices.Contains(codesOf(r), "butt_blocks_not_counted") {
		t.Errorf("%v, with blocks %v", codesOf(without), codesOf(r))
	}
	if w, before := r.Weight.Value(), without.Weight.Value(); !w.GreaterThan(before) {
		t.Errorf("the blocks weigh nothing: %v, %v without", w, before)
	}
}

// A butt where two new planks meet has one block, and each of the four ends is fastened once; a butt that was there keeps its block,
// and only new planks' ends are fastened to it anew; hood ends are on no block.
func TestAButtIsBackedOnce(t *testing.T) {
	for name, c := range map[string]struct {
		butts                 []string
		rows                  []plank.Row
		blocks, ends, hoods   float64
		newButts, planksThere int
	}{
		"one plank":          {nil, []plank.Row{ofFrames(5, boat.Port, 14, 16)}, 2, 4, 0, 2, 1},
		"two that meet":      {nil, []plank.Row{ofFrames(5, boat.Port, 10, 12), ofFrames(5, boat.Port, 16, 17)}, 3, 6, 0, 3, 2},
		"at a butt there":    {[]string{"11-1-3"}, []plank.Row{ofFrames(5, boat.Port, 13, 15)}, 1, 3, 0, 1, 1},
		"between butts":      {[]string{"11-1-3", "23-10-1"}, []plank.Row{ofFrames(5, boat.Port, 13, 23)}, 0, 2, 0, 0, 1},
		"both at one there":  {[]string{"11-1-3", "23-10-1"}, []plank.Row{ofFrames(5, boat.Port, 13, 23), ofFrames(5, boat.Port, 26, 33)}, 0, 3, 1, 0, 2},
		"a whole strake":     {[]string{"11-1-3", "23-10-1"}, []plank.Row{{Strake: 5, Side: boat.Port, Whole: true, Species: "white_oak", Grade: "FAS"}}, 0, 4, 2, 0, 3},
		"on either side":     {nil, []plank.Row{ofFrames(5, boat.Both, 14, 16)}, 4, 8, 0, 4, 2},
		"at the bow":         {nil, []plank.Row{ofFrames(5, boat.Port, 1, 3)}, 1, 2, 1, 1, 1},
		"taped, ends unsaid": {nil, []plank.Row{{Strake: 5, Side: boat.Port, Species: "white_oak", Grade: "FAS", ByHand: &plank.ByHandRow{Length: "9-0-0", Width: "0-7-0"}}}, 0, 0, 0, 0, 1},
	} {
		side := twelve()
		side.Butts = []planking.Given{{Strake: 5, X: c.butts}}
		b := blocked(t, side, c.rows...)
		r := runs(t, b)
		blocks, screws, _ := ended(r)
		made, hoods := 0, 0
		for _, n := range r.Planks {
			made, hoods = made+n.NewButts, hoods+n.HoodEnds
		}
		if blocks != c.blocks || screws != 5*c.ends || float64(hoods) != c.hoods || made != c.newButts || len(r.Planks) != c.planksThere || len(r.Bill.Faults) > 0 {
			t.Errorf("%s: %v blocks, %v screws, %d hood ends, %d new butts of %d planks; %v", name, blocks, screws, hoods, made, len(r.Planks), r.Bill.Faults)
		}
		if taped := c.rows[0].ByHand != nil; slices.Contains(codesOf(r), "taped_ends_not_counted") != taped {
			t.Errorf("%s: %v", name, codesOf(r))
		}
	}
}

// A strake whose butts are only proposed makes those it proposes new: one block each, both ends fastened with the forward plank.
func TestAWholeStrakeOfProposedButts(t *testing.T) {
	side := twelve()
	side.Butts, side.StockLengths = nil, []string{"12-0-0", "16-0-0"}
	r := runs(t, blocked(t, side, plank.Row{Strake: 6, Side: boat.Port, Whole: true, Species: "white_oak", Grade: "FAS"}))
	blocks, screws, _ := ended(r)
	if n := float64(len(r.Planks) - 1); n < 1 || blocks != n || screws != 10*n {
		t.Errorf("%v blocks and %v screws of %d planks", blocks, screws, len(r.Planks))
	}
}

// Hood ends are fastened where the yard counts fastenings, as on a frame or by the yard's own number, and are among what is told.
func TestHoodEndsAreFastened(t *testing.T) {
	for _, c := range []struct{ own, want string }{{"", "2"}, {"4", "4"}} {
		b := planked(t, twelve(), ofFrames(10, boat.Port, 1, 4))
		fastenedBy(t, &b, "140", fastening.TwoOrThree)
		if c.own != "" {
			b.Rules.Fastening.HoodEnd = decimal.RequireFromString(c.own)
		}
		r := runs(t, b)
		if got := value(t, r, "strake/10/port/plank_1/hood_screws_net"); got != decimal.RequireFromString(c.want).InexactFloat64() {
			t.Errorf("%v screws at the hood end, %s wanted", got, c.want)
		}
		_, screws, plugs := ended(r)
		if r.Fastened == nil || r.Fastened.Screws.Value().InexactFloat64() != screws || plugs != screws || !strings.Contains(r.Fastened.Why, "1 hood end is fastened") {
			t.Errorf("%+v; %v screws, %v plugs", r.Fastened, screws, plugs)
		}
	}
}

// Blocks of a wood that the yard has not, and frames that leave no room for one, are at fault; a new garboard is warned of.
func TestBlocksThatCannotBe(t *testing.T) {
	b := blocked(t, twelve(), ofFrames(1, boat.Port, 14, 16))
	b.Rules.ButtBlock.Species = "whiet oak"
	r := runs(t, b)
	if codes := faultCodes(r); !slices.Equal(codes, []string{"butt_block_wood_unknown"}) || !strings.Contains(r.Bill.Faults[0].Fix, "white_oak") {
		t.Errorf("%+v", r.Bill.Faults)
	}
	if !slices.Contains(codesOf(r), "garboard_not_fastened_to_keel") {
		t.Error(codesOf(r))
	}
	b = blocked(t, twelve(), ofFrames(5, boat.Port, 14, 16))
	b.Rules.ButtBlock.Clear = decimal.NewFromInt(130)
	r = runs(t, b)
	if codes := faultCodes(r); !slices.Equal(codes, []string{"no_room_for_butt_block", "no_room_for_butt_block"}) || r.Bill.Faults[0].Fix == "" {
		t.Errorf("%+v", r.Bill.Faults)
	}
}
