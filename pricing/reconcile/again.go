package reconcile

import (
	"fmt"
	"strings"

	"ribband/takeoff/notation"
)

// once parts the entries that were read into those that count, those that are there already with the same content,
// and those with other content under a name that is taken. Of two rows of one table nobody can tell which is right,
// so neither counts, and each names the other.
func (r *reader) once() {
	first, other := map[string]Numbered{}, map[string]Numbered{} // of each name; other is the first with another content
	for _, n := range r.read {
		id := n.Entry.ID()
		if f, ok := first[id]; !ok {
			first[id] = n
		} else if _, ok := other[id]; !ok && f.Entry.Hash() != n.Entry.Hash() {
			other[id] = n
		}
	}
	for _, n := range r.read {
		id := n.Entry.ID()
		r.row = n.Row
		f := first[id]
		second, two := other[id]
		p, posted := r.posted[id]
		same := f.Entry.Hash() == n.Entry.Hash()
		switch {
		case posted && p.Hash() == n.Entry.Hash(), !posted && !two && f.Row != n.Row:
			r.out.Again = append(r.out.Again, n)
		case posted:
			r.clash(n, p, fmt.Sprintf("posted already, dated %s over %s %s", p.Date, p.Amount, p.Amount.Currency()))
		case two && same:
			r.clash(n, second.Entry, r.at(second.Row))
		case two:
			r.clash(n, f.Entry, r.at(f.Row))
		default:
			r.out.Good = append(r.out.Good, n)
		}
	}
}

// clash tells that the name of an entry is another's.
func (r *reader) clash(n Numbered, other Entry, where string) {
	e := n.Entry
	r.out.Bad = append(r.out.Bad, n.Row)
	r.fault("document", fmt.Sprintf("line %s of document %s of %s is %s, with other content: %s",
		notation.Quote(e.Line), notation.Quote(e.Document), notation.Quote(e.Supplier), where, differences(other, e)),
		"keep one of the two; a correction is an entry that takes the first back and a new one, each under its own document or line")
}

// differences names what two entries say differently.
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
