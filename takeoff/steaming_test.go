package takeoff_test

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/bend"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/notation"
	"ribband/takeoff/rules"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
)

// steamedBasis is the demo boat with all her frames bent in steam, by the demo's rules but for what change makes of them.
func steamedBasis(t *testing.T, change func(*takeoff.Basis)) takeoff.Basis {
	t.Helper()
	b := demoBasis(t, 1)
	for m, c := range b.Remedies {
		c.Remedy = boat.ReplaceSteamed
		b.Remedies[m] = c
	}
	if change != nil {
		change(&b)
	}
	return b
}

// breaks is a change of the breakage.
func breaks(share string) func(*takeoff.Basis) {
	return func(b *takeoff.Basis) {
		b.Rules.Steam.Breakage = &rules.Loss{Name: rules.Breakage, Material: "timber", Fraction: decimal.RequireFromString(share), Source: "made up"}
	}
}

func steamedLines(r takeoff.Result) []bill.Line {
	var out []bill.Line
	for _, l := range r.Bill.Lines {
		if l.Driver == "steamed_pieces" {
			out = append(out, l)
		}
	}
	return out
}

// Of the demo boat no frame needs a strap, and the pieces that are bought are the net of each section over what is left
// after its losses, rounded up once; frame by frame each would be two.
func TestSteamedFramesShareTheirSpares(t *testing.T) {
	r := runs(t, steamedBasis(t, nil))
	if codes := faultCodes(r); len(codes) > 0 || r.Steaming == nil || len(r.Steaming.Frames) != 68 {
		t.Fatalf("%v, %+v", codes, r.Steaming)
	}
	// 1 - 0.08, 1 - 0.06, 1 - 0.15
	left := decimal.RequireFromString("0.92").Mul(decimal.RequireFromString("0.94")).Mul(decimal.RequireFromString("0.85"))
	sum := map[string]int64{}
	for _, l := range steamedLines(r) {
		sum[l.Pieces.Thickness.String()] += l.Gross.Value().IntPart()
		if g := l.Gross.Value().IntPart(); g < 1 || g > 2 || !l.Net.Value().Equal(decimal.NewFromInt(1)) {
			t.Errorf("%s: net %s, gross %s", l.ID, l.Net, l.Gross)
		}
	}
	all := int64(0)
	for _, p := range r.Steaming.Pieces {
		want := p.Net.Value().Div(left).Ceil().IntPart()
		if p.Gross.Value().IntPart() != want || sum[p.Thickness.String()] != want {
			t.Errorf("%s mm: %s of %s, %d on the bill, %d wanted", p.Thickness, p.Gross, p.Net, sum[p.Thickness.String()], want)
		}
		all += want
	}
	if all >= 2*68 {
		t.Errorf("%d pieces for 68 frames", all)
	}
	counted := map[string]decimal.Decimal{}
	for _, m := range r.Bill.Measures {
		counted[m.Driver] = counted[m.Driver].Add(m.Quantity.Value())
	}
	if counted["steamed_pieces"].IntPart() != all || counted["frames"].IntPart() != 68 || counted["steam_h"].Sign() <= 0 || counted["laminates"].Sign() != 0 {
		t.Errorf("%v", counted)
	}
	if len(r.Ripping.Frames) > 0 || len(r.Gluing.Records) > 0 || len(warned(r, "doubtful_glue_pair")) > 0 {
		t.Error("nothing is ripped or glued up of frames bent in steam")
	}
}

// Whichever of the longest pieces break, enough at least as long are had: every head of the list, longest first, has its
// losses' share.
func TestSparesAreAsLongAsWhatTheyStandInFor(t *testing.T) {
	r := runs(t, steamedBasis(t, breaks("0.3")))
	bySection := map[string][]bill.Line{}
	for _, l := range steamedLines(r) {
		k := l.Pieces.Thickness.String()
		bySection[k] = append(bySection[k], l)
	}
	left := decimal.RequireFromString("0.92").Mul(decimal.RequireFromString("0.94")).Mul(decimal.RequireFromString("0.7"))
	for k, lines := range bySection {
		slices.SortStableFunc(lines, func(a, b bill.Line) int { return b.Pieces.Length.Value().Cmp(a.Pieces.Length.Value()) })
		net, gross := decimal.Zero, decimal.Zero
		for i, l := range lines {
			net, gross = net.Add(l.Net.Value()), gross.Add(l.Gross.Value())
			if i+1 < len(lines) && lines[i+1].Pieces.Length.Value().Equal(l.Pieces.Length.Value()) {
				continue // of two as long either may be first
			}
			if want := net.Div(left).Ceil(); !gross.Equal(want) {
				t.Errorf("%s mm: the %d longest have %s, %s wanted", k, i+1, gross, want)
			}
		}
	}
}

