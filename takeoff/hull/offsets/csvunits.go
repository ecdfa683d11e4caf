package offsets

import (
	"fmt"
	"regexp"
	"strings"

	"ribband/takeoff/notation"
)

// unitWords are what a table may call its notation by.
var unitWords = map[string]notation.Notation{
	"mm": notation.Millimetres, "millimetres": notation.Millimetres,
	"m": notation.Metres, "metres": notation.Metres,
	"in": notation.Inches, "ins": notation.Inches, "inches": notation.Inches,
	"ft-in-8ths": notation.FeetInchesEighths, "feet-inches-eighths": notation.FeetInchesEighths, "feet_inches_eighths": notation.FeetInchesEighths,
}

var (
	unitBehind = regexp.MustCompile(`^(.*\S)\s*[(\[]\s*([A-Za-z0-9_-]+)\s*[)\]]$`)
	unitTitle  = regexp.MustCompile(`^(?i:units?)\s*[:=]\s*(.*)$`)
)

// unitOf parts a head from the unit in brackets behind it.
func unitOf(head string) (name, unit string) {
	m := unitBehind.FindStringSubmatch(head)
	if m != nil && unitWords[strings.ToLower(m[2])] != "" && !strings.HasPrefix(strings.ToLower(head), "diagonal") {
		return m[1], m[2] // a diagonal's name may end in anything
	}
	return head, ""
}

// unit takes the unit off a head and holds it against the table's notation.
func (t *tableReader) unit(head string, row, column int) string {
	name, unit := unitOf(head)
	if unit == "" {
		return head
	}
	t.said(unit, place{row, column})
	return name
}

// title reads a row above the header, which may say the units of the table.
func (t *tableReader) title(cells []string, row int) {
	for i, c := range cells {
		m := unitTitle.FindStringSubmatch(c)
		if m == nil {
			continue
		}
		unit := m[1]
		if unit == "" {
			unit = cellOf(cells, i+1)
		}
		t.said(unit, place{row, i + 1})
		return
	}
}

// said holds what the table says of its units against the notation that was declared; where none was, it declares it.
func (t *tableReader) said(unit string, at place) {
	n, ok := unitWords[strings.ToLower(strings.TrimSpace(unit))]
	switch {
	case !ok:
		t.bad(at, fmt.Sprintf("%s is no unit of a table", notation.Quote(unit)), "write mm, m, in or ft-in-8ths")
	case t.doc.Notation == "":
		t.doc.Notation = n
	case n != t.doc.Notation:
		t.bad(at, fmt.Sprintf("the table says here that it is in %s, and it was declared in %s", n.Name(), t.doc.Notation.Name()), "correct one of the two; nothing is converted")
	}
}
