package freight_test

import (
	"math/big"
	"testing"

	"ribband/pricing/freight"
	"ribband/pricing/internal/exact"
	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/notation"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
)

// Hand-worked. Two boards of 8/4 x 8 in x 12 ft are 32 board feet; of 750 kg/m3 they weigh 32 x 0.002359737216 x 750 = 56.6337 kg, with five
// bags of 2 kg 66.6337. An order is 25.00, 0.15 a board foot 4.80, 0.10 a kilogram 6.66. What each board and bag adds by itself comes to
// the same before it is rounded: 11.46337 dollars, in cents. From 200.00 on the weight is not asked; how heavy a brush is nobody says.
func TestWhatALoadIsAskedFor(t *testing.T) {
	c, err := sheet.FromRows("USD", notation.FeetInchesEighths, []sheet.Row{
		{Kind: "timber", Supplier: "A", Species: "white_oak", Grade: "select", Unit: "C62", Price: "90", Thickness: "8/4", Width: "0-8-0", StockLength: "12-0-0"},
		{Item: "filler", Kind: "consumable", Supplier: "a", Unit: "KGM", Price: "3", PackSize: "2"},
		{Item: "brush", Kind: "consumable", Supplier: "A", Unit: "C62", Price: "2"},
		{Kind: "freight", Supplier: "A", Unit: "C62", Price: "25"},
		{Kind: "freight", Supplier: "A", Unit: "BFT", Price: "0.15"},
		{Kind: "freight", Supplier: "A", Unit: "KGM", Price: "10", Per: "100", FreeFrom: "200"},
	})
	if err != nil {
		t.Fatal(err)
	}
	oak, filler, brush, rows := c.Items[0], c.Items[1], c.Items[2], c.Freight("A")
	densities := map[string]decimal.Decimal{"white_oak": exact.Dec("750")}
	load := freight.NewLoad("A", "USD")
	asked := func() (cost string, free bool, unknown []string) {
		got, err := load.Charge(rows, densities)
		if err != nil || len(got.Lines) != 3 {
			t.Fatalf("%+v %v", got, err)
		}
		return got.Cost.String(), got.Lines[2].Free, got.Unknown
	}
	if cost, _, _ := asked(); cost != "25.00" {
		t.Errorf("for nothing but the order: %s", cost)
	}
	add := func(it sheet.Item, what string, count, minor int64) {
		cost, err := money.New(minor, "USD")
		if err == nil {
			err = load.Add(it, what, count, cost)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	add(oak, "oak", 2, 18000)
	add(filler, "filler", 5, 1500)
	if cost, free, unknown := asked(); cost != "36.46" || free || len(unknown) > 0 {
		t.Errorf("%s, free %v, unknown %v", cost, free, unknown)
	}
	add(brush, "brush", 3, 600)
	if cost, free, unknown := asked(); cost != "29.80" || !free || !cmp.Equal(unknown, []string{"brush"}) {
		t.Errorf("%s, free %v, unknown %v", cost, free, unknown)
	}
	rates := freight.RatesOf(rows, "USD", densities)
	parts := new(big.Rat).Mul(rates.Of(oak), big.NewRat(2, 1))
	parts.Add(parts, new(big.Rat).Mul(rates.Of(filler), big.NewRat(5, 1)))
	if got := parts.FloatString(3); got != "1146.337" || !rates.Any(c.Items) || rates.Of(brush).Sign() != 0 {
		t.Errorf("in parts %s", got)
	}
	if freight.RatesOf(rows[:1], "USD", densities) != nil {
		t.Error("freight by the order alone has rates")
	}
}
