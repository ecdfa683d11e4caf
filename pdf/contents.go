package pdf

import "strconv"

// place is a section and the sheet it begins on, counted from 1.
type place struct {
	title printable
	page  int
}

// places lists the sections laid out so far, the cover left out.
func (d *document) places() []place {
	var out []place
	for i, s := range d.sheets {
		for _, b := range s.bookmarks {
			if b.level == 0 {
				out = append(out, place{b.title, i + 1})
			}
		}
	}
	return out[1:]
}

// maxContents is the longest list of contents that helps.
const maxContents = 20

// contents says on which page each section begins.
func (d *document) contents() {
	columns := []column{
		{x: d.body, w: d.right - d.body - 40*pt},
		{x: d.right - 40*pt, w: 40 * pt, right: true},
	}
	var rows []row
	if len(d.known) > maxContents {
		return
	}
	for _, p := range d.known {
		rows = append(rows, row{cells: []cell{
			{lines: d.wrap(p.title, text, columns[0].w), style: text},
			{lines: []printable{printable("page\u00a0" + strconv.Itoa(p.page))}, style: text},
		}})
	}
	for i := range rows {
		rows[i].keep = i > 0
	}
	if len(rows) > 0 {
		d.table(table{columns: columns, rows: d.group("What follows", rows)})
	}
}
