package quote

import (
	"slices"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/boat"
	"ribband/takeoff/quantity"
)

// Reason is why a line costs something else on another version of the price sheet.
type Reason string

// The reasons.
const (
	ByRate      Reason = "rate"       // an hour of the trade costs something else
	ByUnitPrice Reason = "unit_price" // the same boards and packs cost something else
	ByBuying    Reason = "bought"     // other boards or packs, or more or fewer of them, are bought
	ByFreight   Reason = "freight"    // suppliers ask something else for bringing it, or others bring it
	ByKind      Reason = "kind"       // the sheet has the item under another kind, which has another markup
)

// Repriced is the same options on two versions of a price sheet. It is the yard's: it shows cost.
type Repriced struct {
	Currency money.Currency   `json:"currency"`
	Options  []RepricedOption `json:"options"`
}

// RepricedOption is one option on both versions. The differences of the lines add to those of Cost and Net, Net and
// Tax to Total, to the cent.
type RepricedOption struct {
	ID    string         `json:"id"`
	Name  string         `json:"name"`
	Lines []RepricedLine `json:"lines"`
	Cost  Moved          `json:"cost"`
	Net   Moved          `json:"net"`
	Taxes []TaxMoved     `json:"taxes"`
	Tax   Moved          `json:"tax"`
	Total Moved          `json:"total"`
}

// RepricedLine is one line on both versions. Because adds to the differences of Cost and Price, and is empty where
// nothing moved.
type RepricedLine struct {
	Key        string     `json:"key"`
	Step       string     `json:"step"`
	StepName   string     `json:"step_name"`
	Kind       sheet.Kind `json:"kind"`
	Item       string     `json:"item"`
	MemberKind boat.Kind  `json:"member_kind"`
	Cost       Moved      `json:"cost"`
	Price      Moved      `json:"price"`
	Because    []Cause    `json:"because"`
}

// Moved is an amount on the old and on the new version; Difference = New - Old.
type Moved struct {
	Old        money.Money `json:"old"`
	New        money.Money `json:"new"`
	Difference money.Money `json:"difference"`
}

// TaxMoved is one tax category on both versions.
type TaxMoved struct {
	Category string `json:"category"`
	Rate     string `json:"rate"`
	Amount   Moved  `json:"amount"`
}

// Cause is one reason and what it moved, by cost and by selling price.
type Cause struct {
	Reason Reason      `json:"reason"`
	Cost   money.Money `json:"cost"`
	Price  money.Money `json:"price"`
	// Detail says what was before and what is now.
	Detail string `json:"detail"`
}

// Reprice prices the options, which carry their buy lists off the sheet from, on another sheet under the same terms,
// and says line by line what moved and why. A *CurrencyError when the sheets are in two currencies; further errors as
// Price and Estimate.
func Reprice(options []OptionInput, from, to sheet.Content, shop buy.Rules, t Terms) (Repriced, error) {
	if err := SameCurrency(from.Currency, to); err != nil {
		return Repriced{}, err
	}
	read, err := t.read()
	if err != nil {
		return Repriced{}, err
	}
	older, err := Price(options, from, t)
	if err != nil {
		return Repriced{}, err
	}
	missing, err := Missing(options, to, shop)
	if err != nil {
		return Repriced{}, err
	}
	if len(missing) > 0 {
		return Repriced{}, &sheet.MissingPriceError{Items: missing}
	}
	afresh := slices.Clone(options)
	for i, o := range options {
		if afresh[i].Buy, err = buy.New(o.Needs, to, o.shop(shop)); err != nil {
			return Repriced{}, &OptionError{o.ID, o.Name, err}
		}
	}
	newer, err := Price(afresh, to, t)
	if err != nil {
		return Repriced{}, err
	}
	out := Repriced{Currency: to.Currency, Options: []RepricedOption{}}
	for i, o := range options {
		shares, moves, err := o.Buy.SharesAt(o.Needs, from, to, o.shop(shop))
		if err != nil {
			return Repriced{}, &OptionError{o.ID, o.Name, err}
		}
		a := repricing{pricing{to, read}, map[string]money.Money{}, moves, o.Buy, afresh[i].Buy}
		for _, s := range shares {
			a.same[s.Line] = s.Cost
		}
		option, err := a.option(older.Options[i], newer.Options[i])
		if err != nil {
			return Repriced{}, &OptionError{o.ID, o.Name, err}
		}
		out.Options = append(out.Options, option)
	}
	return out, nil
}

// repricing is one option between two sheets.
type repricing struct {
	pricing
	// same is what each need costs when the same boards and packs are bought at the new prices.
	same         map[string]money.Money
	moves        []buy.PriceMove
	older, newer buy.List
}

func (a repricing) option(older, newer Option) (RepricedOption, error) {
	out := RepricedOption{ID: older.ID, Name: older.Name, Lines: []RepricedLine{}, Taxes: []TaxMoved{}}
	older, newer = a.withAll(older, newer), a.withAll(newer, older)
	now := map[string]Line{}
	for _, l := range newer.Lines {
		now[l.Key] = l
	}
	if len(older.Lines) != len(now) || len(older.Taxes) != len(newer.Taxes) {
		return RepricedOption{}, &BasisError{"the two versions price different lines"}
	}
	for _, was := range older.Lines {
		is, ok := now[was.Key]
		if !ok {
			return RepricedOption{}, &BasisError{"line " + was.Key + " stands on one version only"}
		}
		l, err := a.line(was, is)
		if err != nil {
			return RepricedOption{}, err
		}
		out.Lines = append(out.Lines, l)
	}
	for i, t := range older.Taxes {
		m, err := move(t.Amount, newer.Taxes[i].Amount)
		if err != nil {
			return RepricedOption{}, err
		}
		out.Taxes = append(out.Taxes, TaxMoved{t.Category, t.Rate, m})
	}
	var err error
	for _, x := range []struct {
		into     *Moved
		old, new money.Money
	}{{&out.Cost, older.Cost, newer.Cost}, {&out.Net, older.Net, newer.Net}, {&out.Tax, older.Tax, newer.Tax},
		{&out.Total, older.Total, newer.Total}} {
		if *x.into, err = move(x.old, x.new); err != nil {
			return RepricedOption{}, err
		}
	}
	return out, nil
}

// withAll gives an option a line for nothing where only the other has one: of freight, or of scarfs that only the other's boards
// are made with.
func (a repricing) withAll(o, other Option) Option {
	zero := money.Zero(a.sheet.Currency)
	for _, l := range other.Lines {
		if slices.ContainsFunc(o.Lines, func(m Line) bool { return m.Key == l.Key }) {
			continue
		}
		l.Quantity, l.Cost, l.Price, l.Needs = quantity.Zero(l.Quantity.Unit()), zero, zero, nil
		o.Lines = append(slices.Clone(o.Lines), l)
	}
	return o
}

func move(old, new money.Money) (Moved, error) {
	d, err := new.Sub(old)
	return Moved{old, new, d}, err
}
