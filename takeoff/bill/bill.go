// Package bill is the bill of materials that a takeoff ends with: what is needed net, what is lost and why, and
// what must be had gross. It knows no price, pack or board; buying begins where the bill ends.
package bill

import (
	"ribband/takeoff/boat"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Bill is everything a takeoff asks for, in the order of members and, within one, of work.
type Bill struct {
	Lines    []Line    `json:"lines"`
	Measures []Measure `json:"measures"`
	Faults   []Fault   `json:"faults"`
	Warnings []Warning `json:"warnings"`
}

// Line is one need of one member.
type Line struct {
	// ID is the path of the line, unique in the bill: "frame/12/port/laminates".
	ID string `json:"id"`
	// Material says what kind of thing is needed; it decides how it is bought.
	Material Material `json:"material"`
	// Item is what the price sheet calls it. Timber is found by species, grade and size and has none.
	Item string `json:"item,omitempty"`
	// Pieces is set for timber that is cut to pieces.
	Pieces *Pieces `json:"pieces,omitempty"`
	// Rectangles is set for sheet stuff and cloth whose sizes are known; then Net is their area.
	Rectangles *Rectangles `json:"rectangles,omitempty"`
	// Driver is the driver of the step that uses the material up.
	Driver string      `json:"driver"`
	Member boat.Member `json:"member"`
	// Part of the member that it becomes, where the member has several of different lengths: "laminates 1, 3 to 5".
	Part   string      `json:"part,omitempty"`
	Zone   string      `json:"zone,omitempty"`
	Remedy boat.Remedy `json:"remedy"`
	// Net is what stays in the boat; Gross is what must be had so that Net is left after the losses.
	Net    quantity.Quantity `json:"net"`
	Losses []Loss            `json:"losses"`
	Gross  quantity.Quantity `json:"gross"`
	// NetFigure and GrossFigure are the ids of the figures these came from.
	NetFigure   string `json:"net_figure"`
	GrossFigure string `json:"gross_figure"`
}

// Material is the kind of thing needed.
type Material string

// The kinds a takeoff can ask for so far.
const (
	Timber  Material = "timber"
	Glue    Material = "glue"
	Pattern Material = "pattern_stock"
	Metal   Material = "metal"
	Cloth   Material = "cloth"
	// Fastenings are screws by the piece, Plugs what closes the wood over their heads.
	Fastenings Material = "fastenings"
	Plugs      Material = "plugs"
)

// Pieces is timber as it is cut: Line.Net and Line.Gross count pieces like this one.
type Pieces struct {
	Species string `json:"species"`
	Grade   string `json:"grade"`
	// Thickness of the finished piece (a laminate), Siding its width: exact millimetres, because they are written
	// by people in fractions and decide how many strips a board gives.
	Thickness decimal.Decimal `json:"thickness_mm"`
	Siding    decimal.Decimal `json:"siding_mm"`
	// Planing is what is taken off a rough face before it is glued, exact millimetres.
	Planing decimal.Decimal `json:"planing_mm"`
	// Length in metres, rounded up to the millimetre so that it suffices.
	Length quantity.Quantity `json:"length"`
	// Scarf is how a piece may be made of two parts; nil where each is cut whole.
	Scarf *Scarf `json:"scarf,omitempty"`
}

// Rectangles are Count pieces of sheet stuff or cloth, Length along the grain or the roll; exact millimetres, rounded up to
// the whole one. MayTurn where it makes no difference which way they lie.
type Rectangles struct {
	Count   int64           `json:"count"`
	Width   decimal.Decimal `json:"width_mm"`
	Length  decimal.Decimal `json:"length_mm"`
	MayTurn bool            `json:"may_turn,omitempty"`
	// Outline of the piece where it is known, so that two may be laid into each other.
	Outline *Outline `json:"outline,omitempty"`
}

// Loss is one named share of what is bought that never reaches the boat. Fraction is of the gross: 0 <= f < 1.
type Loss struct {
	Name     string          `json:"name"`
	Fraction decimal.Decimal `json:"fraction"`
	Source   string          `json:"source"`
}

// Measure is how much there is of a driver: what a step's hours are counted by.
type Measure struct {
	Driver   string            `json:"driver"`
	Member   boat.Member       `json:"member"`
	Zone     string            `json:"zone,omitempty"`
	Remedy   boat.Remedy       `json:"remedy"`
	Quantity quantity.Quantity `json:"quantity"`
	Figure   string            `json:"figure"`
}

// Limit is the value that a faulty figure had to keep.
type Limit struct {
	Value string        `json:"value"`
	Unit  quantity.Unit `json:"unit"`
}

// Fault is something measured or chosen that cannot be built as it stands. The takeoff carries it and still
// answers; issuing a quote refuses while it stands.
type Fault struct {
	// Code is stable: "laminate_too_thick", "bend_impossible".
	Code   string       `json:"code"`
	Member *boat.Member `json:"member,omitempty"`
	// Figure is the id of the figure that breaks the limit.
	Figure string `json:"figure,omitempty"`
	Detail string `json:"detail"`
	Limit  *Limit `json:"limit,omitempty"`
	// Fix says what would do.
	Fix string `json:"fix"`
}

// Warning is something that can be built as it stands, but rests on too little: it stops nothing and must be read.
type Warning struct {
	// Code is stable: "bend_not_shown", "curve_not_settled", "table_read_worse",
	// "offset_out_of_line", "mark_across_centreline", "restricted_timber", "damage_left", "plank_hung_on_damage", "frames_not_sounded", "finding_of_no_frame".
	Code   string       `json:"code"`
	Member *boat.Member `json:"member,omitempty"`
	Detail string       `json:"detail"`
	// Fix says what to measure.
	Fix string `json:"fix"`
}

// Remaining is the share of what is bought that is left after all losses: prod(1 - loss).
//
// Losses are fractions of what is bought and are never added to one another: 10 % and 20 % lost one after the
// other leave 72 %.
func Remaining(losses []Loss) decimal.Decimal {
	left := decimal.NewFromInt(1)
	for _, l := range losses {
		left = left.Mul(decimal.NewFromInt(1).Sub(l.Fraction))
	}
	return left
}
