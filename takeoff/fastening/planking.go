package fastening

import (
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// Planking is the screw for one thickness of plank, inches as the trade writes them.
type Planking struct {
	Plank, Body string
	Gauge       int64
	Length      string
	// Plug over its head, and the other that the table allows.
	Plug, PlugOr string
}

// PlankingSource is where the sizes are from.
const PlankingSource = "N. Herreshoff and Nevins, planking-screw table, as shown by Fair Wind Fasteners, undated; the order of its columns is inferred"

var plankings = [...]Planking{
	{"3/8", "9/64", 6, "3/4", "5/16", ""},
	{"7/16", "5/32", 7, "7/8", "5/16", ""},
	{"1/2", "11/64", 8, "1", "3/8", ""},
	{"5/8", "3/16", 10, "1 1/4", "7/16", ""},
	{"3/4", "7/32", 12, "1 1/2", "7/16", ""},
	{"7/8", "1/4", 14, "1 3/4", "1/2", ""},
	{"1", "17/64", 16, "2", "9/16", ""},
	{"1 1/4", "5/16", 20, "2 1/2", "11/16", ""},
	{"1 1/2", "11/32", 22, "2 3/4", "11/16", "3/4"},
	{"1 3/4", "3/8", 24, "3", "3/4", "13/16"},
	{"2", "13/32", 26, "3 1/2", "13/16", ""},
}

// PlankingFor is the screw for a plank so many millimetres thick, and whether the table has that very thickness; between two
// the thicker plank's, since a screw too short does not hold. A *RangeError below and above the table.
func PlankingFor(mm decimal.Decimal) (p Planking, exact bool, err error) {
	for _, row := range plankings {
		plank, err := notation.Inches.Parse(row.Plank)
		if err != nil {
			return Planking{}, false, err
		}
		if c := mm.Cmp(plank.Decimal()); c <= 0 {
			if row.Plank == plankings[0].Plank && c < 0 {
				break
			}
			return row, c == 0, nil
		}
	}
	return Planking{}, false, fault("planks from 3/8 to 2 in, or the yard's own size", "the table of planking screws has no plank %s mm thick", mm)
}

// PerCrossing is a rule for how many screws hold a plank on a frame that it crosses.
type PerCrossing string

// The rules.
const (
	// Composite1891: planks of 10 in and over double, from 8 1/2 alternately double and single, narrower ones single, butts
	// double.
	Composite1891 PerCrossing = "composite_1891"
	// TwoOrThree: two for planks to 7 in wide, three for wider ones, as small yachts are fastened.
	TwoOrThree PerCrossing = "two_or_three"
)

// Source of a rule; empty for one that is not known.
func (r PerCrossing) Source() string {
	switch r {
	case Composite1891:
		return "Lloyd's rules for composite vessels, 1891 (bruzelius.info)"
	case TwoOrThree:
		return "common practice, no source"
	}
	return ""
}

// Known reports whether r is one of the rules above.
func (r PerCrossing) Known() bool { return r.Source() != "" }

// Widths, mm, from which the rules put in more.
var (
	doubleFrom    = dec("254")
	alternateFrom = dec("215.9")
	threeAbove    = dec("177.8")
)

var (
	single    = decimal.NewFromInt(1)
	alternate = dec("1.5")
	double    = decimal.NewFromInt(2)
	treble    = decimal.NewFromInt(3)
)

// Screws of a plank so wide, mm, on one frame: 1.5 is one and two by turns. A *RangeError for a width not above nothing, and
// for a rule that is not known.
func (r PerCrossing) Screws(width decimal.Decimal) (decimal.Decimal, error) {
	if width.Sign() <= 0 {
		return decimal.Zero, fault("a width above 0", "a plank %s mm wide", width)
	}
	switch r {
	case Composite1891:
		switch {
		case !width.LessThan(doubleFrom):
			return double, nil
		case !width.LessThan(alternateFrom):
			return alternate, nil
		}
		return single, nil
	case TwoOrThree:
		if width.GreaterThan(threeAbove) {
			return treble, nil
		}
		return double, nil
	}
	return decimal.Zero, fault("composite_1891 or two_or_three", "the rule %q of fastenings is not known", string(r))
}
