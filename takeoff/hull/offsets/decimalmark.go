package offsets

import "ribband/takeoff/notation"

// length reads a cell in the table's notation; one that can be read two ways is refused unless other cells show how.
func (r *reader) length(text string) (notation.Length, error) {
	return r.doc.Notation.ParseCell(text, r.commas)
}

// plainCommas reports whether a table in millimetres holds a cell whose comma can only be the decimal mark.
func plainCommas(doc *Document) bool {
	found := false
	doc.each(func(text *string) { found = found || doc.Notation.PlainComma(*text) })
	return found
}

// pointed writes the cells that can be read either way with a decimal point.
func (d *Document) pointed() {
	d.each(func(text *string) { *text = d.Notation.Pointed(*text) })
}

// each visits every length of the document.
func (d *Document) each(visit func(text *string)) {
	visit(&d.Grain)
	visit(&d.PlankThickness)
	for i := range d.Diagonals {
		visit(&d.Diagonals[i].Height)
	}
	for _, profile := range [][]ProfileOffsets{d.Stem, d.Transom} {
		for i := range profile {
			visit(&profile[i].Height)
			visit(&profile[i].X)
		}
	}
	for i := range d.Stations {
		s := &d.Stations[i]
		visit(&s.X)
		visit(&s.PlankThickness)
		for j := range s.Sides {
			s.Sides[j].each(visit)
		}
	}
}

func (e *SideOffsets) each(visit func(text *string)) {
	for _, end := range []*EndOffsets{e.Rabbet, e.Sheer} {
		if end != nil {
			visit(&end.Height)
			visit(&end.HalfBreadth)
		}
	}
	for i := range e.Waterlines {
		visit(&e.Waterlines[i].Height)
		visit(&e.Waterlines[i].HalfBreadth)
	}
	for i := range e.Buttocks {
		visit(&e.Buttocks[i].HalfBreadth)
		visit(&e.Buttocks[i].Height)
	}
	for i := range e.Diagonals {
		visit(&e.Diagonals[i].Distance)
	}
	for i := range e.Knuckles {
		visit(&e.Knuckles[i].Height)
		visit(&e.Knuckles[i].HalfBreadth)
	}
}
