// Package document is how the yard's written documents are read: every fault is collected, each with the place it
// stands in and what would be right, and nothing is taken over while one remains.
package document

import (
	"fmt"
	"strings"
)

// Fault is one thing wrong in a document. Pointer is an RFC 6901 JSON pointer into it. Row and Column count from 1
// and are set when the document came as a table.
type Fault struct {
	Pointer string `json:"pointer,omitempty"`
	Row     int    `json:"row,omitempty"`
	Column  int    `json:"column,omitempty"`
	Detail  string `json:"detail"`
	Fix     string `json:"fix"`
}

// Faults is all that is wrong, in the order of the document.
type Faults []Fault

// Error lists them, so that a Faults can travel as an error.
func (f Faults) Error() string {
	parts := make([]string, len(f))
	for i, x := range f {
		where := x.Pointer
		if x.Row > 0 {
			where = fmt.Sprintf("row %d column %d", x.Row, x.Column)
		}
		parts[i] = where + ": " + x.Detail
	}
	return strings.Join(parts, "; ")
}

// Err is f as an error, nil when nothing is wrong.
func (f Faults) Err() error {
	if len(f) == 0 {
		return nil
	}
	return f
}

// Add notes one fault.
func (f *Faults) Add(pointer, fix, detail string, args ...any) {
	*f = append(*f, Fault{Pointer: pointer, Detail: fmt.Sprintf(detail, args...), Fix: fix})
}

// Under is f with every pointer placed below another: the faults of a part as faults of the whole.
func (f Faults) Under(pointer string) Faults {
	out := make(Faults, len(f))
	for i, x := range f {
		x.Pointer = pointer + x.Pointer
		out[i] = x
	}
	return out
}
