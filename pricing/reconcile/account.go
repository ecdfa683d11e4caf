package reconcile

import (
	"math/big"
	"slices"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/quote"
)

// shownPlaces is to how many places quantities and unit prices are shown.
const shownPlaces = 6

// Reconcile sets entries against an accepted option, with the buy list that it was priced on, by step and line. A
// material splits into price and quantity only where the buy list says how much of it the cost was for; an empty
// list leaves materials unsplit.
//
// Entries of one name and content count once. A *TwiceError where one name has two contents, a *money.MixedError for
// another currency, a *money.RangeError where a sum is out of range.
func Reconcile(o quote.Option, bought buy.List, entries []Entry) (Reconciliation, error) {
	c := o.Cost.Currency()
	entries, err := once(entries, c)
	if err != nil {
		return Reconciliation{}, err
	}
	inOrder(entries)
	a := account{option: o, known: standards(o, bought), byLine: map[string][]Entry{}, byStep: map[string][]Unassigned{}}
	for _, e := range entries {
		if key := lineOf(e, o.Lines, false); key != "" {
			a.byLine[key] = append(a.byLine[key], e)
			continue
		}
		proposed := ""
		if e.Step == "" {
			proposed = lineOf(e, o.Lines, true)
		}
		a.byStep[e.Step] = append(a.byStep[e.Step], Unassigned{e, proposed})
	}
	return a.reconcile(c)
}

// account is entries on their way to lines and steps; the step "" has those that name none.
type account struct {
	option quote.Option
	known  map[string]standard
	byLine map[string][]Entry
	byStep map[string][]Unassigned
}

func (a account) reconcile(c money.Currency) (Reconciliation, error) {
	out := Reconciliation{Currency: c, Total: noSums(c)}
	var err error
	if out.Steps, err = a.steps(c); err != nil {
		return Reconciliation{}, err
	}
	some := len(a.byStep[""])
	for i := range out.Steps {
		s := &out.Steps[i]
		s.Sums = noSums(c)
		for _, l := range s.Lines {
			if s.Sums, err = s.Sums.add(l.Sums); err != nil {
				return Reconciliation{}, err
			}
		}
		if s.NoLine, err = loose(a.byStep[s.Step], c); err != nil {
			return Reconciliation{}, err
		}
		if s.Sums, err = s.Sums.add(s.NoLine.Sums); err != nil {
			return Reconciliation{}, err
		}
		n := len(s.NoLine.Entries)
		for _, l := range s.Lines {
			n += len(l.Entries)
		}
		if n == 0 {
			s.Sums.Difference = s.Sums.Difference.unspent()
		}
		some += n
		if out.Total, err = out.Total.add(s.Sums); err != nil {
			return Reconciliation{}, err
		}
	}
	if out.NoStep, err = loose(a.byStep[""], c); err != nil {
		return Reconciliation{}, err
	}
	out.Total, err = out.Total.add(out.NoStep.Sums)
	if some == 0 {
		out.Total.Difference = out.Total.Difference.unspent()
	}
	return out, err
}

// steps are the quote's with their lines, then those that only spend names.
func (a account) steps(c money.Currency) ([]Step, error) {
	out := []Step{}
	at := map[string]int{}
	put := func(code, name string) *Step {
		i, ok := at[code]
		if !ok {
			i = len(out)
			at[code] = i
			out = append(out, Step{Step: code, Name: name, Lines: []Line{}})
		}
		return &out[i]
	}
	for _, l := range a.option.Lines {
		line, err := a.line(l, c)
		if err != nil {
			return nil, err
		}
		s := put(l.Step, l.StepName)
		s.Lines = append(s.Lines, line)
	}
	var more []string
	for code := range a.byStep {
		if _, ok := at[code]; !ok && code != "" {
			more = append(more, code)
		}
	}
	slices.Sort(more)
	for _, code := range more {
		put(code, code)
	}
	return out, nil
}

func (a account) line(l quote.Line, c money.Currency) (Line, error) {
	out := Line{Key: l.Key, Kind: l.Kind, Item: l.Item, MemberKind: l.MemberKind, Entries: a.byLine[l.Key]}
	if out.Entries == nil {
		out.Entries = []Entry{}
	}
	spent, tax, err := spend(out.Entries, c)
	if err != nil {
		return Line{}, err
	}
	amount, err := spent.Sub(l.Cost)
	if err != nil {
		return Line{}, err
	}
	price, unsplit := money.Zero(c), amount
	if s, ok := a.known[l.Key]; ok {
		h := had(out.Entries, s.unit)
		out.Measure = &Measure{Unit: s.unit, Quoted: shown(s.quantity), QuotedPrice: shown(s.price)}
		out.Unsplit = h.left
		if h.some {
			if price, unsplit, err = h.split(out.Measure, s, c); err != nil {
				price, unsplit = money.Zero(c), amount
				out.Measure.Spent, out.Measure.SpentPrice = "", ""
				out.Unsplit = leftAll(out.Entries, "its part is beyond what an amount can hold")
			}
		}
	}
	out.Sums = Sums{Quoted: l.Cost, Price: l.Price, Spent: spent, Tax: tax}
	out.Sums.Difference, err = difference(amount, price, unsplit)
	if len(out.Entries) == 0 {
		out.Sums.Difference = out.Sums.Difference.unspent()
	}
	return out, err
}

func spend(entries []Entry, c money.Currency) (amount, tax money.Money, err error) {
	amount, tax = money.Zero(c), money.Zero(c)
	for _, e := range entries {
		if amount, err = amount.Add(e.Amount); err != nil {
			return amount, tax, err
		}
		if tax, err = tax.Add(e.Tax); err != nil {
			return amount, tax, err
		}
	}
	return amount, tax, nil
}

// loose is entries without a line.
func loose(entries []Unassigned, c money.Currency) (Loose, error) {
	out := Loose{Sums: noSums(c), Entries: []Unassigned{}}
	out.Entries = append(out.Entries, entries...)
	var plain []Entry
	for _, u := range entries {
		plain = append(plain, u.Entry)
	}
	var err error
	if out.Sums.Spent, out.Sums.Tax, err = spend(plain, c); err != nil {
		return Loose{}, err
	}
	out.Sums.Difference, err = difference(out.Sums.Spent, money.Zero(c), out.Sums.Spent)
	return out, err
}

func shown(r *big.Rat) string { return money.HalfUp.RoundRat(r, shownPlaces).String() }
