package sheet

import (
	"fmt"
	"strings"

	"ribband/takeoff/document"
)

// UnitError: a unit that does not measure what it is to be bought for.
type UnitError struct {
	Item string
	Unit Unit
	Of   string // what is to be measured: "a board", "glue in LTR"
}

func (e *UnitError) Error() string {
	return fmt.Sprintf("%s is priced by the %s (%s), which does not measure %s", e.Item, e.Unit.Name(), string(e.Unit), e.Of)
}

// Missing is something needed that the sheet has no price for.
type Missing struct {
	Kind Kind `json:"kind"`
	// Item that is needed: a trade, a glue, or a timber by species and grade.
	Item string `json:"item"`
	// Unit that it is needed in.
	Unit Unit `json:"unit,omitempty"`
	// For says what it is needed for, one or more: lines of the bill, steps.
	For []string `json:"for"`
	// Fix says which row would do.
	Fix string `json:"fix"`
}

// MissingPriceError lists everything needed that the sheet has no price for, all at once.
type MissingPriceError struct{ Items []Missing }

func (e *MissingPriceError) Error() string {
	var names []string
	for _, m := range e.Items {
		names = append(names, fmt.Sprintf("%s (%s)", m.Item, m.Kind))
	}
	return "the price sheet has no price for " + strings.Join(names, ", ")
}

// Fault is one thing wrong with a sheet: where, what, and what would be right.
type Fault struct {
	// Row is the line of the table on which the row begins, the header being line 1; 0 for the table as a whole.
	// In a document it is the place of the item, the first being 1.
	Row int `json:"row"`
	// Column by name, and its place in the table's header, counted from 1; 0 in a document.
	Column   string `json:"column,omitempty"`
	ColumnNo int    `json:"column_no,omitempty"`
	// Pointer is the JSON pointer of the cell in a document: "/items/3/price"; empty for a table.
	Pointer string `json:"pointer,omitempty"`
	Detail  string `json:"detail"`
	Fix     string `json:"fix"`
}

func (f Fault) String() string {
	s := ""
	if f.Row > 0 {
		s = fmt.Sprintf("row %d", f.Row)
		if f.Column != "" {
			s += ", " + f.Column
		}
		s += ": "
	} else if f.Column != "" {
		s = f.Column + ": "
	}
	return s + f.Detail + "; " + f.Fix
}

// FaultsError is everything wrong with a sheet, by row and then by column. Nothing of a faulty sheet is kept.
type FaultsError struct {
	Faults []Fault
	// More is how many further faults were found and are not listed.
	More int
}

// Unwrap gives the faults in the form all read documents have.
func (e *FaultsError) Unwrap() error {
	out := make(document.Faults, len(e.Faults))
	for i, f := range e.Faults {
		detail := f.Detail
		if f.Column != "" && f.Pointer == "" {
			detail = f.Column + ": " + detail
		}
		out[i] = document.Fault{Pointer: f.Pointer, Row: f.Row, Column: f.ColumnNo, Detail: detail, Fix: f.Fix}
		if f.Pointer != "" {
			out[i].Row = 0
		}
	}
	return out
}

func (e *FaultsError) Error() string {
	var lines []string
	for _, f := range e.Faults {
		lines = append(lines, f.String())
	}
	if e.More > 0 {
		lines = append(lines, fmt.Sprintf("and %d more", e.More))
	}
	return strings.Join(lines, "\n")
}
