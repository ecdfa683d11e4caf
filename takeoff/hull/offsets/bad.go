package offsets

import (
	"strconv"
	"strings"

	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
)

// BadCell is a cell that a fault names: what was written, and where it belongs.
type BadCell struct {
	// Pointer is the place in the document, empty where the row has none in it.
	Pointer string    `json:"pointer,omitempty"`
	Row     int       `json:"row,omitempty"` // of the CSV, as of Fault
	Column  int       `json:"column,omitempty"`
	Station string    `json:"station,omitempty"`
	Side    boat.Side `json:"side,omitempty"`
	Cell    string    `json:"cell,omitempty"` // as "wl:1-0-0"
	Text    string    `json:"text"`
}

// Reading is all that a table gave: where it has faults, what is left of it to be corrected.
type Reading struct {
	// Document holds the cells that are good; those at fault are left out of it and stand in Bad.
	Document *Document
	Bad      []BadCell
	// Table is there when nothing is wrong.
	Table  *Table
	Faults []Fault
}

// TryCSV is ReadCSV for a table that is to be corrected: beside the faults it gives the document of the good cells, and
// the bad ones with what was written.
func TryCSV(table []byte, as Written) Reading {
	t := newTableReader(as)
	t.take(table)
	r := Reading{Document: t.doc}
	r.Table, r.Faults = t.finish()
	r.Bad = t.lost
	for _, f := range r.Faults {
		cell := t.doc.text(f.Pointer)
		if cell == nil || *cell == "" {
			continue
		}
		r.Bad = append(r.Bad, BadCell{Pointer: f.Pointer, Row: f.Row, Column: f.Column, Station: f.Station, Side: f.Side, Cell: f.Cell, Text: *cell})
		*cell = ""
	}
	return r
}

// lose notes a cell of which the document can hold nothing.
func (t *tableReader) lose(b BadCell) {
	if len(t.lost) < MaxFaults {
		b.Text = notation.Shorten(b.Text)
		b.Cell = notation.Shorten(b.Cell)
		t.lost = append(t.lost, b)
	}
}

// text is the cell at a JSON pointer into the document; nil where no length stands there.
func (d *Document) text(pointer string) *string {
	parts := strings.Split(strings.TrimPrefix(pointer, "/"), "/")
	last := parts[len(parts)-1]
	switch {
	case len(parts) == 1 && last == "plank_thickness":
		return &d.PlankThickness
	case len(parts) == 3 && parts[0] == "diagonals":
		if p := nth(d.Diagonals, parts[1]); p != nil {
			return map[string]*string{"height": &p.Height, "angle_deg": &p.AngleDeg}[last]
		}
	case len(parts) == 3 && (parts[0] == "stem" || parts[0] == "transom"):
		list := d.Stem
		if parts[0] == "transom" {
			list = d.Transom
		}
		if p := nth(list, parts[1]); p != nil {
			return map[string]*string{"height": &p.Height, "x": &p.X}[last]
		}
	case len(parts) >= 3 && parts[0] == "stations":
		if s := nth(d.Stations, parts[1]); s != nil {
			return s.text(parts[2:])
		}
	}
	return nil
}

func (s *StationOffsets) text(parts []string) *string {
	if len(parts) == 1 {
		return map[string]*string{"x": &s.X, "plank_thickness": &s.PlankThickness}[parts[0]]
	}
	if len(parts) < 4 || parts[0] != "sides" {
		return nil
	}
	e := nth(s.Sides, parts[1])
	if e == nil {
		return nil
	}
	last := parts[len(parts)-1]
	if len(parts) == 4 {
		end := map[string]*EndOffsets{"rabbet": e.Rabbet, "sheer": e.Sheer}[parts[2]]
		if end == nil {
			return nil
		}
		return map[string]*string{"height": &end.Height, "half_breadth": &end.HalfBreadth}[last]
	}
	switch parts[2] {
	case "waterlines":
		if w := nth(e.Waterlines, parts[3]); w != nil {
			return map[string]*string{"height": &w.Height, "half_breadth": &w.HalfBreadth}[last]
		}
	case "buttocks":
		if b := nth(e.Buttocks, parts[3]); b != nil {
			return map[string]*string{"height": &b.Height, "half_breadth": &b.HalfBreadth}[last]
		}
	case "knuckles":
		if k := nth(e.Knuckles, parts[3]); k != nil {
			return map[string]*string{"height": &k.Height, "half_breadth": &k.HalfBreadth}[last]
		}
	case "diagonals":
		if c := nth(e.Diagonals, parts[3]); c != nil {
			return map[string]*string{"name": &c.Name, "distance": &c.Distance}[last]
		}
	}
	return nil
}

// nth is the element that a part of a pointer names; nil where there is none.
func nth[T any](list []T, part string) *T {
	i, err := strconv.Atoi(part)
	if err != nil || i < 0 || i >= len(list) {
		return nil
	}
	return &list[i]
}
