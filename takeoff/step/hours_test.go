package step_test

import (
	"testing"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// counted is a table with one pattern counted for each remedy.
func counted(t *testing.T, remedies ...boat.Remedy) (*derivation.Table, []bill.Measure) {
	t.Helper()
	table := derivation.NewTable()
	var out []bill.Measure
	for i, r := range remedies {
		m := boat.Member{Kind: boat.Frame, No: i + 1, Side: boat.Port}
		q := table.Derive(m.Path()+"/patterns", "frame/patterns", nil)
		out = append(out, bill.Measure{Driver: string(step.Patterns), Member: m, Remedy: r, Quantity: q, Figure: m.Path() + "/patterns"})
	}
	return table, out
}

func TestHoursAreSettingUpPlusTheUnits(t *testing.T) {
	table, measures := counted(t, boat.ReplaceLaminated, boat.ReplaceLaminated, boat.ReplaceLaminated, boat.Leave)
	lib := step.Library{Steps: []step.Step{
		{Code: "take_pattern", Driver: step.Patterns, Where: step.Where{Remedy: boat.ReplaceLaminated}, PerUnitH: dec("1.25"), Factor: dec("1.1"), SetupH: dec("4")},
		{Code: "look", Driver: step.Patterns, PerUnitH: dec("0.1"), Factor: dec("1"), SetupH: dec("0")},
		{Code: "planks", Driver: step.Patterns, Where: step.Where{Kind: "plank"}, PerUnitH: dec("9"), Factor: dec("1"), SetupH: dec("9")},
		{Code: "glue", Driver: step.GlueLine, PerUnitH: dec("9"), Factor: dec("1"), SetupH: dec("9")},
	}}
	work, err := lib.Hours(measures, table)
	if err != nil {
		t.Fatal(err)
	}
	// a step that counts nothing is not set up for
	if len(work) != 2 {
		t.Fatalf("%d steps take hours, 2 wanted: %+v", len(work), work)
	}
	// 4 + 1.25 x 1.1 x 3 = 8.125, half away from zero
	if work[0].Hours.String() != "8.13" || work[0].Counted.String() != "3" {
		t.Errorf("take_pattern: %s h for %s, want 8.13 h for 3", work[0].Hours, work[0].Counted)
	}
	if work[1].Hours.String() != "0.40" || work[1].Counted.String() != "4" {
		t.Errorf("look: %s h for %s, want 0.40 h for 4", work[1].Hours, work[1].Counted)
	}
	for _, f := range table.Figures() {
		if err := derivation.Verify(f, table); err != nil {
			t.Error(err)
		}
	}
}

func TestADriverOfTwoUnitsIsRefused(t *testing.T) {
	table, measures := counted(t, boat.Leave, boat.Leave)
	measures[1].Quantity = quantity.Zero(quantity.Metre)
	lib := step.Library{Steps: []step.Step{{Code: "look", Driver: step.Patterns, PerUnitH: dec("1"), Factor: dec("1"), SetupH: dec("0")}}}
	if _, err := lib.Hours(measures, table); err == nil {
		t.Error("metres were counted as patterns")
	}
}

func TestEveryDriverHasAUnit(t *testing.T) {
	for _, d := range step.Drivers {
		if !d.Known() || !d.Unit().Known() {
			t.Errorf("driver %s has no unit", d)
		}
	}
	if step.Driver("moonlight").Known() {
		t.Error("a driver that no trade emits is known")
	}
}

func TestTheFirstStepThatHoldsUsesTheMaterialUp(t *testing.T) {
	lib := step.Library{Steps: []step.Step{
		{Code: "planks", Driver: step.Laminates, Where: step.Where{Kind: "plank"}},
		{Code: "rip", Driver: step.Laminates, Where: step.Where{Kind: boat.Frame}},
		{Code: "again", Driver: step.Laminates},
	}}
	if s, ok := lib.For(step.Laminates, boat.Frame, "", boat.ReplaceLaminated); !ok || s.Code != "rip" {
		t.Errorf("laminates of frames are used up by %q", s.Code)
	}
	if _, ok := lib.For(step.GlueLine, boat.Frame, "", boat.ReplaceLaminated); ok {
		t.Error("glue is used up by a step that is not there")
	}
}

func TestAFaultyLibraryIsNamedWholly(t *testing.T) {
	good := step.Step{Code: "a", Name: "A", Trade: "shipwright", Driver: step.Frames}
	for name, c := range map[string]struct {
		spoil   func(*step.Step)
		pointer string
	}{
		"code":       {func(s *step.Step) { s.Code = "" }, "/steps/1/code"},
		"twice":      {func(s *step.Step) { s.Code = "a" }, "/steps/1/code"},
		"driver":     {func(s *step.Step) { s.Driver = "moonlight" }, "/steps/1/driver"},
		"hours":      {func(s *step.Step) { s.PerUnitH = dec("-1") }, "/steps/1/per_unit_h"},
		"setting up": {func(s *step.Step) { s.SetupH = dec("999999999999") }, "/steps/1/setup_h"},
		"cautions":   {func(s *step.Step) { s.Cautions = make([]string, step.MaxCautions+1) }, "/steps/1/cautions"},
	} {
		bad := good
		bad.Code = "b"
		c.spoil(&bad)
		f := step.Library{Steps: []step.Step{good, bad}}.Check()
		if len(f) != 1 || f[0].Pointer != c.pointer || f[0].Fix == "" {
			t.Errorf("%s: %v, one fault at %s wanted", name, f, c.pointer)
		}
	}
	if f := (step.Library{Steps: make([]step.Step, step.MaxSteps+1)}).Check(); len(f) != 1 {
		t.Errorf("too many steps: %v", f)
	}
}
