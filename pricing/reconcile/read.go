package reconcile

import (
	"fmt"

	"ribband/pricing/sheet"
	"ribband/takeoff/table"
)

// Limits of one table of spend.
const (
	MaxTableBytes = 4 << 20
	MaxRows       = 10_000
	MaxCellBytes  = table.MaxCellBytes
	MaxFaults     = 200 // listed; the rest are counted
)

var spendTable = table.Kind{
	Columns: Columns, Needed: needed, MaxBytes: MaxTableBytes, MaxRows: MaxRows,
	TooLong: fmt.Sprintf("at most %d bytes; part it into several", MaxTableBytes),
	TooMany: "put what begins here in a table of its own",
	NoRows:  "write one row for each line of an invoice, credit or time sheet",
}

// Import is what a table of spend says. Nothing of it is posted yet: the good rows wait until somebody confirms
// them, the bad rows are listed.
type Import struct {
	// Good rows, in the table's order.
	Good []Numbered `json:"good"`
	// Again are rows that were posted before, or stand further up in the table, with the same content. They count
	// once, so nothing is left to do about them. Two rows of one name and different content are both bad.
	Again []Numbered `json:"again"`
	// Notes are what to look at before good rows are confirmed, in their order; MoreNotes is how many are not listed.
	Notes     []Note `json:"notes,omitempty"`
	MoreNotes int    `json:"more_notes,omitempty"`
	// Bad are the lines on which rows with faults begin.
	Bad []int `json:"bad"`
	// StoppedAt is the line at which reading ended before the table did; 0 where it was read to its end.
	StoppedAt int `json:"stopped_at,omitempty"`
	// Faults of table and rows, by row and then by column. More is how many further ones are not listed.
	Faults []sheet.Fault `json:"faults"`
	More   int           `json:"more"`
}

// Numbered is an entry and the line of the table on which its row begins, the header being line 1; of rows that were
// typed in, its place, the first being 1.
type Numbered struct {
	Row   int   `json:"row"`
	Entry Entry `json:"entry"`
}

// Err is the faults as a *sheet.FaultsError; nil when there are none.
func (i Import) Err() error {
	if len(i.Faults) == 0 {
		return nil
	}
	return &sheet.FaultsError{Faults: i.Faults, More: i.More}
}

// StoppedError: nobody has seen what follows the row at which reading ended, so the rows before it are not entered.
type StoppedError struct{ Row int }

func (e *StoppedError) Error() string {
	return fmt.Sprintf("reading ended at row %d, and what follows it was not looked at", e.Row)
}

// Confirmable is nil where the good rows may be entered; a *StoppedError where the table was not read to its end.
func (i Import) Confirmable() error {
	if i.StoppedAt > 0 {
		return &StoppedError{i.StoppedAt}
	}
	return nil
}

// ReadCSV reads a table of spend: RFC 4180, UTF-8 with or without a byte order mark, cells parted by comma,
// semicolon or tab, a header of the names in Columns in any order. With semicolons or tabs a number may have a
// decimal comma; which mark is the decimal one is judged over the whole table. Posted is what the job has already.
//
// Rows are judged one by one and every fault of each is told, by the line on which the row begins and by column. A
// header with a fault leaves no rows. Broken quoting ends the reading there, what follows it cannot be told apart;
// the rows before it are shown and cannot be
// confirmed.
func ReadCSV(written []byte, job Job, posted []Entry) Import {
	t, faults := spendTable.Open(written)
	r := newReader(job, posted, func(row int, column string) sheet.Fault {
		return sheet.Fault{Row: row, Column: column, ColumnNo: t.Place(column)}
	})
	tell := func(f table.Fault) {
		if f.Ends {
			r.out.StoppedAt = f.Row
		}
		if f.Lost {
			r.out.Bad = append(r.out.Bad, f.Row)
		}
		r.add(sheet.Fault{Row: f.Row, Column: f.Column, ColumnNo: f.ColumnNo, Detail: f.Detail, Fix: f.Fix})
	}
	for _, f := range faults {
		tell(f)
	}
	r.comma = t.DecimalComma()
	for line, cells := range t.Rows(tell) {
		var row Row
		for i, into := range row.cells() {
			*into = cells[i]
		}
		r.take(line, row)
	}
	return r.done()
}

// FromRows reads entries that were typed in, as ReadCSV does; faults are told by JSON pointer below /entries. A number
// may have a decimal comma or a decimal point, all of one entry the same.
func FromRows(rows []Row, job Job, posted []Entry) Import {
	r := newReader(job, posted, func(row int, column string) sheet.Fault {
		f := sheet.Fault{Row: row, Column: column, Pointer: "/entries"}
		if row > 0 {
			f.Pointer += fmt.Sprintf("/%d", row-1)
		}
		if column != "" {
			f.Pointer += "/" + column
		}
		return f
	})
	r.typed, r.comma = true, true
	if len(rows) > MaxRows {
		r.fault("", fmt.Sprintf("there are %d entries", len(rows)), fmt.Sprintf("at most %d at once", MaxRows))
		rows = nil
	}
	for i, row := range rows {
		r.take(i+1, row)
	}
	return r.done()
}
