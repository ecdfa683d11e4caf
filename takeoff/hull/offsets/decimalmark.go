package offsets

import (
	"regexp"
	"strings"

	"ribband/takeoff/notation"
)

// A whole number of millimetres with a mark at the thousands looks just like one with three decimals.
var (
	eitherWay  = regexp.MustCompile(`^-?[0-9]{1,3},[0-9]{3}$`)
	plainComma = regexp.MustCompile(`^-?[0-9]+,(?:[0-9]{1,2}|[0-9]{4,6})$`)
)

// length reads a cell in the table's notation. In millimetres 1,234 can be 1.234 or 1234: it is refused, unless other
// cells of the table show that the comma is its decimal mark.
func (r *reader) length(text string) (notation.Length, error) {
	if t := strings.TrimSpace(text); r.doc.Notation == notation.Millimetres && !r.commas && eitherWay.MatchString(t) {
		point, none := strings.Replace(t, ",", ".", 1), strings.Replace(t, ",", "", 1)
		return notation.Length{}, &notation.Error{Text: text, Notation: notation.Millimetres,
			Reason:  "it can be read as " + point + " mm or as " + none + " mm",
			Example: none + " or " + point}
	}
	return r.doc.Notation.Parse(text)
}

// plainCommas reports whether a table in millimetres holds a cell whose comma can only be the decimal mark.
func plainCommas(doc *Document) bool {
	if doc.Notation != notation.Millimetres {
		return false
	}
	found := false
	doc.each(func(text *string) { found = found || plainComma.MatchString(strings.TrimSpace(*text)) })
	return found
}

// pointed writes the cells that can be read either way with a decimal point: for a table whose delimiter is the
// semicolon, which is chosen because the comma is the decimal mark.
func (d *Document) pointed() {
	if d.Notation != notation.Millimetres {
		return
	}
	d.each(func(text *string) {
		if eitherWay.MatchString(*text) {
			*text = strings.Replace(*text, ",", ".", 1)
		}
	})
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