// The order that frames stand in changes no line, no measure and no figure of any frame.
func TestTheOrderOfSteamedFramesChangesNothing(t *testing.T) {
	b := steamedBasis(t, nil)
	forward := runs(t, b)
	slices.Reverse(b.Frames)
	back := runs(t, b)
	if d := cmp.Diff(tellings(t, forward), tellings(t, back)); d != "" {
		t.Error(d)
	}
}

// tellings are a takeoff as people are told it, whatever the order of its frames.
func tellings(t *testing.T, r takeoff.Result) map[string]string {
	t.Helper()
	out := map[string]string{}
	put := func(key string, v any) {
		b, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		out[key] = string(b)
	}
	for _, l := range r.Bill.Lines {
		put("line "+l.ID, l)
	}
	for _, m := range r.Bill.Measures {
		put("measure "+m.Driver+" "+m.Figure, m)
	}
	for _, f := range r.Figures {
		if !strings.HasPrefix(f.ID, "step/") && f.ID != "hours" && f.ID != "weight" { // sums show their terms in order
			put("figure "+f.ID, f)
		}
	}
	if r.Steaming != nil {
		for _, f := range r.Steaming.Frames {
			put("steamed "+f.Member.String(), f)
		}
		put("pieces", r.Steaming.Pieces)
	}
	put("hours", r.TotalHours)
	put("weight", r.Weight)
	return out
}

// The more breaks, the more is bought, never less.
func TestMoreBreakageNeverBuysLess(t *testing.T) {
	last := int64(0)
	for _, share := range []string{"0", "0.01", "0.02", "0.05", "0.1", "0.15", "0.2", "0.33", "0.5", "0.9"} {
		n := int64(0)
		for _, l := range steamedLines(runs(t, steamedBasis(t, breaks(share)))) {
			n += l.Gross.Value().IntPart()
		}
		if n < last {
			t.Errorf("of %s breaking %d are bought, of less %d", share, n, last)
		}
		last = n
	}
}

// A yard without a strap that states a stricter limit is told of every frame what would do, with figures; and what is
// said to do does.
func TestATooTightBendInSteamSaysWhatWouldDo(t *testing.T) {
	strict := func(b *takeoff.Basis) {
		b.Rules.Steam.Strap = false
		b.Rules.Steam.WithoutStrap, b.Rules.Steam.WithoutStrapSource = decimal.NewFromInt(12), "made up"
	}
	r := runs(t, steamedBasis(t, strict))
	tight := 0
	for _, f := range r.Steaming.Frames {
		if f.Bends {
			if f.Needs != bend.Free || f.WouldDo != nil {
				t.Errorf("%+v", f)
			}
			continue
		}
		tight++
		if f.Needs != bend.Strapped || f.More == nil || !f.More.Bends || len(f.WouldDo) < 4 || !strings.Contains(f.WouldDo[0], "strap") || !strings.Contains(f.WouldDo[1], "in 2 layers of") || !strings.Contains(f.WouldDo[2], "mould it no more than") || !strings.Contains(f.WouldDo[3], "laminates of 1/4 in") {
			t.Errorf("%+v", f)
		}
	}
	if tight == 0 || tight == 68 || len(r.Bill.Faults) != tight || r.Bill.Faults[0].Code != "steam_bend_needs_strap" || r.Bill.Faults[0].Limit.Value != "12" {
		t.Fatalf("%d of 68, %+v", tight, r.Bill.Faults)
	}
	for _, change := range []func(*takeoff.Basis){
		func(b *takeoff.Basis) { b.Rules.Steam.Strap = true },
		func(b *takeoff.Basis) { b.Rules.Steam.Layers = 2 },
		func(b *takeoff.Basis) { // as deep as each is said to do at
			for i, f := range r.Steaming.Frames {
				if b.Frames[i].Member() != f.Member {
					t.Fatal("frames and how they bend are in one order")
				}
				if !f.Bends {
					_, said, _ := strings.Cut(f.WouldDo[2], "(")
					b.Frames[i].Moulded = decimal.RequireFromString(strings.TrimSuffix(said, " mm)"))
				}
			}
		},
	} {
		if again := runs(t, steamedBasis(t, func(b *takeoff.Basis) { strict(b); change(b) })); len(again.Bill.Faults) > 0 {
			t.Errorf("%+v", again.Bill.Faults[0])
		}
	}
}

