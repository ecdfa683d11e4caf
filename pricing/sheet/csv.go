package sheet

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"ribband/pricing/money"
	"ribband/takeoff/notation"
)

// MaxTableBytes is the longest table that is read.
const MaxTableBytes = 4 << 20

// ReadCSV reads a price table: RFC 4180, UTF-8 with or without a byte order mark, cells parted by comma, semicolon
// or tab, a header of the names in Columns in any order. Item, kind, unit and price must be there. With semicolons
// or tabs a number may have a decimal comma.
//
// Every fault is told at once in a *FaultsError, by the line on which its row begins and by column. Broken quoting
// ends the reading there: what follows it cannot be told apart.
func ReadCSV(table []byte, currency money.Currency, n notation.Notation) (Content, error) {
	at := map[string]int{}
	r := newReader(currency, n, func(row int, column string) Fault {
		return Fault{Row: row, Column: column, ColumnNo: at[column]}
	})
	switch {
	case len(table) > MaxTableBytes:
		r.fault("", fmt.Sprintf("the table has %d bytes", len(table)), fmt.Sprintf("at most %d bytes", MaxTableBytes))
		return r.done()
	case !utf8.Valid(table):
		r.fault("", "the table is not UTF-8 text", "save it as UTF-8")
		return r.done()
	case bytes.IndexByte(table, 0) >= 0:
		r.fault("", "the table holds a NUL character", "save it as plain text")
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

// table reads header and rows; at is filled with the place of each column.
func (r *reader) table(c *csv.Reader, at map[string]int) {
	record, err := c.Read()
	if err != nil {
		if errors.Is(err, io.EOF) {
			r.fault("", "the table is empty", "begin with the header "+strings.Join(Columns, ","))
			return
		}
		r.broken(err)
		return
	}
	header := slices.Clone(record)
	places, ok := r.header(header, at)
	if !ok {
		return
	}
	for n := 1; ; n++ {
		record, err = c.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			r.broken(err)
			break
		}
		r.row, _ = c.FieldPos(0)
		if n > MaxItems {
			r.fault("", fmt.Sprintf("the table has more than %d rows", MaxItems), fmt.Sprintf("at most %d rows below the header", MaxItems))
			break
		}
		r.record(header, places, record)
	}
	r.row = 0
	if len(r.content.Items) == 0 && len(r.faults) == 0 {
		r.fault("", "the table has a header and no rows", "write one row for each item")
	}
}

// header finds the place of each column in a Row; -1 for one that is not known.
func (r *reader) header(cells []string, at map[string]int) ([]int, bool) {
	r.row = 1
	before := len(r.faults)
	seen := map[string]bool{}
	places := make([]int, len(cells))
	if len(cells) > 2*len(Columns) {
		r.fault("", fmt.Sprintf("the header has %d columns", len(cells)), "the columns are "+strings.Join(Columns, ","))
		return nil, false
	}
	for i, cell := range cells {
		cell = strings.ToLower(strings.TrimSpace(cell))
		cells[i] = cell
		places[i] = slices.Index(Columns, cell)
		switch {
		case places[i] < 0:
			r.fault("", fmt.Sprintf("column %d is called %s, which is not known", i+1, notation.Quote(cell)), "the columns are "+strings.Join(Columns, ","))
		case seen[cell]:
			r.fault(cell, "the column stands twice", "keep one of the two")
		}
		seen[cell] = true
		if at[cell] == 0 && places[i] >= 0 {
			at[cell] = i + 1
		}
	}
	for _, must := range []string{"item", "kind", "unit", "price"} {
		if !seen[must] {
			r.fault(must, "the column is not there", "the columns are "+strings.Join(Columns, ","))
		}
	}
	return places, len(r.faults) == before
}

func (r *reader) record(header []string, places []int, record []string) {
	if len(record) != len(header) {
		r.fault("", fmt.Sprintf("the row has %d cells and the header %d", len(record), len(header)),
			"one cell for each column; a text that holds the parting mark goes in double quotes")
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
		r.fault("", fmt.Sprintf("a double quote is out of place in line %d at byte %d", p.Line, p.Column),
			"a cell that holds a quote is put in quotes, and the quote inside is doubled")
		return
	}
	r.fault("", "the table cannot be read: "+err.Error(), "save it as text parted by commas")
}

// WriteCSV writes the table as RFC 4180 says, parted by commas, in the order of Columns. ReadCSV makes the same
// content of it.
func (c Content) WriteCSV(w io.Writer) error {
	columns := len(Columns) - 1
	for _, it := range c.Items {
		if it.Available >= 0 {
			columns = len(Columns)
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
