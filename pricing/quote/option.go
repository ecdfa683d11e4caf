package quote

import (
	"slices"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// RatioPlaces is how many places a markup or margin worked out here is shown to.
const RatioPlaces = 4

// option prices one option from its lines.
func (p pricing) option(o OptionInput) (Option, error) {
	list, err := p.lines(o)
	if err != nil {
		return Option{}, err
	}
	c := p.sheet.Currency
	out := Option{ID: o.ID, Name: o.Name, Lines: list, Cost: money.Zero(c), Net: money.Zero(c), Tax: money.Zero(c),
		Taxes: []TaxAmount{}, Hours: quantity.Zero(quantity.Hour)}
	if out.Lines == nil {
		out.Lines = []Line{}
	}
	for _, l := range list {
		if out.Cost, err = out.Cost.Add(l.Cost); err != nil {
			return Option{}, err
		}
		if out.Net, err = out.Net.Add(l.Price); err != nil {
			return Option{}, err
		}
		if l.Kind == sheet.Labour {
			if out.Hours, err = out.Hours.Add(l.Quantity); err != nil {
				return Option{}, err
			}
		}
	}
	if err := p.totals(&out); err != nil {
		return Option{}, err
	}
	out.Markup, out.Margin = Markup(out.Cost, out.Net), Margin(out.Cost, out.Net)
	return out, nil
}

// totals adds the taxes, the total and the range.
func (p pricing) totals(out *Option) error {
	var err error
	for _, t := range p.terms.taxes {
		base := money.Zero(p.sheet.Currency)
		for _, l := range out.Lines {
			if !slices.Contains(t.kinds, l.Kind) {
				continue
			}
			if base, err = base.Add(l.Price); err != nil {
				return err
			}
		}
		amount, err := base.Times(t.rate, p.terms.mode)
		if err != nil {
			return err
		}
		out.Taxes = append(out.Taxes, TaxAmount{t.category, t.rate.String(), base, amount})
		if out.Tax, err = out.Tax.Add(amount); err != nil {
			return err
		}
	}
	if out.Total, err = out.Net.Add(out.Tax); err != nil {
		return err
	}
	out.Low, out.High, err = judged(out.Total, p.terms.low, p.terms.high)
	return err
}

// Markup is what a price adds to its cost, as a fraction of the cost, to RatioPlaces: 25 % on 200,000 is 0.2500.
// "0.0000" when the cost is nothing or the currencies differ.
func Markup(cost, price money.Money) string { return ratio(cost, price, cost) }

// Margin is the same money as a fraction of the price: that same 25 % markup leaves a margin of 0.2000.
func Margin(cost, price money.Money) string { return ratio(cost, price, price) }

func ratio(cost, price, of money.Money) string {
	gain, err := price.Sub(cost)
	if err != nil || of.IsZero() {
		return decimal.Zero.StringFixed(RatioPlaces)
	}
	return money.HalfUp.RoundRat(gain.Decimal().Rat().Quo(gain.Decimal().Rat(), of.Decimal().Rat()), RatioPlaces).StringFixed(RatioPlaces)
}

// compare sets the lines of all options side by side: the first option's in its order, then what only later ones
// have.
func compare(options []Option, c money.Currency) []Compared {
	out := []Compared{}
	at := map[string]int{}
	for i, o := range options {
		for _, l := range o.Lines {
			k, ok := at[l.Key]
			if !ok {
				k = len(out)
				at[l.Key] = k
				row := Compared{Key: l.Key, Step: l.Step, StepName: l.StepName, Kind: l.Kind, Item: l.Item, MemberKind: l.MemberKind}
				for range options {
					row.Prices = append(row.Prices, money.Zero(c))
				}
				out = append(out, row)
			}
			out[k].Prices[i] = l.Price
		}
	}
	return out
}
