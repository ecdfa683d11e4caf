package app

import (
	"ribband/pricing/buy"
	"ribband/pricing/quote"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
)

// price prices the options. Everything without a price, of all options, is told at once.
func (e *estimated) price() error {
	content, err := stored[sheet.Content](e.prices.Kind, e.prices.Body)
	if err != nil {
		return err
	}
	shops := make([]buy.Rules, len(e.works))
	var missing []sheet.Missing
	for i, w := range e.works {
		o := e.options[i]
		in := quote.OptionInput{ID: o.ID, Name: o.Name, Work: w.result.Work, Needs: w.result.Bill.Lines, Library: w.papers.Steps}
		if shops[i], err = w.shop(); err != nil {
			return err
		}
		m, err := quote.Missing([]quote.OptionInput{in}, content, shops[i])
		if err != nil {
			return err
		}
		missing = append(missing, m...)
		e.bought = append(e.bought, in)
	}
	if len(missing) > 0 {
		return &sheet.MissingPriceError{Items: distinct(missing)}
	}
	for i, w := range e.works {
		if e.bought[i].Buy, err = bought(w.result, content, shops[i]); err != nil {
			return err
		}
	}
	e.priced, err = quote.Price(e.bought, content, e.draft.Terms)
	return err
}

// distinct keeps the first of what asks for the same row of the sheet.
func distinct(in []sheet.Missing) []sheet.Missing {
	var out []sheet.Missing
	seen := map[[2]string]bool{}
	for _, m := range in {
		key := [2]string{string(m.Kind), m.Item + "\n" + m.Fix}
		if !seen[key] {
			seen[key] = true
			out = append(out, m)
		}
	}
	return out
}

// faults of all options' takeoffs; a fault that several options share stands once.
func (e *estimated) faults() []bill.Fault {
	out := []bill.Fault{}
	seen := map[string]bool{}
	for _, w := range e.works {
		for _, f := range w.result.Bill.Faults {
			if key := f.Code + "\n" + f.Figure + "\n" + f.Detail; !seen[key] {
				seen[key] = true
				out = append(out, f)
			}
		}
	}
	return out
}

// sound refuses to issue while something cannot be built.
func (e *estimated) sound() error {
	if faults := e.faults(); len(faults) > 0 {
		return &FaultyTakeoffError{faults}
	}
	return nil
}
