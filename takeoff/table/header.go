package table

import (
	"fmt"
	"slices"
	"strings"

	"ribband/takeoff/notation"
)

// header finds the place of each cell among the known columns. Names are taken without blanks around them and in
// capitals or small letters.
func (t *Table) header(cells []string) []Fault {
	known := "the columns are " + strings.Join(t.kind.Columns, ",")
	// A header far too long is one fault, not one for each of a million cells.
	if len(cells) > 2*len(t.kind.Columns) {
		return []Fault{{Row: 1, ColumnNo: len(t.kind.Columns) + 1, Detail: fmt.Sprintf("the header has %d columns", len(cells)), Fix: known}}
	}
	var faults []Fault
	t.places = make([]int, len(cells))
	for i, cell := range cells {
		cell = strings.ToLower(strings.TrimSpace(cell))
		t.places[i] = slices.Index(t.kind.Columns, cell)
		switch {
		case t.places[i] < 0:
			name := notation.Quote(strings.ToValidUTF8(cell, "\ufffd"))
			faults = append(faults, Fault{Row: 1, ColumnNo: i + 1, Detail: fmt.Sprintf("column %d is called %s, which is not known", i+1, name), Fix: known})
		case t.at[cell] > 0:
			faults = append(faults, Fault{Row: 1, Column: cell, ColumnNo: i + 1, Detail: "the column stands twice", Fix: "keep one of the two"})
		default:
			t.at[cell] = i + 1
		}
	}
	for _, must := range t.kind.Needed {
		if t.at[must] == 0 {
			faults = append(faults, Fault{Row: 1, Column: must, Detail: "the column is not there", Fix: known})
		}
	}
	return faults
}
