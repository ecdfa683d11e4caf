package timber

import "strings"

// Quarter is one thickness of rough hardwood with what is left of it when surfaced, inches as the trade writes them.
type Quarter struct {
	Rough string // "4/4" is an inch
	S2S   string // surfaced two sides
	S1S   string // surfaced one side; empty where no figure was seen
	From  Mark   // how far S2S was seen
}

// quarters: a grading standard's sizes; mill stock is often thicker. Engineering ToolBox, hardwood lumber sizes, and Woodbin,
// lumber dimensions, both undated; S1S is not standardised.
var quarters = [...]Quarter{
	{"3/8", "3/16", "", Seen},
	{"1/2", "5/16", "", Seen},
	{"5/8", "7/16", "", Seen},
	{"3/4", "9/16", "", Seen},
	{"4/4", "13/16", "7/8", Seen},
	{"5/4", "1 1/16", "1 1/8", Seen},
	{"6/4", "1 5/16", "1 3/8", Seen},
	{"7/4", "1 1/2", "", Seen},
	{"8/4", "1 3/4", "1 13/16", Seen},
	{"10/4", "2 1/4", "", FromMemory},
	{"12/4", "2 3/4", "2 13/16", Seen},
	{"14/4", "3 1/4", "", Seen},
	{"16/4", "3 3/4", "3 13/16", Seen},
}

// QuarterError: a rough thickness that the table does not have.
type QuarterError struct{ Rough string }

func (e *QuarterError) Error() string {
	known := make([]string, len(quarters))
	for i, q := range quarters {
		known[i] = q.Rough
	}
	return "rough hardwood of " + e.Rough + " is not in the table of surfaced sizes: one of " + strings.Join(known, ", ")
}

// Surfaced is what a rough thickness keeps; a *QuarterError for one that is not in the table.
func Surfaced(rough string) (Quarter, error) {
	for _, q := range quarters {
		if q.Rough == rough {
			return q, nil
		}
	}
	return Quarter{}, &QuarterError{rough}
}
