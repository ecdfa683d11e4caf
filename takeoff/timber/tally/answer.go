package tally

import (
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// Answer is what a list comes to. Sizes are inches and feet, exact to four places.
type Answer struct {
	Rule Rule `json:"rule"`
	// Method says in a sentence how the rule counts, and Source where that is from.
	Method string `json:"method"`
	Source string `json:"source"`
	// HalfFoot is what half a foot counted, and from where that is known; only where faces are rounded.
	HalfFoot       timber.Tie `json:"half_foot,omitempty"`
	HalfFootSource string     `json:"half_foot_source,omitempty"`
	Boards         int64      `json:"boards"`
	Rows           []Line     `json:"rows"`
	// Thicknesses are there where the rule adds faces by thickness.
	Thicknesses []Thickness `json:"thicknesses,omitempty"`
	// BoardFeet is what the rule comes to. Of metric stock it is only what the volume would be.
	BoardFeet decimal.Decimal `json:"board_feet"`
	M3        decimal.Decimal `json:"m3"`
	// Orders are other ways to round the same list, each with what it comes to; the rule's own first.
	Orders []Order `json:"orders,omitempty"`
	// Stated compares what the supplier says.
	Stated *Stated `json:"stated,omitempty"`
	Drying Drying  `json:"drying"`
	Grade  *Floor  `json:"grade,omitempty"`
	Weight *Weight `json:"weight,omitempty"`
	// Cautions are what to look at before the boards are paid for or lifted.
	Cautions []Caution `json:"cautions,omitempty"`
}

// Line is one row of the list as it was counted.
type Line struct {
	Count       int64           `json:"count"`
	ThicknessIn decimal.Decimal `json:"thickness_in"`
	WidthIn     decimal.Decimal `json:"width_in"`
	LengthFt    decimal.Decimal `json:"length_ft"`
	// CountedLengthFt is the whole foot that counts, ExactFace what one face comes to before it is rounded, and Face what all of
	// them count together; only where faces are rounded.
	CountedLengthFt *decimal.Decimal `json:"counted_length_ft,omitempty"`
	ExactFace       *decimal.Decimal `json:"exact_face_ft2,omitempty"`
	Face            *int64           `json:"face_ft2,omitempty"`
	// BoardFeet and M3 of the row, exact, at the sizes as written.
	BoardFeet decimal.Decimal `json:"exact_board_feet"`
	M3        decimal.Decimal `json:"m3"`
	// Actual is what nominal softwood measures, inches, where the standard says it.
	Actual *Actual `json:"actual,omitempty"`
}

// Actual is the section of dressed softwood as the trade writes it.
type Actual struct {
	Thickness string `json:"thickness_in"`
	Width     string `json:"width_in"`
}

// Thickness is the boards of one nominal thickness.
type Thickness struct {
	NominalIn decimal.Decimal `json:"nominal_in"`
	Boards    int             `json:"boards"`
	Face      int64           `json:"face_ft2"`
	Exact     decimal.Decimal `json:"face_times_thickness"`
	BoardFeet int64           `json:"board_feet"`
	// SurfacedTwoSides and one, as a grading standard has them; LeastKilnDriedIn is how thin rough boards may be once dried.
	SurfacedTwoSides string           `json:"surfaced_two_sides_in,omitempty"`
	SurfacedOneSide  string           `json:"surfaced_one_side_in,omitempty"`
	LeastKilnDriedIn *decimal.Decimal `json:"least_kiln_dried_in,omitempty"`
}

// Order is one way to round a list.
type Order struct {
	Name      string          `json:"name"`
	Says      string          `json:"says"`
	BoardFeet decimal.Decimal `json:"board_feet"`
	// Difference from the rule.
	Difference decimal.Decimal `json:"difference"`
}

// Stated is what the supplier says beside what the rule comes to.
type Stated struct {
	BoardFeet  decimal.Decimal `json:"board_feet"`
	Difference decimal.Decimal `json:"difference"`
	// Like is the order of rounding that it agrees with, empty where with none.
	Like string `json:"like,omitempty"`
	Why  string `json:"why"`
}

// Drying tells a gross tally from a net one: what the footage is in the other state, by the range of the trade.
type Drying struct {
	Measured Measured `json:"measured"`
	// Tally is gross or net.
	Tally string `json:"tally"`
	// OtherLow and OtherHigh are the board feet of the other tally.
	OtherLow  decimal.Decimal `json:"other_low_board_feet"`
	OtherHigh decimal.Decimal `json:"other_high_board_feet"`
	Why       string          `json:"why"`
	Source    string          `json:"source"`
}

// Floor is what a grade promises of these boards' poorer faces.
type Floor struct {
	Grade string `json:"grade"`
	// Clear is the least clear face, in units of a twelfth of a square foot, and ClearPct its share cut down to a tenth.
	Clear    int64           `json:"clear_units"`
	ClearPct decimal.Decimal `json:"clear_face_pct"`
	Cutting  string          `json:"cutting"`
	// TooSmall are the rows, from 0, whose boards are below the grade's least size.
	TooSmall []int  `json:"too_small_rows,omitempty"`
	Why      string `json:"why"`
	Source   string `json:"source"`
}

// Weight is what the boards weigh.
type Weight struct {
	Species     string          `json:"species"`
	MoisturePct decimal.Decimal `json:"moisture_pct"`
	DensityKgM3 decimal.Decimal `json:"density_kg_m3"`
	DensityLb   decimal.Decimal `json:"density_lb_ft3"`
	// M3 that is weighed: the boards' whole lengths and true sizes.
	M3         decimal.Decimal `json:"m3"`
	Kg         decimal.Decimal `json:"kg"`
	Lb         decimal.Decimal `json:"lb"`
	LbBoardFt  decimal.Decimal `json:"lb_board_ft"`
	HeaviestKg decimal.Decimal `json:"heaviest_board_kg"`
	HeaviestLb decimal.Decimal `json:"heaviest_board_lb"`
	// HeaviestRow counts from 0.
	HeaviestRow int    `json:"heaviest_row"`
	Why         string `json:"why"`
	Source      string `json:"source"`
}

// Caution is something to look at, with its source.
type Caution struct {
	Text   string `json:"text"`
	Source string `json:"source"`
}

// Count reads a list and counts it. All that is wrong with it comes back together as document.Faults.
func (d Document) Count(y Yard) (Answer, error) {
	l, faults := d.read(y)
	if err := faults.Err(); err != nil {
		return Answer{}, err
	}
	a := Answer{Rule: d.Rule, Method: methods[d.Rule].says, Source: methods[d.Rule].source}
	l.lines(&a)
	switch d.Rule {
	case SurfaceMeasure:
		if err := l.faces(&a); err != nil {
			return Answer{}, err
		}
	default:
		for _, x := range a.Rows {
			a.BoardFeet = a.BoardFeet.Add(x.BoardFeet)
		}
		a.BoardFeet = a.BoardFeet.Round(2)
	}
	l.compare(&a)
	l.dry(&a)
	l.floor(&a)
	if err := l.weigh(&a); err != nil {
		return Answer{}, err
	}
	l.warn(&a)
	return a, nil
}

var methods = map[Rule]struct{ says, source string }{
	SurfaceMeasure: {"Each face is its width, fractions and all, times the lower whole foot of its length, over 12, rounded to the whole foot; the faces of one nominal thickness are added, multiplied by the thickness, an inch at least, and rounded to the whole foot.",
		"rules of the National Hardwood Lumber Association as restated in its measuring guide and by Goodwood, hardwood terminology, both undated"},
	Exact:           {"Thickness times width in inches times length in feet, over 12, without rounding a board.", "definition of the board foot, 144 in3"},
	NominalSoftwood: {"Nominal thickness times nominal width in inches times length in feet, over 12, without rounding a board; no rule that rounds single boards was seen.", "definition of the board foot, 144 in3; sizes by Tenn. Comp. R. & Regs. 0080-07-07-.06, Table 4, which has the figures of PS 20"},
	CubicMetre:      {"Thickness times width times length, in cubic metres, without rounding a board; board feet are only what the same volume would be.", "geometry; a board foot is 0.002359737216 m3 exactly"},
}
