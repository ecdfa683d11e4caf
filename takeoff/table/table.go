// Package table reads delimited tables that people save from a spreadsheet: RFC 4180, UTF-8 with or without a byte
// order mark, cells parted by comma, semicolon or tab as the header has it, a header of known columns in any order.
//
// It promises that every fault it can tell is told with line, column and what would be right, that a row comes out
// with one cell for each known column in the order of Kind.Columns, and that no table makes it read more than Kind
// allows. It takes rows apart and finds nothing of what they mean: judging cells is for who reads them, with Unfit
// and Decimal for what is alike everywhere.
//
// Limits: the parting mark is told from the header's first line alone. Broken quoting ends the reading, because what
// follows it cannot be told apart. Text in another encoding is not turned into UTF-8.
package table

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"iter"
	"slices"
	"strings"
	"unicode/utf8"
)

// Kind is one kind of table: what it may hold, and what its reader is told to do about one that does not fit.
type Kind struct {
	// Columns that are known, in small letters, in the order in which cells come out; no name holds a parting mark.
	Columns []string
	// Needed are those of Columns that must be there.
	Needed []string
	// MaxBytes of the whole table, and MaxRows below its header.
	MaxBytes, MaxRows int
	// MaxRowBytes of one line, where that is bounded; 0 where only the whole is.
	MaxRowBytes int
	// Text says that one byte that is not UTF-8, or one NUL, refuses the whole table. Without it such cells come out
	// as they are, for their reader to judge row by row.
	Text bool
	// TooLong, TooMany, TooWide and NoRows are what to do about a table of more bytes or rows than it may have, about a line
	// of more bytes, or a table of no rows.
	TooLong, TooMany, TooWide, NoRows string
}

// Fault is one thing wrong with a table: where, what, and what would be right.
type Fault struct {
	// Row is the line on which the row begins, the header being line 1; 0 for the table as a whole.
	Row int
	// Column by name where it is a known one, and its place in the header counted from 1; 0 where it concerns none.
	Column      string
	ColumnNo    int
	Detail, Fix string
	// Lost says that the row itself cannot be taken: its quoting is broken, or it has more or fewer cells than the
	// header.
	Lost bool
	// Ends says that nothing is read from Row on.
	Ends bool
	// Cells of a row that has more or fewer than the header, as they are written.
	Cells []string
}

// Table is a table whose header is read.
type Table struct {
	kind   Kind
	csv    *csv.Reader // nil when there are no rows to read
	at     map[string]int
	places []int // of each cell of a row among the known columns
}

// Open looks at the table as a whole and reads its header. With any fault of these, in the order of the header, no
// row is read.
func (k Kind) Open(table []byte) (*Table, []Fault) {
	t := &Table{kind: k, at: map[string]int{}}
	if f := k.unsound(table); f != nil {
		return t, []Fault{*f}
	}
	table = bytes.TrimPrefix(table, []byte("\ufeff"))
	rows := csv.NewReader(bytes.NewReader(table))
	header, _, _ := bytes.Cut(table, []byte("\n"))
	rows.Comma, rows.FieldsPerRecord, rows.ReuseRecord = Mark(string(header)), -1, true
	head, err := rows.Read()
	if errors.Is(err, io.EOF) {
		return t, []Fault{{Row: 1, Detail: "the table is empty", Fix: "begin with the header " + strings.Join(k.Columns, ",")}}
	}
	if err != nil {
		return t, []Fault{broken(err)}
	}
	faults := t.header(head)
	if len(faults) == 0 {
		t.csv = rows
	}
	return t, faults
}

