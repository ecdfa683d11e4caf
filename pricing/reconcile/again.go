package reconcile

import (
	"fmt"
	"strings"

	"ribband/takeoff/notation"
)

// again reports a row that was read before with the same content, and notes it. Other content under the same name
// is a fault that names the first.
func (r *reader) again(e Entry) bool {
	f, ok := r.first[e.ID()]
	if !ok {
		return false
	}
	if f.entry.Hash() == e.Hash() {
		r.out.Again = append(r.out.Again, Numbered{r.row, e})
		return true
	}
	where := fmt.Sprintf("in row %d", f.row)
	if f.row == 0 {
		where = fmt.Sprintf("posted already, dated %s over %s %s", f.entry.Date, f.entry.Amount, f.entry.Amount.Currency())
	}
	r.fault("document", fmt.Sprintf("line %s of document %s of %s is %s, with other content: %s",
		notation.Quote(e.Line), notation.Quote(e.Document), notation.Quote(e.Supplier), where, differences(f.entry, e)),
		"keep one of the two; a correction is a row that takes the first back and a new one, each under its own document or line")
	return false
}

// differences names the cells in which two entries differ.
func differences(first, here Entry) string {
	a, b := first.Row(), here.Row()
	x, y := a.cells(), b.cells()
	var out []string
	for i, c := range Columns {
		if *x[i] != *y[i] {
			out = append(out, fmt.Sprintf("%s %s there, %s here", c, notation.Quote(*x[i]), notation.Quote(*y[i])))
		}
	}
	return strings.Join(out, "; ")
}
