// Package buy turns what a takeoff needs into what is bought: whole boards, cans and sheets off one price sheet,
// with their cost split over the needs they serve.
//
// Timber goes apart by species, grade, laminate thickness, siding and planing; one board serves one of these groups
// only. Everything is exact: boards are priced once to the minor unit, and what the plan costs is the sum of them.
// A price that falls with the quantity is a row of its own with its least order. Freight stands beside the goods and is weighed with
// them: by the order where suppliers are chosen, by measure or weight in every board and pack.
package buy

import (
	"ribband/pricing/freight"
	"ribband/pricing/money"
	"ribband/pricing/pack"
	"ribband/pricing/rack"
	"ribband/pricing/sawing"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/cutting"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Rules are the shop's figures that decide how boards are cut, in exact millimetres: Kerf is what one saw cut
// takes, ripping and crosscutting alike; EndTrim is cut off each end of a board first.
type Rules struct {
	Kerf    decimal.Decimal `json:"kerf_mm"`
	EndTrim decimal.Decimal `json:"end_trim_mm"`
	// LeastShort is the shortest left-over that the yard keeps; 0 where it does not say.
	LeastShort decimal.Decimal `json:"least_short_mm"`
	// Resaw is nil where boards are ripped as they come.
	Resaw *sawing.Resaw `json:"resaw,omitempty"`
	// Labour is what making scarfs is reckoned by; without it only what no board gives whole is scarfed.
	Labour Labour `json:"-"`
	// Densities of species, kg in a cubic metre, for freight that is asked by weight; what is not in it has no known weight.
	Densities map[string]decimal.Decimal `json:"-"`
}

// List is what to buy for one set of needs.
type List struct {
	Currency money.Currency `json:"currency"`
	Timber   []Timber       `json:"timber"`
	Packs    []pack.Plan    `json:"packs"`
	// Cost is the sum of what is bought. Bound is what no plan can cost less than: the sum of the groups' bounds, without the glue
	// of scarfs that need not be made.
	Cost  money.Money `json:"cost"`
	Bound money.Money `json:"bound"`
	// Shares are the cost split over the needs, one each, in the order of the needs, those of Added after them; they add to Cost.
	Shares []Share `json:"shares"`
	// Added are needs that the plan itself makes: glue for scarfs that the bill does not count.
	Added []bill.Line `json:"added,omitempty"`
	// Figures are how such needs came about, and others that the plan's scarfs moved.
	Figures []derivation.Figure `json:"figures,omitempty"`
	// ScarfLabour is what making the plan's scarfs costs in hours, left out where it makes none. It is no part of Cost, and where it
	// is there Bound and TotalBound are of both together.
	ScarfLabour money.Money `json:"scarf_labour,omitzero"`
	// ResawLabour is what the hours of resawing cost; they are weighed in the choice and stand in no floor.
	ResawLabour money.Money `json:"resaw_labour,omitzero"`
	// Freight is what suppliers ask for bringing it, none where the sheet names none. FreightCost is its sum, Total that and Cost;
	// TotalBound is what goods and freight together cannot cost less than. They are left out where the sheet names no freight.
	Freight     []freight.Charge `json:"freight,omitempty"`
	FreightCost money.Money      `json:"freight_cost,omitzero"`
	Total       money.Money      `json:"total,omitzero"`
	TotalBound  money.Money      `json:"total_bound,omitzero"`
	// FreightChosen says that suppliers were chosen with their freight in mind.
	FreightChosen bool `json:"freight_chosen,omitempty"`
}

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
	// SideBySide is set of planks that could lie side by side with those of other groups; with Layouts in it they do, all in this one
	// group. Then the certificate here says nothing, and that in it stands beside ApartBound, of boards of each group's own.
	SideBySide *SideBySide `json:"side_by_side,omitempty"`
	// LeftOver is what remains of the boards in lengths worth naming: whole strips, then offcuts.
	LeftOver []LeftOver `json:"left_over"`
}

// Offer by its name; false where the list has none of that name.
func (t Timber) Offer(id string) (Offer, bool) { return findOffer(t.Offers, id) }

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

// Share is what one need costs: its part of the boards or packs that serve it, by net measure.
type Share struct {
	// Line is the id of the need.
	Line string `json:"line"`
	// Kind and Item of what is bought for it; timber by species and grade.
	Kind sheet.Kind `json:"kind"`
	Item string     `json:"item"`
	// Species and Grade of timber, as the takeoff names them.
	Species string            `json:"species,omitempty"`
	Grade   string            `json:"grade,omitempty"`
	Driver  string            `json:"driver"`
	Member  boat.Member       `json:"member"`
	Part    string            `json:"part,omitempty"`
	Zone    string            `json:"zone,omitempty"`
	Remedy  boat.Remedy       `json:"remedy"`
	Net     quantity.Quantity `json:"net"`
	Gross   quantity.Quantity `json:"gross"`
	Cost    money.Money       `json:"cost"`
}

// TimberItem is the name under which timber of a species and grade is listed: "white_oak select".
func TimberItem(species, grade string) string { return species + " " + grade }

// New is the buy list of the needs off the sheet.
//
// A *NeedError when a need or a rule cannot be used; a *sheet.MissingPriceError naming at once everything without a
// price; *ShortBoardsError and *ShortPacksError, joined, where too little is for sale.
func New(needs []bill.Line, c sheet.Content, r Rules) (List, error) {
	return WithRack(needs, c, rack.Rack{}, r)
}

// WithRack is New where the yard has boards in hand: they stand beside those of the sheet at what a job is charged for them.
func WithRack(needs []bill.Line, c sheet.Content, inHand rack.Rack, r Rules) (List, error) {
	g, err := group(needs, r)
	if err != nil {
		return List{}, err
	}
	from := source{sheet: c, rack: inHand, memo: newMemo()}
	g.pool(from, r)
	missing, err := g.missing(from, r)
	if err != nil {
		return List{}, err
	}
	if len(missing) > 0 {
		return List{}, &sheet.MissingPriceError{Items: missing}
	}
	return g.delivered(from, r)
}

// Missing is every need that the sheet has no price for: no row of the item in a unit that measures it, no board of
// the species and grade thick, wide and long enough for the longest piece. Needs that cannot be read at all are a *NeedError.
func Missing(needs []bill.Line, c sheet.Content, r Rules) ([]sheet.Missing, error) {
	g, err := group(needs, r)
	if err != nil {
		return nil, err
	}
	return g.missing(source{sheet: c}, r)
}
