package buy_test

import (
	"fmt"
	"strings"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"
)

// Hand-worked. A plank of 2 m on a board of 2.5 m costs 13.00; of two parts out of two boards of 2 m, which give 1.96 m each, 12.00 and a
// joint of 0.17. Of its glue no fewer than two litres are sold, and one is for sale: so the plank is cut whole, and the list says why. What
// none can be below are still the boards with the joint, for how much glue that takes is the plan's.
func TestTooLittleGlueForAScarf(t *testing.T) {
	needs := mayScarf(planksOf(t, [3]string{"150", "30", "2000"}))
	row := sheet.Row{Kind: "timber", Supplier: "A", Unit: "C62", Species: "larch", Grade: "clear", Thickness: "40", Width: "160", StockLength: "2000", Price: "6"}
	longer := row
	longer.StockLength, longer.Price = "2500", "13"
	c := onSheet(t, row, longer, sheet.Row{Item: "shipwright", Kind: "labour", Unit: "HUR", Price: "0.17"},
		sheet.Row{Item: "epoxy", Kind: "glue", Supplier: "A", Unit: "LTR", Price: "1", MinQty: "2", Available: "1"})
	l, err := buy.New(needs, c, scarfing("1", "0"))
	if err != nil || l.Cost.String() != "13.00" || l.Bound.String() != "12.17" || l.Timber[0].Scarfed != nil || l.Timber[0].Proven || !strings.Contains(l.Timber[0].NotScarfed, "too little epoxy") {
		t.Fatalf("%s, none below %s, %+v, %v", l.Cost, l.Bound, l.Timber, err)
	}
	needs[0].Pieces.Length = of("2.6", needs[0].Pieces.Length.Unit()) // longer than any board gives
	if l, err := buy.New(needs, c, scarfing("1", "0")); err == nil {
		t.Fatalf("%s without glue", l.Cost)
	}
}

// Hand-worked. The bill counts a scarf of a plank that the boards for sale give whole, and its glue, which B alone sells. A sells the board
// at 20.00 and asks 1.00 for bringing it, B at 19.00 and asks 5.00. Whole the plank asks for no glue, and 21.00 are the least.
func TestGlueThatNoScarfTakesBindsToNoSupplier(t *testing.T) {
	needs := mayScarf(planksOf(t, [3]string{"150", "30", "1700"}))
	needs[0].Pieces.Scarf.Counted = 1
	needs = append(needs, bill.Line{ID: needs[0].Pieces.Scarf.Glue.Line, Material: bill.Glue, Item: "epoxy", Driver: string(step.Scarfs), Member: needs[0].Member, Remedy: boat.RenewPlank,
		Net: of("0.02", quantity.Litre), Gross: of("0.03", quantity.Litre)})
	rows := []sheet.Row{{Item: "shipwright", Kind: "labour", Unit: "HUR", Price: "9"}, {Item: "epoxy", Kind: "glue", Supplier: "B", Unit: "LTR", Price: "1"}, brings("A", "C62", "1", ""), brings("B", "C62", "5", "")}
	for k, price := range []string{"20", "19"} {
		rows = append(rows, sheet.Row{Kind: "timber", Supplier: []string{"A", "B"}[k], Unit: "C62", Species: "larch", Grade: "clear", Thickness: "40", Width: "160", StockLength: "2000", Price: price})
	}
	l, err := buy.New(needs, onSheet(t, rows...), scarfing("1", "0"))
	if err != nil || l.Total.String() != "21.00" || l.TotalBound.String() != "21.00" || len(l.Shares) != 2 || !l.Shares[1].Cost.IsZero() || fmt.Sprint(l.Shares[1].Kind) != "glue" {
		t.Fatalf("%s, none below %s, %+v, %v", l.Total, l.TotalBound, l.Shares, err)
	}
}

