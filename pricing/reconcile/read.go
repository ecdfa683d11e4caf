package reconcile

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"ribband/pricing/sheet"
	"ribband/takeoff/notation"
)

// Limits of one table of spend.
const (
	MaxTableBytes = 4 << 20
	MaxRows       = 10_000
	MaxCellBytes  = 500
	MaxFaults     = 200 // listed; the rest are counted
)

// Import is what a table of spend says. Nothing of it is posted yet: the good rows wait until somebody confirms
// them, the bad rows are listed.
type Import struct {
	// Good rows, in the table's order.
	Good []Numbered `json:"good"`
	// Again are rows that were posted before, or stand further up in the table, with the same content. They count
	// once, so nothing is left to do about them.
	Again []Numbered `json:"again"`
	// Bad are the lines on which rows with faults begin.
	Bad []int `json:"bad"`
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

// ReadCSV reads a table of spend: RFC 4180, UTF-8 with or without a byte order mark, cells parted by comma,
// semicolon or tab, a header of the names in Columns in any order. With semicolons or tabs a number may have a
// decimal comma. Posted is what the job has already.
//
// Rows are judged one by one and every fault of each is told, by the line on which the row begins and by column. A
// header with a fault leaves no rows. Broken quoting ends the reading there, what follows it cannot be told apart;
// the rows before it stand.
func ReadCSV(table []byte, job Job, posted []Entry) Import {
	at := map[string]int{}
	r := newReader(job, posted, func(row int, column string) sheet.Fault {
		return sheet.Fault{Row: row, Column: column, ColumnNo: at[column]}
	})
	switch {
	case len(table) > MaxTableBytes:
		r.fault("", fmt.Sprintf("the table has %d bytes", len(table)), fmt.Sprintf("at most %d bytes; part it into several", MaxTableBytes))
		return r.done()
	case bytes.HasPrefix(table, []byte{0xff, 0xfe}) || bytes.HasPrefix(table, []byte{0xfe, 0xff}):
		r.fault("", "the table is UTF-16 text", "save it as UTF-8")
		return r.done()
	}
	table = bytes.TrimPrefix(table, []byte("\ufeff"))
	mark := delimiter(table)
	r.comma = mark != ','
	c := csv.NewReader(bytes.NewReader(table))
	c.Comma, c.FieldsPerRecord, c.ReuseRecord = mark, -1, true
	r.table(c, at)
	return r.done()
}

// FromRows reads entries that were typed in, as ReadCSV does; faults are told by JSON pointer below /entries.
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
	if len(rows) > MaxRows {
		r.fault("", fmt.Sprintf("there are %d entries", len(rows)), fmt.Sprintf("at most %d at once", MaxRows))
		rows = nil
	}
	for i, row := range rows {
		r.row = i + 1
		r.read(row)
	}
	return r.done()
}

// delimiter is the mark that parts the header's cells; names of columns hold none of them.
func delimiter(table []byte) rune {
	header, _, _ := bytes.Cut(table, []byte("\n"))
	best, most := ',', 0
	for _, m := range []rune{',', ';', '\t'} {
		if n := bytes.Count(header, []byte(string(m))); n > most {
			best, most = m, n
		}
	}
	return best
}

func (r *reader) table(c *csv.Reader, at map[string]int) {
	record, err := c.Read()
	if errors.Is(err, io.EOF) {
		r.fault("", "the table is empty", "begin with the header "+strings.Join(Columns, ","))
		return
	}
	if err != nil {
		r.broken(err)
		return
	}
	header := slices.Clone(record)
	places, ok := r.header(header, at)
	if !ok {
		return
	}
	n := 0
	for {
		if record, err = c.Read(); errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			r.broken(err)
			return
		}
		r.row, _ = c.FieldPos(0)
		if n++; n > MaxRows {
			r.fault("", fmt.Sprintf("the table has more than %d rows", MaxRows), "put what begins here in a table of its own")
			return
		}
		r.record(places, record)
	}
	if n == 0 {
		r.row = 0
		r.fault("", "the table has a header and no rows", "write one row for each line of an invoice, credit or time sheet")
	}
}

// header finds the place of each column in a Row.
func (r *reader) header(cells []string, at map[string]int) ([]int, bool) {
	r.row = 1
	columns := "the columns are " + strings.Join(Columns, ",")
	if len(cells) > 2*len(Columns) {
		f := r.where(1, "")
		f.ColumnNo = len(Columns) + 1
		f.Detail, f.Fix = fmt.Sprintf("the header has %d columns", len(cells)), columns
		r.add(f)
		return nil, false
	}
	ok := true
	places := make([]int, len(cells))
	for i, cell := range cells {
		cell = strings.ToLower(strings.TrimSpace(cell))
		places[i] = slices.Index(Columns, cell)
		f := r.where(1, cell)
		f.ColumnNo = i + 1
		switch {
		case places[i] < 0:
			f.Column = ""
			f.Detail, f.Fix = fmt.Sprintf("column %d is called %s, which is not known", i+1, notation.Quote(strings.ToValidUTF8(cell, "\ufffd"))), columns
		case at[cell] > 0:
			f.Detail, f.Fix = "the column stands twice", "keep one of the two"
		default:
			at[cell] = i + 1
			continue
		}
		ok = false
		r.add(f)
	}
	for _, must := range needed {
		if at[must] == 0 {
			ok = false
			r.fault(must, "the column is not there", columns)
		}
	}
	return places, ok
}

func (r *reader) record(places []int, record []string) {
	if len(record) != len(places) {
		f := r.where(r.row, "")
		f.ColumnNo = min(len(record), len(places)) + 1
		f.Detail = fmt.Sprintf("the row has %d cells and the header %d", len(record), len(places))
		f.Fix = "one cell for each column; a text that holds the parting mark goes in double quotes"
		r.out.Bad = append(r.out.Bad, r.row)
		r.add(f)
		return
	}
	var row Row
	into := row.cells()
	for i, cell := range record {
		*into[places[i]] = cell
	}
	r.read(row)
}

// broken tells where quoting went wrong.
func (r *reader) broken(err error) {
	var p *csv.ParseError
	if errors.As(err, &p) {
		r.row = p.StartLine
		r.out.Bad = append(r.out.Bad, r.row)
		r.fault("", fmt.Sprintf("a double quote is out of place in line %d at byte %d; nothing is read from here on", p.Line, p.Column),
			"a cell that holds a quote is put in quotes, and the quote inside is doubled")
		return
	}
	r.fault("", "the table cannot be read: "+err.Error(), "save it as text parted by commas")
}
