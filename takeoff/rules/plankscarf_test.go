package rules_test

import (
	"testing"

	"ribband/takeoff/rules"

	"github.com/shopspring/decimal"
)

// A yard says how short a plank's part may be; where it does not, or says less than the taper, a part is twice the taper.
func TestPlankScarf(t *testing.T) {
	d := demo(t)
	for text, want := range map[string]string{"": "768", "60": "1524", "12": "768"} {
		d.PlankScarf = &rules.PlankScarfRule{Slope: rules.Sourced{Value: "12", Source: "of a test"}, LeastPart: text, OnlyLonger: text == ""}
		r, faults := rules.Read(d)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		if got := r.PlankScarf.LeastPart(decimal.NewFromInt(384)); got.String() != want || r.PlankScarf.OnlyLonger != (text == "") {
			t.Errorf("%q: %s, %s wanted", text, got, want)
		}
	}
	for pointer, spoil := range map[string]func(*rules.PlankScarfRule){
		"/slope/value":  func(s *rules.PlankScarfRule) { s.Slope.Value = "60" },
		"/slope/source": func(s *rules.PlankScarfRule) { s.Slope.Source = "" },
		"/least_part":   func(s *rules.PlankScarfRule) { s.LeastPart = "short" },
	} {
		d.PlankScarf = &rules.PlankScarfRule{Slope: rules.Sourced{Value: "12", Source: "of a test"}}
		spoil(d.PlankScarf)
		if _, faults := rules.Read(d); len(faults) != 1 || faults[0].Pointer != "/plank_scarf"+pointer || faults[0].Fix == "" {
			t.Errorf("%s: %+v", pointer, faults)
		}
	}
}