// Rules that say nothing of steam stand as published, and where nobody says how many pieces break the takeoff does.
func TestWithoutRulesOfSteamThePublishedOnesStand(t *testing.T) {
	r := runs(t, steamedBasis(t, func(b *takeoff.Basis) { b.Rules.Steam = rules.DefaultSteam() }))
	for _, f := range r.Steaming.Frames {
		if f.LeastFree.String() != "10" || f.LeastStrapped.String() != "5" || f.Strap || f.Layers != 1 || !strings.HasPrefix(f.LeastFreeSource, "Whinney") {
			t.Fatalf("%+v", f)
		}
	}
	if len(warned(r, "steam_breakage_not_said")) != 0 {
		t.Error("the demo's timber has a breakage of its own")
	}
	r = runs(t, steamedBasis(t, func(b *takeoff.Basis) { b.Rules.Steam, b.Rules.Losses = rules.DefaultSteam(), nil }))
	if len(warned(r, "steam_breakage_not_said")) != 1 {
		t.Error("nobody said how many pieces break, and the takeoff does not say so")
	}
}

// Rules written in millimetres bend and buy what the same rules in inches do.
func TestSteamIsTheSameInAnyUnit(t *testing.T) {
	of := func(n notation.Notation, lengths map[string]string) map[string]string {
		d := rules.Document{Notation: n, Rips: []string{lengths["1/4"]}, BendRatio: rules.Sourced{Value: "100", Source: "made up"}, Planing: lengths["1/16"], Kerf: lengths["1/8"],
			EndTrim: lengths["2"], CleaningUp: lengths["1/8"], Heel: lengths["3"], Head: lengths["2"], BlankTrim: lengths["4"], PatternItem: "ply",
			Glue:   rules.GlueRule{Item: "epoxy", SpreadLPerM2: "0.3", Source: "made up"},
			Losses: []rules.LossRule{{Name: "breakage", Material: "timber", Fraction: "0.1", Source: "made up"}},
			Steam:  &rules.SteamRule{Layers: 3, Strap: true, StockStep: lengths["1/8"]}}
		r, faults := rules.Read(d)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		return tellings(t, runs(t, steamedBasis(t, func(b *takeoff.Basis) { b.Rules = r })))
	}
	inInches, inMM := map[string]string{}, map[string]string{}
	for written, mm := range map[string]string{"1/4": "6.35", "1/16": "1.5875", "1/8": "3.175", "2": "50.8", "3": "76.2", "4": "101.6"} {
		inInches[written], inMM[written] = written, mm
	}
	if d := cmp.Diff(of(notation.Inches, inInches), of(notation.Millimetres, inMM)); d != "" {
		t.Error(d)
	}
}

// Frames that lie flat on the planking sweep, each by so much of its own: their stock goes up by steps in its width too, so
// that they share their spares.
func TestSweptFramesShareTheirSpares(t *testing.T) {
	r := runs(t, steamedBasis(t, func(b *takeoff.Basis) {
		var kept []frame.Frame
		for _, f := range b.Frames {
			if f.No >= 10 && f.No <= 24 {
				run := decimal.NewFromInt(int64(f.No))
				f.Run = &run
				kept = append(kept, f)
			}
		}
		b.Frames = kept
	}))
	lines := steamedLines(r)
	gross, widths := int64(0), map[string]bool{}
	for _, l := range lines {
		gross += l.Gross.Value().IntPart()
		widths[l.Pieces.Siding.String()] = true
		if !l.Pieces.Siding.Mod(rules.DefaultStockStep).IsZero() {
			t.Errorf("%s is %s mm wide", l.ID, l.Pieces.Siding)
		}
	}
	if len(lines) != 30 || gross >= 50 || len(widths) >= 10 {
		t.Errorf("%d pieces for %d frames in %d widths", gross, len(lines), len(widths))
	}
}

// Run twice, a takeoff of several sections has the same figures in the same order: its hash is its own.
func TestSteamedFiguresStandInOneOrder(t *testing.T) {
	b := steamedBasis(t, func(b *takeoff.Basis) {
		for i := range b.Frames {
			b.Frames[i].Siding = b.Frames[i].Siding.Add(decimal.NewFromInt(int64(6 * (i % 7))))
		}
	})
	first := runs(t, b)
	if len(first.Steaming.Pieces) < 5 {
		t.Fatalf("%d sections", len(first.Steaming.Pieces))
	}
	for range 3 {
		again := runs(t, b)
		for i, f := range first.Figures {
			if again.Figures[i].ID != f.ID {
				t.Fatalf("figure %d is %s, and then %s", i, f.ID, again.Figures[i].ID)
			}
		}
	}
}

