package buy_test

import (
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"
)

// onSheet is a sheet of rows, sizes in millimetres.
func onSheet(t testing.TB, all ...sheet.Row) sheet.Content {
	t.Helper()
	c, err := sheet.FromRows("USD", notation.Millimetres, all)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// ply is a sheet of plywood by the piece.
func ply(supplier, price, width, length string) sheet.Row {
	return sheet.Row{Item: "ply", Kind: "consumable", Supplier: supplier, Unit: "C62", Price: price, Width: width, StockLength: length}
}

func brings(supplier, unit, price, free string) sheet.Row {
	return sheet.Row{Kind: "freight", Supplier: supplier, Unit: unit, Price: price, FreeFrom: free}
}

// Hand-worked. A piece of 1500 x 3000 mm that may not turn, and a pattern of 700 x 3000 mm, go on A's sheet alone: 500.00 and 25.00 for
// bringing it. B's sheets at 50.00 hold the same area, and a pattern in two lengths; but neither goes on one of them, and no pattern
// is joined that goes whole on a sheet for sale. Nor does 7 m2 at 2.00 lay out what goes on four sheets at 100.00.
func TestWhatGoesOnASheetIsLaidOutWhoeverSellsIt(t *testing.T) {
	large, small, area := ply("A", "500", "1525", "3050"), ply("B", "50", "1220", "2440"), sheet.Row{Item: "ply", Kind: "consumable", Supplier: "B", Unit: "MTK", Price: "2"}
	twice := large
	twice.MinQty = "2"
	for name, x := range map[string]struct {
		need bill.Line
		sold []sheet.Row
		want string
	}{
		"a piece as it lies":    {cut(1, bill.Pattern, "ply", 1, 1500, 3000, false), []sheet.Row{large, small, brings("A", "C62", "25", "")}, "525.00"},
		"a long pattern":        {cut(1, bill.Pattern, "ply", 1, 700, 3000, true), []sheet.Row{large, small, brings("A", "C62", "25", "")}, "525.00"},
		"of two at least":       {cut(1, bill.Pattern, "ply", 1, 700, 3000, true), []sheet.Row{twice, small, brings("A", "C62", "25", "")}, "1025.00"},
		"sheets beside an area": {cut(1, bill.Pattern, "ply", 4, 700, 2000, true), []sheet.Row{ply("A", "100", "1220", "2440"), area, brings("A", "C62", "25", "")}, "425.00"},
	} {
		l, err := buy.New([]bill.Line{x.need}, onSheet(t, x.sold...), shop)
		if err != nil {
			t.Fatal(err)
		}
		laidWhole(t, l, l.Packs[0])
		if l.Total.String() != x.want || l.TotalBound != l.Total {
			t.Errorf("%s: %s, none below %s, want %s", name, l.Total, l.TotalBound, x.want)
		}
	}
}

// Hand-worked. A saw of 10 mm leaves room for three pieces of 500 x 1000 mm on a sheet of 1000 x 2000 mm, so that four take two sheets,
// 200.00, though the same is sold off a roll at 900.00 a metre, where nothing is lost. Without the saw one sheet would do, so that
// no floor is above 100.00. At 90.00 a metre two metres of the roll cost less, and less than a sheet and one metre.
func TestSheetsBesideARollAreSawn(t *testing.T) {
	wide := shop
	wide.Kerf = dec("10")
	for price, want := range map[string]string{"900": "200.00", "90": "180.00"} {
		c := onSheet(t, ply("A", "100", "1000", "2000"), sheet.Row{Item: "ply", Kind: "consumable", Supplier: "B", Unit: "MTR", Price: price, Width: "1000"})
		l, err := buy.New([]bill.Line{cut(1, bill.Pattern, "ply", 4, 500, 1000, true)}, c, wide)
		if err != nil {
			t.Fatal(err)
		}
		laidWhole(t, l, l.Packs[0])
		if l.Cost.String() != want || l.Bound.String() != "100.00" {
			t.Errorf("a roll at %s: %s, none below %s", price, l.Cost, l.Bound)
		}
	}
}

// Two thousand of a pack that holds a millionth are not bought, and what is bought instead is not said to be the cheapest.
func TestAPackCountedInBillionsProvesNothing(t *testing.T) {
	c := onSheet(t, sheet.Row{Item: "epoxy", Kind: "glue", Supplier: "A", Unit: "LTR", Price: "10000", PackSize: "0.000001"},
		sheet.Row{Item: "epoxy", Kind: "glue", Supplier: "B", Unit: "LTR", Price: "20000", PackSize: "2000"})
	l, err := buy.New([]bill.Line{goods(1, bill.Glue, "epoxy", "1", "2000", quantity.Litre)}, c, shop)
	if err != nil || l.Packs[0].Proven || l.Cost.String() != "40000000.00" || l.Bound.String() != "20000000.00" {
		t.Errorf("%s, none below %s, %v", l.Cost, l.Bound, err)
	}
}
