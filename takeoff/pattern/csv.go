package pattern

import (
	"bytes"
	"cmp"
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

// columns in the order they are written. They are read in any order.
var columns = [...]string{"frame_no", "side", "n", "y", "z"}

const (
	columnFrame = iota
	columnSide
	columnN
	columnY
	columnZ
)

const layout = "frame_no,side,n,y,z"

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
			if leaf := f.Pointer[strings.LastIndexByte(f.Pointer, '/')+1:]; leaf == "y" || leaf == "z" || leaf == "grain" || leaf == "surface" || leaf == "notation" {
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
	given  []given
	faults document.Faults
}

// given is one row of the table.
type given struct {
	row, no, n int
	side       boat.Side
	y, z       string
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
		if i < 0 {
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

func (t *tableReader) rows() {
	n := 0
	for {
		cells, err := t.csv.Read()
		if err == io.EOF {
			break
		}
		if n++; n > MaxTableRows {
			t.add(0, 0, "leave out what is not points of patterns", "the table has more than %d rows", MaxTableRows)
			return
		}
		if err != nil {
			t.syntax(err)
			continue
		}
		row, _ := t.csv.FieldPos(0)
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		if strings.Join(cells, "") != "" {
			t.row(cells, row)
		}
	}
	if n == 0 {
		t.add(1, 0, "give one row for every point", "no row stands below the header")
	}
}

// row reads one row; what is wrong in it is reported, all of it, and the row then left out.
func (t *tableReader) row(cells []string, row int) {
	if len(cells) != len(columns) {
		t.add(row, 0, "give every row one cell a column", "the row has %d cells; the header has %d columns", len(cells), len(columns))
		return
	}
	cell := func(c int) string { return cells[t.column[c]] }
	before := len(t.faults)
	g := given{row: row, side: boat.Side(strings.ToLower(cell(columnSide))), y: cell(columnY), z: cell(columnZ)}
	g.no = t.whole(row, columnFrame, cell(columnFrame), 0, MaxFrameNo, "a frame's number")
	g.n = t.whole(row, columnN, cell(columnN), 1, MaxPoints, "the number of a point, counted from 1 at the heel,")
	if g.side.Expand() == nil {
		t.add(row, t.column[columnSide]+1, "write port, starboard or both", "%s is not a side", notation.Quote(cell(columnSide)))
	}
	if len(t.faults) == before {
		t.given = append(t.given, g)
	}
}

func (t *tableReader) whole(row, column int, text string, least, most int, what string) int {
	n, err := strconv.Atoi(text)
	if err != nil || n < least || n > most || strconv.Itoa(n) != strings.TrimLeft(text, "0") && n != 0 {
		t.add(row, t.column[column]+1, fmt.Sprintf("a whole number from %d to %d", least, most), "%s is not %s", notation.Quote(text), what)
	}
	return n
}

// sideOrder is the order of a frame's patterns.
var sideOrder = map[boat.Side]int{boat.Both: 0, boat.Port: 1, boat.Starboard: 2}

// gather makes the document of the rows, by frame, side and n, and keeps where every cell stood.
func (t *tableReader) gather() {
	slices.SortStableFunc(t.given, func(a, b given) int {
		return cmp.Or(cmp.Compare(a.no, b.no), cmp.Compare(sideOrder[a.side], sideOrder[b.side]), cmp.Compare(a.n, b.n))
	})
	var last *Rows
	for i, g := range t.given {
		if i == 0 || g.no != t.given[i-1].no || g.side != t.given[i-1].side {
			t.doc.Patterns = append(t.doc.Patterns, Rows{FrameNo: g.no, Side: g.side})
			last = &t.doc.Patterns[len(t.doc.Patterns)-1]
		}
		pattern := "/patterns/" + strconv.Itoa(len(t.doc.Patterns)-1)
		point := pattern + "/points/" + strconv.Itoa(len(last.Points))
		last.Points = append(last.Points, Row{N: g.n, Y: g.y, Z: g.z})
		t.keep(pattern, g.row, columnFrame)
		t.keep(pattern+"/side", g.row, columnSide)
		t.keep(point, g.row, columnN)
		t.keep(point+"/y", g.row, columnY)
		t.keep(point+"/z", g.row, columnZ)
	}
}

func (t *tableReader) keep(pointer string, row, column int) {
	if _, ok := t.at[pointer]; !ok {
		t.at[pointer] = [2]int{row, t.column[column] + 1}
	}
}

// WriteCSV writes the points of d, as ReadCSV reads them. Notation, grain and surface are not in it. Errors are the
// writer's.
func WriteCSV(w io.Writer, d Document) error {
	c := csv.NewWriter(w)
	if err := c.Write(columns[:]); err != nil {
		return err
	}
	for _, p := range d.Patterns {
		for _, q := range p.Points {
			if err := c.Write([]string{strconv.Itoa(p.FrameNo), string(p.Side), strconv.Itoa(q.N), q.Y, q.Z}); err != nil {
				return err
			}
		}
	}
	c.Flush()
	return c.Error()
}
