package derivation_test

import (
	"strings"
	"testing"

	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

func TestTheRegisterIsWhole(t *testing.T) {
	for _, f := range derivation.Formulas() {
		if f.Text == "" || f.Source == "" || f.Legend == nil || !f.Unit.Known() {
			t.Errorf("%s: text, legend, source or unit is missing", f.ID)
		}
		for symbol, meaning := range f.Legend {
			if symbol == "" || meaning == "" {
				t.Errorf("%s: symbol %q is not explained", f.ID, symbol)
			}
		}
	}
}

func TestVerifyFindsAFigureThatDoesNotFollow(t *testing.T) {
	table := derivation.NewTable()
	mm := func(s, v string) derivation.Input {
		return derivation.Given(s, "frames", decimal.RequireFromString(v), quantity.Millimetre)
	}
	table.Derive("a/laminates", "frame/laminates", []derivation.Input{mm("m", "73.025"), mm("c", "3.175"), mm("t", "6.35")})
	if table.Err() != nil {
		t.Fatal(table.Err())
	}
	right, _ := table.Find("a/laminates")
	if err := derivation.Verify(right, table); err != nil || right.Value != "12" {
		t.Fatalf("12 laminates: %s, %v", right.Value, err)
	}
	for name, spoil := range map[string]func(*derivation.Figure){
		"value": func(f *derivation.Figure) { f.Value = "13" },
		"input": func(f *derivation.Figure) {
			f.Inputs = append([]derivation.Input(nil), f.Inputs...)
			f.Inputs[0].Value = "80"
		},
		"formula":  func(f *derivation.Figure) { f.Formula = "frame/nothing" },
		"rounding": func(f *derivation.Figure) { f.Rounding.From = "12.5" },
		"figure": func(f *derivation.Figure) {
			f.Inputs = append([]derivation.Input(nil), f.Inputs...)
			f.Inputs[0].Figure = "b"
		},
	} {
		wrong := right
		spoil(&wrong)
		if derivation.Verify(wrong, table) == nil {
			t.Errorf("a figure with its %s spoiled is taken for right", name)
		}
	}
}

func TestATableStopsAtItsFirstError(t *testing.T) {
	for name, work := range map[string]func(*derivation.Table){
		"unknown formula": func(t *derivation.Table) { t.Derive("a", "frame/nothing", nil) },
		"missing figure":  func(t *derivation.Table) { t.Ref("G", "frame/1/port/girth") },
		"missing symbol":  func(t *derivation.Table) { t.Derive("a", "frame/girth_m", nil) },
		"symbol too many": func(t *derivation.Table) {
			t.Derive("a", "frame/patterns", []derivation.Input{derivation.Given("q", "here", decimal.Zero, quantity.Each)})
		},
		"worked out twice": func(t *derivation.Table) { t.Derive("a", "frame/patterns", nil); t.Derive("a", "frame/patterns", nil) },
		"loss of all": func(t *derivation.Table) {
			t.Derive("a", "bill/gross_pieces", []derivation.Input{derivation.Given("n", "x", decimal.NewFromInt(1), quantity.Each)}, derivation.ByFactor("l", decimal.NewFromInt(1), "x"))
		},
	} {
		table := derivation.NewTable()
		work(table)
		if table.Err() == nil {
			t.Errorf("%s: no error", name)
		}
		if q := table.Derive("later", "frame/worked", nil); !q.IsZero() || len(table.Figures()) > 1 {
			t.Errorf("%s: the table goes on after its error", name)
		}
		if table.Err() != nil && strings.Contains(table.Err().Error(), "%!") {
			t.Errorf("%s: %v", name, table.Err())
		}
	}
}
