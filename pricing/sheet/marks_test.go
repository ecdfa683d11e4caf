package sheet_test

import (
	"errors"
	"strings"
	"testing"

	"ribband/pricing/sheet"
	"ribband/takeoff/notation"
)

// A mark before three digits may part thousands: it is told with both readings, unless another number of the table shows
// the decimal mark; two decimal marks in one table are told as well.
func TestAMarkThatMayPartThousandsIsTold(t *testing.T) {
	const head = "item;kind;unit;price;pack_size;species;grade;thickness;width;stock_length\n"
	for _, x := range []struct {
		rows, price string
		says        []string
	}{
		{"slip;outside;C62;1,240;;;;;;\n", "", []string{`row 2`, `"1,240" can be read as 1240 or as 1.240`, "write 1240, without a thousands mark, or 1,24"}},
		{"slip;outside;C62;1.240;;;;;;\n", "", []string{"1240 or as 1.240", "or 1.24"}},
		{"slip;outside;C62;1,240;;;;;;\nglue;glue;LTR;31,5;4;;;;;\n", "1.24", nil},
		{"slip;outside;C62;1.240;;;;;;\nglue;glue;LTR;31,5;4;;;;;\n", "", []string{`"1.240" can be read as 1240 or as 1.240, and "31,5" in row 3 has a decimal comma`, "or 1,24"}},
		{"slip;outside;C62;0,125;;;;;;\n", "0.125", nil},
		{"slip;outside;C62;1240,00;;;;;;\n", "1240", nil},
		{";timber;C62;40;;oak;FAS;51;150;2,400\n", "", []string{"stock_length", "2.400 mm or as 2400 mm"}},
		{";timber;C62;40,50;;oak;FAS;51;150;2400\n", "40.5", nil},
	} {
		c, err := sheet.ReadCSV([]byte(head+x.rows), "EUR", notation.Millimetres)
		if x.says == nil {
			if err != nil || c.Items[0].Price.String() != x.price {
				t.Errorf("%q: %v, %+v", x.rows, err, c.Items)
			}
			continue
		}
		var faults *sheet.FaultsError
		if !errors.As(err, &faults) {
			t.Errorf("%q is read: %+v", x.rows, c.Items)
			continue
		}
		all := ""
		for _, f := range faults.Faults {
			all += f.String() + "; " + f.Fix + "\n"
		}
		for _, say := range x.says {
			if !strings.Contains(all, say) {
				t.Errorf("%q does not say %q: %s", x.rows, say, all)
			}
		}
	}
}

// Rows alike but for their least orders are one article at several quantities; with the same least order they stand twice.
func TestRowsAtSeveralQuantities(t *testing.T) {
	const head = "item,kind,unit,price,min_qty,supplier\n"
	c, err := sheet.ReadCSV([]byte(head+"rivet,metal,C62,0.50,,A\nrivet,metal,C62,0.40,100,A\nrivet,metal,C62,0.45,100,B\n"), "EUR", notation.Millimetres)
	if err != nil {
		t.Fatal(err)
	}
	if n := len(c.Breaks(c.Items[0])); n != 2 || len(c.Breaks(c.Items[2])) != 1 {
		t.Errorf("%d prices of one article", n)
	}
	dearer := c
	dearer.Items = append([]sheet.Item{}, c.Items...)
	dearer.Items[1].Price = c.Items[0].Price
	got, err := sheet.Compare(c, dearer)
	if err != nil || got.Changed != 1 || got.Same != 2 {
		t.Errorf("%+v, %v", got, err)
	}
	for _, twice := range []string{"rivet,metal,C62,0.50,100,A\nrivet,metal,C62,0.40,100,A\n", "shipwright,labour,HUR,50,,\nshipwright,labour,HUR,45,10,\n"} {
		var faults *sheet.FaultsError
		if _, err := sheet.ReadCSV([]byte(head+twice), "EUR", notation.Millimetres); !errors.As(err, &faults) {
			t.Errorf("%q is read, %v", twice, err)
		}
	}
}
