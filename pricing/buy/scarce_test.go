package buy_test

import (
	"fmt"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/notation"

	"pgregory.net/rapid"
)

// scarce are boards of three thicknesses, the middle one with so many for sale.
func scarce(t interface{ Fatal(...any) }, thin, middle, thick, available int) sheet.Content {
	row := func(thickness string, price int, available string) sheet.Row {
		return sheet.Row{Kind: "timber", Supplier: thickness, Species: "larch", Grade: "clear", Unit: "C62", Price: fmt.Sprint(price), Thickness: thickness, Width: "160", StockLength: "3000", Available: available}
	}
	c, err := sheet.FromRows("EUR", notation.Millimetres, []sheet.Row{row("40", thin, ""), row("50", middle, fmt.Sprint(available)), row("60", thick, "")})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// The only board of 50 mm, at 10.00, serves a plank that a board of 40 at 30.00 serves too, and one that otherwise takes a board of 60
// at 90.00. It goes to the latter, though that is planned later.
func TestAScarceBoardGoesWhereItSavesMost(t *testing.T) {
	needs := planksOf(t, [3]string{"150", "38", "2900"}, [3]string{"150", "45", "2900"})
	l, err := buy.New(needs, scarce(t, 30, 10, 90, 1), sawn)
	if err != nil || l.Cost.String() != "40.00" || len(l.Timber) != 2 {
		t.Errorf("%v %s", err, l.Cost)
	}
}

// Two groups that want the same scarce board never come to more than either having its pick first.
func TestTwoGroupsComeToNoMoreThanInEitherOrder(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		price := func(name string) int { return rapid.IntRange(5, 90).Draw(rt, name) }
		thin, middle, thick, available := price("thin"), price("middle"), price("thick"), rapid.IntRange(0, 4).Draw(rt, "available")
		group := func(thickness string) []bill.Line {
			var sizes [][3]string
			for range rapid.IntRange(1, 4).Draw(rt, "planks") {
				sizes = append(sizes, [3]string{"150", thickness, fmt.Sprint(rapid.IntRange(700, 2900).Draw(rt, "length"))})
			}
			return planksOf(t, sizes...)
		}
		a, b := group("38"), group("45")
		for i := range b {
			b[i].ID = "b" + b[i].ID
		}
		c := scarce(rt, thin, middle, thick, available)
		both := must(rt, append(append([]bill.Line{}, a...), b...), c, sawn)
		for _, order := range [][2][]bill.Line{{a, b}, {b, a}} {
			first := must(rt, order[0], c, sawn)
			left := available
			for _, board := range first.Timber[0].Boards {
				for _, o := range first.Timber[0].Offers {
					if o.ID == board.Offer && o.Thickness == "50" {
						left -= int(board.Count)
					}
				}
			}
			second := must(rt, order[1], scarce(rt, thin, middle, thick, left), sawn)
			if in := first.Cost.Minor() + second.Cost.Minor(); both.Cost.Minor() > in {
				rt.Fatalf("%s, %d in one order", both.Cost, in)
			}
		}
		if both.Bound.Minor() > both.Cost.Minor() {
			rt.Fatalf("a floor of %s over %s", both.Bound, both.Cost)
		}
	})
}
