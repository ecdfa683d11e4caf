package offsets

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
	"ribband/takeoff/table"
)

// Written is how a table of offsets was written; in a CSV it stands beside the table, not in it. The members mean
// what those of Document mean.
type Written struct {
	Notation notation.Notation
	Grain    string
	Surface  string
}

// columns of the long layout, in the order they are written. They are read in any order.
var columns = [...]string{"station_no", "x", "side", "line", "value"}

const (
	columnStation = iota
	columnX
	columnSide
	columnLine
	columnValue
)

// ReadCSV reads a table: RFC 4180, UTF-8 with or without a byte order mark, the delimiter a comma, a semicolon or a tab
// as the header has it, so also what is copied out of a spreadsheet. Above the header titles may stand, and a row that
// begins with "units:". An empty cell was not measured. Three layouts are told apart by the header:
//
//	station_no,x,side,line,value     the long layout: one row a cell, rows in any order
//	line,side,0,1,2,…                lines down and stations across, a row "x" among them; side may be left out, or be
//	                                 a row, and a station then has a column for each of its sides
//	station_no,x,side,wl:1-0-0,…     stations down and lines across; side may be left out
//
// It reports every fault at once, those of the rows and those that Read finds, each with its row and column. There
// are a document and offsets only when there is none.
func ReadCSV(table []byte, as Written) (*Document, *Table, []Fault) {
	t := newTableReader(as)
	t.take(table)
	o, found := t.finish()
	if len(found) > 0 {
		return nil, nil, found
	}
	return t.doc, o, nil
}

func newTableReader(as Written) *tableReader {
	return &tableReader{doc: &Document{Notation: as.Notation, Grain: as.Grain, Surface: as.Surface}, at: &places{map[string]place{}},
		mark: map[[4]string]int{}}
}

// take reads the table into the document as far as it goes.
func (t *tableReader) take(table []byte) {
	if !t.sound(table) || !t.header(table) {
		t.headless = true
		return
	}
	t.rows()
	t.gather()
	if t.csv.Comma == ';' {
		t.doc.pointed()
	}
}

// finish checks the document that was made.
func (t *tableReader) finish() (*Table, []Fault) {
	if t.headless {
		return nil, t.all()
	}
	return read(t.doc, t.at, &t.faults)
}

// tableReader reads one table.
type tableReader struct {
	faults
	doc      *Document
	at       *places
	csv      *csv.Reader
	layout   layout
	column   [len(columns)]int // where each of columns stands; the long layout's
	across   []across          // what each column holds; the wide layouts'
	sides    place             // of the row that says the side of each column; none where it is 0
	settled  bool              // what each column holds is certain: a measured row was read
	given    []given
	lost     []BadCell         // cells of which the document holds nothing
	mark     map[[4]string]int // row of each cell already given
	headless bool              // the header could not be read, and so nothing below it
}

type layout int

const (
	long layout = iota
	linesDown
	stationsDown
)

// across is what stands in a column of a wide layout: cells of one station, or of one line.
type across struct {
	skip    bool // the header's cell could not be read, or the column says how the row is meant
	twice   bool // a column to the left is of the same station
	station int
	given   // line and at, where lines run across
}

// sound refuses what is no text, or too much of it, before any of it is taken apart.
func (t *tableReader) sound(table []byte) bool {
	if len(table) > MaxTableBytes {
		t.add(Fault{Detail: fmt.Sprintf("the table has %d bytes; %d are taken", len(table), MaxTableBytes), Fix: "leave out what is not offsets"})
		return false
	}
	if bytes.HasPrefix(table, []byte("\xff\xfe")) || bytes.HasPrefix(table, []byte("\xfe\xff")) {
		t.add(Fault{Row: 1, Detail: "the table is written in UTF-16", Fix: "save it as CSV in UTF-8"})
		return false
	}
	row := 0
	for line := range bytes.Lines(table) {
		row++
		switch {
		case row > 2*MaxRows:
			t.add(Fault{Row: row, Detail: fmt.Sprintf("the table goes on past %d lines", 2*MaxRows), Fix: "leave out what is not offsets"})
			return false
		case len(line) > MaxRowBytes:
			t.add(Fault{Row: row, Detail: fmt.Sprintf("the row has %d bytes; a row of a table needs far less than %d", len(line), MaxRowBytes), Fix: longFix})
		case bytes.IndexByte(line, 0) >= 0:
			t.add(Fault{Row: row, Detail: "the row holds a NUL character, which no text has", Fix: "save the table anew as CSV in UTF-8"})
		case !utf8.Valid(line):
			t.add(Fault{Row: row, Detail: "the row is not UTF-8 text", Fix: "save the table as CSV in UTF-8"})
		}
	}
	return !t.any()
}