// unsound is what refuses a table before any of it is taken apart.
func (k Kind) unsound(table []byte) *Fault {
	switch {
	case len(table) > k.MaxBytes:
		return &Fault{Detail: fmt.Sprintf("the table has %d bytes", len(table)), Fix: k.TooLong}
	case bytes.HasPrefix(table, []byte{0xff, 0xfe}) || bytes.HasPrefix(table, []byte{0xfe, 0xff}):
		return &Fault{Detail: "the table is UTF-16 text", Fix: "save it as UTF-8"}
	}
	row := 0
	for line := range bytes.Lines(table) {
		row++
		switch {
		case k.Text && !utf8.Valid(line):
			return &Fault{Row: row, Detail: "the row is not UTF-8 text", Fix: "save the table as UTF-8"}
		case k.Text && bytes.IndexByte(line, 0) >= 0:
			return &Fault{Row: row, Detail: "the row holds a NUL character", Fix: "save the table as plain text"}
		case k.MaxRowBytes > 0 && len(line) > k.MaxRowBytes:
			return &Fault{Row: row, Detail: fmt.Sprintf("the row has %d bytes", len(line)), Fix: k.TooWide}
		}
	}
	return nil
}

// Mark is what parts a header's cells: whichever of comma, semicolon and tab stands in it most often.
func Mark(header string) rune {
	best, most := ',', 0
	for _, m := range []rune{',', ';', '\t'} {
		if n := strings.Count(header, string(m)); n > most {
			best, most = m, n
		}
	}
	return best
}

// Mark is what parts the cells; 0 where no row is read.
func (t *Table) Mark() rune {
	if t.csv == nil {
		return 0
	}
	return t.csv.Comma
}

// DecimalComma reports whether a number may have a decimal comma: where cells are not parted by one.
func (t *Table) DecimalComma() bool { return t.csv != nil && t.csv.Comma != ',' }

// Place is where a column stands in the header, counted from 1; 0 for one that does not.
func (t *Table) Place(column string) int { return t.at[column] }

// Rows are the line on which each row begins and its cells as they are written, in the order of Kind.Columns; the
// cell of a column that is not there is empty. Faults are told between the rows, as they are met. A row with a
// fault does not come.
func (t *Table) Rows(tell func(Fault)) iter.Seq2[int, []string] {
	return func(yield func(int, []string) bool) {
		if t.csv == nil {
			return
		}
		for n := 1; ; n++ {
			record, err := t.csv.Read()
			if errors.Is(err, io.EOF) {
				if n == 1 {
					tell(Fault{Row: 1, Detail: "the table has a header and no rows", Fix: t.kind.NoRows})
				}
				return
			}
			if err != nil {
				tell(broken(err))
				return
			}
			line, _ := t.csv.FieldPos(0)
			switch {
			case n > t.kind.MaxRows:
				tell(Fault{Row: line, Ends: true, Detail: fmt.Sprintf("the table has more than %d rows", t.kind.MaxRows), Fix: t.kind.TooMany})
				return
			case len(record) != len(t.places):
				tell(t.ragged(line, slices.Clone(record)))
			case !yield(line, t.cells(record)):
				return
			}
		}
	}
}

func (t *Table) cells(record []string) []string {
	out := make([]string, len(t.kind.Columns))
	for i, cell := range record {
		out[t.places[i]] = cell
	}
	return out
}

// ragged tells of a row that does not have the header's cells, at the first cell that is missing or too many.
func (t *Table) ragged(line int, cells []string) Fault {
	return Fault{
		Row: line, ColumnNo: min(len(cells), len(t.places)) + 1, Lost: true, Cells: cells,
		Detail: fmt.Sprintf("the row has %d cells and the header %d", len(cells), len(t.places)),
		Fix:    "one cell for each column; a text that holds the parting mark goes in double quotes",
	}
}

// broken tells where quoting went wrong.
func broken(err error) Fault {
	var p *csv.ParseError
	if !errors.As(err, &p) {
		return Fault{Ends: true, Detail: "the table cannot be read: " + err.Error(), Fix: "save it as text parted by commas"}
	}
	return Fault{
		Row: p.StartLine, Lost: true, Ends: true,
		Detail: fmt.Sprintf("a double quote is out of place in line %d at byte %d; nothing is read from here on", p.Line, p.Column),
		Fix:    "a cell that holds a quote is put in quotes, and the quote inside is doubled",
	}
}
