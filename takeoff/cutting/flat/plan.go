// Package flat finds which boards, sheets and lengths off rolls to buy for a list of rectangles, and how to cut them by
// straight cuts from edge to edge, in integers only.
//
// A sheet is cut into strips, a strip into pieces (two stages) or into stacks and these into pieces (three). A linear
// program over strips and over layouts of sheets gives values of pieces that, made whole numbers, prove a floor under
// every plan of those stages; plans come from shelves, first-fit by decreasing depth, and from rounding the program's
// answer. The program runs in floating point and decides nothing: what is claimed is added up in integers. Lengths are
// whole millimetres or tenths of one, whichever the caller chooses for all; prices are whole minor units of one
// currency. There is no clock: limits are counted work, so that the same list gives the same plan everywhere.
//
// Measured on 2026-11-28, on a busy machine of two cores: of twelve published lists of two stages and three sizes of sheet
// all reach the published bound and come within 0.02 % of the best known cost, three of them below it, in at most 3.7 s of
// computing; of eleven of three stages all reach the best known number of sheets, two are below it, ten are proved.
// Of 40 drawn lists of a yard (up to 20 sizes, 1 to 5 sheets) 34 are proved within the limits of a request, in 0.13 s of computing each;
// sums of values alone prove 17. Of twelve drawn lists of a shop, some eight sheets, plans are 2.8 % above the floor in the median,
// 5.3 % above sums of values, and two are proved: cases of many strips are too many. Of 500 lists of four to eight pieces 498
// are proved, 458 by sums of values. Three stages know no cases: 8.6 % in the median of twelve. Three stages on fine scales
// are slow; count in millimetres there.
//
// Proven says that no plan of the stages and first cuts that the rules allow costs less. Cuts that do not go from edge to
// edge, or further stages, may need less.
//
// Curved shapes go in as their bounding rectangles, or as the rectangle of a pair (see the package pair); nesting
// outlines freely is not done here.
package flat

// Limits that keep every sum inside int64 and the tables small.
const (
	MaxFine   = 50_000                // of a side of stock with three stages
	MaxSide   = 100_000               // of stock, a piece, the kerf or the trim: 10 m in tenths of a millimetre
	MaxThick  = 1_000_000_000_000     // of stock or a piece: a kilometre in nanometres
	MaxPrice  = 1_000_000_000_000     // of one sheet, or of Per of a roll
	MaxPer    = 1_000_000             // of a roll
	MaxPieces = 20_000                // all together
	MaxKinds  = 300                   // different pieces
	MaxStock  = 20                    // different sheets and rolls
	MaxCost   = 1_000_000_000_000_000 // of a plan
)

// Stock is a board or sheet as it is sold, or a roll. The grain, the weave or the rolling runs along Length.
type Stock struct {
	ID    string `json:"id"`
	Width int64  `json:"width"`
	// Length of a sheet. Of a roll the longest that is cut off it at once, 0 for as deep as the deepest piece that it
	// gives; with three stages several pieces may lie behind one another in what is cut off.
	Length int64 `json:"length"`
	// Price of one sheet, or of Per of a roll's length.
	Price int64 `json:"price"`
	// Per is 0 for a sheet. All rolls of a list are priced by the same length.
	Per int64 `json:"per"`
	// Avail is how many sheets, or what length of a roll, are for sale; -1 for no limit.
	Avail int64 `json:"avail"`
	// Thickness decides which pieces it gives: those no thicker. It is compared and nothing else, and may be in a finer unit than the
	// other sizes; 0 of all stock and pieces where all is of one.
	Thickness int64 `json:"thickness,omitempty"`
}

// Roll reports whether the stock is cut to length off a roll.
func (s Stock) Roll() bool { return s.Per > 0 }

// Piece is Qty rectangles of one size, Length along the stock's.
type Piece struct {
	ID     string `json:"id"`
	Width  int64  `json:"width"`
	Length int64  `json:"length"`
	Qty    int64  `json:"qty"`
	// Thickness that the stock must have at least.
	Thickness int64 `json:"thickness,omitempty"`
	// AlongOnly keeps a piece to sheets whose first cuts run along.
	AlongOnly bool `json:"along_only,omitempty"`
	// MayTurn lets a piece lie across the grain. A half turn changes nothing and is always allowed.
	MayTurn bool `json:"may_turn"`
	// Pair is a rectangle that two of the piece fit in, as with both sides of a curved floor laid into each other;
	// nil when there is none. Parting the two is not counted here.
	Pair *Size `json:"pair,omitempty"`
}

