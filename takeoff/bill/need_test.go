package bill_test

import (
	"testing"

	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// A loss never lowers what is needed: with one more, or a greater one, there is never less to be had, and never less than
// stays in the boat.
func TestALossNeverLowersWhatIsNeeded(t *testing.T) {
	formulas := map[string]quantity.Unit{"bill/gross_pieces": quantity.Each, "bill/gross_litres": quantity.Litre, "bill/gross_area": quantity.SquareMetre}
	rapid.Check(t, func(rt *rapid.T) {
		formula := rapid.SampledFrom([]string{"bill/gross_pieces", "bill/gross_litres", "bill/gross_area"}).Draw(rt, "formula")
		unit := formulas[formula]
		net := decimal.NewFromInt(rapid.Int64Range(0, 400).Draw(rt, "net"))
		if unit != quantity.Each {
			net = net.Shift(-2)
		}
		var losses []bill.Loss
		before := net
		for i := range rapid.IntRange(0, 5).Draw(rt, "losses") {
			share := decimal.New(rapid.Int64Range(0, 90).Draw(rt, "share"), -2)
			losses = append(losses, bill.Loss{Name: string(rune('a' + i)), Fraction: share, Source: "made up"})
			gross := had(rt, formula, unit, net, losses)
			if gross.LessThan(before) || gross.LessThan(net) {
				rt.Fatalf("%s: %s with %v, %s without the last", formula, gross, losses, before)
			}
			greater := append([]bill.Loss{}, losses...)
			greater[i].Fraction = share.Add(decimal.New(rapid.Int64Range(0, 9).Draw(rt, "more"), -2))
			if more := had(rt, formula, unit, net, greater); more.LessThan(gross) {
				rt.Fatalf("%s: %s with %v, %s with %v", formula, more, greater, gross, losses)
			}
			before = gross
		}
	})
}

// had is the gross of a net of one line with losses.
func had(rt *rapid.T, formula string, unit quantity.Unit, net decimal.Decimal, losses []bill.Loss) decimal.Decimal {
	t := derivation.NewTable()
	id := map[quantity.Unit]string{quantity.Each: "frame/scarfs", quantity.Litre: "glue/part_b", quantity.SquareMetre: "frame/side_area"}[unit]
	switch unit {
	case quantity.Each:
		t.Derive("n", id, []derivation.Input{derivation.Given("n", "here", net, unit)})
	case quantity.Litre: // what is left of it when none is taken off
		t.Derive("n", id, []derivation.Input{derivation.Given("Q", "here", net, unit), derivation.Given("A", "here", decimal.Zero, unit)})
	default:
		t.Derive("n", id, []derivation.Input{derivation.Given("G", "here", net.Shift(6), quantity.Millimetre), derivation.Given("m", "here", decimal.NewFromInt(1), quantity.Millimetre)})
	}
	l := bill.Need(t, bill.Line{ID: "line", NetFigure: "n", Losses: losses}, formula)
	if err := t.Err(); err != nil {
		rt.Fatal(err)
	}
	return l.Gross.Value()
}
