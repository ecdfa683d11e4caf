// Package notation reads and writes lengths the way a boatyard does: feet-inches-eighths, inches with binary
// fractions or decimals, millimetres and metres.
//
// What was written is kept exactly. A table is in one notation; a cell in another is refused with what it would
// be in the table's own, and nothing that can be read two ways is guessed at. Out of scope: areas, weights, and
// words ("two foot three").
package notation

// Notation names how the lengths of one table are written.
type Notation string

// The four notations.
const (
	// FeetInchesEighths is the offset table's own: 2-3-4 is 2 ft 3 4/8 in (seen: NPS, Guidelines for Recording
	// Historic Ships, 3rd ed. 2004, p. 4.3.6, which writes zeros always). A trailing + or - means one sixteenth
	// of an inch more or less than the eighths written; that meaning is from memory, so a reader should be shown
	// the decimal beside it.
	FeetInchesEighths Notation = "feet_inches_eighths"
	// Inches are decimal (27.5) or whole and binary fraction (27 1/2).
	Inches Notation = "inches"
	// Millimetres have a decimal point or a decimal comma, never both and never a thousands separator: a single
	// comma or point is always the decimal mark, so 1,234 is a little over one millimetre; in a table, where whole
	// columns may be meant otherwise, ParseCell asks.
	Millimetres Notation = "mm"
	// Metres are written as Millimetres are.
	Metres Notation = "m"
)

// Notations in the order they are offered.
var Notations = []Notation{FeetInchesEighths, Inches, Millimetres, Metres}

// about holds what people are told of each notation.
var about = map[Notation]struct{ name, example string }{
	FeetInchesEighths: {"feet-inches-eighths", "2-3-4"},
	Inches:            {"inches", "27 1/2"},
	Millimetres:       {"millimetres", "698.5"},
	Metres:            {"metres", "0.6985"},
}

// Known reports whether n is one of Notations.
func (n Notation) Known() bool { _, ok := about[n]; return ok }

// Name is what people call the notation: "feet-inches-eighths". An unknown notation is its own name.
func (n Notation) Name() string {
	if a, ok := about[n]; ok {
		return a.name
	}
	return string(n)
}

// Example is 27 1/2 inches written in n, to show how a cell should look; empty for an unknown notation.
func (n Notation) Example() string { return about[n].example }

// DefaultGrain is the grain assumed where a table does not declare what its lengths were written to: 1/8 in for
// feet-inches-eighths and for inches, 1 mm for millimetres and metres; zero for an unknown notation.
//
// Assumption: an eighth is what tables of offsets are rounded to, also when someone copied them into inches, and
// the coarser of the likely grains gives the wider, safer range of a radius. A yard overrides it by declaring the
// grain with the table.
func (n Notation) DefaultGrain() Length {
	switch n {
	case FeetInchesEighths, Inches:
		return Length{inch / 8}
	case Millimetres, Metres:
		return Length{millimetre}
	}
	return Length{}
}
