package timber

import "strings"

// Grade is what a grade of hardwood promises of its poor face. It is a floor on clear face, not the yield of boat parts: it
// stands beside a yard's own loss for grade and is never multiplied with it.
type Grade struct {
	Name string
	// BoardWidth (inches) and BoardLength (feet) are of the smallest board.
	BoardWidth, BoardLength int
	// Cutting is the smallest clear piece, as the rule says it.
	Cutting string
	// Units of clear face to one foot of surface measure, of the twelve that there are.
	Units int
	// Extra is a surface measure from ExtraFrom to ExtraTo feet allowed one more cutting, if it gives ExtraUnits; no such where
	// ExtraUnits is 0.
	ExtraFrom, ExtraTo, ExtraUnits int
	// Inferred: the figure is that of the better face's rule.
	Inferred bool
}

// grades: grade chart of Hood Distribution, undated, and the 2007 rules of the National Hardwood Lumber Association, paragraph
// 37, as quoted on a forestry forum (FAS); the chart's "60 2/3 %" for No. 1 Common is a misprint for 8/12.
var grades = [...]Grade{
	{Name: "FAS", BoardWidth: 6, BoardLength: 8, Cutting: "4 in x 5 ft or 3 in x 7 ft", Units: 10, ExtraFrom: 6, ExtraTo: 15, ExtraUnits: 11},
	{Name: "F1F", BoardWidth: 6, BoardLength: 8, Cutting: "better face as FAS, the other as No. 1 Common", Units: 10, ExtraFrom: 6, ExtraTo: 15, ExtraUnits: 11, Inferred: true},
	{Name: "Selects", BoardWidth: 4, BoardLength: 6, Cutting: "better face as FAS, the other as No. 1 Common", Units: 10, Inferred: true},
	{Name: "No.1C", BoardWidth: 3, BoardLength: 4, Cutting: "4 in x 2 ft or 3 in x 3 ft", Units: 8, ExtraFrom: 3, ExtraTo: 10, ExtraUnits: 9},
	{Name: "No.2A", BoardWidth: 3, BoardLength: 4, Cutting: "3 in x 2 ft", Units: 6, ExtraFrom: 2, ExtraTo: 7, ExtraUnits: 8},
	{Name: "No.3A", BoardWidth: 3, BoardLength: 4, Cutting: "3 in x 2 ft", Units: 4},
	{Name: "No.3B", BoardWidth: 3, BoardLength: 4, Cutting: "1 1/2 in wide, 36 in2, sound", Units: 3},
}

// GradeError: a grade that no rule of the table has.
type GradeError struct{ Name string }

func (e *GradeError) Error() string {
	known := make([]string, len(grades))
	for i, g := range grades {
		known[i] = g.Name
	}
	return "the grade " + e.Name + " is not in the table of grades: one of " + strings.Join(known, ", ")
}

// GradeNamed is the rule of a grade; a *GradeError for one that is not in the table.
func GradeNamed(name string) (Grade, error) {
	for _, g := range grades {
		if g.Name == name {
			return g, nil
		}
	}
	return Grade{}, &GradeError{name}
}

// ClearUnits is the least clear face of a board of so much surface measure, in units of a twelfth of a foot of it.
func (g Grade) ClearUnits(surfaceMeasure int64) int64 { return surfaceMeasure * int64(g.Units) }
