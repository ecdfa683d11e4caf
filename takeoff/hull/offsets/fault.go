package offsets

import (
	"fmt"
	"strings"

	"ribband/takeoff/boat"
)

// Fault is one thing wrong with a table of offsets.
type Fault struct {
	// Pointer is the JSON pointer (RFC 6901) into the Document; for a CSV into the document made from it, or
	// empty where the row made none.
	Pointer string
	// Row and Column of the CSV, counted from 1, the header being row 1; both 0 for a fault of no one cell and
	// for a JSON document. Column 0 with a Row is the whole row.
	Row, Column int
	// Station is the station's number as written, Side and Cell what stands there ("wl:1-0-0", "sheer_height");
	// each is empty where the fault concerns none.
	Station string
	Side    boat.Side
	Cell    string
	// Detail says what is wrong and where, Fix what to do about it.
	Detail, Fix string

	// absence: the fault is that something is not there, so it may only echo another fault that took it away.
	absence bool
}

// String is the fault in one line, as a message shows it.
func (f Fault) String() string {
	if f.Row > 0 && f.Column > 0 {
		return fmt.Sprintf("row %d, column %d: %s; %s", f.Row, f.Column, f.Detail, f.Fix)
	}
	if f.Row > 0 {
		return fmt.Sprintf("row %d: %s; %s", f.Row, f.Detail, f.Fix)
	}
	return f.Detail + "; " + f.Fix
}

// FaultsError: offsets that do not make a hull, with every reason found.
type FaultsError struct{ Faults []Fault }

func (e *FaultsError) Error() string {
	if len(e.Faults) == 1 {
		return "the offsets do not make a hull: " + e.Faults[0].String()
	}
	return fmt.Sprintf("the offsets do not make a hull, %d faults, the first: %s", len(e.Faults), e.Faults[0])
}

// where names a place in the table for a message: "Station 3 port wl:1-0-0".
func where(station string, side boat.Side, cell string) string {
	var parts []string
	if station != "" {
		parts = append(parts, "station", station)
	}
	switch side {
	case "":
	case boat.Both:
		parts = append(parts, "both sides")
	default:
		parts = append(parts, string(side))
	}
	if cell != "" {
		parts = append(parts, cell)
	}
	s := strings.Join(parts, " ")
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// Refuse is the error of a table that was read but makes no hull: every fault with the place it names at its head, and
// with its row and column where the table came as a CSV.
func (t *Table) Refuse(list []Fault) *FaultsError {
	var found faults
	for _, f := range list {
		found.add(f)
	}
	return &FaultsError{t.places.locate(found.all())}
}

// faults collects what is wrong, up to MaxFaults; what is over is counted.
type faults struct {
	list []Fault
	over int
}

// add keeps f, its Detail headed by the place that it names.
func (fs *faults) add(f Fault) {
	if len(fs.list) == MaxFaults {
		fs.over++
		return
	}
	if at := where(f.Station, f.Side, f.Cell); at != "" {
		f.Detail = at + ": " + f.Detail
	}
	fs.list = append(fs.list, f)
}

func (fs *faults) any() bool { return len(fs.list) > 0 }

// all is every fault, the last one saying how many more there are.
func (fs *faults) all() []Fault {
	if fs.over == 0 {
		return fs.list
	}
	return append(fs.list, Fault{
		Detail: fmt.Sprintf("%d faults are listed here, and there are %d more", MaxFaults, fs.over),
		Fix:    "correct these, then the rest will be listed",
	})
}
