package buy_test

import (
	"testing"

	"ribband/pricing/sheet"
	"ribband/takeoff/notation"
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
