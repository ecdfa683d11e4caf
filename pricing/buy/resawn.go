package buy

import (
	"math/big"
	"slices"

	"ribband/pricing/money"
	"ribband/pricing/sawing"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

// What resawing saves in wood it costs in hours. Where the yard has steps counted by the metres that the bandsaw runs, three lists
// are weighed with those hours: boards bought by their price alone, boards with the hours of each in its price, and boards ripped as
// they come. Floors stay those of goods: one board resawn beside another that is not is in none of the three lists.

// sawnMM is how far the bandsaw runs for a group, of boards that are cut into.
func (t Timber) sawnMM(saw sawing.Resaw) decimal.Decimal {
	sum := decimal.Zero
	for _, b := range t.Boards {
		o, ok := t.Offer(b.Offer)
		if !ok || b.Count < 1 || b.Strips < b.Count {
			continue
		}
		each := b.Strips / b.Count
		sum = sum.Add(o.Way.Sawn(o.ThicknessMM, o.WidthMM, o.Clear(), saw).Mul(decimal.NewFromInt((b.Used + each - 1) / each)))
	}
	return sum
}

// sawing are the steps that count the metres of a group, by its first need.
func (l Labour) sawing(n bill.Line) []step.Step {
	return slices.DeleteFunc(slices.Clone(l.Steps.Steps), func(s step.Step) bool {
		return s.Driver != step.Resawn || !s.Where.Holds(n.Member.Kind, n.Zone, n.Remedy)
	})
}

// metre is what one metre costs in minor units, exact, without setting up; the dearest group's. 0 where there are no hours or no rate.
func (g groups) metre(c sheet.Content, l Labour) *big.Rat {
	most := new(big.Rat)
	for _, t := range g.timber {
		sum := new(big.Rat)
		for _, s := range l.sawing(g.needs[t.lines[0]]) {
			if rate, ok := c.Labour(s.Trade); ok {
				sum.Add(sum, new(big.Rat).Mul(s.PerUnitH.Mul(s.Factor).Rat(), rate.UnitPrice()))
			}
		}
		if sum.Cmp(most) > 0 {
			most = sum
		}
	}
	return most.Mul(most, new(big.Rat).SetInt64(minorUnits(c.Currency)))
}

// resawn says of every group how far the bandsaw runs, and of the list what that costs.
func (d *delivering) resawn(l List) (List, error) {
	timber := slices.Clone(l.Timber)
	for i := range timber {
		timber[i].Resawn = nil
		if mm := timber[i].sawnMM(d.rules.Resaw.OrNone()); mm.Sign() > 0 {
			q, err := quantity.Of(mm.Shift(-3).Round(quantity.Metre.Places()), quantity.Metre)
			if err != nil {
				return List{}, err
			}
			timber[i].Resawn = &q
		}
	}
	l.Timber, l.ResawLabour = timber, money.Money{}
	cost := money.Zero(l.Currency)
	for _, s := range d.rules.Labour.Steps.Steps {
		rate, ok := d.sheet.Labour(s.Trade)
		if counted := l.metres(d.needs, s); ok && counted.Sign() > 0 {
			h := s.SetupH.Add(s.PerUnitH.Mul(s.Factor).Mul(counted)).Round(quantity.Hour.Places()) // as a quote has them
			each, err := money.RoundRat(new(big.Rat).Mul(h.Rat(), rate.UnitPrice()), l.Currency, money.HalfUp)
			if err != nil {
				return List{}, err
			}
			if cost, err = cost.Add(each); err != nil {
				return List{}, err
			}
		}
	}
	if cost.Sign() > 0 {
		l.ResawLabour = cost
	}
	return l, nil
}

// metres of the bandsaw that a step counts.
func (l List) metres(needs []bill.Line, s step.Step) decimal.Decimal {
	sum := decimal.Zero
	for _, t := range l.Timber {
		i := slices.IndexFunc(needs, func(n bill.Line) bool { return len(t.Lines) > 0 && n.ID == t.Lines[0] })
		if t.Resawn == nil || i < 0 || s.Driver != step.Resawn || !s.Where.Holds(needs[i].Member.Kind, needs[i].Zone, needs[i].Remedy) {
			continue
		}
		sum = sum.Add(t.Resawn.Value())
	}
	return sum
}

// otherwise are the lists that are weighed beside one by prices alone, where the yard has hours for resawing and some board of it is
// resawn.
func (d *delivering) otherwise(from source, goods List) ([]List, error) {
	if !d.weighsSaw(goods) {
		return nil, nil
	}
	var out []List
	by := &laden{metre: d.metre(d.sheet, d.rules.Labour), saw: d.rules.Resaw.OrNone()}
	if list, _, err := d.atLaden(from, by, goods, d.rules); err == nil {
		out = append(out, list)
	}
	plain := *d
	plain.rules.Resaw = nil
	if list, err := plain.withScarfs(from, plain.rules); err == nil {
		for i := range list.Timber {
			t := &list.Timber[i]
			if slices.ContainsFunc(goods.Timber, func(o Timber) bool {
				return same(o.Species, t.Species) && same(o.Grade, t.Grade) && o.sawnMM(d.rules.Resaw.OrNone()).Sign() > 0
			}) {
				t.NotResawn = "the hours at the saw would cost more than the wood that resawing spares"
			}
		}
		out = append(out, list)
	}
	return out, nil
}

func (d *delivering) weighsSaw(l List) bool {
	return d.rules.Resaw != nil && d.metre(d.sheet, d.rules.Labour).Sign() > 0 &&
		slices.ContainsFunc(l.Timber, func(t Timber) bool { return t.sawnMM(d.rules.Resaw.OrNone()).Sign() > 0 })
}