// Size of a rectangle, lying as a Piece does.
type Size struct {
	Width  int64 `json:"width"`
	Length int64 `json:"length"`
}

// First says which way the first cuts of a sheet run. A roll is always cut across.
type First string

// The first cuts.
const (
	// Across the length: strips run over the width.
	Across First = "across"
	// Along the length, as a board is ripped: strips run over the length.
	Along First = "along"
	// Either, chosen for each sheet.
	Either First = "either"
)

// Rules are what the saw takes and which cuts are made.
type Rules struct {
	// Kerf between two pieces, strips or stacks. TrimEach is cut off all four edges of a sheet, its own kerf included,
	// and off both edges of a roll; a roll's end is not trimmed.
	Kerf     int64 `json:"kerf"`
	TrimEach int64 `json:"trim_each"`
	First    First `json:"first"`
	// Stages: 2 for strips and pieces, 3 for strips, stacks and pieces.
	Stages int `json:"stages"`
	// Exact forbids the trimming cut that follows: with two stages a piece is then as deep as its strip, with three as
	// wide as its stack.
	Exact bool `json:"exact"`
}

// List is a request.
type List struct {
	Stock  []Stock `json:"stock"`
	Pieces []Piece `json:"pieces"`
	Rules  Rules   `json:"rules"`
}

// Plan is what to buy and how it is cut.
type Plan struct {
	Bought []Lot    `json:"bought"`
	Layout []Layout `json:"layouts"`
	// Cost of what is bought; Bound is what no plan of these stages can cost less than.
	Cost  int64 `json:"cost"`
	Bound int64 `json:"bound"`
	// Proven: Bound is Cost. The certificate is what can be worked out again without any search.
	Proven      bool        `json:"proven"`
	Certificate Certificate `json:"certificate"`
}

// Lot is N sheets of one kind, or Length off a roll. Cost of a length is rounded up to a whole minor unit.
type Lot struct {
	StockID string `json:"stock_id"`
	N       int64  `json:"n"`
	Length  int64  `json:"length"`
	Cost    int64  `json:"cost"`
}

// Layout is N sheets of one stock cut alike, or one length off a roll. Strips lie beside each other in this order, the
// first cuts between them.
type Layout struct {
	StockID string  `json:"stock_id"`
	N       int64   `json:"n"`
	First   First   `json:"first"`
	Strips  []Strip `json:"strips"`
	// Left is the depth that remains of a sheet beside the last strip, after the saw.
	Left int64 `json:"left"`
}

// Strip is N strips alike, Depth measured across them.
type Strip struct {
	N      int64   `json:"n"`
	Depth  int64   `json:"depth"`
	Stacks []Stack `json:"stacks"`
	// Offcut is what is left at the strip's end, after the saw.
	Offcut int64 `json:"offcut"`
}

// Stack is N stacks alike beside each other in a strip, Width measured along it. With two stages it holds one piece.
type Stack struct {
	N      int64  `json:"n"`
	Width  int64  `json:"width"`
	Pieces []Part `json:"pieces"`
}

// Part is K rectangles of one piece on top of each other. Turned: its width lies along the stock's length. Paired: the
// rectangle is the piece's Pair and gives two.
type Part struct {
	PieceID string `json:"piece_id"`
	K       int64  `json:"k"`
	Turned  bool   `json:"turned"`
	Paired  bool   `json:"paired"`
}

// Limits end the search by counted work, the same on every machine. A plan and a floor stand whatever they are.
type Limits struct {
	// Work in elementary steps: multiplications of the program, cells of the tables.
	Work int64
	// Pivots of the program, and Nodes of the search among the strips and layouts found.
	Pivots, Nodes int
}

// Usual are the limits that Solve works within.
var Usual = Limits{Work: 1_500_000_000, Pivots: 200_000, Nodes: 100_000}
