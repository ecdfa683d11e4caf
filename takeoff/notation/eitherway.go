package notation

import (
	"regexp"
	"strings"
)

// A whole number of millimetres with a mark at the thousands looks just like one with three decimals.
var (
	eitherWay  = regexp.MustCompile(`^-?[0-9]{1,3},[0-9]{3}$`)
	plainComma = regexp.MustCompile(`^-?[0-9]+,(?:[0-9]{1,2}|[0-9]{4,6})$`)
)

// PlainComma reports whether text is in millimetres and its comma can only be the decimal mark: 698,5. One such cell shows
// how the others of its table are meant.
func (n Notation) PlainComma(text string) bool {
	return n == Millimetres && plainComma.MatchString(strings.TrimSpace(text))
}

// ParseCell reads a cell of a table. In millimetres 1,234 can be 1.234 or 1234: it is refused with both, unless commas
// says that other cells of the table show the comma to be its decimal mark. Everything else is read as Parse does.
func (n Notation) ParseCell(text string, commas bool) (Length, error) {
	if t := strings.TrimSpace(text); n == Millimetres && !commas && eitherWay.MatchString(t) {
		point, none := strings.Replace(t, ",", ".", 1), strings.Replace(t, ",", "", 1)
		return Length{}, n.refuse(text, "it can be read as "+point+" mm or as "+none+" mm", none+" or "+point)
	}
	return n.Parse(text)
}

// Pointed writes a cell that ParseCell would refuse with a decimal point: for a table whose delimiter is the semicolon,
// which is chosen because the comma is the decimal mark. Other texts stay as they are.
func (n Notation) Pointed(text string) string {
	if n == Millimetres && eitherWay.MatchString(strings.TrimSpace(text)) {
		return strings.Replace(text, ",", ".", 1)
	}
	return text
}
