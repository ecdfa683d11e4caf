package pack_test

import (
	"errors"
	"testing"

	"ribband/pricing/internal/exact"
	"ribband/pricing/money"
	"ribband/pricing/pack"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"
)

func needed(litres string) pack.Need {
	at := boat.Member{Kind: boat.Frame, No: 1, Side: boat.Port}
	q := exact.Of(litres, quantity.Litre)
	return pack.Need{Item: "epoxy", Unit: quantity.Litre, Lines: []bill.Line{{ID: "glue", Material: bill.Glue, Item: "epoxy", Member: at, Net: q, Gross: q}}}
}

func cans(t *testing.T, rows ...sheet.Row) sheet.Content {
	t.Helper()
	for i := range rows {
		rows[i].Item, rows[i].Kind, rows[i].Unit = "epoxy", "glue", "LTR"
	}
	c, err := sheet.FromRows("USD", notation.Millimetres, rows)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Hand-worked. Seven litres are a can of 5 at 40.00 and one of 2 at 20.00, 60.00; two of 5 would be 80.00 and four of 2 the same. With
// another can of 2 the plan holds 9 litres at 80.00, above the floor as before.
func TestCansForANeed(t *testing.T) {
	five, two := sheet.Row{Price: "8", PackSize: "5"}, sheet.Row{Price: "10", PackSize: "2"}
	c := cans(t, five, two)
	p, err := pack.NewPlanner(exact.Dec("3")).Plan(needed("7"), pack.Source{Sheet: c})
	if err != nil || p.Cost.String() != "60.00" || p.Bound != p.Cost || !p.Proven || len(p.Bought) != 2 || !p.LeftOver.IsZero() {
		t.Fatalf("%+v %v", p, err)
	}
	it, ok := p.Bought[1].Row(p.Item, c)
	if !ok || p.Bought[1].Label(p.Item) != "epoxy 2 "+it.Unit.Name() {
		t.Errorf("%+v is of %+v", p.Bought[1], it)
	}
	holds, _ := it.Holds("LTR")
	more, err := p.With(1, 1, holds)
	if err != nil || more.Cost.String() != "80.00" || more.Bound != p.Bound || more.Proven || more.LeftOver.String() != "2.00" || p.Bought[1].Count != 1 {
		t.Errorf("%+v %v, of %+v", more, err, p)
	}
	if again := more.Above(p); again.Bound != p.Bound || again.Proven {
		t.Errorf("%+v", again)
	}
	var gone *pack.RowError
	if _, err := p.At(cans(t, five)); !errors.As(err, &gone) || gone.Item != "epoxy" {
		t.Errorf("off a sheet without the small can: %v", err)
	}
}

// A price handed in takes the place of the sheet's, and what was planned before does not answer for it.
func TestAPriceHandedIn(t *testing.T) {
	planner := pack.NewPlanner(exact.Dec("3"))
	off := pack.Source{Sheet: cans(t, sheet.Row{Price: "8", PackSize: "5"}, sheet.Row{Price: "10", PackSize: "2"})}
	if p, err := planner.Plan(needed("2"), off); err != nil || p.Cost.String() != "20.00" {
		t.Fatalf("%+v %v", p, err)
	}
	off.Price = func(sheet.Item) (money.Money, error) { return money.New(500, "USD") }
	if p, err := planner.Plan(needed("2"), off); err != nil || p.Cost.String() != "5.00" {
		t.Errorf("%+v %v", p, err)
	}
}

// Too little for sale, or nothing in a unit that measures the need, is told; nothing falls over.
func TestTooFewCans(t *testing.T) {
	var short *pack.ShortError
	_, err := pack.NewPlanner(exact.Dec("3")).Plan(needed("11"), pack.Source{Sheet: cans(t, sheet.Row{Price: "8", PackSize: "5", Available: "2"})})
	if !errors.As(err, &short) || short.Short.String() != "1.00" {
		t.Errorf("%v", err)
	}
	if _, err = pack.NewPlanner(exact.Dec("3")).Plan(needed("11"), pack.Source{Sheet: cans(t)}); !errors.As(err, &short) {
		t.Errorf("off an empty sheet: %v", err)
	}
}
