package sheet

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"

	"ribband/pricing/money"
	"ribband/takeoff/notation"
	"ribband/takeoff/table"
)

// MaxTableBytes is the longest table that is read.
const MaxTableBytes = 4 << 20

var priceTable = table.Kind{
	Columns: Columns, Needed: []string{"item", "kind", "unit", "price"},
	MaxBytes: MaxTableBytes, MaxRows: MaxItems, Text: true,
	TooLong: fmt.Sprintf("at most %d bytes", MaxTableBytes),
	TooMany: fmt.Sprintf("at most %d rows below the header", MaxItems),
	NoRows:  "write one row for each item",
}

// ReadCSV reads a price table: RFC 4180, UTF-8 with or without a byte order mark, cells parted by comma, semicolon
// or tab, a header of the names in Columns in any order. Item, kind, unit and price must be there. With semicolons
// or tabs a number may have a decimal comma, one that may part thousands instead is told with both readings.
//
// Every fault is told at once in a *FaultsError, by the line on which its row begins and by column. Broken quoting
// ends the reading there: what follows it cannot be told apart.
func ReadCSV(written []byte, currency money.Currency, n notation.Notation) (Content, error) {
	t, faults := priceTable.Open(written)
	r := newReader(currency, n, func(row int, column string) Fault {
		return Fault{Row: row, Column: column, ColumnNo: t.Place(column)}
	})
	tell := func(f table.Fault) {
		r.faults = append(r.faults, Fault{Row: f.Row, Column: f.Column, ColumnNo: f.ColumnNo, Detail: f.Detail, Fix: f.Fix})
	}
	for _, f := range faults {
		tell(f)
	}
	r.comma = t.DecimalComma()
	var rows []Row
	var lines []int
	for line, cells := range t.Rows(tell) {
		var row Row
		for i, into := range row.cells() {
			*into = cells[i]
		}
		r.marks.look(line, row)
		r.marks.lengths(line, row, n)
		rows, lines = append(rows, row), append(lines, line)
	}
	for i, row := range rows {
		r.row = lines[i]
		r.read(row)
	}
	return r.done()
}

// WriteCSV writes the table as RFC 4180 says, parted by commas, in the order of Columns. ReadCSV makes the same
// content of it.
func (c Content) WriteCSV(w io.Writer) error {
	columns := slices.Index(Columns, "valid_until") + 1
	for _, it := range c.Items {
		row := it.Row()
		for k, cell := range row.cells() {
			if *cell != "" {
				columns = max(columns, k+1)
			}
		}
	}
	out := csv.NewWriter(w)
	out.UseCRLF = true
	if err := out.Write(Columns[:columns]); err != nil {
		return err
	}
	for _, it := range c.Items {
		row := it.Row()
		var cells []string
		for _, cell := range row.cells()[:columns] {
			cells = append(cells, *cell)
		}
		if err := out.Write(cells); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}
