package reconcile

import (
	"fmt"

	"ribband/takeoff/notation"
)

// Note is something about a good row to look at before it is confirmed. It keeps nothing from being entered.
type Note struct {
	Row    int    `json:"row"`
	Detail string `json:"detail"`
}

// notice tells of good rows whose document has the same amount under another line: it may be the same thing entered
// twice, and it may be two equal things.
func (r *reader) notice() {
	type bill struct{ supplier, document, amount string }
	of := func(e Entry) bill { return bill{named(e.Supplier), named(e.Document), e.Amount.String()} }
	seen := map[bill]string{}
	for _, e := range r.held {
		seen[of(e)] = "line " + notation.Quote(e.Line) + ", which is posted already"
	}
	r.row = 0
	for _, n := range r.out.Good {
		b := of(n.Entry)
		where, ok := seen[b]
		if !ok {
			seen[b] = fmt.Sprintf("line %s %s", notation.Quote(n.Entry.Line), r.at(n.Row))
			continue
		}
		if len(r.out.Notes) == MaxFaults {
			r.out.MoreNotes++
			continue
		}
		r.out.Notes = append(r.out.Notes, Note{n.Row, fmt.Sprintf("document %s of %s has %s %s on %s, as well as on line %s here: look whether it is the same thing",
			notation.Quote(n.Entry.Document), notation.Quote(n.Entry.Supplier), n.Entry.Amount, n.Entry.Amount.Currency(), where, notation.Quote(n.Entry.Line))})
	}
}
