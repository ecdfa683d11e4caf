package quote

import (
	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/boat"
	"ribband/takeoff/quantity"
)

// OwnerQuote is what the owner of the boat may see: selling prices only. It has no member for cost, wage, markup,
// margin, supplier or buy list, so that none can slip out.
type OwnerQuote struct {
	Currency   money.Currency  `json:"currency"`
	ValidDays  int             `json:"valid_days"`
	RangeLow   string          `json:"range_low"`
	RangeHigh  string          `json:"range_high"`
	Text       string          `json:"text"`
	Options    []OwnerOption   `json:"options"`
	Comparison []OwnerCompared `json:"comparison"`
}

// OwnerOption is one option at selling prices.
type OwnerOption struct {
	ID    string      `json:"id"`
	Name  string      `json:"name"`
	Steps []OwnerStep `json:"steps"`
	Net   money.Money `json:"net"`
	Taxes []TaxAmount `json:"taxes"`
	Tax   money.Money `json:"tax"`
	Total money.Money `json:"total"`
	Low   money.Money `json:"low"`
	High  money.Money `json:"high"`
	// Hours is the sum of the hours of all steps.
	Hours quantity.Quantity `json:"hours"`
}

// OwnerStep is one step of the work. Price is the sum of its lines.
type OwnerStep struct {
	Step  string      `json:"step"`
	Name  string      `json:"name"`
	Lines []OwnerLine `json:"lines"`
	Price money.Money `json:"price"`
}

// OwnerLine is one line at its selling price.
type OwnerLine struct {
	Key        string            `json:"key"`
	Kind       sheet.Kind        `json:"kind"`
	Item       string            `json:"item"`
	Species    string            `json:"species,omitempty"`
	Grade      string            `json:"grade,omitempty"`
	MemberKind boat.Kind         `json:"member_kind"`
	Quantity   quantity.Quantity `json:"quantity"`
	Price      money.Money       `json:"price"`
}

// OwnerCompared is one step over all options, in their order.
type OwnerCompared struct {
	Step   string        `json:"step"`
	Name   string        `json:"name"`
	Prices []money.Money `json:"prices"`
}

// OwnerView is the quote as its owner may see it. The amounts are those of the quote; an error only when their sums
// go out of range.
func (q Quote) OwnerView() (OwnerQuote, error) {
	out := OwnerQuote{Currency: q.Currency, ValidDays: q.ValidDays, RangeLow: q.RangeLow, RangeHigh: q.RangeHigh,
		Text: q.Text, Options: []OwnerOption{}, Comparison: []OwnerCompared{}}
	for _, o := range q.Options {
		v := OwnerOption{ID: o.ID, Name: o.Name, Steps: []OwnerStep{}, Net: o.Net, Taxes: o.Taxes, Tax: o.Tax,
			Total: o.Total, Low: o.Low, High: o.High, Hours: o.Hours}
		for _, l := range o.Lines {
			if n := len(v.Steps); n == 0 || v.Steps[n-1].Step != l.Step {
				v.Steps = append(v.Steps, OwnerStep{Step: l.Step, Name: l.StepName, Price: money.Zero(q.Currency)})
			}
			s := &v.Steps[len(v.Steps)-1]
			s.Lines = append(s.Lines, OwnerLine{l.Key, l.Kind, l.Item, l.Species, l.Grade, l.MemberKind, l.Quantity, l.Price})
			var err error
			if s.Price, err = s.Price.Add(l.Price); err != nil {
				return OwnerQuote{}, err
			}
		}
		out.Options = append(out.Options, v)
	}
	out.Comparison = compareSteps(out.Options, q.Currency)
	return out, nil
}

func compareSteps(options []OwnerOption, c money.Currency) []OwnerCompared {
	out := []OwnerCompared{}
	at := map[string]int{}
	for i, o := range options {
		for _, s := range o.Steps {
			k, ok := at[s.Step]
			if !ok {
				k = len(out)
				at[s.Step] = k
				row := OwnerCompared{Step: s.Step, Name: s.Name}
				for range options {
					row.Prices = append(row.Prices, money.Zero(c))
				}
				out = append(out, row)
			}
			out[k].Prices[i] = s.Price
		}
	}
	return out
}
