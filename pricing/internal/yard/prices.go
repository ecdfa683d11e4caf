package yard

import (
	"fmt"
	"testing"

	"ribband/pricing/rack"
	"ribband/pricing/sheet"
	"ribband/takeoff/notation"

	"pgregory.net/rapid"
)

// header of the rows that Prices reads.
const header = "item,kind,supplier,unit,price,per,pack_size,species,grade,thickness,width,stock_length,min_qty,available\n"

// Prices in dollars, lengths in feet, inches and eighths.
func Prices(t testing.TB, rows string) sheet.Content {
	t.Helper()
	c, err := sheet.ReadCSV([]byte(header+rows), "USD", notation.FeetInchesEighths)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Sheet is boards and cans for what Needs draws, drawn.
func Sheet(t *rapid.T) sheet.Content {
	var rows []sheet.Row
	avail := func() string {
		if rapid.Bool().Draw(t, "limited") {
			return fmt.Sprint(rapid.IntRange(0, 8).Draw(t, "available"))
		}
		return ""
	}
	for i := range rapid.IntRange(1, 6).Draw(t, "boards") {
		rows = append(rows, sheet.Row{
			Kind: "timber", Supplier: fmt.Sprint("S", i), Species: "white_oak", Grade: "select", Unit: rapid.SampledFrom([]string{"BFT", "MTQ", "C62", "FOT"}).Draw(t, "unit"),
			Price: fmt.Sprintf("%d.%02d", rapid.IntRange(1, 40).Draw(t, "price"), rapid.IntRange(0, 99).Draw(t, "cents")), Thickness: rapid.SampledFrom([]string{"8/4", "10/4"}).Draw(t, "thickness"),
			Width: fmt.Sprintf("0-%d-0", rapid.IntRange(5, 11).Draw(t, "width")), StockLength: fmt.Sprintf("%d-0-0", rapid.IntRange(10, 18).Draw(t, "length")), Available: avail(),
		})
	}
	for i := range rapid.IntRange(1, 3).Draw(t, "cans") {
		rows = append(rows, sheet.Row{Item: "epoxy", Kind: "glue", Supplier: fmt.Sprint("C", i), Unit: rapid.SampledFrom([]string{"GLL", "LTR", "QTL"}).Draw(t, "can"),
			Price: fmt.Sprint(rapid.IntRange(5, 120).Draw(t, "price")), PackSize: fmt.Sprint(rapid.IntRange(1, 5).Draw(t, "size")), Available: avail()})
	}
	c, err := sheet.FromRows("USD", notation.FeetInchesEighths, rows)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Oak is a row of the rack, 2 in thick.
func Oak(id string, count int64, width, length, worth string, clear ...rack.Stretch) rack.Row {
	return rack.Row{ID: id, Count: count, Species: "white_oak", Grade: "select", Thickness: "8/4", Width: width, Length: length, Worth: worth, Clear: clear}
}
