package quote

import (
	"cmp"
	"math/big"
	"slices"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/boat"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"
)

// General stands in a key and a line where a step is not narrowed to members of one kind, or where no step of the
// library uses a material up.
const General = "general"

// pricing is one sheet under one set of terms.
type pricing struct {
	sheet sheet.Content
	terms terms
}

// lines are the lines of one option while they are gathered, by key.
type lines struct {
	list []Line
	at   map[string]int
}

func (p pricing) lines(o OptionInput) ([]Line, error) {
	l := &lines{at: map[string]int{}}
	for _, w := range o.Work {
		if err := p.labour(l, w); err != nil {
			return nil, err
		}
	}
	for _, s := range o.Buy.Shares {
		if err := p.material(l, o.Library, s); err != nil {
			return nil, err
		}
	}
	p.freight(l, o.Buy)
	for i := range l.list {
		if err := p.price(&l.list[i]); err != nil {
			return nil, err
		}
	}
	inOrder(l.list, o)
	return l.list, nil
}

// key is step/item/member kind; a stroke inside a name is written ~1, so that two keys never read alike.
func key(step, item string, k boat.Kind) string {
	return escape(step) + "/" + escape(item) + "/" + escape(string(k))
}

// labour is the line of one step: its hours at its trade's rate, exact, rounded once.
func (p pricing) labour(l *lines, w step.Work) error {
	rate, ok := p.sheet.Labour(w.Trade)
	if !ok {
		return &sheet.MissingPriceError{Items: missingTrades([]OptionInput{{Work: []step.Work{w}}}, p.sheet)}
	}
	cost, err := money.RoundRat(new(big.Rat).Mul(w.Hours.Value().Rat(), rate.UnitPrice()), p.sheet.Currency, p.terms.mode)
	if err != nil {
		return err
	}
	kind := w.Where.Kind
	if kind == "" {
		kind = General
	}
	k := key(w.Code, w.Trade, kind)
	if _, twice := l.at[k]; twice {
		return &BasisError{"step " + w.Code + " stands twice in the work"}
	}
	l.at[k] = len(l.list)
	l.list = append(l.list, Line{
		Key: k, Step: w.Code, StepName: w.Name, Kind: sheet.Labour, Item: w.Trade, MemberKind: kind, Quantity: w.Hours,
		Rate: rate.Price.String(), RatePer: rate.BaseQuantity().String(), Cost: cost, Figure: w.Figure,
	})
	return nil
}

// material adds one need's share to the line of the step that uses it up.
func (p pricing) material(l *lines, lib step.Library, s buy.Share) error {
	code, name := General, materials
	if by, ok := lib.For(step.Driver(s.Driver), s.Member.Kind, s.Zone, s.Remedy); ok {
		code, name = by.Code, by.Name
	}
	k := key(code, s.Item, s.Member.Kind)
	i, ok := l.at[k]
	if !ok {
		l.at[k] = len(l.list)
		l.list = append(l.list, Line{
			Key: k, Step: code, StepName: name, Kind: s.Kind, Item: s.Item, Species: s.Species, Grade: s.Grade,
			MemberKind: s.Member.Kind, Quantity: s.Net, Gross: &s.Gross, Cost: s.Cost, Needs: []string{s.Line},
		})
		return nil
	}
	into := &l.list[i]
	if into.Kind != s.Kind {
		return &BasisError{k + " is both " + string(into.Kind) + " and " + string(s.Kind) + "; two names are needed"}
	}
	net, err := into.Quantity.Add(s.Net)
	if err != nil {
		return err
	}
	gross, err := into.Gross.Add(s.Gross)
	if err != nil {
		return err
	}
	into.Quantity, into.Gross, into.Needs = net, &gross, append(into.Needs, s.Line)
	into.Cost, err = into.Cost.Add(s.Cost)
	return err
}

// freight is a line of what all suppliers ask for bringing what is bought; none where that is nothing.
func (p pricing) freight(l *lines, bought buy.List) {
	if len(bought.Freight) == 0 || bought.FreightCost.Sign() <= 0 {
		return
	}
	l.list = append(l.list, freightLine(bought.FreightCost, int64(len(bought.Freight))))
}

func freightLine(cost money.Money, orders int64) Line {
	return Line{Key: key(General, string(sheet.Freight), General), Step: General, StepName: materials, Kind: sheet.Freight, Item: string(sheet.Freight),
		MemberKind: General, Quantity: quantity.Count(orders), Cost: cost}
}

// materials names what no step of the library uses.
const materials = "Materials"

// price puts markup, price and tax categories on a line.
func (p pricing) price(l *Line) error {
	markup := p.terms.markup[l.Kind]
	l.Markup = atLeast(markup, 2)
	var err error
	if l.Price, err = l.Cost.Times(one.Add(markup), p.terms.mode); err != nil {
		return err
	}
	l.Taxes = []string{}
	for _, t := range p.terms.taxes {
		if slices.Contains(t.kinds, l.Kind) {
			l.Taxes = append(l.Taxes, t.category)
		}
	}
	return nil
}

// inOrder puts lines in the order of work: by step as the library has them, labour before materials, materials by
// kind and item; what no step uses comes last.
func inOrder(list []Line, o OptionInput) {
	rank := map[string]int{}
	put := func(code string) {
		if _, ok := rank[code]; !ok {
			rank[code] = len(rank)
		}
	}
	for _, s := range o.Library.Steps {
		put(s.Code)
	}
	for _, w := range o.Work {
		put(w.Code)
	}
	put(General)
	kind := func(k sheet.Kind) int {
		if k == sheet.Labour {
			return -1
		}
		return slices.Index(sheet.Kinds, k)
	}
	slices.SortStableFunc(list, func(a, b Line) int {
		return cmp.Or(cmp.Compare(rank[a.Step], rank[b.Step]), cmp.Compare(kind(a.Kind), kind(b.Kind)), cmp.Compare(a.Item, b.Item))
	})
}
