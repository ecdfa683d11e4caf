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

// ReadCSV reads a table in the long layout: RFC 4180, UTF-8 with or without a byte order mark, a header row, the
// delimiter a comma, a semicolon or a tab as the header has it. One row is one measured cell; an empty value was
// not measured. Rows may come in any order; stations are taken by number.
//
// It reports every fault at once, those of the rows and those that Read finds, each with its row and column. There
// are a document and offsets only when there is none.
func ReadCSV(table []byte, as Written) (*Document, *Table, []Fault) {
	t := &tableReader{doc: &Document{Notation: as.Notation, Grain: as.Grain, Surface: as.Surface}, at: &places{map[string]place{}}}
	if !t.sound(table) || !t.header(table) {
		return nil, nil, t.all()
	}
	t.rows()
	t.gather()
	if t.csv.Comma == ';' {
		t.doc.pointed()
	}
	o, found := read(t.doc, t.at, &t.faults)
	if len(found) > 0 {
		return nil, nil, found
	}
	return t.doc, o, nil
}

// tableReader reads one table.
type tableReader struct {
	faults
	doc    *Document
	at     *places
	csv    *csv.Reader
	column [len(columns)]int // where each of columns stands
	given  []given
	mark   map[[4]string]int // row of each cell already given
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
			t.add(Fault{Row: row, Detail: fmt.Sprintf("the row has %d bytes; the %d columns of the long layout need far less than %d", len(line), len(columns), MaxRowBytes), Fix: longFix})
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
	longFix    = "give the long layout, one cell a row: " + longLayout
)

// header finds the delimiter and the columns.
func (t *tableReader) header(table []byte) bool {
	table = bytes.TrimPrefix(table, []byte("\uFEFF"))
	first, _, _ := bytes.Cut(table, []byte("\n"))
	t.csv = csv.NewReader(bytes.NewReader(table))
	t.csv.Comma, t.csv.FieldsPerRecord = delimiter(string(first)), -1
	head, err := t.csv.Read()
	if err == io.EOF {
		t.add(Fault{Row: 1, Detail: "the table is empty", Fix: longFix})
		return false
	}
	if err != nil {
		t.add(syntaxFault(err))
		return false
	}
	for i := range head {
		head[i] = strings.ToLower(strings.TrimSpace(head[i]))
	}
	line, _ := t.csv.FieldPos(0)
	return t.columns(head, line)
}

// delimiter is whichever of comma, semicolon and tab stands most often in the header.
func delimiter(header string) rune {
	best, most := ',', strings.Count(header, ",")
	for _, d := range []rune{';', '\t'} {
		if n := strings.Count(header, string(d)); n > most {
			best, most = d, n
		}
	}
	return best
}

func (t *tableReader) columns(head []string, row int) bool {
	has := func(name string) bool {
		for _, h := range head {
			if h == name {
				return true
			}
		}
		return false
	}
	if !has("line") || !has("value") {
		if head[0] == "line" {
			t.add(Fault{Row: row, Detail: "this is the wide layout, lines down and stations across, which cannot be taken yet", Fix: longFix})
		} else {
			t.add(Fault{Row: row, Detail: fmt.Sprintf("this header is of no layout that is known: neither the long one (%s) nor the wide one (%s)", longLayout, wideLayout), Fix: longFix})
		}
		return false
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

// given is one row of the table: a cell of one side at one station.
type given struct {
	row     int
	station int
	x       string
	side    boat.Side
	line    line
	at      string // of a waterline or a buttock
	value   string
}
