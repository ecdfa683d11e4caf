package offsets

import (
	"cmp"
	"encoding/csv"
	"io"
	"slices"

	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
)

// wideRow is one line of one side, its cells by station.
type wideRow struct {
	side  boat.Side
	of    given
	place notation.Length // of a waterline or a buttock
	cells []string
}

// WriteWide writes the cells of doc with lines down and stations across, as ReadCSV reads them: the whole table's lines
// first, x, then sides in order, each from the rabbet up its waterlines, buttocks and diagonals to the sheer. Errors
// are the writer's.
func WriteWide(w io.Writer, doc *Document) error {
	c := csv.NewWriter(w)
	n := len(doc.Stations)
	head, xs, plank := []string{"line", "side"}, []string{"x", ""}, []string{thicknessLine, ""}
	planked := false
	for _, s := range doc.Stations {
		head, xs, plank = append(head, itoa(s.No)), append(xs, s.X), append(plank, s.PlankThickness)
		planked = planked || s.PlankThickness != ""
	}
	out := [][]string{head}
	for _, g := range doc.whole() {
		row := make([]string, 2+max(1, n))
		row[0], row[2] = g.name(), g.value
		out = append(out, row[:2+n])
	}
	out = append(out, xs)
	if planked {
		out = append(out, plank)
	}
	for _, r := range doc.wideRows() {
		out = append(out, append([]string{r.of.name(), string(r.side)}, r.cells...))
	}
	return c.WriteAll(out)
}

// wideRows are the lines of all sides in their order.
func (d *Document) wideRows() []*wideRow {
	var rows []*wideRow
	at := map[[3]string]*wideRow{}
	for i := range d.Stations {
		for j := range d.Stations[i].Sides {
			e := &d.Stations[i].Sides[j]
			for _, g := range e.rows() {
				key := [3]string{string(e.Side), lineNames[g.line], g.at}
				r := at[key]
				if r == nil {
					r = &wideRow{side: e.Side, of: g, cells: make([]string, len(d.Stations))}
					if g.line == waterline || g.line == buttock {
						r.place, _ = d.Notation.Parse(g.at) // one that is none stands first
					}
					at[key], rows = r, append(rows, r)
				}
				r.cells[i] = g.value
			}
		}
	}
	order := [...]int{rabbetHeight: 0, rabbetHalfBreadth: 1, waterline: 2, buttock: 3, diagonal: 4, knuckleHeight: 5, knuckleHalfBreadth: 6, sheerHeight: 7, sheerHalfBreadth: 8}
	slices.SortStableFunc(rows, func(a, b *wideRow) int {
		return cmp.Or(cmp.Compare(sideOrder[a.side], sideOrder[b.side]), cmp.Compare(order[a.of.line], order[b.of.line]), a.place.Compare(b.place))
	})
	return rows
}
