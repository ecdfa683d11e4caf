package takeoff_test

import (
	"math"
	"strings"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/fastening"
	"ribband/takeoff/finding"
	"ribband/takeoff/frame"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

// carvel is the demo boat planked 1 1/4 in thick in strakes of a width, mm, her yard counting fastenings by a rule.
func carvel(t *testing.T, width string, rule fastening.PerCrossing, choices map[boat.Member]frame.Choice) takeoff.Basis {
	t.Helper()
	b := demoBasis(t, 0)
	b.Remedies = choices
	fastenedBy(t, &b, width, rule)
	return b
}

// fastenedBy gives a boat's frames planking and her yard a rule, with a step that is counted by it.
func fastenedBy(t *testing.T, b *takeoff.Basis, width string, rule fastening.PerCrossing) {
	t.Helper()
	d := decimal.RequireFromString
	b.Rules.Fastening = &rules.Fastening{Screw: "screw_bronze_20x2_1_2", Plug: "plug_oak_11_16", PerCrossing: rule, Source: "test"}
	b.Rules.Losses = append(b.Rules.Losses, rules.Loss{Name: "dropped", Material: "fastenings", Fraction: d("0.1"), Source: "test"})
	b.Steps.Steps = append(b.Steps.Steps, step.Step{Code: "fasten", Name: "Fasten planks", Trade: "shipwright", Driver: step.PlankFastenings, PerUnitH: d("0.1"), Factor: d("1")})
	for i := range b.Frames {
		b.Frames[i].Planking = &frame.Planking{Thickness: d("31.75"), Width: d(width)}
	}
}

func oak(remedy boat.Remedy) frame.Choice {
	return frame.Choice{Remedy: remedy, Species: "white_oak", Grade: "FAS"}
}

// A whole frame takes every strake that crosses it: its girth over the strake's width, begun ones counted whole; two screws each
// and a plug over every one. 1 1/4 in planking has No. 20 screws 2 1/2 in long by the published table, 0.320 in thick.
func TestANewFrameTakesEveryStrake(t *testing.T) {
	r := runs(t, carvel(t, "140", fastening.TwoOrThree, map[boat.Member]frame.Choice{frameNo(12, boat.Port): oak(boat.ReplaceLaminated)}))
	girth := value(t, r, "frame/12/port/girth")
	n := value(t, r, "frame/12/port/crossings")
	if n < math.Ceil(girth/140) || n > math.Ceil(girth*1.02/140) {
		t.Errorf("%v crossings of a girth of %v", n, girth)
	}
	var screws, plugs bill.Line
	for _, l := range r.Bill.Lines {
		switch l.Material {
		case bill.Fastenings:
			screws = l
		case bill.Plugs:
			plugs = l
		}
	}
	if screws.Item != "screw_bronze_20x2_1_2" || screws.Net.Value().InexactFloat64() != 2*n || screws.Gross.Value().InexactFloat64() != math.Ceil(2*n/0.9) {
		t.Errorf("%+v for %v crossings", screws, n)
	}
	if plugs.Item != "plug_oak_11_16" || !plugs.Net.Value().Equal(screws.Net.Value()) {
		t.Errorf("%+v", plugs)
	}
	f := r.Fastened
	if f == nil || f.Crossings.Value().InexactFloat64() != n || f.Screws.Value().InexactFloat64() != 2*n || f.Each != "2" || f.Published == nil || f.Published.Gauge != 20 || f.Published.Length != "2 1/2" || f.Published.ShankIn != "0.32" || len(f.Cautions) == 0 {
		t.Fatalf("%+v", f)
	}
	// white oak's 0.68 at 12 % is 0.68 x 0.9022 / 0.837 = 0.733 oven-dry, and 2850 G2 D = 490 lb to the inch (computed)
	if len(f.Woods) != 1 || f.Woods[0].Gravity != "0.733" || f.Woods[0].WithdrawalLb != "490" || f.Woods[0].LeadPct != "90" {
		t.Errorf("%+v", f.Woods)
	}
	for _, c := range append(faultCodes(r), codesOf(r)...) {
		if strings.Contains(c, "fasten") || strings.Contains(c, "screws") || c == "no_step" {
			t.Errorf("told of %s", c)
		}
	}
}

// Wide planks have more: the named rules differ, and a half is one and two by turns.
func TestRulesOfFastenings(t *testing.T) {
	for _, c := range []struct {
		width string
		rule  fastening.PerCrossing
		each  float64
	}{{"200", fastening.TwoOrThree, 3}, {"200", fastening.Composite1891, 1}, {"220", fastening.Composite1891, 1.5}, {"254", fastening.Composite1891, 2}} {
		r := runs(t, carvel(t, c.width, c.rule, map[boat.Member]frame.Choice{frameNo(12, boat.Port): oak(boat.ReplaceSteamed)}))
		n := value(t, r, "frame/12/port/crossings")
		if got := value(t, r, "frame/12/port/plank_screws_net"); got != math.Ceil(n*c.each) {
			t.Errorf("%s, %s mm: %v screws of %v crossings", c.rule, c.width, got, n)
		}
	}
}

// A piece let in takes the strakes that lie on it and no others: fewer than the frame's.
func TestAPieceTakesTheStrakesOnIt(t *testing.T) {
	b := piecesOf(t, boat.ScarfIn, []int{12}, finding.Row{Member: frameNo(12, boat.Port), State: finding.Broken, From: "3-0-0", To: "3-6-0"})
	fastenedBy(t, &b, "140", fastening.TwoOrThree)
	r := runs(t, b)
	n := value(t, r, "frame/12/port/part_1/crossings")
	var from, to float64
	for _, s := range r.Scarfs {
		if s.End == "heel" {
			from = s.FayingTipMM
		} else {
			to = s.FayingTipMM
		}
	}
	if want := math.Ceil(to/140) - math.Floor(from/140); from == 0 || n != want {
		t.Errorf("%v crossings between %v and %v, want %v", n, from, to, want)
	}
}

// What is missing is said once for the boat; where the planking is thicker than the table goes no size is made up.
func TestFasteningsThatAreNotCounted(t *testing.T) {
	choices := map[boat.Member]frame.Choice{frameNo(12, boat.Port): oak(boat.ReplaceLaminated), frameNo(13, boat.Port): oak(boat.ReplaceLaminated)}
	for what, c := range map[string]struct {
		spoil func(*takeoff.Basis)
		says  []string
		not   string
	}{
		"rule":     {func(b *takeoff.Basis) { b.Rules.Fastening = nil }, []string{"plank_fastenings"}, "planking, its"},
		"planking": {func(b *takeoff.Basis) { noPlanking(b) }, []string{"planking, its thickness"}, "plank_fastenings"},
		"both":     {func(b *takeoff.Basis) { noPlanking(b); b.Rules.Fastening = nil }, []string{"planking, its thickness", "plank_fastenings"}, "never"},
	} {
		b := carvel(t, "140", fastening.TwoOrThree, choices)
		c.spoil(&b)
		r := runs(t, b)
		w, warned := r.NotFastened, len(told(r, "fastenings_not_counted"))
		if w == nil || r.Fastened != nil || strings.Contains(w.Fix, c.not) || (warned == 1) == (what == "both") {
			t.Fatalf("%s: %+v, %d warnings", what, w, warned)
		}
		for _, s := range c.says {
			if !strings.Contains(w.Fix, s) {
				t.Errorf("%s: %q", what, w.Fix)
			}
		}
	}
	b := carvel(t, "140", fastening.TwoOrThree, choices)
	for i := range b.Frames {
		b.Frames[i].Planking.Thickness = decimal.NewFromInt(60)
	}
	if r := runs(t, b); r.Fastened == nil || r.Fastened.Published != nil || !strings.Contains(r.Fastened.Why, "no plank 60 mm thick") {
		t.Errorf("%+v", r.Fastened)
	}
	b = carvel(t, "140", fastening.TwoOrThree, map[boat.Member]frame.Choice{})
	if r := runs(t, b); r.Fastened != nil || r.NotFastened != nil {
		t.Error("a boat that is left alone is told of fastenings")
	}
}

// A screw as long as plank and frame are thick comes through.
func TestScrewsThatComeThrough(t *testing.T) {
	b := carvel(t, "140", fastening.TwoOrThree, map[boat.Member]frame.Choice{frameNo(12, boat.Port): oak(boat.ReplaceLaminated)})
	for i := range b.Frames {
		b.Frames[i].Moulded = decimal.NewFromInt(30) // 2 1/2 in is 63.5, and 31.75 and 30 are less
	}
	if w := told(runs(t, b), "screws_come_through"); len(w) != 1 || !strings.Contains(w[0].Detail, "61.75 mm") {
		t.Errorf("%+v", w)
	}
}

func noPlanking(b *takeoff.Basis) {
	for i := range b.Frames {
		b.Frames[i].Planking = nil
	}
}

func codesOf(r takeoff.Result) []string {
	var out []string
	for _, w := range r.Bill.Warnings {
		out = append(out, w.Code)
	}
	return out
}
