package quantity

// Unit names the unit of a Quantity, as it stands in JSON. The list is closed: a unit without places and a
// Rec 20 code cannot be printed, priced or exchanged.
type Unit string

// The units Ribband counts in.
const (
	Each        Unit = "each"     // pieces: laminates, patterns, frames, bolts
	Millimetre  Unit = "mm"       // lengths derived from measured ones
	Metre       Unit = "m"        // girths, lengths of pieces
	SquareMetre Unit = "m2"       // glue lines, pattern stock, areas
	CubicMetre  Unit = "m3"       // timber by volume
	BoardFoot   Unit = "board_ft" // timber by board measure, 144 in3
	Kilogram    Unit = "kg"
	Litre       Unit = "L"
	Hour        Unit = "h"
	Ratio       Unit = "ratio"  // pure numbers: springback, R/t, fractions of loss
	Density     Unit = "kg_m3"  // kilograms in a cubic metre
	LitrePerM2  Unit = "L_m2"   // spread of glue on a square metre of glue line
	HourPerUnit Unit = "h_each" // hours per unit of a step's driver
)

// unitFacts: the decimal places a quantity is rounded to, and the code of UN/ECE Recommendation 20 (revision
// 12e, 2016, as the UBL 2.1 code list prints it) where the unit is one that goods are sold in.
//
// Millimetres keep six places because 1/64 in (0.396875 mm) must stay exact; a measured length is rounded to three
// before it gets here. The places are a house assumption (an issue may change them; use has to confirm them).
var unitFacts = map[Unit]struct {
	places int32
	rec20  string
}{
	Each:        {0, "C62"},
	Millimetre:  {6, "MMT"},
	Metre:       {3, "MTR"},
	SquareMetre: {3, "MTK"},
	CubicMetre:  {6, "MTQ"},
	BoardFoot:   {2, "BFT"},
	Kilogram:    {2, "KGM"},
	Litre:       {2, "LTR"},
	Hour:        {2, "HUR"},
	Ratio:       {6, "C62"},
	Density:     {2, "KMQ"},
	LitrePerM2:  {4, ""},
	HourPerUnit: {4, ""},
}

// Known reports whether u is one of the units above.
func (u Unit) Known() bool { _, ok := unitFacts[u]; return ok }

// Places is how many decimal places a quantity in u keeps; 0 for an unknown unit.
func (u Unit) Places() int32 { return unitFacts[u].places }

// Rec20 is the UN/ECE Recommendation 20 code, empty where goods are not sold in u.
func (u Unit) Rec20() string { return unitFacts[u].rec20 }
