package rules_test

import (
	"encoding/json"
	"strings"
	"testing"

	"ribband/seed"
	"ribband/takeoff/bill"
	"ribband/takeoff/fastening"
	"ribband/takeoff/rules"

	"github.com/shopspring/decimal"
)

func demo(t *testing.T) rules.Document {
	t.Helper()
	k, err := seed.LoadKnowledge()
	if err != nil {
		t.Fatal(err)
	}
	return k.Rules
}

func TestTheDemosRulesRead(t *testing.T) {
	r, faults := rules.Read(demo(t))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if got := r.Rips[0].Thickness.String(); got != "6.35" {
		t.Errorf("1/4 in is %s mm", got)
	}
	if left := bill.Remaining(r.For(bill.Timber)); !left.Equal(decimal.RequireFromString("0.830208")) {
		t.Errorf("of the timber bought %s is left, 0.92 x 0.94 x 0.96 = 0.830208 wanted", left)
	}
}

// A two-part thickened structural epoxy mixed 1:1 works about 1 hour and cures in about 6 at 70 F: common practice,
// no source.
func TestTheDemosEpoxyIsTheTradesUsual(t *testing.T) {
	r, _ := rules.Read(demo(t))
	h := r.Glue.Handling
	if h == nil {
		t.Fatal("the demo's glue has no handling")
	}
	fahrenheit := h.AtC.Mul(decimal.RequireFromString("1.8")).Add(decimal.NewFromInt(32)).Round(0)
	for what, pair := range map[string][2]string{
		"parts A": {h.PartsA.String(), "1"}, "parts B": {h.PartsB.String(), "1"},
		"working hours": {h.WorkingH.String(), "1"}, "hours to cure": {h.CureH.String(), "6"}, "degrees F": {fahrenheit.String(), "70"},
	} {
		if pair[0] != pair[1] {
			t.Errorf("%s: %s, %s is usual", what, pair[0], pair[1])
		}
	}
	if !strings.Contains(h.Source, "common practice, no source") {
		t.Errorf("the source of the handling does not say that there is none: %q", h.Source)
	}
}

