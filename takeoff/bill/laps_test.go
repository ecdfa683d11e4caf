package bill_test

import (
	"encoding/csv"
	"os"
	"testing"

	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// An allowance of a tenth on top of what is needed, as a book of seamanship reckons laps of plating (P14 of
// testdata/published/simpson-examples-undated), is a loss of one eleventh of what is bought: the yard's losses are shares of that.
// Taken for a loss of a tenth it would buy 2.76 square feet too much.
func TestAnAllowanceOnTop(t *testing.T) {
	f, err := os.Open("../../testdata/published/simpson-examples-undated/further.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	printed := map[string]decimal.Decimal{}
	for _, r := range rows {
		if r[0] == "P14" {
			printed[r[3]] = decimal.RequireFromString(r[5])
		}
	}
	net := decimal.NewFromInt(2 * (10*6 + 10*4 + 6*4))
	if !net.Equal(printed["six faces of a tank"]) || !net.Add(printed["laps"]).Equal(printed["in all"]) {
		t.Fatal(printed)
	}
	// The figure is in square metres, rounded up to a hundredth; a hundred times as much shows the printed digit.
	hundred := decimal.NewFromInt(100)
	gross := func(loss decimal.Decimal) decimal.Decimal {
		table := derivation.NewTable()
		q := table.Derive("laps", "bill/gross_area", []derivation.Input{derivation.Given("n", "panels", net.Mul(hundred), quantity.SquareMetre)}, derivation.ByFactor("l", loss, "the book"))
		if err := table.Err(); err != nil {
			t.Fatal(err)
		}
		return q.Value().Div(hundred)
	}
	if got := gross(decimal.NewFromInt(1).DivRound(decimal.NewFromInt(11), 16)); !got.Round(2).Equal(printed["in all"]) {
		t.Errorf("%s, printed %s", got, printed["in all"])
	}
	if over := gross(decimal.RequireFromString("0.1")).Sub(printed["in all"]); !over.Round(2).Equal(decimal.RequireFromString("2.76")) {
		t.Errorf("a tenth of what is bought comes to %s more", over)
	}
}
