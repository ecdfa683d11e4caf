package pattern

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"
	"ribband/takeoff/table"
)

// Written is how a table of patterns was written; in a CSV it stands beside the table, not in it. The members mean
// what those of Document mean.
type Written struct {
	Notation notation.Notation
	Grain    string
	Surface  string
}

// columns in the order they are written. They are read in any order; knuckle and grain are there where a pattern has
// them.
var columns = [...]string{"frame_no", "side", "n", "y", "z", "knuckle", "grain"}

const (
	columnFrame = iota
	columnSide
	columnN
	columnY
	columnZ
	columnKnuckle // may be left out, as all from here on
	columnGrain   // the same in every row of a pattern
)

const layout = "frame_no,side,n,y,z and, where a point is one, knuckle and, where a pattern has its own, grain"

// ReadCSV reads a table of patterns: RFC 4180, UTF-8, a header row, the delimiter a comma, a semicolon or a tab as the
// header has it. One row is one point; rows may come in any order and are taken by frame, side and n.
//
// It reports every fault at once, those of the rows and those that Read finds, each with its row and column. There are
// a document and a set only when there is none.
func ReadCSV(text []byte, as Written) (*Document, *Set, document.Faults) {
	t := &tableReader{doc: Document{Notation: as.Notation, Grain: as.Grain, Surface: as.Surface}, at: places{}}
	t.read(text)
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

// kind is what a table of patterns may be.
var kind = table.Kind{
	Columns: columns[:], Needed: columns[:columnKnuckle], Text: true,
	MaxBytes: MaxTableBytes, MaxRows: MaxTableRows, MaxRowBytes: MaxRowBytes,
	TooLong: "leave out what is not points of patterns", TooMany: "leave out what is not points of patterns",
	TooWide: "give one point a row: " + layout, NoRows: "give one row for every point",
}

type tableReader struct {
	doc    Document
	at     places
	table  *table.Table
	given  []given
	faults document.Faults
}

// given is one row of the table.
type given struct {
	row, no, n int
	side       boat.Side
	y, z       string
	knuckle    string
	grain      string
}

func (t *tableReader) add(row, column int, fix, detail string, args ...any) {
	if len(t.faults) < MaxFaults {
		t.faults = append(t.faults, document.Fault{Row: row, Column: column, Detail: fmt.Sprintf(detail, args...), Fix: fix})
	}
}

// tell passes on what is wrong with the table as a table.
func (t *tableReader) tell(f table.Fault) {
	detail := f.Detail
	if f.Column != "" {
		detail = f.Column + ": " + detail
	}
	t.add(f.Row, f.ColumnNo, f.Fix, "%s", detail)
}

// read takes all rows.
func (t *tableReader) read(text []byte) {
	of, faults := kind.Open(text)
	t.table = of
	for _, f := range faults {
		t.tell(f)
	}
	for row, cells := range of.Rows(t.tell) {
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		if strings.Join(cells, "") != "" {
			t.row(cells, row)
		}
	}
}

// WriteCSV writes the points of d, as ReadCSV reads them. Notation, surface and the grain of patterns that do not say
// their own are not in it. Errors are the writer's.
func WriteCSV(w io.Writer, d Document) error {
	c := csv.NewWriter(w)
	use := []int{columnFrame, columnSide, columnN, columnY, columnZ}
	if slices.ContainsFunc(d.Patterns, func(p Rows) bool {
		return slices.ContainsFunc(p.Points, func(q Row) bool { return q.Knuckle != "" })
	}) {
		use = append(use, columnKnuckle)
	}
	if slices.ContainsFunc(d.Patterns, func(p Rows) bool { return p.Grain != "" }) {
		use = append(use, columnGrain)
	}
	cells := make([]string, len(use))
	write := func(row [len(columns)]string) error {
		for i, column := range use {
			cells[i] = row[column]
		}
		return c.Write(cells)
	}
	if err := write(columns); err != nil {
		return err
	}
	for _, p := range d.Patterns {
		for _, q := range p.Points {
			if err := write([...]string{strconv.Itoa(p.FrameNo), string(p.Side), strconv.Itoa(q.N), q.Y, q.Z, q.Knuckle, p.Grain}); err != nil {
				return err
			}
		}
	}
	c.Flush()
	return c.Error()
}