const (
	longLayout = "station_no,x,side,line,value"
	wideLayout = "line,side and the station numbers"
	downLayout = "station_no,x,side and the names of lines"
	longFix    = "give the long layout, one cell a row: " + longLayout + "; or a wide one: " + wideLayout + ", or " + downLayout
	titles     = 12 // rows that may stand above the header
)

// header finds the delimiter and the header, and what its columns hold.
func (t *tableReader) header(text []byte) bool {
	text = bytes.TrimPrefix(text, []byte("\uFEFF"))
	t.csv = csv.NewReader(bytes.NewReader(text))
	t.csv.Comma, t.csv.FieldsPerRecord = table.Mark(headerLine(string(text))), -1
	first := 0
	for range titles {
		head, err := t.csv.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.add(syntaxFault(err))
			return false
		}
		row, _ := t.csv.FieldPos(0)
		if first == 0 {
			first = row
		}
		for i := range head {
			head[i] = strings.TrimSpace(head[i])
		}
		for len(head) > 1 && head[len(head)-1] == "" {
			head = head[:len(head)-1]
		}
		switch kind, ok := layoutOf(head); {
		case ok:
			t.layout = kind
			for i := range head {
				head[i] = t.unit(head[i], row, i+1)
			}
			if kind == long {
				return t.columns(head, row)
			}
			return t.wide(head, row)
		default:
			t.title(head, row)
		}
	}
	if first == 0 {
		t.add(Fault{Row: 1, Detail: "the table is empty", Fix: longFix})
		return false
	}
	t.add(Fault{Row: first, Detail: fmt.Sprintf("this header is of no layout that is known: neither the long one (%s) nor a wide one (%s; or %s)", longLayout, wideLayout, downLayout), Fix: longFix})
	return false
}

// headerLine is the first line that looks like a header, or else the first.
func headerLine(table string) string {
	first, n := "", 0
	for line := range strings.Lines(table) {
		l := strings.ToLower(strings.TrimLeft(line, "\" \t"))
		if strings.Contains(l, "station_no") || strings.HasPrefix(l, "line") {
			return line
		}
		if n++; n == 1 {
			first = line
		} else if n > 3*titles {
			break
		}
	}
	return first
}

// layoutOf is the layout that a header begins.
func layoutOf(head []string) (layout, bool) {
	has := map[string]bool{}
	for _, h := range head {
		name, _ := unitOf(strings.ToLower(h))
		has[name] = true
	}
	first, _ := unitOf(strings.ToLower(head[0]))
	switch {
	case has["line"] && has["value"]:
		return long, true
	case first == "line", first == "station_no" && !has["x"] && !has["value"]:
		return linesDown, len(head) > 1
	case has["station_no"] && has["x"] && !has["line"] && !has["value"]:
		return stationsDown, true
	}
	return long, false
}

func (t *tableReader) columns(head []string, row int) bool {
	for i := range head {
		head[i] = strings.ToLower(head[i])
	}
	for i := range t.column {
		t.column[i] = -1
	}
	for i, h := range head {
		c := columnNamed(h)
		switch {
		case c < 0:
			t.add(Fault{Row: row, Column: i + 1, Detail: fmt.Sprintf("the column %s is not one of the long layout", notation.Quote(h)), Fix: "take it out; the columns are " + longLayout})
		case t.column[c] >= 0:
			t.add(Fault{Row: row, Column: i + 1, Detail: fmt.Sprintf("the column %s is given twice", h), Fix: "take one out; the columns are " + longLayout})
		default:
			t.column[c] = i
		}
	}
	for c, i := range t.column {
		if i < 0 {
			t.add(Fault{Row: row, Detail: fmt.Sprintf("the column %s is missing", columns[c]), Fix: "add it; the columns are " + longLayout})
		}
	}
	return !t.any()
}

func columnNamed(name string) int {
	for i, c := range columns {
		if c == name {
			return i
		}
	}
	return -1
}

// syntaxFault names the place where a row cannot be taken apart.
func syntaxFault(err error) Fault {
	var e *csv.ParseError
	if !errors.As(err, &e) {
		return Fault{Detail: "the table cannot be read", Fix: "save it anew as CSV in UTF-8"}
	}
	f := Fault{Row: e.StartLine, Detail: "a quotation mark stands inside a cell that is not quoted", Fix: "put the cell between quotation marks and double those inside, or take the mark out"}
	if errors.Is(err, csv.ErrQuote) {
		f.Detail, f.Fix = "a quoted cell is not closed, or goes on after its closing mark", "close it with a quotation mark just before the delimiter"
	}
	return f
}

// given is one cell of the table, and where it and what it belongs to stand.
type given struct {
	whole   bool // of the whole table, no station's
	station int
	x       string
	side    boat.Side
	line    line
	at      string // of a waterline or a buttock, or the name of a diagonal
	value   string
	place   [len(columns)]place
}
