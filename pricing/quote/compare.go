package quote

import (
	"slices"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/boat"
	"ribband/takeoff/quantity"
)

// Pair is an amount in the first option and in the second, and what the second is dearer by.
type Pair struct {
	First  money.Money `json:"first"`
	Second money.Money `json:"second"`
	// Difference is Second - First.
	Difference money.Money `json:"difference"`
}

// OptionDifference is two options of a quote as the owner may see them, side by side. The differences of the lines
// add to that of their step, those of the steps to Net, and Net and the taxes to Total, to the last cent.
type OptionDifference struct {
	First  OptionName `json:"first"`
	Second OptionName `json:"second"`
	// Steps in the order of work.
	Steps []StepDifference `json:"steps"`
	Net   Pair             `json:"net"`
	Taxes []TaxDifference  `json:"taxes"`
	Tax   Pair             `json:"tax"`
	Total Pair             `json:"total"`
	Low   Pair             `json:"low"`
	High  Pair             `json:"high"`
	Hours QuantityPair     `json:"hours"`
}

// OptionName names an option.
type OptionName struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

// StepDifference is one step in both options. Price is the sum of its lines.
type StepDifference struct {
	Step  string           `json:"step"`
	Name  string           `json:"name"`
	Lines []LineDifference `json:"lines"`
	Price Pair             `json:"price"`
}

// LineDifference is one key in both options.
type LineDifference struct {
	Key        string     `json:"key"`
	Kind       sheet.Kind `json:"kind"`
	Item       string     `json:"item"`
	MemberKind boat.Kind  `json:"member_kind"`
	// Quantity is absent on the side whose option has no such line.
	Quantity QuantityPair `json:"quantity"`
	Price    Pair         `json:"price"`
}

// QuantityPair is a quantity in the first option and in the second.
type QuantityPair struct {
	First  *quantity.Quantity `json:"first,omitempty"`
	Second *quantity.Quantity `json:"second,omitempty"`
}

// TaxDifference is one category in both options.
type TaxDifference struct {
	Category string `json:"category"`
	Rate     string `json:"rate"`
	Amount   Pair   `json:"amount"`
}

// Difference is the second option against the first. A *FootingError when an option does not foot, a *BasisError when
// a line or a tax stands twice in it, a *money.MixedError when the two are not in one currency.
func Difference(first, second OwnerOption) (OptionDifference, error) {
	out := OptionDifference{First: OptionName{first.ID, first.Name}, Second: OptionName{second.ID, second.Name},
		Steps: []StepDifference{}, Taxes: []TaxDifference{}, Hours: QuantityPair{&first.Hours, &second.Hours}}
	for _, o := range []OwnerOption{first, second} {
		if err := foots(o); err != nil {
			return OptionDifference{}, err
		}
	}
	for _, x := range []struct {
		into *Pair
		a, b money.Money
	}{{&out.Net, first.Net, second.Net}, {&out.Tax, first.Tax, second.Tax}, {&out.Total, first.Total, second.Total},
		{&out.Low, first.Low, second.Low}, {&out.High, first.High, second.High}} {
		var err error
		if *x.into, err = pair(x.a, x.b); err != nil {
			return OptionDifference{}, err
		}
	}
	steps := func(o OwnerOption) (names []string) {
		for _, s := range o.Steps {
			names = append(names, s.Step)
		}
		return names
	}
	for _, code := range inBoth(steps(first), steps(second)) {
		s, err := stepDifference(stepOf(first, code), stepOf(second, code), out.Net)
		if err != nil {
			return OptionDifference{}, err
		}
		out.Steps = append(out.Steps, s)
	}
	var err error
	out.Taxes, err = taxDifferences(first, second)
	return out, err
}

func pair(a, b money.Money) (Pair, error) {
	d, err := b.Sub(a)
	return Pair{a, b, d}, err
}

// inBoth is the names of two lists, each once, in an order that both keep to where they agree.
func inBoth(a, b []string) []string {
	var out []string
	for _, n := range a {
		if !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	at := 0
	for _, n := range b {
		if i := slices.Index(out, n); i >= 0 {
			at = i + 1
			continue
		}
		out = slices.Insert(out, at, n)
		at++
	}
	return out
}

// stepOf is the step of an option, all its lines together; without lines when the option has no such step.
func stepOf(o OwnerOption, code string) OwnerStep {
	out := OwnerStep{Step: code}
	for _, s := range o.Steps {
		if s.Step == code {
			out.Name = s.Name
			out.Lines = append(out.Lines, s.Lines...)
		}
	}
	return out
}

// stepDifference compares a step line by line; zero gives the currency.
func stepDifference(a, b OwnerStep, zero Pair) (StepDifference, error) {
	c := zero.First.Currency()
	nothing := Pair{money.Zero(c), money.Zero(c), money.Zero(c)}
	out := StepDifference{Step: a.Step, Name: a.Name, Lines: []LineDifference{}, Price: nothing}
	if out.Name == "" {
		out.Name = b.Name
	}
	keys := func(s OwnerStep) (all []string) {
		for _, l := range s.Lines {
			all = append(all, l.Key)
		}
		return all
	}
	for _, k := range inBoth(keys(a), keys(b)) {
		l := LineDifference{Price: nothing}
		for _, side := range []struct {
			lines    []OwnerLine
			quantity **quantity.Quantity
			price    *money.Money
		}{{a.Lines, &l.Quantity.First, &l.Price.First}, {b.Lines, &l.Quantity.Second, &l.Price.Second}} {
			i := slices.IndexFunc(side.lines, func(x OwnerLine) bool { return x.Key == k })
			if i < 0 {
				continue
			}
			x := side.lines[i]
			l.Key, l.Kind, l.Item, l.MemberKind = k, x.Kind, x.Item, x.MemberKind
			*side.quantity, *side.price = &x.Quantity, x.Price
		}
		var err error
		if l.Price, err = pair(l.Price.First, l.Price.Second); err != nil {
			return StepDifference{}, err
		}
		if out.Price, err = out.Price.add(l.Price); err != nil {
			return StepDifference{}, err
		}
		out.Lines = append(out.Lines, l)
	}
	return out, nil
}

func (p Pair) add(o Pair) (Pair, error) {
	a, err := p.First.Add(o.First)
	if err != nil {
		return Pair{}, err
	}
	b, err := p.Second.Add(o.Second)
	if err != nil {
		return Pair{}, err
	}
	return pair(a, b)
}

func taxDifferences(first, second OwnerOption) ([]TaxDifference, error) {
	out := []TaxDifference{}
	names := func(o OwnerOption) (all []string) {
		for _, t := range o.Taxes {
			all = append(all, t.Category+"\x00"+t.Rate)
		}
		return all
	}
	a, b := names(first), names(second)
	for _, n := range inBoth(a, b) {
		d := TaxDifference{}
		x, y := money.Zero(first.Net.Currency()), money.Zero(first.Net.Currency())
		if i := slices.Index(a, n); i >= 0 {
			d.Category, d.Rate, x = first.Taxes[i].Category, first.Taxes[i].Rate, first.Taxes[i].Amount
		}
		if i := slices.Index(b, n); i >= 0 {
			d.Category, d.Rate, y = second.Taxes[i].Category, second.Taxes[i].Rate, second.Taxes[i].Amount
		}
		var err error
		if d.Amount, err = pair(x, y); err != nil {
			return nil, err
		}
		out = append(out, d)
	}
	return out, nil
}
