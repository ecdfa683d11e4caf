package pattern

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"
)

// Written is how a table of patterns was written; in a CSV it stands beside the table, not in it. The members mean
// what those of Document mean.
type Written struct {
	Notation notation.Notation
	Grain    string
	Surface  string
}

// columns in the order they are written. They are read in any order; knuckle is there where a pattern has one.
var columns = [...]string{"frame_no", "side", "n", "y", "z", "knuckle"}

const (
	columnFrame = iota
	columnSide
	columnN
	columnY
	columnZ
	columnKnuckle // may be left out
)

const layout = "frame_no,side,n,y,z and, where a point is one, knuckle"

// ReadCSV reads a table of patterns: RFC 4180, UTF-8, a header row, the delimiter a comma, a semicolon or a tab as the
// header has it. One row is one point; rows may come in any order and are taken by frame, side and n.
//
// It reports every fault at once, those of the rows and those that Read finds, each with its row and column. There are
// a document and a set only when there is none.
func ReadCSV(table []byte, as Written) (*Document, *Set, document.Faults) {
	t := &tableReader{doc: Document{Notation: as.Notation, Grain: as.Grain, Surface: as.Surface}, at: places{}}
	if !t.sound(table) || !t.header(table) {
		return nil, nil, t.faults
	}
	t.rows()
	t.gather()
	r := &reader{}
	set, found := r.read(t.doc)
	if len(t.faults) == 0 {
		t.faults = append(t.faults, t.at.locate(found)...)
	} else { // a pattern may lack a point only because its row is at fault, so only what is wrong with cells is told
		for _, f := range t.at.locate(found) {
			if leaf := f.Pointer[strings.LastIndexByte(f.Pointer, '/')+1:]; leaf == "y" || leaf == "z" || leaf == "knuckle" || leaf == "grain" || leaf == "surface" || leaf == "notation" {
				t.faults = append(t.faults, f)
			}
		}
	}
	if len(t.faults) > 0 {
		return nil, nil, t.faults
	}
	set.places = t.at
	return &t.doc, set, nil
}

// places says where in a CSV the parts of the document stood, by JSON pointer.
type places map[string][2]int

// locate gives each fault the row and column of its pointer, or of the nearest part that holds it.
func (p places) locate(list document.Faults) document.Faults {
	for i := range list {
		f := &list[i]
		for at := f.Pointer; at != "" && f.Row == 0; at = at[:strings.LastIndexByte(at, '/')] {
			if c, ok := p[at]; ok {
				f.Row, f.Column = c[0], c[1]
			}
		}
	}
	return list
}

type tableReader struct {
	doc    Document
	at     places
	csv    *csv.Reader
	column [len(columns)]int
	wide   int // how many columns the header has
	given  []given
	faults document.Faults
}

// given is one row of the table.
type given struct {
	row, no, n int
	side       boat.Side
	y, z       string
	knuckle    string
}

func (t *tableReader) add(row, column int, fix, detail string, args ...any) {
	if len(t.faults) < MaxFaults {
		t.faults = append(t.faults, document.Fault{Row: row, Column: column, Detail: fmt.Sprintf(detail, args...), Fix: fix})
	}
}

// sound refuses what is no text, or too much of it, before any of it is taken apart.
func (t *tableReader) sound(table []byte) bool {
	if len(table) > MaxTableBytes {
		t.add(0, 0, "leave out what is not points of patterns", "the table has %d bytes; %d are taken", len(table), MaxTableBytes)
		return false
	}
	row := 0
	for line := range bytes.Lines(table) {
		row++
		switch {
		case row > 2*MaxTableRows:
			t.add(row, 0, "leave out what is not points of patterns", "the table goes on past %d lines", 2*MaxTableRows)
			return false
		case len(line) > MaxRowBytes:
			t.add(row, 0, "give one point a row: "+layout, "the row has %d bytes", len(line))
		case bytes.IndexByte(line, 0) >= 0 || !utf8.Valid(line):
			t.add(row, 0, "save the table anew as CSV in UTF-8", "the row is not UTF-8 text")
		}
	}
	return len(t.faults) == 0
}

func (t *tableReader) header(table []byte) bool {
	table = bytes.TrimPrefix(table, []byte("\uFEFF"))
	first, _, _ := bytes.Cut(table, []byte("\n"))
	t.csv = csv.NewReader(bytes.NewReader(table))
	t.csv.Comma, t.csv.FieldsPerRecord = delimiter(string(first)), -1
	head, err := t.csv.Read()
	if err != nil {
		if err == io.EOF {
			t.add(1, 0, "give one point a row: "+layout, "the table is empty")
		} else {
			t.syntax(err)
		}
		return false
	}
	row, _ := t.csv.FieldPos(0)
	t.wide = len(head)
	for i := range t.column {
		t.column[i] = -1
	}
	for i, h := range head {
		c := slices.Index(columns[:], strings.ToLower(strings.TrimSpace(h)))
		switch {
		case c < 0:
			t.add(row, i+1, "take it out; the columns are "+layout, "the column %s is not one of a table of patterns", notation.Quote(h))
		case t.column[c] >= 0:
			t.add(row, i+1, "take one out; the columns are "+layout, "the column %s is given twice", columns[c])
		default:
			t.column[c] = i
		}
	}
	for c, i := range t.column {
		if i < 0 && c != columnKnuckle {
			t.add(row, 0, "add it; the columns are "+layout, "the column %s is missing", columns[c])
		}
	}
	return len(t.faults) == 0
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

func (t *tableReader) syntax(err error) {
	row := 0
	var e *csv.ParseError
	if errors.As(err, &e) {
		row = e.StartLine
	}
	t.add(row, 0, "put the cell between quotation marks and double those inside, or take the marks out", "the row cannot be taken apart: a quotation mark stands where none may")
}

// WriteCSV writes the points of d, as ReadCSV reads them. Notation, grain and surface are not in it. Errors are the
// writer's.
func WriteCSV(w io.Writer, d Document) error {
	c := csv.NewWriter(w)
	wide := columnKnuckle
	for _, p := range d.Patterns {
		if slices.ContainsFunc(p.Points, func(q Row) bool { return q.Knuckle != "" }) {
			wide = len(columns)
		}
	}
	if err := c.Write(columns[:wide]); err != nil {
		return err
	}
	for _, p := range d.Patterns {
		for _, q := range p.Points {
			if err := c.Write([]string{strconv.Itoa(p.FrameNo), string(p.Side), strconv.Itoa(q.N), q.Y, q.Z, q.Knuckle}[:wide]); err != nil {
				return err
			}
		}
	}
	c.Flush()
	return c.Error()
}
