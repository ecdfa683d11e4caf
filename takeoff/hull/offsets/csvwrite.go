package offsets

import (
	"encoding/csv"
	"io"
)

// WriteCSV writes the cells of doc in the long layout, as ReadCSV reads them: stations, sides and cells in the
// document's order, cells that were not measured left out. Notation, grain and surface are not in it. Errors are
// the writer's.
func WriteCSV(w io.Writer, doc *Document) error {
	c := csv.NewWriter(w)
	if err := c.Write(columns[:]); err != nil {
		return err
	}
	for _, g := range doc.whole() {
		if err := c.Write([]string{"", "", "", g.name(), g.value}); err != nil {
			return err
		}
	}
	for _, s := range doc.Stations {
		if s.PlankThickness != "" {
			if err := c.Write([]string{itoa(s.No), s.X, "", thicknessLine, s.PlankThickness}); err != nil {
				return err
			}
		}
		for i := range s.Sides {
			for _, g := range s.Sides[i].rows() {
				if err := c.Write([]string{itoa(s.No), s.X, string(s.Sides[i].Side), g.name(), g.value}); err != nil {
					return err
				}
			}
		}
	}
	c.Flush()
	return c.Error()
}

// rows are the measured cells of one entry.
func (e *SideOffsets) rows() []given {
	var out []given
	put := func(l line, at, value string) {
		if value != "" {
			out = append(out, given{side: e.Side, line: l, at: at, value: value})
		}
	}
	if e.Rabbet != nil {
		put(rabbetHeight, "", e.Rabbet.Height)
		put(rabbetHalfBreadth, "", e.Rabbet.HalfBreadth)
	}
	if e.Sheer != nil {
		put(sheerHeight, "", e.Sheer.Height)
		put(sheerHalfBreadth, "", e.Sheer.HalfBreadth)
	}
	for _, w := range e.Waterlines {
		put(waterline, w.Height, w.HalfBreadth)
	}
	for _, b := range e.Buttocks {
		put(buttock, b.HalfBreadth, b.Height)
	}
	for _, d := range e.Diagonals {
		put(diagonal, d.Name, d.Distance)
	}
	for _, k := range e.Knuckles {
		put(knuckleHeight, k.Name, k.Height)
		put(knuckleHalfBreadth, k.Name, k.HalfBreadth)
	}
	return out
}

// whole are the cells of the whole table.
func (d *Document) whole() []given {
	var out []given
	put := func(l line, at, value string) {
		if value != "" {
			out = append(out, given{whole: true, line: l, at: at, value: value})
		}
	}
	put(tablePlank, "", d.PlankThickness)
	for _, p := range d.Diagonals {
		put(diagonalHeight, p.Name, p.Height)
		put(diagonalAngle, p.Name, p.AngleDeg)
	}
	for _, p := range d.Stem {
		put(stemAt, p.Height, p.X)
	}
	for _, p := range d.Transom {
		put(transomAt, p.Height, p.X)
	}
	return out
}
