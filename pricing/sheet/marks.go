package sheet

import (
	"fmt"
	"regexp"
	"strings"

	"ribband/takeoff/notation"
)

// A mark with exactly three digits behind it, and one to three before it that do not begin with 0, may part thousands
// or places: 1,240 is one thousand two hundred and forty, or a little more than one. Where a table may have a decimal
// comma it is read only when the table's other numbers show which mark is the decimal one.
var (
	oneMark   = regexp.MustCompile(`^-?[0-9]+([.,])([0-9]+)$`)
	thousands = regexp.MustCompile(`^-?[1-9][0-9]{0,2}[.,][0-9]{3}$`)
)

// marks are the first number with a decimal comma and the first with a decimal point, of those that can be read in one
// way only; nil where there is none.
type marks struct{ comma, point *shownMark }

type shownMark struct {
	row  int
	cell string
}

// look takes a row's numbers into account.
func (m *marks) look(line int, row Row) {
	for _, cell := range []string{row.Price, row.Per, row.PackSize, row.MinQty, row.FreeFrom} {
		cell = strings.TrimSpace(cell)
		parts := oneMark.FindStringSubmatch(cell)
		if parts == nil || thousands.MatchString(cell) {
			continue
		}
		into := &m.comma
		if parts[1] == "." {
			into = &m.point
		}
		if *into == nil {
			*into = &shownMark{line, cell}
		}
	}
}

// lengths takes a row's sizes into account too: 698,5 mm shows the comma as any other number does.
func (m *marks) lengths(line int, row Row, n notation.Notation) {
	for _, cell := range []string{row.Thickness, row.Width, row.StockLength, row.Widest} {
		if m.comma == nil && n.PlainComma(cell) {
			m.comma = &shownMark{line, strings.TrimSpace(cell)}
		}
	}
}

// doubtful tells of a number whose mark may part thousands or places, and of one whose mark is not the table's.
func (r *reader) doubtful(column, cell string) bool {
	parts := oneMark.FindStringSubmatch(cell)
	if parts == nil {
		return false
	}
	lone := thousands.MatchString(cell)
	same, other, name := r.marks.comma, r.marks.point, "point"
	if parts[1] == "." {
		same, other, name = other, same, "comma"
	}
	if other == nil && (same != nil || !lone) {
		return false
	}
	detail, fix := notation.Quote(cell), "write all numbers with the same decimal mark and without a thousands mark"
	if lone {
		small := strings.Replace(cell, ",", ".", 1)
		large := strings.Replace(small, ".", "", 1)
		detail += " can be read as " + large + " or as " + small
		// a place less or more makes no group of three
		short := strings.TrimSuffix(strings.TrimRight(small, "0"), ".")
		if short == small {
			short += "0"
		}
		mark := parts[1]
		if other != nil {
			mark = other.cell[len(other.cell)-len(oneMark.FindStringSubmatch(other.cell)[2])-1:][:1]
		}
		fix = "write " + large + ", without a thousands mark, or " + strings.Replace(short, ".", mark, 1)
	}
	if other != nil {
		detail += fmt.Sprintf(", and %s in row %d has a decimal %s: only one of the two marks can be the decimal one", notation.Quote(other.cell), other.row, name)
	}
	r.fault(column, detail, fix)
	return true
}
