package buy

import (
	"math/big"
	"slices"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

// Labour is what hours are reckoned by: the yard's steps, and what they count without the scarfs that a plan makes.
type Labour struct {
	Steps step.Library
	Work  []step.Work
}

// steps that making a joint in such a need takes.
func (l Labour) steps(n bill.Line) []step.Step {
	var out []step.Step
	for _, s := range l.Steps.Steps {
		if string(s.Driver) == n.Pieces.Scarf.Driver && s.Where.Holds(n.Member.Kind, n.Zone, n.Remedy) {
			out = append(out, s)
		}
	}
	return out
}

// joint is what one more joint of a need costs in minor units, exact: hours without setting up, at the rates of the sheet. 0 where
// the yard has no hours for it; trades are those without a rate.
func (l Labour) joint(n bill.Line, c sheet.Content) (price *big.Rat, trades []string) {
	price = new(big.Rat)
	for _, s := range l.steps(n) {
		rate, ok := c.Labour(s.Trade)
		if !ok {
			trades = append(trades, s.Trade)
			continue
		}
		price.Add(price, new(big.Rat).Mul(s.PerUnitH.Mul(s.Factor).Rat(), rate.UnitPrice()))
	}
	return price.Mul(price, new(big.Rat).SetInt64(minorUnits(c.Currency))), trades
}

// minorUnits of one of a currency.
func minorUnits(c money.Currency) int64 {
	n := int64(1)
	for range c.Digits() {
		n *= 10
	}
	return n
}

// joints of a list by need, all of the needs' that may be scarfed; only those that must be whatever other groups take with least set.
func (l List) joints(needs []bill.Line, least bool) map[string]int64 {
	out := map[string]int64{}
	for _, n := range needs {
		if n.Pieces != nil && n.Pieces.Scarf != nil {
			out[n.ID] = 0
		}
	}
	for _, t := range l.Timber {
		if t.Scarfed == nil {
			continue
		}
		for _, j := range t.Scarfed.Joints {
			if j.ever || !least {
				out[j.Line] += j.Count
			}
		}
	}
	return out
}

// Planned is a takeoff's work with the list's scarfs in it, in the place of those that the bill counts: the steps that count scarfs
// with the hours of what the plan makes, and how those hours came about. Steps and hours that no scarf moves stay as they are.
func (l List) Planned(needs []bill.Line, of Labour) ([]step.Work, []derivation.Figure, error) {
	joints, t := l.joints(needs, false), derivation.NewTable()
	out := slices.Clone(of.Work)
	for _, s := range of.Steps.Steps {
		at := slices.IndexFunc(out, func(w step.Work) bool { return w.Code == s.Code })
		counted, moved := decimal.Zero, false
		if at >= 0 {
			counted = out[at].Counted.Value()
		}
		where := "step-libraries/" + s.Code
		if s.Driver == step.Resawn {
			metres, err := quantity.Of(l.metres(needs, s), quantity.Metre)
			if err != nil {
				return nil, nil, err
			}
			if metres.IsZero() {
				continue
			}
			id := "step/" + s.Code + "/hours_as_planned"
			hours := t.Derive(id, "step/hours", []derivation.Input{derivation.Given("Q", "buy-list/timber/resawn_m", metres.Value(), quantity.Metre),
				derivation.Given("h", where+"/per_unit_h", s.PerUnitH, quantity.HourPerUnit), derivation.Given("f", where+"/factor", s.Factor, quantity.Ratio),
				derivation.Given("s", where+"/setup_h", s.SetupH, quantity.Hour)})
			out = slices.Insert(out, of.place(out, s.Code), step.Work{Step: s, Counted: metres, Hours: hours, Figure: id})
			continue
		}
		inputs := []derivation.Input{derivation.Given("Q", "the bill, counted by "+string(s.Driver), counted, s.Driver.Unit())}
		for _, n := range needs {
			if n.Pieces == nil || n.Pieces.Scarf == nil || n.Pieces.Scarf.Driver != string(s.Driver) || !s.Where.Holds(n.Member.Kind, n.Zone, n.Remedy) {
				continue
			}
			made, was := joints[n.ID], n.Pieces.Scarf.Counted
			if made == 0 && was == 0 {
				continue
			}
			moved = moved || made != was
			if was > 0 {
				inputs = append(inputs, derivation.Given("g", n.ID, decimal.NewFromInt(was), quantity.Each))
			}
			inputs = append(inputs, derivation.Given("j", n.ID, decimal.NewFromInt(made), quantity.Each))
			counted = counted.Add(decimal.NewFromInt(made - was))
		}
		if !moved {
			continue
		}
		if counted.Sign() <= 0 {
			if at >= 0 {
				out = slices.Delete(out, at, at+1)
			}
			continue
		}
		id := "step/" + s.Code + "/hours_as_planned"
		hours := t.Derive(id, "step/hours_as_planned", append(inputs,
			derivation.Given("h", where+"/per_unit_h", s.PerUnitH, quantity.HourPerUnit),
			derivation.Given("f", where+"/factor", s.Factor, quantity.Ratio),
			derivation.Given("s", where+"/setup_h", s.SetupH, quantity.Hour)))
		q, err := quantity.Of(counted, s.Driver.Unit())
		if err != nil {
			return nil, nil, err
		}
		w := step.Work{Step: s, Counted: q, Hours: hours, Figure: id}
		if at >= 0 {
			out[at] = w
		} else {
			out = slices.Insert(out, of.place(out, s.Code), w)
		}
	}
	return out, t.Figures(), t.Err()
}

// place of a step among work in the order of the library.
func (l Labour) place(work []step.Work, code string) int {
	order := func(code string) int {
		return slices.IndexFunc(l.Steps.Steps, func(s step.Step) bool { return s.Code == code })
	}
	for i, w := range work {
		if order(w.Code) > order(code) {
			return i
		}
	}
	return len(work)
}

// hours of all work at the rates of the sheet, in minor units, exact.
func (l List) hoursCost(needs []bill.Line, of Labour, c sheet.Content) (*big.Rat, error) {
	work, _, err := l.Planned(needs, of)
	if err != nil {
		return nil, err
	}
	sum := new(big.Rat)
	for _, w := range work {
		if rate, ok := c.Labour(w.Trade); ok {
			sum.Add(sum, new(big.Rat).Mul(w.Hours.Value().Rat(), rate.UnitPrice()))
		}
	}
	return sum.Mul(sum, new(big.Rat).SetInt64(minorUnits(c.Currency))), nil
}
