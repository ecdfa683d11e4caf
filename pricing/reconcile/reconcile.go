package reconcile

import (
	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/boat"
)

// Reconciliation is spend against one accepted option. Every total is the sum of the lines shown below it.
type Reconciliation struct {
	Currency money.Currency `json:"currency"`
	// Steps in the quote's order, then those that the quote does not have and something was spent on, by code.
	Steps []Step `json:"steps"`
	// NoStep is what names no step.
	NoStep Loose `json:"no_step"`
	Total  Sums  `json:"total"`
}

// Step is one step of the work.
type Step struct {
	Step  string `json:"step"`
	Name  string `json:"name"`
	Lines []Line `json:"lines"`
	// NoLine is what was spent on the step and belongs to no line of it: its item is not in the quote, or stands in
	// several lines of the step.
	NoLine Loose `json:"no_line"`
	Sums   Sums  `json:"sums"`
}

// Line is one line of the quote with what was spent on it.
type Line struct {
	Key        string     `json:"key"`
	Kind       sheet.Kind `json:"kind"`
	Item       string     `json:"item"`
	MemberKind boat.Kind  `json:"member_kind"`
	// Measure is nil where the quote does not say how much is to be had for the cost.
	Measure *Measure `json:"measure,omitempty"`
	Sums    Sums     `json:"sums"`
	// Unsplit are the entries that have no part in the split by price and quantity.
	Unsplit []Unsplit `json:"unsplit,omitempty"`
	Entries []Entry   `json:"entries"`
}

// Measure is what a line is split by, in one unit, each figure to 6 places; they are worked with exactly.
type Measure struct {
	Unit sheet.Unit `json:"unit"`
	// Quoted is the quantity that the quote's cost has, of labour the hours, of material what was to be bought; and
	// QuotedPrice what one unit of it costs.
	Quoted      string `json:"quoted"`
	QuotedPrice string `json:"quoted_price"`
	// Spent and SpentPrice are what was had and what one unit came to, tax apart, of the entries that say how much they
	// are; empty where none does.
	Spent      string `json:"spent,omitempty"`
	SpentPrice string `json:"spent_price,omitempty"`
}

// Loose is spend that belongs to no line, all of its difference unsplit.
type Loose struct {
	Sums    Sums         `json:"sums"`
	Entries []Unassigned `json:"entries"`
}

// Unassigned is an entry without a line. Proposed is the key of the only line of the quote that its item fits; empty
// where there is none or are several. It is posted to that line only when somebody says so.
type Unassigned struct {
	Entry    Entry  `json:"entry"`
	Proposed string `json:"proposed,omitempty"`
}

// Sums are amounts without tax, and the tax on what was spent, which is no cost.
type Sums struct {
	// Quoted is the quote's cost, what spend is held against; Price is what the owner pays for it.
	Quoted money.Money `json:"quoted"`
	Price  money.Money `json:"price"`
	Spent  money.Money `json:"spent"`
	Tax    money.Money `json:"tax"`
	// Difference is Spent - Quoted.
	Difference Difference `json:"difference"`
}

func noSums(c money.Currency) Sums {
	z := money.Zero(c)
	d, _ := difference(z, z, z) // nothing less nothing, in one currency
	return Sums{z, z, z, z, d}
}

func (s Sums) add(o Sums) (Sums, error) {
	var out Sums
	var err error
	for _, x := range []struct {
		into *money.Money
		a, b money.Money
	}{{&out.Quoted, s.Quoted, o.Quoted}, {&out.Price, s.Price, o.Price}, {&out.Spent, s.Spent, o.Spent}, {&out.Tax, s.Tax, o.Tax}} {
		if *x.into, err = x.a.Add(x.b); err != nil {
			return Sums{}, err
		}
	}
	out.Difference, err = s.Difference.add(o.Difference)
	return out, err
}
