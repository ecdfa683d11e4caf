package quote

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/sheet"

	"github.com/shopspring/decimal"
)

// line walks from the old cost and price to the new ones, a reason at a time.
func (a repricing) line(was, is Line) (RepricedLine, error) {
	out := RepricedLine{Key: was.Key, Step: was.Step, StepName: was.StepName, Kind: is.Kind, Item: was.Item, MemberKind: was.MemberKind}
	var err error
	if out.Cost, err = move(was.Cost, is.Cost); err != nil {
		return RepricedLine{}, err
	}
	if out.Price, err = move(was.Price, is.Price); err != nil {
		return RepricedLine{}, err
	}
	w := walk{cost: was.Cost, price: was.Price, causes: []Cause{}}
	if was.Kind == sheet.Labour {
		at, err := a.sameHours(was, is)
		if err != nil {
			return RepricedLine{}, err
		}
		w.to(ByRate, at.Cost, at.Price, func() string {
			return fmt.Sprintf("%s h at %s, before at %s", was.Quantity, perHour(is), perHour(was))
		})
		w.to(ByBuying, is.Cost, is.Price, func() string {
			return fmt.Sprintf("now %s h, before %s h, for the scarfs that the boards are made with", is.Quantity, was.Quantity)
		})
	} else if was.Kind == sheet.Freight {
		w.to(ByFreight, is.Cost, is.Price, func() string {
			return fmt.Sprintf("now %s for %s, before %s for %s", is.Cost, orders(is), was.Cost, orders(was))
		})
	} else {
		same, err := a.sameBoards(was)
		if err != nil {
			return RepricedLine{}, err
		}
		// What the new cost comes to under the old kind's markup parts a move of kind from what is bought.
		markup := one.Add(a.terms.markup[was.Kind])
		atOld := func(cost money.Money) money.Money {
			if err != nil {
				return money.Money{}
			}
			var p money.Money
			p, err = cost.Times(markup, a.terms.mode)
			return p
		}
		atSame, atNew := atOld(same), atOld(is.Cost)
		if err != nil {
			return RepricedLine{}, err
		}
		w.to(ByUnitPrice, same, atSame, func() string { return a.prices(was.Needs) })
		w.to(ByBuying, is.Cost, atNew, func() string {
			return "now " + bought(a.newer, was.Needs) + "; before " + bought(a.older, was.Needs)
		})
		w.to(ByKind, is.Cost, is.Price, func() string { return fmt.Sprintf("now %s, before %s", is.Kind, was.Kind) })
	}
	out.Because = w.causes
	return out, w.err
}

// walk keeps where a line has come to.
type walk struct {
	cost, price money.Money
	causes      []Cause
	err         error
}

func (w *walk) to(r Reason, cost, price money.Money, detail func() string) {
	if w.err != nil || cost == w.cost && price == w.price {
		return
	}
	c := Cause{Reason: r, Detail: detail()}
	if c.Cost, w.err = cost.Sub(w.cost); w.err != nil {
		return
	}
	if c.Price, w.err = price.Sub(w.price); w.err != nil {
		return
	}
	w.causes = append(w.causes, c)
	w.cost, w.price = cost, price
}

// orders that a line of freight is for.
func orders(l Line) string {
	if l.Quantity.String() == "1" {
		return "1 order"
	}
	return l.Quantity.String() + " orders"
}

// sameHours is a line of labour with the hours it had, at the rate it has now.
func (a repricing) sameHours(was, is Line) (Line, error) {
	if was.Quantity.Equal(is.Quantity) {
		return is, nil
	}
	rate, ok := a.sheet.Labour(was.Item)
	if !ok {
		return is, nil
	}
	out := is
	var err error
	if out.Cost, err = money.RoundRat(new(big.Rat).Mul(was.Quantity.Value().Rat(), rate.UnitPrice()), a.sheet.Currency, a.terms.mode); err != nil {
		return Line{}, err
	}
	return out, a.price(&out)
}

func perHour(l Line) string {
	if l.RatePer == decimal.NewFromInt(1).String() {
		return l.Rate
	}
	return l.Rate + " for " + l.RatePer + " h"
}

// sameBoards is the cost of a line's needs when the same is bought at the new prices.
func (a repricing) sameBoards(l Line) (money.Money, error) {
	sum := money.Zero(a.sheet.Currency)
	for _, n := range l.Needs {
		cost, ok := a.same[n]
		if !ok {
			continue // glue of a scarf that was not made
		}
		var err error
		if sum, err = sum.Add(cost); err != nil {
			return money.Money{}, err
		}
	}
	return sum, nil
}

// serves reports that one of the needs is among the lines of a group.
func serves(lines, needs []string) bool {
	return slices.ContainsFunc(needs, func(n string) bool { return slices.Contains(lines, n) })
}

// prices says which boards and packs cost something else.
func (a repricing) prices(needs []string) string {
	var out []string
	for _, m := range a.moves {
		if serves(m.Lines, needs) && m.Old != m.New {
			out = append(out, fmt.Sprintf("%d of %s at %s each, before at %s", m.Count, m.Label, m.New, m.Old))
		}
	}
	return strings.Join(out, "; ")
}

// bought says what is bought of the groups that serve the needs.
func bought(l buy.List, needs []string) string {
	var out []string
	for _, t := range l.Timber {
		for _, b := range t.Boards {
			if serves(t.Lines, needs) {
				out = append(out, fmt.Sprintf("%d of %s", b.Count, b.Offer))
			}
		}
	}
	for _, p := range l.Packs {
		for _, b := range p.Bought {
			if serves(p.Lines, needs) {
				out = append(out, fmt.Sprintf("%d of %s %s %s", b.Count, p.Item, b.PackSize, b.Unit.Name()))
			}
		}
	}
	if out == nil {
		return "nothing"
	}
	return strings.Join(out, ", ")
}