func TestEveryFaultIsNamedAtOnce(t *testing.T) {
	cases := map[string]struct {
		spoil   func(*rules.Document)
		pointer string
	}{
		"notation":       {func(d *rules.Document) { d.Notation = "cubits" }, "/notation"},
		"no rips":        {func(d *rules.Document) { d.Rips = nil }, "/rips"},
		"rip of nothing": {func(d *rules.Document) { d.Rips = []string{"0"} }, "/rips/0"},
		"rip too thin":   {func(d *rules.Document) { d.Rips = []string{"0.001"} }, "/rips/0"},
		"heel too long":  {func(d *rules.Document) { d.Heel = "900" }, "/heel"},
		"rip twice":      {func(d *rules.Document) { d.Rips = []string{"1/4", "2/8"} }, "/rips/1"},
		"kerf":           {func(d *rules.Document) { d.Kerf = "3 mm" }, "/kerf"},
		"resaw kerf":     {func(d *rules.Document) { d.Resaw = &rules.ResawRule{Kerf: "wide", Planing: "1/16"} }, "/resaw/kerf"},
		"no guide":       {func(d *rules.Document) { d.Resaw = &rules.ResawRule{Kerf: "1/16", Planing: "1/16", Height: "0"} }, "/resaw/height"},
		"head below 0":   {func(d *rules.Document) { d.Head = "-1" }, "/head"},
		"R/t":            {func(d *rules.Document) { d.BendRatio.Value = "0" }, "/bend_ratio/value"},
		"R/t source":     {func(d *rules.Document) { d.BendRatio.Source = "" }, "/bend_ratio/source"},
		"R/t of nothing": {func(d *rules.Document) { d.BendRatio.Value = "" }, "/bend_ratio/value"},
		"too few":        {func(d *rules.Document) { d.DifferentLaminates = -1 }, "/different_laminates"},
		"spread":         {func(d *rules.Document) { d.Glue.SpreadLPerM2 = "1e9" }, "/glue/spread_l_m2"},
		"loss of all":    {func(d *rules.Document) { d.Losses[0].Fraction = "1" }, "/losses/0/fraction"},
		"loss in words":  {func(d *rules.Document) { d.Losses[1].Fraction = "NaN" }, "/losses/1/fraction"},
		"loss twice":     {func(d *rules.Document) { d.Losses[1].Name = d.Losses[0].Name }, "/losses/1/name"},
		"loss of what":   {func(d *rules.Document) { d.Losses[0].Material = "rope" }, "/losses/0/material"},
		"cure":           {func(d *rules.Document) { d.Glue.Handling.CureH = "0.5" }, "/glue/handling/cure_h"},
		"tolerance":      {func(d *rules.Document) { d.ShapeTolerance = "0" }, "/shape_tolerance"},
		"scarf":          {func(d *rules.Document) { d.Scarf.Slope.Value = "60" }, "/scarf/slope/value"},
		"scarf source":   {func(d *rules.Document) { d.Scarf.Slope.Source = "" }, "/scarf/slope/source"},
		"scarfs apart":   {func(d *rules.Document) { d.Scarf.Apart = "a foot" }, "/scarf/apart"},
		"sister's size":  {func(d *rules.Document) { d.Sister.Size = "large" }, "/sister/size"},
		"sister's side":  {func(d *rules.Document) { d.Sister.Siding = "1" }, "/sister/siding"},
		"sister unsided": {func(d *rules.Document) { d.Sister.Size = rules.NoDeeper }, "/sister/siding"},
		"sister's reach": {func(d *rules.Document) { d.Sister.Past = "0" }, "/sister/past"},
		"sisters":        {func(d *rules.Document) { d.Sister.MostTogether = -1 }, "/sister/most_together"},
		"sister source":  {func(d *rules.Document) { d.Sister.Source = "" }, "/sister/source"},
		"strap of none":  {func(d *rules.Document) { d.Straps[0].Metal = nil }, "/straps/0"},
		"strap of both":  {func(d *rules.Document) { d.Straps[0].Glass = d.Straps[1].Glass }, "/straps/0"},
		"strap twice":    {func(d *rules.Document) { d.Straps[1].Name = d.Straps[0].Name }, "/straps/1/name"},
		"strap's width":  {func(d *rules.Document) { d.Straps[0].Width = "0" }, "/straps/0/width"},
		"metal's weight": {func(d *rules.Document) { d.Straps[0].Metal.KgM3 = "heavy" }, "/straps/0/metal/kg_m3"},
		"no layers":      {func(d *rules.Document) { d.Straps[1].Glass.Layers = 0 }, "/straps/1/glass/layers"},
		"all fibre":      {func(d *rules.Document) { d.Straps[1].Glass.FibreShare = "1" }, "/straps/1/glass/fibre_share"},
		"no cloth":       {func(d *rules.Document) { d.Straps[1].Glass.Cloth = "" }, "/straps/1/glass/cloth"},
		"half a foot":    {func(d *rules.Document) { d.HalfFoot = "sideways" }, "/half_foot"},
		"no screw":       {func(d *rules.Document) { d.PlankFastenings = fastened("", "two_or_three", "") }, "/plank_fastenings/screw"},
		"screws by eye":  {func(d *rules.Document) { d.PlankFastenings = fastened("screw", "by_eye", "") }, "/plank_fastenings/per_crossing"},
		"a hood end": {func(d *rules.Document) {
			d.PlankFastenings = fastened("screw", "two_or_three", "")
			d.PlankFastenings.HoodEnd = "1.5"
		}, "/plank_fastenings/each_hood_end"},
		"block's wood":   {func(d *rules.Document) { d.ButtBlocks.Species = "" }, "/butt_blocks/species"},
		"block's grade":  {func(d *rules.Document) { d.ButtBlocks.Grade = "" }, "/butt_blocks/grade"},
		"block's laps":   {func(d *rules.Document) { d.ButtBlocks.Laps = "-1" }, "/butt_blocks/laps"},
		"block's room":   {func(d *rules.Document) { d.ButtBlocks.Clear = "an inch" }, "/butt_blocks/clear"},
		"no block":       {func(d *rules.Document) { d.ButtBlocks.Thickness = "0" }, "/butt_blocks/thickness"},
		"block's screw":  {func(d *rules.Document) { d.ButtBlocks.Screw = "" }, "/butt_blocks/screw"},
		"half a screw":   {func(d *rules.Document) { d.ButtBlocks.ScrewsEachEnd = "2.5" }, "/butt_blocks/screws_each_end"},
		"block's source": {func(d *rules.Document) { d.ButtBlocks.Source = "" }, "/butt_blocks/source"},
		"no number":      {func(d *rules.Document) { d.PlankFastenings = fastened("screw", rules.OwnNumber, "") }, "/plank_fastenings/each"},
		"too many":       {func(d *rules.Document) { d.PlankFastenings = fastened("screw", rules.OwnNumber, "13") }, "/plank_fastenings/each"},
		"number beside":  {func(d *rules.Document) { d.PlankFastenings = fastened("screw", "two_or_three", "2") }, "/plank_fastenings/each"},
		"temperature":    {func(d *rules.Document) { d.Glue.Handling.AtC = "warm" }, "/glue/handling/at_c"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			d := demo(t)
			c.spoil(&d)
			_, faults := rules.Read(d)
			if len(faults) != 1 || faults[0].Pointer != c.pointer || faults[0].Detail == "" || faults[0].Fix == "" {
				t.Errorf("faults %+v, one at %s wanted", faults, c.pointer)
			}
		})
	}
	all := demo(t)
	all.Kerf, all.Head, all.BendRatio.Value, all.Losses[0].Fraction, all.Rips = "x", "y", "z", "2", nil
	if _, faults := rules.Read(all); len(faults) != 5 {
		t.Errorf("five things are wrong, %d are named: %v", len(faults), faults)
	}
}

