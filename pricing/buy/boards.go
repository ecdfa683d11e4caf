package buy

import (
	"slices"

	"ribband/pricing/money"
	"ribband/pricing/sawing"
	"ribband/pricing/sheet"
	"ribband/takeoff/cutting"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Timber is the boards for one species, grade, laminate thickness, siding and planing.
type Timber struct {
	Species   string          `json:"species"`
	Grade     string          `json:"grade"`
	Thickness decimal.Decimal `json:"thickness_mm"`
	Siding    decimal.Decimal `json:"siding_mm"`
	Planing   decimal.Decimal `json:"planing_mm"`
	// Lines are the ids of the needs served; Net and Gross count their pieces.
	Lines []string          `json:"lines"`
	Net   quantity.Quantity `json:"net"`
	Gross quantity.Quantity `json:"gross"`
	// Offers are the boards that serve, of which the plan chose.
	Offers []Offer        `json:"offers"`
	Boards []Boards       `json:"boards"`
	Cuts   []Cut          `json:"cuts"`
	Method cutting.Method `json:"method"`
	Cost   money.Money    `json:"cost"`
	// Scarfed is which pieces are made of two parts; nil where none is. NotScarfed says why scarfs that the rules allow were not
	// weighed against longer boards.
	Scarfed    *Scarfed `json:"scarfed,omitempty"`
	NotScarfed string   `json:"not_scarfed,omitempty"`
	// Resawn is how far the bandsaw runs in all boards that are resawn; NotResawn why none is, though less wood would do.
	Resawn    *quantity.Quantity `json:"resawn_m,omitempty"`
	NotResawn string             `json:"not_resawn,omitempty"`
	// Bound: no plan for this group can cost less; of a group with scarfs, with the labour of making them.
	Bound money.Money `json:"bound"`
	// Proof says what stands behind the bound; Proven, that no plan can cost less than Cost. Certificate can be worked
	// out again from the boards and pieces without any search; its lengths are nanometres, its floor minor units.
	Proof       cutting.Proof       `json:"proof"`
	Proven      bool                `json:"proven"`
	Certificate cutting.Certificate `json:"certificate"`
	// PriceScale is set where boards in hand cost nothing, or a scarf no whole number of minor units: the certificate counts each
	// such board as 1, and all others and scarfs as PriceScale times their price.
	PriceScale int64 `json:"price_scale,omitempty"`
	// JointGrid is set of a group with pieces that may be of two parts: the certificate is of a list with taper and least part shorter by
	// so much, parts a whole number of it and such pieces shorter by less than it, as which every joint counts wherever it comes.
	JointGrid decimal.Decimal `json:"joint_grid_mm,omitzero"`
	// SideBySide is set of planks that could lie side by side with those of other groups; with Layouts in it they do, all in this one
	// group. Then the certificate here says nothing, and that in it stands beside ApartBound, of boards of each group's own.
	SideBySide *SideBySide `json:"side_by_side,omitempty"`
	// LeftOver is what remains of the boards in lengths worth naming: whole strips, then offcuts.
	LeftOver []LeftOver `json:"left_over"`
}

// Offer by its name; false where the list has none of that name.
func (t Timber) Offer(id string) (Offer, bool) { return findOffer(t.Offers, id) }

func findOffer(all []Offer, id string) (Offer, bool) {
	if i := slices.IndexFunc(all, func(o Offer) bool { return o.ID == id }); i >= 0 {
		return all[i], true
	}
	return Offer{}, false
}

// Offer is a board that serves a group, with the figures that decide.
type Offer struct {
	// ID names the board and its supplier.
	ID       string `json:"id"`
	Item     string `json:"item,omitempty"`
	Supplier string `json:"supplier,omitempty"`
	// Thickness, Width and Length as the sheet writes them.
	Thickness string `json:"thickness"`
	Width     string `json:"width"`
	Length    string `json:"length"`
	// Widest is set of boards of random width, from Width on, NarrowestMM and WidestMM the same exact: WidthMM is then how wide each
	// is reckoned, so that what is ordered suffices however wide they come.
	Widest      string          `json:"widest,omitempty"`
	NarrowestMM decimal.Decimal `json:"narrowest_mm,omitzero"`
	WidestMM    decimal.Decimal `json:"widest_mm,omitzero"`
	// ThicknessMM, WidthMM and LengthMM are the same, exact.
	ThicknessMM decimal.Decimal `json:"thickness_mm"`
	WidthMM     decimal.Decimal `json:"width_mm"`
	LengthMM    decimal.Decimal `json:"length_mm"`
	// Strips that one board gives, and the way they come out of it: across, on edge, floor((W + k) / (t' + k)), t' the
	// laminate's thickness with its planing, k the kerf.
	Strips int64      `json:"strips"`
	Way    sawing.Way `json:"way"`
	// Measure of one board in Unit, exact to 6 places; it is priced before it is rounded.
	Measure   string      `json:"measure"`
	Unit      sheet.Unit  `json:"unit"`
	UnitPrice string      `json:"unit_price"`
	Per       string      `json:"per"`
	Price     money.Money `json:"price"`
	// Available boards for sale, those bought for groups before included; nil for no limit.
	Available *int64 `json:"available,omitempty"`
	// Rack says which board in hand it is; nil for one that is bought.
	Rack *OnRack `json:"rack,omitempty"`
}

// OnRack is a board in hand, or a clear stretch of one between two places along it.
type OnRack struct {
	ID     string           `json:"id"`
	Place  string           `json:"place,omitempty"`
	FromMM *decimal.Decimal `json:"from_mm,omitempty"`
	ToMM   *decimal.Decimal `json:"to_mm,omitempty"`
}

// Marked says that it is a stretch marked as clear on a board in hand, which loses no end.
func (o Offer) Marked() bool { return o.Rack != nil && o.Rack.FromMM != nil && o.Rack.ToMM != nil }

// Clear is the length that pieces may come from, mm: of a marked stretch its own, otherwise the board's with its ends.
func (o Offer) Clear() decimal.Decimal {
	if o.Marked() {
		return o.Rack.ToMM.Sub(*o.Rack.FromMM)
	}
	return o.LengthMM
}

// Boards is boards of one kind bought: Strips they give, Used of these are cut into.
type Boards struct {
	Offer  string      `json:"offer"`
	Count  int64       `json:"count"`
	Strips int64       `json:"strips"`
	Used   int64       `json:"used"`
	Price  money.Money `json:"price"`
	Cost   money.Money `json:"cost"`
	// Measure of all of them in the offer's unit, to 6 places.
	Measure string `json:"measure"`
}

// Cut is so many Strips of a board cut alike. Width is how wide they are ripped, where strips of several widths lie side by side.
type Cut struct {
	Offer   string            `json:"offer"`
	Strips  int64             `json:"strips"`
	WidthMM decimal.Decimal   `json:"width_mm,omitzero"`
	Pieces  []CutPiece        `json:"pieces"`
	Offcut  quantity.Quantity `json:"offcut"`
}

// CutPiece is Count laminates of the need Line, or parts of such, so long.
type CutPiece struct {
	Line   string          `json:"line"`
	Count  int64           `json:"count"`
	PartMM decimal.Decimal `json:"part_mm,omitzero"`
}

// LeftOver is Count lengths alike, of strip ripped to the group's size.
type LeftOver struct {
	Offer string `json:"offer"`
	// What it is: "strip", a whole one not cut into, or "offcut".
	What   string            `json:"what"`
	Count  int64             `json:"count"`
	Length quantity.Quantity `json:"length"`
}

// TimberItem is the name under which timber of a species and grade is listed: "white_oak select".
func TimberItem(species, grade string) string { return species + " " + grade }
