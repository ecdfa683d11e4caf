package pattern

import (
	"slices"
	"strconv"
	"strings"

	"ribband/takeoff/document"
	"ribband/takeoff/notation"
)

// BadCell is a cell that a fault names: what was written, and where it belongs.
type BadCell struct {
	// Pointer is the place in the document, empty where the row has none in it.
	Pointer string `json:"pointer,omitempty"`
	Row     int    `json:"row"` // of the table, the header being row 1
	Column  int    `json:"column,omitempty"`
	// Frame, Side and N are those of the cell's row, as written, and Cell the name of its column.
	Frame string `json:"frame,omitempty"`
	Side  string `json:"side,omitempty"`
	N     string `json:"n,omitempty"`
	Cell  string `json:"cell"`
	// Text as written; empty where the cell is, and should not be.
	Text string `json:"text"`
}

// LooseRow is a row that has no place in the document, with its cells as written in the order of the header: it does not
// say which point of which pattern it is, or another row says that it is the same.
type LooseRow struct {
	Row   int      `json:"row"`
	Cells []string `json:"cells"`
}

// Reading is all that a table gave: where it has faults, what is left of it to be corrected.
type Reading struct {
	// Document holds the cells that are good, the points by frame, side and number; those at fault are left out of it and
	// stand in Bad, and rows that cannot be placed in Loose.
	Document *Document
	Bad      []BadCell
	Loose    []LooseRow
	// Set is there when nothing is wrong.
	Set    *Set
	Faults document.Faults
}

// TryCSV is ReadCSV for a table that is to be corrected: beside the faults it gives the document of the good cells, and
// the bad ones with what was written. Each bad cell is named by a fault at its row and column.
func TryCSV(text []byte, as Written) Reading {
	t := newTableReader(as)
	t.take(text)
	r := Reading{Document: &t.doc}
	r.Set, r.Faults = t.finish()
	r.Bad, r.Loose = t.bad, t.loose
	for _, f := range r.Faults {
		b, cell := t.doc.cell(f.Pointer)
		if cell == nil || len(r.Bad) == MaxFaults {
			continue
		}
		b.Row, b.Column, b.Text = f.Row, f.Column, notation.Shorten(*cell)
		r.Bad = append(r.Bad, b)
		*cell = ""
	}
	return r
}

// lose notes a cell of which the document can hold nothing.
func (t *tableReader) lose(row, column int, cells []string) {
	if len(t.bad) < MaxFaults {
		t.bad = append(t.bad, BadCell{Row: row, Column: t.place(column), Frame: notation.Shorten(cells[columnFrame]), Side: notation.Shorten(cells[columnSide]), N: notation.Shorten(cells[columnN]),
			Cell: columns[column], Text: notation.Shorten(cells[column])})
	}
}

// letLoose keeps what a row holds that was left out.
func (t *tableReader) letLoose(row int, cells []string) {
	if len(t.loose) == MaxFaults {
		return
	}
	r := LooseRow{row, make([]string, 0, len(columns))}
	for _, c := range cells[:min(len(cells), 2*len(columns))] { // of a row far too long the beginning tells which it is
		r.Cells = append(r.Cells, notation.Shorten(strings.TrimSpace(c)))
	}
	t.loose = append(t.loose, r)
}

// asInHeader are the cells of a row in the order of the header.
func (t *tableReader) asInHeader(cells []string) []string {
	out := make([]string, 0, len(columns))
	for place := 1; place <= len(columns); place++ {
		if c := slices.IndexFunc(columns[:], func(name string) bool { return t.table.Place(name) == place }); c >= 0 {
			out = append(out, cells[c])
		}
	}
	return out
}

// cell is what stands at a JSON pointer into the document, and whose it is; nil where no text of a point or a pattern does.
func (d *Document) cell(pointer string) (BadCell, *string) {
	parts := strings.Split(pointer, "/")
	if len(parts) != 4 && len(parts) != 6 || parts[1] != "patterns" {
		return BadCell{}, nil
	}
	p := nth(d.Patterns, parts[2])
	last := parts[len(parts)-1]
	if p == nil {
		return BadCell{}, nil
	}
	b := BadCell{Pointer: pointer, Frame: strconv.Itoa(p.FrameNo), Side: string(p.Side), Cell: last}
	if len(parts) == 4 {
		return b, map[string]*string{"grain": &p.Grain}[last]
	}
	q := nth(p.Points, parts[4])
	if q == nil || parts[3] != "points" {
		return BadCell{}, nil
	}
	b.N = strconv.Itoa(q.N)
	return b, map[string]*string{"y": &q.Y, "z": &q.Z, "knuckle": &q.Knuckle}[last]
}

// nth is the element that a part of a pointer names; nil where there is none.
func nth[T any](list []T, part string) *T {
	i, err := strconv.Atoi(part)
	if err != nil || i < 0 || i >= len(list) {
		return nil
	}
	return &list[i]
}
