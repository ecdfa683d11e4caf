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
	t := newTableReader(as)
	t.take(text)
	set, faults := t.finish()
	if len(faults) > 0 {
		return nil, nil, faults
	}
	return &t.doc, set, nil
}

func newTableReader(as Written) *tableReader {
	return &tableReader{doc: Document{Notation: as.Notation, Grain: as.Grain, Surface: as.Surface}, at: places{}, short: map[heading]bool{}}
}

// take reads the table into the document as far as it goes.
func (t *tableReader) take(text []byte) {
	t.read(text)
	t.gather()
	if t.table.Mark() == ';' {
		t.doc.pointed()
	}
}

// finish checks the document that was made.
func (t *tableReader) finish() (*Set, document.Faults) {
	r := &reader{}
	set, found := r.read(t.doc)
	for _, f := range t.at.locate(found) {
		if !t.echoes(f.Pointer) {
			t.faults = append(t.faults, f)
		}
	}
	if len(t.faults) > 0 {
		return nil, t.faults
	}
	set.places = t.at
	return set, nil
}

// echoes reports whether what is wrong at a place of the document may be so only because rows were lost from it.
func (t *tableReader) echoes(pointer string) bool {
	parts := strings.Split(pointer, "/")
	if len(parts) < 3 || parts[1] != "patterns" {
		return pointer == "/patterns" && t.lost && len(t.doc.Patterns) == 0
	}
	switch parts[len(parts)-1] {
	case "y", "z", "grain":
		return false
	}
	i, err := strconv.Atoi(parts[2])
	return err == nil && i < len(t.doc.Patterns) && (t.allShort || t.short[heading{t.doc.Patterns[i].FrameNo, t.doc.Patterns[i].Side}])
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
	bad    []BadCell
	loose  []LooseRow
	// short are the patterns that lack a row that was lost; allShort says that it may be any of them, and lost that any was.
	short    map[heading]bool
	allShort bool
	lost     bool
}

// heading is what the rows of one pattern have alike.
type heading struct {
	no   int
	side boat.Side
}

// given is one row of the table.
type given struct {
	row, no, n int
	side       boat.Side
	y, z       string
	knuckle    string
	grain      string
	cells      []string // all of them as written
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
	t.lost, t.allShort = true, true
	if len(f.Cells) > 0 {
		t.letLoose(f.Row, f.Cells)
	}
}

// read takes the rows.
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
