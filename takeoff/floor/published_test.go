package floor_test

import (
	"encoding/csv"
	"os"
	"testing"

	"ribband/seed"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/floor"
	"ribband/takeoff/rules"

	"github.com/shopspring/decimal"
)

// Sources stand in testdata/published/board-measure-undated: a floor whose blank is such a board measures what was printed,
// and with a fifth of the stock lost a quarter more.
func TestBoardMeasureOfBlanks(t *testing.T) {
	file, err := os.Open("../../testdata/published/board-measure-undated/boards.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil || len(rows) < 4 {
		t.Fatal(rows, err)
	}
	k, err := seed.LoadKnowledge()
	if err != nil {
		t.Fatal(err)
	}
	oak, ok := k.Species.Find("white_oak")
	if !ok {
		t.Fatal("no oak")
	}
	shop, faults := rules.Read(k.Rules)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	shop.BlankTrim, shop.CleaningUp = decimal.Zero, decimal.Zero
	shop.Losses = append(shop.Losses, rules.Loss{Name: "checks", Material: string(rules.SawnTimber), Fraction: dec("0.2"), Source: "of a test"})
	inches := func(text, each string) decimal.Decimal { return dec(text).Mul(dec(each)).Mul(dec("25.4")) }
	for _, r := range rows[1:] {
		f := floor.Floor{No: 1, Siding: inches(r[1], "1"), Depth: inches(r[2], "1"), ByHand: &floor.ByHand{Across: inches(r[3], "12"), Height: inches(r[2], "1")}}
		area := f.ByHand.Across.Mul(f.ByHand.Height).InexactFloat64()
		table := derivation.NewTable()
		out, err := floor.Job{Floor: f, Size: floor.Size{ByHand: true, Area: area}, Remedy: boat.ReplaceSawn, Grade: "FAS", Wood: oak}.Sawn(shop, table)
		if err != nil {
			t.Fatal(err)
		}
		want := dec(r[4])
		if got := table.Quantity("floor/1/board_feet").Value(); !got.Equal(want) {
			t.Errorf("%s: %s board feet, %s printed", r[0], got, want)
		}
		if got := table.Quantity("floor/1/board_feet_gross").Value(); !got.Equal(want.Mul(dec("1.25"))) {
			t.Errorf("%s: %s board feet gross, %s wanted", r[0], got, want.Mul(dec("1.25")))
		}
		for _, l := range out.Lines {
			if n, _ := l.Gross.Int(); l.Material == bill.Timber && (n != 2 || len(l.Losses) != 1) {
				t.Errorf("%s: %d pieces with a fifth lost", r[0], n)
			}
		}
		for _, fig := range table.Figures() {
			if err := derivation.Verify(fig, table); err != nil {
				t.Error(err)
			}
		}
	}
}
