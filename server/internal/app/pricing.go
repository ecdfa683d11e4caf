package app

import (
	"slices"

	"ribband/pricing/buy"
	"ribband/pricing/quote"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/step"
)

// price prices the options. Everything without a price, of all options, is told at once.
func (e *estimated) price() error {
	content, err := stored[sheet.Content](e.prices.Kind, e.prices.Body)
	if err != nil {
		return err
	}
	e.content = content
	shops := make([]buy.Rules, len(e.works))
	var missing [][]sheet.Missing
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
		missing = append(missing, m)
		e.bought = append(e.bought, in)
	}
	if all := onceMissing(missing); len(all) > 0 {
		return &sheet.MissingPriceError{Items: all}
	}
	for i, w := range e.works {
		if e.bought[i].Buy, err = bought(w.result, content, shops[i]); err != nil {
			return e.tooDear(err, content)
		}
		work, err := e.bought[i].Planned()
		if err != nil {
			return err
		}
		e.planned = append(e.planned, work)
	}
	e.priced, err = quote.Price(e.bought, content, e.draft.Terms)
	return e.tooDear(err, content)
}

// work of the i-th option, with the scarfs that its boards are made with once they are bought.
func (e *estimated) work(i int, w *worked) []step.Work {
	if i < len(e.planned) {
		return e.planned[i]
	}
	return w.result.Work
}

// scarfed is the work of the i-th option where its pricing moved it; nil where it is the takeoff's own.
func (e *estimated) scarfed(i int) []step.Work {
	if i < len(e.priced.Options) && len(e.priced.Options[i].Figures) > 0 {
		return e.planned[i]
	}
	return nil
}

// faults of all options' takeoffs; a fault that several options share stands once.
func (e *estimated) faults() []bill.Fault {
	var all [][]bill.Fault
	for _, w := range e.works {
		all = append(all, w.result.Bill.Faults)
	}
	return once(all, func(f bill.Fault) string { return f.Code + "\n" + f.Figure + "\n" + f.Detail })
}

// warnings of the estimate and of all options' takeoffs, each once.
func (e *estimated) warnings() []bill.Warning {
	all := [][]bill.Warning{e.caveats()}
	for _, w := range e.works {
		all = append(all, w.result.Bill.Warnings)
	}
	return once(all, warningKey)
}

func (s snapshot) warnings() []bill.Warning {
	all := [][]bill.Warning{s.Warnings}
	for _, t := range s.Takeoffs {
		all = append(all, t.Bill.Warnings)
	}
	return once(all, warningKey)
}

func warningKey(w bill.Warning) string { return w.Code + "\n" + w.Detail }

// onceMissing is what all options lack a price for, each thing once.
func onceMissing(lists [][]sheet.Missing) []sheet.Missing {
	return once(lists, func(m sheet.Missing) string { return string(m.Kind) + "\n" + m.Item + "\n" + m.Fix })
}

// once is the lists as one, what they share standing once.
func once[T any](lists [][]T, key func(T) string) []T {
	out := []T{}
	seen := map[string]bool{}
	for _, x := range slices.Concat(lists...) {
		if k := key(x); !seen[k] {
			seen[k] = true
			out = append(out, x)
		}
	}
	return out
}

// sound refuses to issue while something cannot be built or printed, or nobody stands behind it.
func (e *estimated) sound() error {
	if !e.named {
		return &MissingDocumentError{"the yard has not said who it is, so nobody would stand behind the estimate",
			"put the yard's name, address and contact first (PUT /api/v1/yard)"}
	}
	if faults := e.faults(); len(faults) > 0 {
		return &FaultyTakeoffError{faults}
	}
	if odd := e.unprintable(); len(odd) > 0 {
		return &UnprintableError{odd}
	}
	return nil
}
