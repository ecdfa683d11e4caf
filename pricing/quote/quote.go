package quote

import (
	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

// OptionInput is one option as the takeoff and the buy list leave it: Work is the takeoff's, in which pricing puts the scarfs of the
// buy list in the place of those that the bill counts.
type OptionInput struct {
	ID, Name string
	Work     []step.Work
	Needs    []bill.Line
	// Buy is the buy list of the needs off the same sheet.
	Buy     buy.List
	Library step.Library
}

// Quote is one or more options priced on one sheet. It is the yard's: it shows cost, wage and markup. What an owner
// may see is OwnerView.
type Quote struct {
	Currency  money.Currency `json:"currency"`
	Rounding  money.Mode     `json:"rounding"`
	ValidDays int            `json:"valid_days"`
	// RangeLow and RangeHigh are the yard's own judgement, as fractions of the total.
	RangeLow  string   `json:"range_low"`
	RangeHigh string   `json:"range_high"`
	Text      string   `json:"text"`
	Options   []Option `json:"options"`
	// Comparison sets the options side by side, a line for each key that any of them has.
	Comparison []Compared `json:"comparison"`
}

// Option is one option priced.
type Option struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	// Lines in the order of work: within a step, labour first, then what it uses up. What no step of the library uses
	// comes last.
	Lines []Line `json:"lines"`
	// Cost is the sum of the lines' costs, Net of their prices.
	Cost money.Money `json:"cost"`
	Net  money.Money `json:"net"`
	// Taxes, one amount for each category of the terms, also where it is nothing; Tax is their sum.
	Taxes []TaxAmount `json:"taxes"`
	Tax   money.Money `json:"tax"`
	// Total = Net + Tax.
	Total money.Money `json:"total"`
	// Low and High are the total less and more the yard's range, rounded outward to three digits.
	Low  money.Money `json:"low"`
	High money.Money `json:"high"`
	// Hours is the sum of the hours shown.
	Hours quantity.Quantity `json:"hours"`
	// Markup is what is added to cost as a fraction of cost, (Net - Cost) / Cost; Margin the same money as a fraction
	// of the price, (Net - Cost) / Net. Both to 4 places, "0.0000" where there is nothing to divide by.
	Markup string `json:"markup"`
	Margin string `json:"margin"`
	// Figures are how hours came about that the scarfs of the buy list moved, and the glue of these.
	Figures []derivation.Figure `json:"figures,omitempty"`
}

// Line is what one step takes of one thing, on members of one kind.
type Line struct {
	// Key is step/item/member kind: comparison, repricing and reconciliation match on it.
	Key      string     `json:"key"`
	Step     string     `json:"step"`
	StepName string     `json:"step_name"`
	Kind     sheet.Kind `json:"kind"`
	Item     string     `json:"item"`
	// Species and Grade of timber, as the takeoff names them.
	Species    string    `json:"species,omitempty"`
	Grade      string    `json:"grade,omitempty"`
	MemberKind boat.Kind `json:"member_kind"`
	// Quantity is what the line is counted by: hours, or the net need. Gross, of material only, is what must be had.
	Quantity quantity.Quantity  `json:"quantity"`
	Gross    *quantity.Quantity `json:"gross,omitempty"`
	// Rate is the price of an hour as on the sheet, for RatePer hours; labour only.
	Rate    string `json:"rate,omitempty"`
	RatePer string `json:"rate_per,omitempty"`
	// Cost is hours x rate, or the line's part of what is bought; Price = Cost x (1 + Markup). Each is rounded once,
	// and the price is worked out from the cost that is shown.
	Cost   money.Money `json:"cost"`
	Markup string      `json:"markup"`
	Price  money.Money `json:"price"`
	// Taxes are the categories that the line falls under.
	Taxes []string `json:"taxes"`
	// Needs are the lines of the bill, Figure the figure of the hours, that the line rests on.
	Needs  []string `json:"needs,omitempty"`
	Figure string   `json:"figure,omitempty"`
}

// TaxAmount is one category: Amount = Base x Rate rounded once, Base the sum of the prices of the lines under it.
type TaxAmount struct {
	Category string      `json:"category"`
	Rate     string      `json:"rate"`
	Base     money.Money `json:"base"`
	Amount   money.Money `json:"amount"`
}

// Compared is one key over all options, in the quote's order of options.
type Compared struct {
	Key        string     `json:"key"`
	Step       string     `json:"step"`
	StepName   string     `json:"step_name"`
	Kind       sheet.Kind `json:"kind"`
	Item       string     `json:"item"`
	MemberKind boat.Kind  `json:"member_kind"`
	// Prices, one for each option; nothing where the option has no such line.
	Prices []money.Money `json:"prices"`
}

// Estimate buys for every option and prices all of them: Price with its buy lists worked out here. What has no price
// is told for all options, materials and trades at once.
func Estimate(options []OptionInput, c sheet.Content, shop buy.Rules, t Terms) (Quote, error) {
	if _, err := t.read(); err != nil {
		return Quote{}, err
	}
	missing, err := Missing(options, c, shop)
	if err != nil {
		return Quote{}, err
	}
	if len(missing) > 0 {
		return Quote{}, &sheet.MissingPriceError{Items: missing}
	}
	bought := make([]OptionInput, len(options))
	for i, o := range options {
		if o.Buy, err = buy.New(o.Needs, c, o.shop(shop)); err != nil {
			return Quote{}, &OptionError{o.ID, o.Name, err}
		}
		bought[i] = o
	}
	return Price(bought, c, t)
}

// Price prices the options on the sheet. The buy lists must be off the same sheet.
//
// A document.Faults when the terms do not hold; a *sheet.MissingPriceError naming every trade without a rate at once;
// a *BasisError when options, sheet and buy lists do not go together.
func Price(options []OptionInput, c sheet.Content, t Terms) (Quote, error) {
	read, err := t.read()
	if err != nil {
		return Quote{}, err
	}
	if err := together(options, c); err != nil {
		return Quote{}, err
	}
	options, figures, err := planned(options)
	if err != nil {
		return Quote{}, err
	}
	if missing := missingTrades(options, c); len(missing) > 0 {
		return Quote{}, &sheet.MissingPriceError{Items: missing}
	}
	q := Quote{
		Currency: c.Currency, Rounding: read.mode, ValidDays: t.ValidDays, RangeLow: atLeast(read.low, 2),
		RangeHigh: atLeast(read.high, 2), Text: t.Text, Options: make([]Option, len(options)),
	}
	for i, o := range options {
		p := pricing{c, read}
		if q.Options[i], err = p.option(o); err != nil {
			return Quote{}, &OptionError{o.ID, o.Name, err}
		}
		q.Options[i].Figures = figures[i]
	}
	q.Comparison = compare(q.Options, c.Currency)
	return q, nil
}

// atLeast writes a fraction with so many places, more where it has more.
func atLeast(d decimal.Decimal, places int32) string {
	return d.StringFixed(max(places, -d.Exponent()))
}