// The steam box holds so many pieces, by hand: 12 in wide and 10 in high, stickered half an inch apart. Hours are those of whole
// loads over all pieces alike; a box that is too short is a fault of each frame that says how long it would have to be.
func TestTheSteamBoxHoldsSoMany(t *testing.T) {
	mm := decimal.RequireFromString
	box := func(length string) func(*takeoff.Basis) {
		return func(b *takeoff.Basis) {
			b.Rules.Steam.Box = &rules.SteamBox{Length: mm(length), Width: mm("304.8"), Height: mm("254"), Apart: mm("12.7"), Source: "made up"}
		}
	}
	alone, r := runs(t, steamedBasis(t, nil)), runs(t, steamedBasis(t, box("4000")))
	if codes := faultCodes(r); len(codes) > 0 {
		t.Fatal(codes)
	}
	for _, p := range r.Steaming.Pieces {
		if p.PerLoad == nil || p.Loads == nil {
			t.Fatalf("%+v", p)
		}
		beside := func(room float64, size decimal.Decimal) float64 {
			return math.Floor((room + 12.7) / (size.InexactFloat64() + 12.7))
		}
		want := max(beside(304.8, p.Siding)*beside(254, p.Thickness), beside(304.8, p.Thickness)*beside(254, p.Siding))
		k, _ := p.PerLoad.Int()
		n, _ := p.Gross.Int()
		loads, _ := p.Loads.Int()
		if float64(k) != want || loads != (n+k-1)/k {
			t.Errorf("%d in a load, %v by hand; %d pieces in %d loads", k, want, n, loads)
		}
	}
	hours := func(r takeoff.Result) (sum decimal.Decimal) {
		for _, m := range r.Bill.Measures {
			if m.Driver == "steam_h" {
				sum = sum.Add(m.Quantity.Value())
			}
		}
		return sum
	}
	if a, b := hours(alone), hours(r); !b.IsPositive() || !b.Mul(mm("5")).LessThan(a) {
		t.Errorf("%s hours of loads, %s of pieces one by one", b, a)
	}
	short := runs(t, steamedBasis(t, box("1500")))
	n := 0
	for _, f := range short.Bill.Faults {
		if f.Code == "steam_box_too_small" {
			n++
			if f.Member == nil || !strings.Contains(f.Fix, "box at least") {
				t.Errorf("%+v", f)
			}
		}
	}
	if n == 0 {
		t.Error("pieces longer than the box go in")
	}
}

// Layers that the rules glue to one another take glue, clamps and a place in a batch, and the caution that they are damp; layers that
// are not take none of them.
func TestSteamedLayersAreGluedWhereTheRulesSaySo(t *testing.T) {
	of := func(glued bool) takeoff.Result {
		return runs(t, steamedBasis(t, func(b *takeoff.Basis) { b.Rules.Steam.Layers, b.Rules.Steam.LayersGlued = 2, glued }))
	}
	r, loose := of(true), of(false)
	if len(loose.Gluing.Records) != 0 || len(warned(loose, "steamed_layers_damp")) != 0 {
		t.Errorf("%d records of layers that are not glued", len(loose.Gluing.Records))
	}
	if len(r.Gluing.Records) != 68 || len(warned(r, "steamed_layers_damp")) != 1 || len(warned(r, "doubtful_glue_pair")) != 1 {
		t.Fatalf("%d records, %v", len(r.Gluing.Records), faultCodes(r))
	}
	for _, g := range r.Gluing.Records {
		if n, _ := g.Laminates.Int(); n != 2 || g.Clamps == 0 || g.Batch == 0 || g.Area.IsZero() {
			t.Errorf("%+v", g)
		}
	}
	// one line, as wide as sided and as long as the blank
	area := value(t, r, "frame/12/port/blank_length") * value(t, r, "frame/12/port/glue_line_area")
	if want := math.Pow(value(t, r, "frame/12/port/blank_length"), 2) * steamedBasis(t, nil).Frames[0].Siding.InexactFloat64() / 1000; math.Abs(area-want) > 0.002 {
		t.Errorf("%v, %v wanted", area, want)
	}
}