func TestARulesDocumentSurvivesJSON(t *testing.T) {
	d := demo(t)
	b, err := json.Marshal(d)
	if err != nil {
		t.Fatal(err)
	}
	var again rules.Document
	if err := json.Unmarshal(b, &again); err != nil {
		t.Fatal(err)
	}
	if c, _ := json.Marshal(again); string(c) != string(b) {
		t.Error("a rules document changes when it is written and read")
	}
}

func TestTheShapeToleranceIsAQuarterInchUnlessTheYardSaysOtherwise(t *testing.T) {
	d := demo(t)
	for text, want := range map[string]string{"": "6.35", "3/8": "9.525"} {
		d.ShapeTolerance = text
		if r, faults := rules.Read(d); len(faults) > 0 || r.ShapeTolerance.String() != want {
			t.Errorf("%q: %s mm, %s wanted; %v", text, r.ShapeTolerance, want, faults)
		}
	}
}

func TestWithoutABendRatioTheWoodDecides(t *testing.T) {
	d := demo(t)
	if r, _ := rules.Read(d); r.DifferentLaminates != 1 || r.BendRatio.Sign() <= 0 {
		t.Errorf("%d different thicknesses, R/t %s", r.DifferentLaminates, r.BendRatio)
	}
	d.BendRatio = rules.Sourced{}
	if r, faults := rules.Read(d); len(faults) > 0 || !r.BendRatio.IsZero() {
		t.Errorf("R/t %s, %v", r.BendRatio, faults)
	}
	if b, err := json.Marshal(d); err != nil || strings.Contains(string(b), "bend_ratio") {
		t.Errorf("a ratio of nothing is written: %v", err)
	}
}

func fastened(screw string, rule fastening.PerCrossing, each string) *rules.FasteningRule {
	return &rules.FasteningRule{Screw: screw, PerCrossing: rule, Each: each, Source: "test"}
}

// A yard's own number of screws stands in place of a rule; the published rules go by the width.
func TestARuleOfFastenings(t *testing.T) {
	for _, c := range []struct {
		rule  *rules.FasteningRule
		width string
		each  string
	}{{fastened("s", rules.OwnNumber, "2.5"), "400", "2.5"}, {fastened("s", fastening.TwoOrThree, ""), "100", "2"}, {fastened("s", fastening.Composite1891, ""), "300", "2"}} {
		d := demo(t)
		d.PlankFastenings = c.rule
		r, faults := rules.Read(d)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		each, source, err := r.Fastening.Screws(decimal.RequireFromString(c.width))
		if err != nil || each.String() != c.each || source == "" {
			t.Errorf("%+v: %s %q %v", c.rule, each, source, err)
		}
	}
}
