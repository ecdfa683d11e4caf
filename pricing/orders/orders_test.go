package orders_test

import (
	"errors"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/internal/exact"
	"ribband/pricing/internal/yard"
	"ribband/pricing/orders"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// Hand-worked. Boards of 2 x 8 in, 12 ft: 16 board feet each. Two groups take two and one of them, which is one line of
// three, 48 board feet, 48 x 0.002359737216 = 0.1132673... m3. The glue comes from another, who does not say when.
func TestOrdersBySupplier(t *testing.T) {
	c, err := sheet.FromRows("USD", notation.FeetInchesEighths, []sheet.Row{
		{Kind: "timber", Supplier: "Sawmill", Species: "white_oak", Grade: "select", Unit: "C62", Price: "90.00", Thickness: "8/4", Width: "0-8-0", StockLength: "12-0-0", LeadDays: "14"},
		{Item: "epoxy", Kind: "glue", Supplier: "Chandler", Unit: "GLL", Price: "120", PackSize: "1"},
		{Item: "ply", Kind: "consumable", Supplier: "Sawmill", Unit: "MTK", Price: "9", PackSize: "3", LeadDays: "3"},
	})
	if err != nil {
		t.Fatal(err)
	}
	wide := yard.Laminates(13, boat.Port, 18, 18, "2.600")
	wide.Pieces.Siding = exact.Dec("44.45")
	l, err := buy.New([]bill.Line{
		yard.Laminates(12, boat.Port, 36, 36, "2.600"), wide, yard.Goods(12, bill.Glue, "epoxy", "3.00", "3.00", quantity.Litre), yard.Goods(12, bill.Pattern, "ply", "2.00", "2.00", quantity.SquareMetre),
	}, c, yard.Shop)
	if err != nil {
		t.Fatal(err)
	}
	got, err := orders.Of(l, c)
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != 2 || got[0].Supplier != "Chandler" || got[1].Supplier != "Sawmill" {
		t.Fatalf("%+v", got)
	}
	chandler, mill := got[0], got[1]
	if chandler.LeadDays != nil || !chandler.LeadUnknown || chandler.Cost.String() != "120.00" || len(chandler.Timber) != 0 {
		t.Errorf("%+v", chandler)
	}
	if mill.LeadUnknown || *mill.LeadDays != 14 || mill.Cost.String() != "297.00" || len(mill.Lines) != 2 {
		t.Errorf("%+v", mill)
	}
	if d := cmp.Diff([]orders.Timber{{Species: "white_oak", BoardFeet: "48.00", CubicMetre: "0.1133"}}, mill.Timber); d != "" {
		t.Error(d)
	}
	if b := mill.Lines[0]; b.Count != 3 || b.Cost.String() != "270.00" || *b.LeadDays != 14 {
		t.Errorf("%+v", b)
	}
	var need *buy.NeedError
	if _, err := orders.Of(l, sheet.Content{}); !errors.As(err, &need) {
		t.Errorf("another sheet: %v", err)
	}
}

// Over invented yards: all orders together cost what the list costs.
func TestOrdersAddToTheList(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		needs, c := yard.Needs(t), yard.Sheet(t)
		l, err := buy.New(needs, c, yard.Shop)
		if err != nil {
			return
		}
		all, err := orders.Of(l, c)
		if err != nil {
			t.Fatal(err)
		}
		var sum int64
		for _, o := range all {
			var lines int64
			for _, x := range o.Lines {
				lines += x.Cost.Minor()
				if x.Cost.Minor() != x.Count*x.Each.Minor() {
					t.Fatalf("%+v", x)
				}
			}
			if lines != o.Cost.Minor() {
				t.Fatalf("%+v", o)
			}
			sum += lines
		}
		if sum != l.Cost.Minor() {
			t.Fatalf("orders %d, list %s", sum, l.Cost)
		}
	})
}

// Sheets of two sizes at one price are two lines, each with its size: a supplier cannot fill "ply, 2".
func TestSheetsOfTwoSizesAreTwoLines(t *testing.T) {
	c, err := sheet.FromRows("EUR", notation.Millimetres, []sheet.Row{
		{Item: "ply", Kind: "consumable", Supplier: "Yard", Unit: "C62", Price: "40", Width: "1000", StockLength: "2000", Available: "1"},
		{Item: "ply", Kind: "consumable", Supplier: "Yard", Unit: "C62", Price: "40", Width: "1250", StockLength: "2500", Available: "1"},
	})
	if err != nil {
		t.Fatal(err)
	}
	at := boat.Member{Kind: boat.Frame, No: 12, Side: boat.Port}
	var needs []bill.Line
	for _, size := range [][2]string{{"1000", "2000"}, {"1250", "2500"}} {
		area := exact.Dec(size[0]).Mul(exact.Dec(size[1])).Shift(-6)
		q, err := quantity.Of(area, quantity.SquareMetre)
		if err != nil {
			t.Fatal(err)
		}
		needs = append(needs, bill.Line{ID: at.Path() + "/ply" + size[0], Material: bill.Pattern, Item: "ply", Driver: "patterns", Member: at, Remedy: boat.ReplaceLaminated, Net: q, Gross: q,
			Rectangles: &bill.Rectangles{Width: exact.Dec(size[0]), Length: exact.Dec(size[1]), Count: 1}})
	}
	l, err := buy.New(needs, c, buy.Rules{})
	if err != nil {
		t.Fatal(err)
	}
	got, err := orders.Of(l, c)
	if err != nil || len(got) != 1 || len(got[0].Lines) != 2 {
		t.Fatalf("%+v %v", got, err)
	}
	for _, line := range got[0].Lines {
		if line.Count != 1 || line.Width+" x "+line.StockLength != map[string]string{"1000": "1000 x 2000", "1250": "1250 x 2500"}[line.Width] {
			t.Errorf("%+v", line)
		}
	}
}
