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
	"ribband/takeoff/derivation"

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

// New is the buy list of the needs off the sheet.
//
// A *NeedError when a need or a rule cannot be used; a *sheet.MissingPriceError naming at once everything without a
// price; *ShortBoardsError and *pack.ShortError, joined, where too little is for sale.
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
