package buy

import (
	"cmp"
	"errors"
	"slices"
	"strings"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/cutting"
)

// mostChoices is up to how many choices of one price for each board are weighed; a board with prices at three quantities has
// three.
const mostChoices = 64

// allTimber plans the groups of every species and grade, which share boards with each other and with no others.
func (g groups) allTimber(from source, r Rules) ([]Timber, error) {
	out := make([]Timber, len(g.timber))
	var faults error
	done := map[string]bool{}
	for i, t := range g.timber {
		wood := woodKey(t.pieces.Species, t.pieces.Grade)
		if done[wood] {
			continue
		}
		done[wood] = true
		one, places := groups{needs: g.needs}, []int{}
		for k, o := range g.timber[i:] {
			if woodKey(o.pieces.Species, o.pieces.Grade) == wood {
				one.timber, places = append(one.timber, o), append(places, i+k)
			}
		}
		planned, err := one.oneWood(from, r)
		if err != nil {
			planned, err = one.onlyBeside(err, from, r)
		}
		if err != nil {
			faults = errors.Join(faults, err)
			continue
		}
		for k, place := range places {
			out[place] = planned[k]
		}
	}
	return out, faults
}

// mostFurther is up to how often prices that were not weighed are taken because a plan comes up to them.
const mostFurther = 4

// further adds plans at the prices that the cheapest comes up to, as long as these are others than its own.
func (g groups) further(plans, priced []pricedPlan, rows []sheet.Item, from source, r Rules) (more, all []pricedPlan) {
	for range mostFurther {
		best := slices.MinFunc(plans, func(a, b pricedPlan) int { return cmp.Compare(total(a.planned), total(b.planned)) })
		chosen, moved := best.reached(rows, from.sheet)
		if !moved {
			break
		}
		from.chosen = chosen
		planned, err := g.weighed(from, r)
		if err != nil {
			if planned, err = g.apart(from, r); err == nil {
				priced = append(priced, pricedPlan{chosen, planned})
			}
			break
		}
		plans = append(plans, pricedPlan{chosen, planned})
	}
	return plans, priced
}

func woodKey(species, grade string) string {
	return strings.ToLower(strings.TrimSpace(species) + "\x00" + strings.TrimSpace(grade))
}

// oneWood plans the groups of one species and grade. A board whose price falls with the quantity has one price in any plan that
// is worth having: every choice of one price for each such board is planned, and the cheapest kept. What no plan can cost
// less than is the least that holds for any choice.
func (g groups) oneWood(from source, r Rules) ([]Timber, error) {
	rows := from.sheet.Boards(g.timber[0].pieces.Species, g.timber[0].pieces.Grade)
	choices, all := pricesOf(rows, from.sheet)
	if choices == nil {
		return g.weighed(from, r)
	}
	var plans, priced []pricedPlan // those of which groups' boards alone may be too few together are no plans, but have their prices
	var faults error
	bounds, least := make([]int64, len(g.timber)), int64(-1)
	lower := func(planned []Timber) {
		_, bound := totals(planned)
		for i, t := range planned {
			if least < 0 || t.Bound.Minor() < bounds[i] {
				bounds[i] = t.Bound.Minor()
			}
		}
		if least < 0 || bound < least {
			least = bound
		}
	}
	for _, chosen := range choices {
		from.chosen = chosen
		planned, err := g.weighed(from, r)
		if err != nil {
			faults = errors.Join(faults, err)
			if planned, err := g.apart(from, r); err == nil { // no order of the groups was found, which proves nothing
				lower(planned)
				priced = append(priced, pricedPlan{chosen, planned})
			}
			continue
		}
		lower(planned)
		plans = append(plans, pricedPlan{chosen, planned})
	}
	if plans == nil {
		return nil, parted(faults)
	}
	if !all { // and what is bought reaches other prices than those weighed
		plans, priced = g.further(plans, priced, rows, from, r)
		// what was not weighed costs no less than at the lowest price of every board, with no least order
		from.chosen = nil
		planned, err := g.apart(from, r)
		if err != nil {
			return nil, err
		}
		lower(planned)
	}
	best, err := cheapestOf(plans, append(priced, plans...), rows, from.sheet)
	if err != nil {
		return nil, err
	}
	return settle(best, bounds, least), nil
}

// parted is the first of faults that were met choice by choice: they say the same of other boards.
func parted(err error) error {
	var joined interface{ Unwrap() []error }
	if errors.As(err, &joined) {
		return joined.Unwrap()[0]
	}
	return err
}

// settle writes what holds for every choice of prices over what holds for the one that was taken.
func settle(best []Timber, bounds []int64, least int64) []Timber {
	cost, _ := totals(best)
	for i := range best {
		t := &best[i]
		bound, all := bounds[i], t.Cost.Minor()+t.labour()
		if least >= cost {
			bound = all
		}
		if m, err := money.New(min(bound, all), t.Cost.Currency()); err == nil {
			t.Bound = m
		}
		t.Proof = cutting.Limit
		*t = t.judged()
	}
	return best
}

// judged says of a group whether what it costs, the labour of its scarfs with it, is what none can be below; where that is shown for
// no list by itself, by all of them.
func (t Timber) judged() Timber {
	all := t.Cost.Minor() + t.labour()
	if m, err := money.New(all, t.Cost.Currency()); err == nil && t.Bound.Minor() > all {
		t.Bound = m
	}
	if t.Bound.Minor() != all {
		t.Proof = cutting.Limit
	} else if t.Proof == cutting.Limit {
		t.Proof = cutting.Exhausted
	}
	t.Proven = t.Proof != cutting.Limit
	return t
}

// pricesOf are the choices of one row for each board that is priced at several quantities: by name the rows that may be
// bought. Nil where no board is; all is false where there are more choices than are weighed, which then keep the price at the
// least quantity.
func pricesOf(rows []sheet.Item, c sheet.Content) (choices []map[string]bool, all bool) {
	var articles [][]sheet.Item
	seen := map[string]bool{}
	several := false
	for _, it := range rows {
		if seen[it.Article()] {
			continue
		}
		seen[it.Article()] = true
		breaks := c.Breaks(it)
		slices.SortStableFunc(breaks, func(a, b sheet.Item) int { return a.MinQty.Cmp(b.MinQty) })
		articles, several = append(articles, breaks), several || len(breaks) > 1
	}
	if !several {
		return nil, true
	}
	choices, all = []map[string]bool{{}}, true
	for _, breaks := range articles {
		if len(choices)*len(breaks) > mostChoices {
			breaks, all = breaks[:1], false
		}
		var next []map[string]bool
		for _, it := range breaks {
			for _, before := range choices {
				one := map[string]bool{id(c, it): true}
				for name := range before {
					one[name] = true
				}
				next = append(next, one)
			}
		}
		choices = next
	}
	return choices, all
}