// Hand-worked. A yard scarfs only what no board gives whole. A sells boards of 3 m at 30.00 and asks 20.00 for bringing them, B boards of
// 2 m at 5.00: a plank of 2.8 m is cut whole out of A's, though off B's boards alone it would have to be scarfed. And where three of a
// board are for sale, none from five on is: the plank is whole all the same, out of the three that are sold at least.
func TestWhatSomeBoardGivesWholeIsNotScarfed(t *testing.T) {
	needs := mayScarf(planksOf(t, [3]string{"150", "30", "2800"}))
	needs[0].Pieces.Scarf.OnlyLonger = true
	board := func(supplier, length, price, least, avail string) sheet.Row {
		return sheet.Row{Kind: "timber", Supplier: supplier, Unit: "C62", Species: "larch", Grade: "clear", Thickness: "40", Width: "160", StockLength: length, Price: price, MinQty: least, Available: avail}
	}
	hands := []sheet.Row{{Item: "shipwright", Kind: "labour", Unit: "HUR", Price: "1"}, {Item: "epoxy", Kind: "glue", Unit: "LTR", Price: "1"}}
	for want, rows := range map[string][]sheet.Row{
		"50.00":  {board("A", "3000", "30", "", ""), board("B", "2000", "5", "", ""), brings("A", "C62", "20", "")},
		"120.00": {board("A", "3000", "40", "3", "3"), board("A", "3000", "35", "5", "3"), board("A", "2000", "5", "", ""), brings("B", "C62", "1", "")},
	} {
		l, err := buy.New(needs, onSheet(t, append(rows, hands...)...), scarfing("1", "0"))
		if err != nil || l.Total.String() != want || l.TotalBound.Minor() > l.Total.Minor() || l.Timber[0].Scarfed != nil || len(l.Added) > 0 {
			t.Errorf("%s, want %s, none below %s, %+v, %v", l.Total, want, l.TotalBound, l.Timber[0].Scarfed, err)
		}
	}
}

// Hand-worked, in cents. A plank of 2.6 m is 15 on a board of 3 m, and of two parts out of two boards of 2 m 10 and a joint of 0.4; by the
// cubic metre 156.25 are asked, 3 for the long board and 2 for each of the short. A can of glue for 1 is needed anyway. With twenty hours of
// setting up, 8, the plank is cut whole for 19; with the joint it would be 10 + 4 + 1, its labour rounding to nothing, and so no floor is above 15.
func TestPartsOfALabouredCoinAreInNoFloor(t *testing.T) {
	needs := append(mayScarf(planksOf(t, [3]string{"150", "30", "2600"})), goods(9, bill.Glue, "epoxy", "0.90", "0.90", quantity.Litre))
	row := sheet.Row{Kind: "timber", Supplier: "A", Unit: "C62", Species: "larch", Grade: "clear", Thickness: "40", Width: "160", StockLength: "2000", Price: "0.05"}
	longer := row
	longer.StockLength, longer.Price = "3000", "0.15"
	c := onSheet(t, row, longer, sheet.Row{Item: "shipwright", Kind: "labour", Unit: "HUR", Price: "0.004"},
		sheet.Row{Item: "epoxy", Kind: "glue", Supplier: "B", Unit: "LTR", Price: "0.01"}, brings("A", "MTQ", "1.5625", ""))
	l, err := buy.New(needs, c, scarfing("1", "20"))
	if err != nil || l.Total.String() != "0.19" || l.TotalBound.String() != "0.15" || l.Timber[0].Scarfed != nil {
		t.Fatalf("%s, none below %s, %+v, %v", l.Total, l.TotalBound, l.Timber[0].Scarfed, err)
	}
}

// Hand-worked. A plank longer than any board takes two of A's at 6.00 and a joint of 0.50, for whose glue A asks 7.00 and B 6.00. Each asks
// 5.00 for bringing an order: of A alone it is all 24.00, with B's glue 28.00.
func TestGlueOfScarfsChoosesItsSupplier(t *testing.T) {
	needs := mayScarf(planksOf(t, [3]string{"150", "30", "4800"}))
	rows := []sheet.Row{{Kind: "timber", Supplier: "A", Unit: "C62", Species: "larch", Grade: "clear", Thickness: "40", Width: "160", StockLength: "3000", Price: "6"},
		{Item: "shipwright", Kind: "labour", Unit: "HUR", Price: "0.50"}, brings("A", "C62", "5", ""), brings("B", "C62", "5", "")}
	for k, price := range []string{"7", "6"} {
		rows = append(rows, sheet.Row{Item: "epoxy", Kind: "glue", Supplier: []string{"A", "B"}[k], Unit: "LTR", Price: price})
	}
	l, err := buy.New(needs, onSheet(t, rows...), scarfing("1", "0"))
	if err != nil || l.Total.String() != "24.00" || l.ScarfLabour.String() != "0.50" || l.TotalBound.String() != "24.50" {
		t.Fatalf("%s and %s, none below %s, %v", l.Total, l.ScarfLabour, l.TotalBound, err)
	}
}
