package sheet_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"ribband/pricing/sheet"
	"ribband/takeoff/notation"
)

func randomRow() sheet.Row {
	return sheet.Row{Kind: "timber", Unit: "BFT", Price: "12.50", Species: "white_oak", Grade: "select", Thickness: "8/4", Width: "6", Widest: "12", StockLength: "144"}
}

// A row of random width is written, read and hashed with its widest; a sheet without one keeps the hash it had and the columns.
func TestRandomWidthsAreWrittenAndRead(t *testing.T) {
	row := randomRow()
	c, err := sheet.FromRows("USD", notation.Inches, []sheet.Row{row})
	if err != nil {
		t.Fatal(err)
	}
	var csv bytes.Buffer
	if err := c.WriteCSV(&csv); err != nil {
		t.Fatal(err)
	}
	again, err := sheet.ReadCSV(csv.Bytes(), "USD", notation.Inches)
	if err != nil {
		t.Fatal(err)
	}
	a, _ := c.Hash()
	b, _ := again.Hash()
	row.Widest = ""
	fixed, err := sheet.FromRows("USD", notation.Inches, []sheet.Row{row})
	if err != nil {
		t.Fatal(err)
	}
	if other, _ := fixed.Hash(); a != b || a == other {
		t.Errorf("hashes %s, %s, without %s", a, b, other)
	}
	csv.Reset()
	if err := fixed.WriteCSV(&csv); err != nil || strings.Contains(csv.String(), "widest") {
		t.Errorf("%s %v", csv.String(), err)
	}
	if it := again.Items[0]; it.Label() != "white_oak select 8/4 x 6 to 12 x 144" || it.PieceMeasure().FloatString(3) != "12.000" || it.At(it.Widest.MM()).PieceMeasure().FloatString(3) != "24.000" {
		t.Errorf("%s of %s", it.Label(), it.PieceMeasure())
	}
	d, err := sheet.Compare(fixed, again)
	if err != nil || d.Removed != 1 || d.Added != 1 { // another thing than boards of one width
		t.Errorf("%+v %v", d, err)
	}
}

func TestFaultsOfRandomWidths(t *testing.T) {
	for column, change := range map[string]func(*sheet.Row){
		"widest":    func(r *sheet.Row) { r.Widest = "6" },
		"unit":      func(r *sheet.Row) { r.Unit = "C62" },
		"min_qty":   func(r *sheet.Row) { r.MinQty = "100" },
		"available": func(r *sheet.Row) { r.Available = "4" },
		"width":     func(r *sheet.Row) { r.Width = "" },
	} {
		row := randomRow()
		change(&row)
		_, err := sheet.FromRows("USD", notation.Inches, []sheet.Row{row})
		var faults *sheet.FaultsError
		if !errors.As(err, &faults) || len(faults.Faults) != 1 || faults.Faults[0].Column != column || faults.Faults[0].Fix == "" {
			t.Errorf("%s: %v", column, err)
		}
	}
	var faults *sheet.FaultsError
	if _, err := sheet.FromRows("USD", notation.Inches, []sheet.Row{{Item: "epoxy", Kind: "glue", Unit: "LTR", Price: "9", Widest: "12"}}); !errors.As(err, &faults) || faults.Faults[0].Column != "widest" {
		t.Errorf("glue of random width: %v", err)
	}
}
